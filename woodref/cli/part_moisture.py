"""Options that say how moist a part is when it is fitted and in its life, and what they ask."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import RoomAsked, UnitSystem, built_moisture, moisture, room_asked
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.climate.part_seasons import PartSeasons

Built = Annotated[
    str,
    typer.Option(
        "--built",
        help="Moisture content when it is fitted: 7, air 68F,35%, or TOWN/SETTING/MONTH.",
    ),
]
InMonth = Annotated[
    str, typer.Option("--month", help="Or the month it is fitted in, in the room of --place.")
]
Driest = Annotated[
    str, typer.Option("--driest", help="Driest moisture content in use, in place of a town.")
]
Wettest = Annotated[str, typer.Option("--wettest", help="And the wettest.")]
Staves = Annotated[int, typer.Option("--staves", help="Boards the part is glued of.")]


def seasons_asked(
    context: typer.Context,
    units: UnitSystem,
    build: tuple[str, str],
    ends: tuple[str, str],
    asked: RoomAsked,
) -> PartSeasons:
    """When it is fitted, and the driest and the wettest of its life.

    Parameters: build as moisture content and as month; ends driest and wettest; asked, the
    room it lives in.
    """
    from woodref.climate.part_seasons import built_in, part_seasons
    from woodref.climate.seasons import month_number

    built, month = build
    if bool(ends[0]) != bool(ends[1]):
        raise InputError("give both --driest and --wettest, or neither")
    room = room_asked(context, asked, bool(ends[0]))
    if room and ends[0]:
        raise InputError("give --driest and --wettest, or a place, not both")
    if built and month:
        raise InputError("give --built or --month, not both")
    if month and not room:
        raise InputError("--month needs a town, for example --place Savannah")
    ends_pct = (moisture(ends[0], units), moisture(ends[1], units)) if ends[0] else None
    fitted = built_moisture(built, units) if built else None
    if room and month:
        fitted = built_in(room, month_number(month))
    return part_seasons(fitted, room, ends_pct)
