"""The command about the movement of one board."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.steps import add_steps
from woodref.cli.options import (
    Cut,
    Explain,
    Force,
    Format,
    OwnShrinkage,
    PlaceOption,
    Plot,
    RoomAsked,
    RoomFigures,
    Save,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    check_town,
    example,
    length_unit,
    moisture,
    outdoor_lines,
    place_named,
    reference,
    room_named,
    with_own,
)
from woodref.cli.output import emit
from woodref.cli.plot import checked_plot, emit_with_plot, needs_room
from woodref.errors import InputError
from woodref.written import parse_length, parse_thickness

if TYPE_CHECKING:
    from woodref.charts.figure import Figure


def _faced(width: str, thickness: str, unit: str) -> tuple[str, float]:
    """('width' or 'thickness', size in mm) of the one that was given."""
    if bool(width) == bool(thickness):
        width = "8in" if unit == "in" else "200mm"
        raise InputError(f"give either --width or --thickness, for example --width {width}")
    if width:
        return "width", parse_length(width, unit)
    return "thickness", parse_thickness(thickness, unit)


def _through_the_year(
    context: typer.Context, start: str, end: str, wanted: bool, asked: RoomAsked
) -> bool:
    """True where the year of a room is asked for, not two moisture contents.

    A place that is only a default gives way to moisture contents on the command line.
    """
    if not place_named(context, asked) and (not asked.place or start or end):
        for option, value in (("--from", start), ("--to", end)):
            if not value:
                raise InputError(
                    f"{option} is missing; give --from and --to, for example --from 7 --to 11, or "
                    "a town and a room, for example --place Savannah --setting heated-house"
                )
        return False
    check_town(asked)
    if end or wanted:
        raise InputError(f"{'--to' if end else '--target'} does not go with a place; leave one out")
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
    cut: Cut = "",
    wanted: Annotated[
        bool, typer.Option("--target", help="The size is the one wanted at --to: how big to start.")
    ] = False,
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    shrinkage: OwnShrinkage = "",
    plot: Plot = "",
    units: Units = UnitSystem.us,
    explain: Explain = False,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How a board moves from one moisture to another or in a year.

    With --target the other way round: how wide to start for a width wanted later.
    With --place and --setting between the driest and the wettest to design for in a room;
    --plot draws that year.
    """
    from woodref.answers.movement import (
        cut_steps,
        movement_answer,
        year_movement_answer,
        year_steps,
    )
    from woodref.board.movement import face_angles, movement, seasonal_movement, size_for

    checked_plot(plot, force)
    face, size = _faced(width, thickness, length_unit(units))
    asked = RoomAsked(place, setting, room_figures)
    if _through_the_year(context, start, end, wanted, asked):
        room = room_named(asked)
        made = moisture(start, units) if start else None
        wood, angles = with_own(reference().wood(species), shrinkage), face_angles(cut, face)
        _, dry, wet = room.season.design_pct
        year = {c: seasonal_movement(wood, size, made, dry, wet, a) for c, a in angles.items()}
        answer = year_movement_answer(
            year, face, None if made is None else (size, made), room, units
        )
        answer.headline += outdoor_lines(room, wood)
        if explain:
            to_driest = (
                {}
                if made is None
                else {c: movement(wood, size, made, dry, angle) for c, angle in angles.items()}
            )
            used = next(iter(year.values())).basis.values
            add_steps(answer, year_steps(year, to_driest, face), used)

        def draw() -> Figure:
            from woodref.charts.room_year import board_year

            return board_year(wood, face, angles, size, made, room, units)

        emit_with_plot(answer, units, style, plot, draw, save, force=force)
        return
    needs_room(plot)
    first, second = moisture(start, units), moisture(end, units)
    angles = face_angles(cut, face)
    wood = with_own(reference().wood(species), shrinkage)
    compute = size_for if wanted else movement
    cuts = {name: compute(wood, size, first, second, angle) for name, angle in angles.items()}
    answer = movement_answer(cuts, face, units, wanted)
    if explain:
        add_steps(answer, cut_steps(cuts, face), next(iter(cuts.values())).basis.values)
    emit(answer, units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "movement",
        epilog=example(
            'woodref movement "sugar maple" --width 38in --from 7 --to 11',
            "woodref movement cherry --width 14in --cut quarter --from 70F,30% --to 75F,60%",
            'woodref movement "red oak" --width 8in --target --from green --to 8',
            'woodref movement "red oak" --width 38in --place Savannah --setting heated-house '
            "--plot year.svg",
        ),
    )(movement_command)
