"""The command about the movement of one board."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

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
from woodref.answers.words import cut_words, identity, percent_text
from woodref.cli.options import (
    Explain,
    Format,
    OwnShrinkage,
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
    place_named,
    reference,
    room_named,
    with_own,
)
from woodref.cli.output import emit
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.units import KINDS, parse_length, parse_thickness

if TYPE_CHECKING:
    from woodref.board.movement import Movement
    from woodref.charts.figure import Figure


def _faced(width: str, thickness: str, unit: str) -> tuple[str, float]:
    """('width' or 'thickness', size in mm) of the one that was given."""
    if bool(width) == bool(thickness):
        raise InputError("give either --width or --thickness, for example --width 8in")
    if width:
        return "width", parse_length(width, unit)
    return "thickness", parse_thickness(thickness, unit)


def _chosen_cuts(cut: str, face: str) -> dict[str, float]:
    """Cuts to answer for, with the ring angle that holds for the face.

    The thickness of a board meets the rings at the complement of the angle of its width.
    """
    from woodref.board.movement import CUTS, ring_angle

    cuts = {cut.strip().lower(): ring_angle(cut)} if cut else dict(CUTS)
    return {n: a if face == "width" else 90.0 - a for n, a in cuts.items()}


def _movement_lead(m: Movement, cut: str, face: str, units: UnitSystem, wanted: bool) -> str:
    size, change = KINDS["size"].text, KINDS["change"].text
    name, start, end = (
        sentence(m.wood.common_name),
        percent_text(m.from_moisture_pct),
        percent_text(m.to_moisture_pct),
    )
    how = "wide" if face == "width" else "thick"
    if wanted:
        return (
            f"{name}, {cut_words(cut)}: start from {KINDS['size_up'].text(m.size_mm, units)} "
            f"{how} at {start} for {size(m.after_mm, units)} at {end}."
        )
    return (
        f"{name}, {cut_words(cut)}: {size(m.size_mm, units)} {how} at {start} is "
        f"{size(m.after_mm, units)} at {end}, a change of {change(m.change_mm, units)}."
    )


def _movement_section(found: dict[str, Movement], face: str, wanted: bool) -> Section:
    from woodref.reference.woods import worst_basis

    columns = [
        Column("cut", "cut"),
        Column("before", f"{face} now", "size_up" if wanted else "size"),
        Column("after", f"{face} then", "size"),
        Column("change", "change", "change"),
        Column("change_low", "likely from", "change_end"),
        Column("change_high", "to", "change_end"),
        Column("basis", "basis"),
    ]
    rows = [
        {
            "cut": name,
            "before": m.size_mm,
            "after": m.after_mm,
            "change": m.change_mm,
            "change_low": m.likely_change_mm.low,
            "change_high": m.likely_change_mm.high,
            "basis": worst_basis([m.basis.tangential, m.basis.radial]),
        }
        for name, m in found.items()
    ]
    return Section("movement", "", columns, rows)


def _through_the_year(
    context: typer.Context, start: str, end: str, wanted: bool, place: str, setting: str
) -> bool:
    """True where the year of a room is asked for, not two moisture contents.

    A place that is only a default gives way to moisture contents on the command line.
    """
    if not place_named(context, place, setting) and (not place or start or end):
        for option, value in (("--from", start), ("--to", end)):
            if not value:
                raise InputError(
                    f"{option} is missing; give --from and --to, for example --from 7 --to 11, or "
                    "a town and a room, for example --place Savannah --setting heated-house"
                )
        return False
    if not place:
        raise InputError("--setting needs a town, for example --place Savannah")
    if end or wanted:
        raise InputError(f"{'--to' if end else '--wanted'} does not go with a place; leave one out")
    return True


def movement_command(
    context: typer.Context,
    species: Species,
    start: Annotated[
        str, typer.Option("--from", help="Moisture content now: 7, green, or air 68F,40%.")
    ] = "",
    end: Annotated[
        str, typer.Option("--to", help="Moisture content then, written the same way.")
    ] = "",
    width: Annotated[str, typer.Option("--width", help="Width across the face of a board.")] = "",
    thickness: Annotated[
        str, typer.Option("--thickness", help="Thickness instead: 1in, 20mm or rough 8/4.")
    ] = "",
    cut: Annotated[
        str,
        typer.Option("--cut", help="flat, rift, quarter, or the angle of the rings to the face."),
    ] = "",
    wanted: Annotated[
        bool, typer.Option("--wanted", help="The size is the one wanted at --to: how big now?")
    ] = False,
    place: PlaceOption = "",
    setting: Setting = "",
    shrinkage: OwnShrinkage = "",
    plot: Plot = "",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    style: Format = Style.table,
) -> None:
    """How a board moves from one moisture to another or in a year.

    With --wanted the other way round: how wide to start for a width wanted later.
    With --place and --setting between the driest and the wettest month of a room; --plot
    draws that year.
    """
    from woodref.board.movement import movement, size_for

    checked_plot(plot)
    face, size = _faced(width, thickness, length_unit(units))
    if _through_the_year(context, start, end, wanted, place, setting):
        from woodref.answers.year import year_movement_answer

        room = room_named(place, setting)
        made = moisture(start, units) if start else None
        wood, angles = with_own(reference().wood(species), shrinkage), _chosen_cuts(cut, face)
        asked = (wood, face, angles, size, made, room, units)

        def draw() -> Figure:
            from woodref.charts.room_year import board_year

            return board_year(*asked)

        answer = year_movement_answer(*asked)
        if explain:
            from woodref.explain.board import movement_step

            dry, wet = (m.emc_pct for m in (room.season.driest, room.season.wettest))
            swings = {c: movement(wood, size, dry, wet, angle) for c, angle in angles.items()}
            of, at = wood.common_name, f"{face} at the wettest of one {percent_text(wet)}"
            add_steps(
                answer, (movement_step(f"{of}, {cut_words(c)}", at, m) for c, m in swings.items())
            )
        emit_with_plot(answer, units, style, plot, draw, save)
        return
    if plot:
        from woodref.cli.plot import needs_room

        needs_room(plot)
    first, second = moisture(start, units), moisture(end, units)
    cuts = _chosen_cuts(cut, face)
    wood = with_own(reference().wood(species), shrinkage)
    compute = size_for if wanted else movement
    found = {name: compute(wood, size, first, second, angle) for name, angle in cuts.items()}
    name, lead = next(iter(found.items()))
    used = (lead.basis.tangential, lead.basis.radial)
    answer = Answer(
        headline=[_movement_lead(lead, name, face, units, wanted), *recalled_line(used)],
        facts=[
            (Column("wood", ""), wood.common_name),
            (Column("botanical_name", ""), wood.botanical_name),
            (Column("from_moisture", "", "percent"), first),
            (Column("to_moisture", "", "percent"), second),
        ],
        sections=[_movement_section(found, face, wanted), based_on(used)],
        notes=[
            *identity(wood),
            *sentences(lead.notes),
            f"Computed from {lead.basis.method}.",
            *basis_notes(used),
            *spread_notes(used),
        ],
    )
    if explain:
        from woodref.explain.board import movement_step

        at, of = f"{face} at {percent_text(second)}", wood.common_name
        add_steps(answer, (movement_step(f"{of}, {cut_words(c)}", at, m) for c, m in found.items()))
    emit(answer, units, style, save)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "movement",
        epilog=example(
            'woodref movement "sugar maple" --width 38in --from 7 --to 11',
            "woodref movement cherry --width 14in --cut quarter --from 70F,30% --to 75F,60%",
            'woodref movement "red oak" --width 8in --wanted --from green --to 8',
            'woodref movement "red oak" --width 38in --place Savannah --setting heated-house '
            "--plot year.svg",
        ),
    )(movement_command)
