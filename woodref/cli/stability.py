"""The command that says how stable a wood is."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.cli.options import (
    Force,
    Format,
    PlaceOption,
    RoomAsked,
    RoomFigures,
    Save,
    Setting,
    Species,
    Style,
    Units,
    UnitSystem,
    example,
    moisture,
    reference,
    room_asked,
)
from woodref.cli.output import emit
from woodref.errors import InputError
from woodref.units import MM_PER_FOOT

#: The width a wood's seasonal change is told for: a foot, or 300 mm.
_WIDTH_MM = {"us": MM_PER_FOOT, "si": 300.0}


def stability_command(
    context: typer.Context,
    species: Species,
    start: Annotated[
        str, typer.Option("--from", help="The drier moisture content: 6, or air 68F,40%.")
    ] = "",
    end: Annotated[str, typer.Option("--to", help="The wetter one; 6 and 10 where none.")] = "",
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """How much a wood moves, and how many other woods move less.

    Between two moisture contents, or the driest and the wettest month of a room.
    """
    from woodref.answers.stability import stability_answer
    from woodref.board.stability import stability_of
    from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT

    if bool(start) != bool(end):
        raise InputError("give both --from and --to, or neither")
    room = room_asked(context, RoomAsked(place, setting, room_figures), bool(start))
    if room and start:
        raise InputError("give --from and --to, or a place, not both")
    if room:
        _, dry, wet = room.season.design_pct
    elif start:
        dry, wet = sorted((moisture(start, units), moisture(end, units)))
    else:
        dry, wet = DRIEST_PCT, DAMPEST_PCT
    wood = reference().wood(species)
    s = stability_of(reference(), wood, dry, wet, _WIDTH_MM[units])
    answer = stability_answer(s, room, units, example=not (room or start))
    emit(answer, units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "stability",
        epilog=example(
            "woodref stability cherry",
            'woodref stability "red oak" --place Savannah --setting heated-house',
        ),
    )(stability_command)
