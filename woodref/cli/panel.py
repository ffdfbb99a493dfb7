"""The command about a glued-up panel: how its staves move together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.provenance import (
    based_on,
    basis_notes,
    recalled_line,
    sentences,
    spread_notes,
)
from woodref.answers.render import Answer, Column, Section
from woodref.answers.words import identity, likely_change, percent_text, room_facts
from woodref.cli.options import (
    Format,
    PlaceOption,
    Plot,
    Save,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    length_unit,
    moisture,
    reference,
    room_asked,
)
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.units import KINDS, MM_PER_INCH, parse_length, parse_thickness

if TYPE_CHECKING:
    from woodref.board.movement import PanelMovement, Stave
    from woodref.charts.figure import Figure
    from woodref.climate.rooms import Room

#: Width of the staves of a panel, narrowest and widest [mm]: 3 and 6 in (common practice, no
#: source).
_USUAL_STAVES_MM = (3.0 * MM_PER_INCH, 6.0 * MM_PER_INCH)
_STEP = (
    "Staves of different rings change in thickness differently: a joint that is flush at the build "
    "shows a step, the largest of which is given."
)


def _stave(text: str, unit: str) -> Stave:
    """A stave from '5in', '5in quarter' or '4-1/2in 30': its width, then its cut.

    Raises: InputError for anything else.
    """
    from woodref.board.movement import CUTS, Stave, ring_angle

    words = text.split()
    last = words[-1].lower() if len(words) > 1 else ""
    named = last in CUTS or last.removesuffix("deg").replace(".", "", 1).isdigit()
    angle = ring_angle(last.removesuffix("deg")) if named else 0.0
    return Stave(parse_length(" ".join(words[:-1] if named else words), unit), angle)


def _staves(
    given: list[str], width: str, narrowest: str, widest: str, cut: str, unit: str
) -> tuple[Stave, ...]:
    from woodref.board.movement import equal_staves, ring_angle

    if bool(given) == bool(width):
        raise InputError('give each stave, --stave "5in quarter", or the panel\'s --width')
    if given:
        if narrowest or widest or cut:
            raise InputError("--narrowest, --widest and --cut go with --width, not with --stave")
        return tuple(_stave(text, unit) for text in given)
    least = parse_length(narrowest, unit) if narrowest else _USUAL_STAVES_MM[0]
    most = parse_length(widest, unit) if widest else max(least, _USUAL_STAVES_MM[1])
    return equal_staves(parse_length(width, unit), least, most, ring_angle(cut or "flat"))


def _counted(staves: int) -> str:
    return "1 stave" if staves == 1 else f"{staves} staves"


def _panel_lead(m: PanelMovement, count: int, name: str, where: tuple[str, str], units: str) -> str:
    """'A panel of 8 staves of cherry, 40 in wide at 7 %, ...' of one movement."""
    size, change = KINDS["size"].text, KINDS["change"].text
    return (
        f"A panel of {_counted(count)} of {name}, {size(m.size_mm, units)} wide at {where[0]}, is "
        f"{size(m.after_mm, units)} at {where[1]}, a change of {change(m.change_mm, units)}, "
        f"{likely_change(m, units)}."
    )


def panel_command(
    context: typer.Context,
    species: Species,
    start: Annotated[
        str, typer.Option("--from", help="Moisture content at the build: 7, or air 68F,40%.")
    ],
    end: Annotated[str, typer.Option("--to", help="Moisture content then, the same way.")] = "",
    stave: Annotated[
        list[str] | None,
        typer.Option("--stave", help='A stave, once for each: "5in", "5in quarter", "4in 30".'),
    ] = None,
    width: Annotated[
        str, typer.Option("--width", help="Width of the panel, of equal staves, in their place.")
    ] = "",
    narrowest: Annotated[
        str, typer.Option("--narrowest", help="Narrowest stave you glue; 3 in where not said.")
    ] = "",
    widest: Annotated[
        str, typer.Option("--widest", help="Widest stave you glue; 6 in where not said.")
    ] = "",
    cut: Annotated[str, typer.Option("--cut", help="Cut of the equal staves.")] = "",
    thickness: Annotated[
        str, typer.Option("--thickness", help="Thickness as built: how it changes, and steps.")
    ] = "",
    place: PlaceOption = "",
    setting: Setting = "",
    plot: Plot = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    style: Format = Style.table,
) -> None:
    """How a panel of staves moves, each with its own rings.

    From the build to one moisture content, or to the driest and the wettest month of a room.
    --plot draws the staves before and after, or the width of the panel through the year.
    """
    from woodref.board.movement import panel_movement, panel_year

    checked_plot(plot)
    staves = _staves(stave or [], width, narrowest, widest, cut, length_unit(units))
    room = room_asked(context, place, setting, bool(end))
    if bool(end) == bool(room):
        raise InputError("give either --to, for example --to 11, or --place and --setting")
    thick = parse_thickness(thickness, length_unit(units)) if thickness else None
    wood, build = reference().wood(species), moisture(start, units)
    notes: list[str] = []
    second: list[str] = []
    moves: tuple[PanelMovement, ...]
    made = percent_text(build)
    if room:
        from woodref.climate.rooms import LAG

        dry, wet = room.season.driest, room.season.wettest
        moves = panel_year(wood, staves, build, dry.emc_pct, wet.emc_pct, thick)
        names: tuple[str, ...] = ("build to driest", "build to wettest", "driest to wettest")
        notes = [n.text for n in (*room.notes, LAG)]
        change = KINDS["change"].text
        lead = (
            f"A panel of {_counted(len(staves))} of {wood.common_name}, "
            f"{KINDS['size'].text(moves[0].size_mm, units)} wide at {made}, changes by "
            f"{change(moves[0].change_mm, units)} to {dry.name}, the driest month "
            f"({percent_text(dry.emc_pct)}), and by {change(moves[1].change_mm, units)} to "
            f"{wet.name}, the wettest ({percent_text(wet.emc_pct)})."
        )
        second = [
            f"The swing through the year is {change(moves[2].change_mm, units)}, "
            f"{likely_change(moves[2], units)}: {room.label}."
        ]
    else:
        built = () if thick is None else (thick,) * len(staves)
        moves_to = panel_movement(wood, staves, build, moisture(end, units), built)
        then = percent_text(moves_to.staves[0].to_moisture_pct)
        lead = _panel_lead(moves_to, len(staves), wood.common_name, (made, then), units)
        moves, names = (moves_to,), ("build to then",)

    def draw() -> Figure:
        if room:
            from woodref.charts.room_year import panel_year

            return panel_year(wood, staves, build, room, units)
        from woodref.charts.staves import staves_before_and_after

        return staves_before_and_after(moves[0], units)

    answer = _panel_answer(moves, names, room, [lead, *second], notes, units)
    emit_with_plot(answer, units, style, plot, draw, save)


def _panel_answer(
    moves: tuple[PanelMovement, ...],
    names: tuple[str, ...],
    room: Room | None,
    headline: list[str],
    notes: list[str],
    units: str,
) -> Answer:
    first = moves[0]
    lead = first.staves[0]
    used = (lead.basis.tangential, lead.basis.radial)
    columns = [
        Column("span", "span"),
        Column("from_moisture", "from", "percent"),
        Column("to_moisture", "to", "percent"),
        Column("before", "before", "size"),
        Column("after", "after", "size"),
        Column("change", "change", "change"),
        Column("change_low", "likely from", "change_end"),
        Column("change_high", "to", "change_end"),
    ]
    rows = [
        {
            "span": name,
            "from_moisture": m.staves[0].from_moisture_pct,
            "to_moisture": m.staves[0].to_moisture_pct,
            "before": m.size_mm,
            "after": m.after_mm,
            "change": m.change_mm,
            "change_low": m.likely_change_mm.low,
            "change_high": m.likely_change_mm.high,
        }
        for name, m in zip(names, moves, strict=True)
    ]
    if first.thicknesses:
        columns += [
            Column("thinnest", "thinnest", "size"),
            Column("thickest", "thickest", "size"),
            Column("step", "step", "change"),
        ]
        for row, m in zip(rows, moves, strict=True):
            after = [t.after_mm for t in m.thicknesses]
            row |= {"thinnest": min(after), "thickest": max(after), "step": m.step_mm}
    staves = [
        {
            "stave": i,
            "width": m.size_mm,
            "ring_angle_deg": m.ring_angle_deg,
            "change": m.change_mm,
        }
        for i, m in enumerate(first.staves, start=1)
    ]
    stave_columns = [
        Column("stave", "stave", "count"),
        Column("width", "width", "size"),
        Column("ring_angle_deg", "ring angle"),
        Column("change", f"change, {names[0]}", "change"),
    ]
    return Answer(
        headline=[*headline, *recalled_line(used)],
        facts=[
            (Column("wood", ""), lead.wood.common_name),
            (Column("botanical_name", ""), lead.wood.botanical_name),
            *room_facts(room),
        ],
        sections=[
            Section("panel", "", columns, rows),
            Section("staves", "", stave_columns, staves),
            based_on(used),
        ],
        notes=[
            *identity(lead.wood),
            *([_STEP] if any(m.step_mm for m in moves) else []),
            *sentences((*lead.notes, *notes)),
            f"Computed from {lead.basis.method}; a panel is the sum of its staves.",
            *basis_notes(used),
            *spread_notes(used),
        ],
    )


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "panel",
        epilog=example(
            "woodref panel cherry --width 22in --from 7 --to 11",
            'woodref panel "red oak" --stave 5in --stave "4in quarter" --stave "5in 30" '
            "--from 8 --place Savannah --setting heated-house",
        ),
    )(panel_command)
