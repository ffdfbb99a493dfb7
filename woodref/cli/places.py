"""Commands about places: place, season."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.answers.provenance import sentence
from woodref.answers.render import Answer, Column, Section
from woodref.cli.options import (
    Format,
    Plot,
    Setting,
    Style,
    Units,
    UnitSystem,
    example,
    reference,
    source_of,
    temperature_unit,
)
from woodref.cli.output import emit
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError
from woodref.units import parse_percent, parse_temperature

if TYPE_CHECKING:
    from woodref.charts.figure import Figure
    from woodref.climate.seasons import Setting as Room
    from woodref.reference.places import Place, Weather

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


def _nearest_section(places: tuple[Place, ...]) -> Section:
    return Section(
        "nearest",
        "",
        [
            Column("place", "place"),
            Column("distance_km", "km away", "tenths"),
            Column("latitude", "latitude"),
            Column("longitude", "longitude"),
            Column("flag", "flag"),
            Column("place_id", ""),
        ],
        [
            {
                "place": p.label,
                "distance_km": p.distance_km,
                "latitude": p.latitude,
                "longitude": p.longitude,
                "flag": p.flag,
                "place_id": p.place_id,
            }
            for p in places
        ],
    )


def _nearest(at: str) -> Answer:
    from woodref.climate.rooms import place_notes
    from woodref.reference.places import coordinates, nearest_places

    point = coordinates(at)
    if point is None:
        raise InputError(f"--at takes latitude and longitude, for example 46.8,-92.1, not '{at}'")
    found = nearest_places(reference(), *point)
    first = found[0]
    notes = dict.fromkeys([*place_notes(first), *(p.attribution for p in found if p.attribution)])
    return Answer(
        headline=[f"Nearest to {at.strip()}: {first.label}, {first.distance_km:.0f} km away."],
        sections=[_nearest_section(found)],
        notes=[f"{n[:1].upper()}{n[1:]}".rstrip(".") + "." for n in notes],
    )


def _where(place: Place) -> str:
    """Where a place and its station lie; that it is the shop's own where it is."""
    if place.is_own:
        return "your own record"
    away = f", {place.distance_km:.0f} km away" if place.distance_km >= 1.0 else ""
    return (
        f"{abs(place.latitude):.2f} {'N' if place.latitude >= 0 else 'S'}, "
        f"{abs(place.longitude):.2f} {'E' if place.longitude >= 0 else 'W'}; station "
        f"{place.station}{away}, {place.elevation_m:.0f} m above the sea"
    )


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
        emit(_nearest(at), units, style)
        return
    if not place:
        raise InputError("name a place, for example woodref place Duluth, or --at 46.8,-92.1")
    from woodref.answers.year import EMC_SOURCE, place_facts, season_section
    from woodref.climate.rooms import place_notes, room_of

    room = room_of(reference(), place, "outdoors under cover")
    found, year = room.place, room.season
    section = season_section(year)
    shown = [
        c for c in section.columns if c.key.startswith(("month", "outdoor")) or c.key == "mark"
    ]
    rows = [{**r, "mark": "below 30 F" if r["outdoor_extrapolated"] else ""} for r in section.rows]
    answer = Answer(
        headline=[
            f"{found.label}: {_where(found)}.",
            f"Outdoors under cover wood comes to {year.driest.emc_pct:.1f} % in "
            f"{year.driest.name} and {year.wettest.emc_pct:.1f} % in {year.wettest.name}.",
        ],
        facts=place_facts(found),
        sections=[Section("months", "", shown, rows)],
        notes=[
            *(f"{n[:1].upper()}{n[1:]}." for n in (*year.notes, *place_notes(found))),
            EMC_SOURCE.partition(";")[0] + ".",
            f"For the air of a room: woodref season '{found.label}'.",
        ],
    )
    emit(answer, units, style)


def _air(text: str, option: str, units: UnitSystem) -> tuple[float, float]:
    """Temperature [degC] and relative humidity [%] from '68F,30%'."""
    first, comma, second = text.partition(",")
    if not comma:
        raise InputError(f"{option} takes temperature and humidity, for example 68F,30%")
    celsius = parse_temperature(first, temperature_unit(units))
    return celsius, parse_percent(second, "relative humidity")


def _own_months(
    months: Path | None, winter: str, summer: str, units: UnitSystem
) -> tuple[str, tuple[Weather, ...]] | None:
    """The user's own figures and what to call them, None where there are none."""
    from woodref.climate.seasons import two_seasons

    if months and (winter or summer):
        raise InputError("give either --months or --winter and --summer")
    if months:
        from woodref.climate.monthly_csv import read_months

        return f"your figures of {months.name}", read_months(months, temperature_unit(units))
    if winter or summer:
        if not (winter and summer):
            raise InputError("give both, for example --winter 68F,30% --summer 76F,60%")
        air = _air(winter, "--winter", units), _air(summer, "--summer", units)
        return "your two seasons", two_seasons(*air)
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
    indoor_temperature: Annotated[
        str,
        typer.Option("--indoor-temperature", help="The room is held at this at least: 68F, 20C."),
    ] = "",
    added_moisture: Annotated[
        float | None,
        typer.Option("--added-moisture", help="Water living adds, g per kg of dry air."),
    ] = None,
    rh_low: Annotated[
        float | None, typer.Option("--rh-low", help="Humidity is held above this, %.")
    ] = None,
    rh_high: Annotated[
        float | None, typer.Option("--rh-high", help="Humidity is held below this, %.")
    ] = None,
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
    plot: Plot = "",
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """What wood goes through in a year, in a kind of room.

    Your own figures are taken as the air of the room, or with --setting as that outdoors.
    """
    from woodref.answers.year import season_answer
    from woodref.climate.rooms import USUAL_SETTING, room_of
    from woodref.climate.seasons import changed, season, setting_of

    checked_plot(plot)
    own = _own_months(months, winter, summer, units)
    if own and source_of(context, "place") == "COMMANDLINE":
        raise InputError("give either a place or your own figures, not both")
    if not (own or place):
        raise InputError("name a place, for example woodref season Duluth --setting heated-house")
    usual = "outdoors under cover" if own else USUAL_SETTING
    chosen: Room = changed(
        setting_of(setting or usual),
        indoor_c=parse_temperature(indoor_temperature, temperature_unit(units))
        if indoor_temperature
        else None,
        added_g_kg=added_moisture,
        low_pct=rh_low,
        high_pct=rh_high,
    )
    if own:
        label, air = own
        year = season(air, chosen)
        label = f"{label}, {chosen.name}" if setting else label
        rule = f"{chosen.name}: {chosen.rule}" if setting else "the air of the room as you gave it"
        notes = (rule, *year.notes)
        if winter:
            notes = (*notes, "months between follow a cosine from January to July, our own choice")
        answer = season_answer(label, year, notes, None, _chart(style), room_only=not setting)
    else:
        room = room_of(reference(), place, chosen)
        label, year = room.label, room.season
        answer = season_answer(label, year, room.notes, room.place, _chart(style))

    def draw() -> Figure:
        from woodref.charts.year import seasonal_moisture

        return seasonal_moisture(sentence(label), year, room_only=bool(own) and not setting)

    emit_with_plot(answer, units, style, plot, draw)


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
