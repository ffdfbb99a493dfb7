"""Commands about places: place, season."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.provenance import sentence
from woodref.cli.options import (
    Force,
    Format,
    Plot,
    RoomFigures,
    Setting,
    Style,
    Units,
    UnitSystem,
    example,
    reference,
    room_changes,
    source_of,
    temperature_example,
    temperature_unit,
)
from woodref.cli.output import emit
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.written import parse_percent, parse_temperature

if TYPE_CHECKING:
    from woodref.answers.answer import Answer
    from woodref.charts.figure import Figure
    from woodref.reference.places import Weather

_At = Annotated[
    str,
    typer.Option(
        "--at",
        metavar="LAT,LON",
        help="The places nearest to a point instead; west and south are negative.",
    ),
]
PlaceName = Annotated[
    str,
    typer.Argument(
        metavar="[PLACE]",
        envvar="WOODREF_PLACE",
        help="A town, with state or country where several go by its name, or 46.8,-92.1.",
    ),
]


def _nearest(at: str, units: UnitSystem) -> Answer:
    from woodref.answers.place import nearest_answer
    from woodref.reference.places import coordinates, nearest_places

    point = coordinates(at)
    if point is None:
        raise InputError(f"--at takes latitude and longitude, for example 46.8,-92.1, not '{at}'")
    return nearest_answer(at, nearest_places(reference(), *point), units)


def place_command(
    place: PlaceName = "",
    at: _At = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """A town and its outdoor air, month by month.

    With --at the towns nearest to a point.
    """
    if at:
        emit(_nearest(at, units), units, style)
        return
    if not place:
        raise InputError("name a place, for example woodref place Duluth, or --at 46.8,-92.1")
    from woodref.answers.place import place_answer
    from woodref.climate.rooms import OUTDOORS, room_of

    emit(place_answer(room_of(reference(), place, OUTDOORS), units), units, style)


def _air(text: str, option: str, units: UnitSystem) -> tuple[float, float]:
    """Temperature [degC] and relative humidity [%] from '68F,30%'."""
    first, comma, second = text.partition(",")
    if not comma:
        typed = temperature_example(units)
        raise InputError(f"{option} takes temperature and humidity, for example {typed},30%")
    celsius = parse_temperature(first, temperature_unit(units))
    return celsius, parse_percent(second, "relative humidity")


def _own_months(
    months: Path | None, winter: str, summer: str, southern: bool, units: UnitSystem
) -> tuple[str, tuple[Weather, ...]] | None:
    """The user's own figures and what to call them, None where there are none."""
    from woodref.climate.seasons import two_seasons

    if months and (winter or summer):
        raise InputError("give either --months or --winter and --summer")
    if months:
        from woodref.climate.monthly_csv import read_months

        return f"your figures of {months.name}", read_months(months, temperature_unit(units))
    if southern and not (winter or summer):
        raise InputError("--southern goes with --winter and --summer")
    if winter or summer:
        if not (winter and summer):
            typed = temperature_example(units)
            raise InputError(f"give both, for example --winter {typed},30% --summer {typed},60%")
        air = _air(winter, "--winter", units), _air(summer, "--summer", units)
        return "your two seasons", two_seasons(*air, southern)
    return None


def _chart(style: Style) -> str:
    """The character of the chart: bars for people at a terminal, nothing elsewhere."""
    if style is not Style.table or not sys.stdout.isatty():
        return ""
    return "█" if (sys.stdout.encoding or "").lower().startswith("utf") else "#"


def season_command(
    context: typer.Context,
    place: PlaceName = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    months: Annotated[
        Path | None,
        typer.Option(
            "--months",
            metavar="FILE",
            help="Your own figures in place of a town: a CSV file with the columns month, "
            "temperature and humidity_pct.",
        ),
    ] = None,
    winter: Annotated[
        str, typer.Option("--winter", help="Or your own air at midwinter: 68F,30%.")
    ] = "",
    summer: Annotated[str, typer.Option("--summer", help="And at midsummer: 76F,60%.")] = "",
    southern: Annotated[
        bool, typer.Option("--southern", help="Winter is in July, summer in January.")
    ] = False,
    plot: Plot = "",
    force: Force = False,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """What wood goes through in a year, in a kind of room.

    Your own figures are taken as the air of the room, or with --setting as that outdoors.
    """
    from woodref.answers.year import own_season_answer, season_answer
    from woodref.climate.rooms import OUTDOORS, room_of
    from woodref.climate.seasons import season
    from woodref.climate.settings import changed, setting_of

    checked_plot(plot, force)
    own = _own_months(months, winter, summer, southern, units)
    if own and source_of(context, "place") == "COMMANDLINE":
        raise InputError("give either a place or your own figures, not both")
    if not (own or place):
        raise InputError("name a place, for example woodref season Duluth --setting heated-house")
    figures = room_changes(room_figures)
    as_room = bool(own) and not setting
    if own:
        label, air = own
        chosen = changed(setting_of(setting or OUTDOORS), figures)
        year = season(air, chosen)
        label = label if as_room else f"{label}, {chosen.name}"
        answer = own_season_answer(
            label, year, units, as_room, bool(winter), southern, _chart(style)
        )
    else:
        room = room_of(reference(), place, setting, figures)
        label, year = room.label, room.season
        answer = season_answer(room, units, _chart(style))

    def draw() -> Figure:
        from woodref.charts.year import seasonal_moisture

        return seasonal_moisture(sentence(label), year, room_only=as_room)

    emit_with_plot(answer, units, style, plot, draw, force=force)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "place",
        epilog=example(
            "woodref place Duluth",
            'woodref place "Portland, Maine"',
            "woodref place --at 46.8,-92.1",
        ),
    )(place_command)
    app.command(
        "season",
        epilog=example(
            "woodref season Duluth --setting heated-house --plot year.svg",
            'woodref season "Portland, Maine" --setting unheated-shop',
            "woodref season --winter 66F,30% --summer 76F,60%",
        ),
    )(season_command)
