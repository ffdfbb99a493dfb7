"""Answers about weight: of a wood by volume, and of a piece of any shape."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.method_words import density_method
from woodref.answers.property_text import marks
from woodref.answers.provenance import (
    based_on,
    basis_notes,
    sentence,
    sentences,
    spread_notes,
)
from woodref.answers.screen import brief
from woodref.answers.words import (
    identity,
    likely_columns,
    likely_text,
    percent_text,
    sold_as,
    wood_facts,
)
from woodref.board.shapes import end_of, volume_of
from woodref.units import KINDS, fixed

if TYPE_CHECKING:
    from woodref.board.shapes import Shape
    from woodref.board.weight import BoardWeight, DensityEstimate

#: What one person lifts at most in a good lift: NIOSH 94-110 (1994), load constant [kg].
LIFT_KG = 23.0
#: What a piece of a shape is called, alone and with others.
_CALLED = {
    "box": ("board", "boards"),
    "disc": ("disc", "discs"),
    "cylinder": ("cylinder", "cylinders"),
    "tapered leg": ("tapered leg", "tapered legs"),
    "ring": ("ring", "rings"),
    "volume": ("piece", "pieces"),
}


def density_answer(d: DensityEstimate, units: str) -> Answer:
    """What a wood weighs by volume, its water included.

    Parameters: d; units 'us' or 'si'.
    """
    lead = (
        f"{sentence(d.wood.common_name)} at {percent_text(d.moisture_pct)}: "
        f"{likely_text(d.likely_kg_m3, 'density', units, marks(*d.values))}."
    )
    return Answer(
        headline=[lead],
        names=sold_as(d.wood),
        facts=wood_facts(d.wood),
        sections=[_density_section(d)._replace(aside=True), based_on(d.values)],
        notes=_density_notes(d, units),
    )


def _density_section(d: DensityEstimate) -> Section:
    columns = [
        Column("moisture", "moisture content", "percent"),
        *likely_columns("density", "density", "density"),
        Column("basic_specific_gravity", "basic specific gravity", "ratio"),
        Column("basis", "basis"),
    ]
    row = (d.moisture_pct, *d.likely_kg_m3, d.basic_specific_gravity, d.basis)
    return Section.of("densities", "", columns, [row])


def _density_notes(d: DensityEstimate, units: str) -> list[str]:
    return [
        *identity(d.wood),
        f"Computed from {density_method(d)}.",
        *sentences(d.notes, units),
        *basis_notes(d.values),
        *spread_notes(d.values[:1]),
    ]


def weight_answer(w: BoardWeight, shape: Shape, units: str) -> Answer:
    """What pieces of a shape weigh, each and together.

    Parameters: w; shape; units 'us' or 'si'.
    """
    columns = [
        Column("quantity", "boards", "count"),
        *likely_columns("mass", "weight", "mass"),
        Column("volume", "volume", "volume"),
        Column("basis", "basis"),
    ]
    basis = w.density.basis
    rows = [(1, *w.mass_kg, w.volume_m3, basis)]
    if w.quantity > 1:
        rows.append((w.quantity, *w.total_kg, w.volume_m3 * w.quantity, basis))
    return Answer(
        headline=[_weight_lead(w, shape, units)],
        screen=brief(
            [_weight_lead(w, shape, units), _volume_line(w, units)],
            notes=[note for note in (_lift_note(w),) if isinstance(note, Heed)],
        ),
        names=sold_as(w.density.wood),
        facts=[*wood_facts(w.density.wood), *_shape_facts(shape)],
        sections=[
            Section.of("weights", "", columns, rows),
            _density_section(w.density),
            based_on(w.density.values),
        ],
        notes=[
            f"The sizes are those at {percent_text(w.density.moisture_pct)}; volume is the "
            "true one, not counted up to 4/4.",
            *_density_notes(w.density, units),
            _lift_note(w),
        ],
    )


def _volume_line(w: BoardWeight, units: str) -> str:
    """'8.75 board feet; 41 lb/ft3 (33 to 50).'."""
    volume = KINDS["volume"].text(w.volume_m3, units)
    if w.quantity > 1:
        total = KINDS["volume"].text(w.volume_m3 * w.quantity, units)
        volume = f"{volume} each, {total} together"
    return f"{volume}; {likely_text(w.density.likely_kg_m3, 'density', units)}."


def _lift_note(w: BoardWeight) -> str:
    """What is said of lifting; on the first screen where one piece is too much for one person."""
    told = "Long and wet boards are heavy: lift with two, or in parts."
    return Heed(told) if w.mass_kg.high > LIFT_KG else told


def _weight_lead(w: BoardWeight, shape: Shape, units: str) -> str:
    marked = marks(*w.density.values)
    one, several = _CALLED[shape.kind]
    which = f"A {one} of" if w.quantity == 1 else f"Each of {fixed(w.quantity, 0)} {several} of"
    lead = (
        f"{which} {w.density.wood.common_name}{_size_words(shape, units)} weighs "
        f"{likely_text(w.mass_kg, 'mass', units, marked)} at "
        f"{percent_text(w.density.moisture_pct)}"
    )
    if w.quantity == 1:
        return f"{lead}."
    return f"{lead}; together {likely_text(w.total_kg, 'mass', units, marked)}."


def _size_words(shape: Shape, units: str) -> str:
    """', 1 in x 8 in x 120 in,': the sizes of a shape, thickness first."""
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
        return f", {KINDS['cut'].text(volume_of(shape) * 1e-3, units)},"
    if shape.removed_mm3:
        words += f", {KINDS['cut'].text(shape.removed_mm3 * 1e-3, units)} cut away"
    return f", {words},"


def _shape_facts(shape: Shape) -> list[tuple[Column, Any]]:
    """The sizes a shape has, null for those it has not."""
    sizes = {
        "length": shape.length_mm or None,
        "width": shape.width_mm or None,
        "thickness": shape.thickness_mm or None,
        "end_width": shape.end_width_mm,
        "end_thickness": shape.end_thickness_mm,
        "inner_diameter": shape.inner_mm,
    }
    return [
        (Column("shape", ""), shape.kind),
        *((Column(key, "", "size"), size_mm) for key, size_mm in sizes.items()),
        (Column("removed_volume", "", "cut"), shape.removed_mm3 * 1e-3),
    ]
