"""The command about a glued-up panel: how its staves move together."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
    Force,
    Format,
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
    example,
    length_unit,
    moisture,
    outdoor_lines,
    reference,
    room_asked,
)
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.written import parse_length, parse_thickness

if TYPE_CHECKING:
    from woodref.board.panel import PanelMovement, Stave
    from woodref.charts.figure import Figure


def _staves(
    given: list[str], width: str, narrowest: str, widest: str, cut: str, unit: str
) -> tuple[Stave, ...]:
    from woodref.board.movement import ring_angle
    from woodref.board.panel import USUAL_STAVES_MM, equal_staves, parse_stave

    if bool(given) == bool(width):
        stave = "5in" if unit == "in" else "120mm"
        raise InputError(f'give each stave, --stave "{stave} quarter", or the panel\'s --width')
    if given:
        if narrowest or widest or cut:
            raise InputError("--narrowest, --widest and --cut go with --width, not with --stave")
        return tuple(parse_stave(text, unit) for text in given)
    least = parse_length(narrowest, unit) if narrowest else USUAL_STAVES_MM[0]
    most = parse_length(widest, unit) if widest else max(least, USUAL_STAVES_MM[1])
    return equal_staves(parse_length(width, unit), least, most, ring_angle(cut or "flat"))


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
    room_figures: RoomFigures = None,
    plot: Plot = "",
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How a panel of staves moves, each with its own rings.

    From the build to one moisture content, or to the driest and the wettest of a room.
    --plot draws the staves before and after, or the width of the panel through the year.
    """
    from woodref.answers.panel import panel_answer
    from woodref.board.panel import panel_movement, panel_year

    checked_plot(plot, force)
    staves = _staves(stave or [], width, narrowest, widest, cut, length_unit(units))
    room = room_asked(context, RoomAsked(place, setting, room_figures), bool(end))
    if bool(end) == bool(room):
        raise InputError("give either --to, for example --to 11, or --place and --setting")
    thick = parse_thickness(thickness, length_unit(units)) if thickness else None
    wood, build = reference().wood(species), moisture(start, units)
    moves: tuple[PanelMovement, ...]
    if room:
        _, dry, wet = room.season.design_pct
        moves = panel_year(wood, staves, build, dry, wet, thick)
    else:
        built = () if thick is None else (thick,) * len(staves)
        moves = (panel_movement(wood, staves, build, moisture(end, units), built),)

    answer = panel_answer(moves, room, units)
    answer.headline += outdoor_lines(room, wood)

    def draw() -> Figure:
        if room:
            from woodref.charts.staves import panel_year as picture

            return picture(wood, staves, build, room, units)
        from woodref.charts.staves import staves_before_and_after

        return staves_before_and_after(moves[0], units)

    emit_with_plot(answer, units, style, plot, draw, save, force=force)


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
