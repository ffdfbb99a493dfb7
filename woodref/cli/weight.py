"""Commands about the weight of a wood: by volume, and of a piece of any shape."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from woodref.answers.provenance import (
    based_on,
    basis_notes,
    recalled_line,
    sentence,
    sentences,
    spread_notes,
)
from woodref.answers.render import Answer, Column, Section
from woodref.answers.steps import add_steps
from woodref.answers.words import identity, percent_text
from woodref.cli.options import (
    Explain,
    Format,
    OwnShrinkage,
    Save,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    moisture,
    reference,
    with_own,
)
from woodref.cli.output import emit
from woodref.errors import InputError
from woodref.units import KINDS, fixed, parse_length, parse_thickness

if TYPE_CHECKING:
    from woodref.board.shapes import Shape
    from woodref.board.weight import BoardWeight, DensityEstimate

Moisture = Annotated[
    str, typer.Option("--moisture", help="Moisture content: 8, green (30 %), or air 68F,40%.")
]


def _range(low: float, high: float, kind: str, units: UnitSystem) -> str:
    """'2.1 to 2.9 lb': the ends of a range with the unit once."""
    ends = KINDS[kind].text(low, units), KINDS[kind].text(high, units)
    unit = KINDS[kind].label(units)
    return f"{ends[0].removesuffix(' ' + unit)} to {ends[1]}" if unit else " to ".join(ends)


def _density_section(d: DensityEstimate) -> Section:
    return Section(
        "density",
        "",
        [
            Column("moisture", "moisture content", "percent"),
            Column("density", "density", "density"),
            Column("density_low", "likely from", "density"),
            Column("density_high", "to", "density"),
            Column("basic_specific_gravity", "basic specific gravity", "ratio"),
            Column("basis", "basis"),
        ],
        [
            {
                "moisture": d.moisture_pct,
                "density": d.density_kg_m3,
                "density_low": d.likely_kg_m3.low,
                "density_high": d.likely_kg_m3.high,
                "basic_specific_gravity": d.basic_specific_gravity,
                "basis": d.basis,
            }
        ],
    )


def _density_notes(d: DensityEstimate) -> list[str]:
    return [
        *identity(d.wood),
        f"Computed from {d.method}.",
        *sentences(d.notes),
        *basis_notes(d.values),
        *spread_notes(d.values[:1]),
    ]


def density_command(
    species: Species,
    percent: Moisture = "12",
    units: Units = UnitSystem.us,
    save: Save = None,
    style: Format = Style.table,
) -> None:
    """What a wood weighs by volume, its water included."""
    from woodref.board.weight import density_of

    d = density_of(reference().wood(species), moisture(percent, units))
    lead = (
        f"{sentence(d.wood.common_name)} at {percent_text(d.moisture_pct)}: "
        f"{KINDS['density'].text(d.density_kg_m3, units)}, single boards likely "
        f"{_range(d.likely_kg_m3.low, d.likely_kg_m3.high, 'density', units)}."
    )
    answer = Answer(
        headline=[lead, *recalled_line(d.values)],
        facts=[
            (Column("wood", ""), d.wood.common_name),
            (Column("botanical_name", ""), d.wood.botanical_name),
        ],
        sections=[_density_section(d), based_on(d.values)],
        notes=_density_notes(d),
    )
    emit(answer, units, style, save)


_WEIGHT_COLUMNS: Sequence[Column] = (
    Column("boards", "boards", "count"),
    Column("mass", "weight", "mass"),
    Column("mass_low", "likely from", "mass"),
    Column("mass_high", "to", "mass"),
    Column("volume", "volume", "volume"),
    Column("basis", "basis"),
)


#: What a piece of a shape is called, alone and with others.
_CALLED = {
    "box": ("board", "boards"),
    "disc": ("disc", "discs"),
    "cylinder": ("cylinder", "cylinders"),
    "tapered leg": ("tapered leg", "tapered legs"),
    "ring": ("ring", "rings"),
    "volume": ("piece", "pieces"),
}


def _shape(kind: str, given: dict[str, str], unit: str) -> Shape:
    """The shape from the options as they were written; '' for those that were not."""
    from woodref.board.shapes import MAY_TAKE, NEEDS, SHAPES, Shape, parse_volume
    from woodref.files import did_you_mean

    kind = " ".join(kind.lower().replace("-", " ").split())
    if kind not in SHAPES:
        raise InputError(f"'{kind}' is no shape{did_you_mean(kind, SHAPES)}")
    for name in NEEDS[kind]:
        if not given[name]:
            needed = ", ".join(_flag(n) for n in NEEDS[kind])
            raise InputError(f"{_flag(name)} is missing; a {kind} needs {needed}")
    sizes: dict[str, Any] = {}
    for name, text in given.items():
        if not text:
            continue
        if name not in (*NEEDS[kind], *MAY_TAKE[kind]):
            raise InputError(f"{_flag(name)} does not go with a {kind}; leave it out")
        if name in ("volume", "removed"):
            sizes[f"{name}_mm3"] = parse_volume(text)
        elif name == "thickness":
            sizes["thickness_mm"] = parse_thickness(text, unit)
        else:
            sizes[f"{name}_mm"] = parse_length(text, unit)
    return Shape(kind, **sizes)


def _flag(name: str) -> str:
    return f"--{name.replace('_', '-')}"


def _size_words(shape: Shape, units: str) -> str:
    """', 1 in x 8 in x 120 in': the sizes of a shape, thickness first."""
    from woodref.board.shapes import end_of, volume_of

    size = KINDS["size"].text
    length, width, thickness = (
        size(x, units) for x in (shape.length_mm, shape.width_mm, shape.thickness_mm)
    )
    if shape.kind == "box":
        words = f"{thickness} x {width} x {length}"
    elif shape.kind == "cylinder":
        words = f"{width} across, {length} long"
    elif shape.kind == "disc":
        words = f"{width} across, {thickness} thick"
    elif shape.kind == "ring":
        words = f"{width} across, {size(shape.inner_mm or 0.0, units)} inside, {thickness} thick"
    elif shape.kind == "tapered leg":
        ends = " x ".join(size(x, units) for x in end_of(shape))
        words = f"{length} long, from {thickness} x {width} to {ends}"
    else:
        words = KINDS["cut"].text(volume_of(shape) * 1e-3, units)
        return f", {words},"
    if shape.removed_mm3:
        words += f", {KINDS['cut'].text(shape.removed_mm3 * 1e-3, units)} cut away"
    return f", {words},"


def _weight_lead(w: BoardWeight, shape: Shape, units: UnitSystem) -> str:
    mass = KINDS["mass"].text
    one, several = _CALLED[shape.kind]
    which = f"A {one} of" if w.quantity == 1 else f"Each of {fixed(w.quantity, 0)} {several} of"
    lead = (
        f"{which} {w.density.wood.common_name}{_size_words(shape, units)} weighs "
        f"{mass(w.mass_kg.expected, units)} at {percent_text(w.density.moisture_pct)}, likely "
        f"{_range(w.mass_kg.low, w.mass_kg.high, 'mass', units)}"
    )
    if w.quantity == 1:
        return f"{lead}."
    return (
        f"{lead}; together {mass(w.total_kg.expected, units)}, likely "
        f"{_range(w.total_kg.low, w.total_kg.high, 'mass', units)}."
    )


def _shape_facts(shape: Shape) -> list[tuple[Column, Any]]:
    """The sizes a shape has, null for those it has not."""
    return [
        (Column("shape", ""), shape.kind),
        (Column("length", "", "size"), shape.length_mm or None),
        (Column("width", "", "size"), shape.width_mm or None),
        (Column("thickness", "", "size"), shape.thickness_mm or None),
        (Column("end_width", "", "size"), shape.end_width_mm),
        (Column("end_thickness", "", "size"), shape.end_thickness_mm),
        (Column("inner", "", "size"), shape.inner_mm),
        (Column("removed", "", "cut"), shape.removed_mm3 * 1e-3),
    ]


def weight_command(
    species: Species,
    length: Annotated[str, typer.Option("--length", help="Length: 10ft, 8ft 6in, 3048mm.")] = "",
    width: Annotated[
        str,
        typer.Option("--width", "--diameter", help="Width, or diameter: 8in, 7-1/2, 200mm."),
    ] = "",
    thickness: Annotated[
        str, typer.Option("--thickness", help="Thickness: rough 4/4 (1 in), 3/4in, 27mm.")
    ] = "",
    shape: Annotated[
        str,
        typer.Option("--shape", help="box, disc, cylinder, tapered leg, ring or volume."),
    ] = "box",
    end_width: Annotated[
        str, typer.Option("--end-width", help="Width of a tapered leg at its other end.")
    ] = "",
    end_thickness: Annotated[
        str, typer.Option("--end-thickness", help="Its thickness there; a square leg stays square.")
    ] = "",
    inner: Annotated[str, typer.Option("--inner", help="Inner diameter of a ring.")] = "",
    volume: Annotated[
        str, typer.Option("--volume", help="The volume itself: 120 in3, 2 L, 800 cm3.")
    ] = "",
    removed: Annotated[
        str, typer.Option("--removed", help="Volume cut away from one piece: 3 in3, 50 cm3.")
    ] = "",
    percent: Moisture = "8",
    quantity: Annotated[int, typer.Option("--quantity", help="Number of such pieces.")] = 1,
    shrinkage: OwnShrinkage = "",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    style: Format = Style.table,
) -> None:
    """What a board weighs, or a leg, a disc or a ring.

    The sizes are those at the moisture content given.
    """
    from woodref.board.weight import weight_of_shape

    given = {
        "length": length,
        "width": width,
        "thickness": thickness,
        "end_width": end_width,
        "end_thickness": end_thickness,
        "inner": inner,
        "volume": volume,
        "removed": removed,
    }
    form = _shape(shape, given, length_unit(units))
    w = weight_of_shape(
        with_own(reference().wood(species), shrinkage), form, moisture(percent, units), quantity
    )
    basis, volume_m3 = w.density.basis, w.volume_m3
    rows = [(1, *w.mass_kg, volume_m3, basis)]
    if quantity > 1:
        total_m3 = volume_m3 * quantity
        rows.append((quantity, *w.total_kg, total_m3, basis))
    keys = [c.key for c in _WEIGHT_COLUMNS]
    answer = Answer(
        headline=[_weight_lead(w, form, units), *recalled_line(w.density.values)],
        facts=[
            (Column("wood", ""), w.density.wood.common_name),
            (Column("botanical_name", ""), w.density.wood.botanical_name),
            *_shape_facts(form),
        ],
        sections=[
            Section("weight", "", _WEIGHT_COLUMNS, [dict(zip(keys, r, strict=True)) for r in rows]),
            _density_section(w.density),
            based_on(w.density.values),
        ],
        notes=[
            f"The sizes are those at {percent_text(w.density.moisture_pct)}; volume is the "
            "true one, not counted up to 4/4.",
            *_density_notes(w.density),
            "Long and wet boards are heavy: lift with two, or in parts.",
        ],
    )
    if explain:
        from woodref.explain.board import weight_steps

        add_steps(answer, weight_steps(w))
    emit(answer, units, style, save)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command("density", epilog=example("woodref density cherry --moisture 8"))(density_command)
    app.command(
        "weight",
        epilog=example(
            "woodref weight cherry --thickness 4/4 --width 8in --length 10ft --moisture 8",
            'woodref weight "white ash"'
            " --shape tapered-leg --length 28in --width 2in --thickness 2in "
            "--end-width 1in --quantity 4",
            "woodref weight teak --shape ring --diameter 30in --inner 22in --thickness 3/4in",
        ),
    )(weight_command)
