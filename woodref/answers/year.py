"""The year of a room: driest and wettest month, and all twelve."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.property_text import ROUGH_MARK
from woodref.answers.provenance import sentence, sentences
from woodref.answers.room_words import end_text, room_lines
from woodref.answers.screen import brief
from woodref.answers.words import percent_text
from woodref.climate.rooms import LAG, Room
from woodref.climate.seasons import MONTHS, Season
from woodref.climate.settings import setting_rule
from woodref.note import Note
from woodref.reference.bases import EDITORIAL
from woodref.units import KINDS, fixed

if TYPE_CHECKING:
    from woodref.reference.places import Place

EMC_EQUATION = (
    "Moisture content from the Hailwood-Horrobin equation, FPL-GTR-282 (2021), Eq. 4-5, one curve "
    "for all woods"
)
EMC_SOURCE = f"{EMC_EQUATION}; indoor humidity from the water the outdoor air carries."
#: Longest bar of the chart in the terminal.
_BAR = 30
#: The same beside the figures of a first screen.
_SHORT_BAR = 12


def place_facts(place: Place) -> list[tuple[Column, Any]]:
    """A place as single values for programs."""
    return [
        (Column("place", ""), place.label),
        (Column("place_id", ""), place.place_id),
        (Column("latitude", ""), None if place.is_own else place.latitude),
        (Column("longitude", ""), None if place.is_own else place.longitude),
        (Column("elevation_m", ""), None if place.is_own else place.elevation_m),
        (Column("station", ""), None if place.is_own else place.station),
        (Column("station_distance_km", ""), None if place.is_own else round(place.distance_km, 1)),
        (Column("flag", ""), place.flag or None),
    ]


def flag_lines(place: Place) -> list[str]:
    """What is doubtful in the record of a place, '' nowhere."""
    return [Heed(sentence(f"{place.flag.rstrip('.')}."))] if place.flag else []


_OUTDOORS = (
    Column("outdoor_temperature", "outdoors", "temperature"),
    Column("outdoor_humidity", "humidity", "percent"),
    Column("outdoor_emc", "wood", "percent"),
)
_ROOM = (
    Column("temperature", "room", "temperature"),
    Column("humidity", "humidity", "percent"),
    Column("emc", "wood", "percent"),
    Column("emc_low", "from", "percent"),
    Column("emc_high", "to", "percent"),
    Column("humidity_low", "", "percent"),
    Column("humidity_high", "", "percent"),
    Column("held_by", "held by"),
)


def _mark(outdoor: bool, indoor: bool) -> str:
    """Where the air is below 30 F, and the moisture content of wood extrapolated."""
    return ", ".join(word for word, cold in (("outdoors", outdoor), ("room", indoor)) if cold)


def month_section(season: Season, outdoors: bool = True, room: bool = True) -> Section:
    """Twelve months: the air outdoors and in the room, and the moisture content of wood.

    Parameters: season; outdoors, false where nothing is known of the air there; room, false
    where it is no matter.
    """
    columns = [
        Column("month", "month"),
        *(_OUTDOORS if outdoors else ()),
        *(_ROOM if room else ()),
        *([Column("outdoor_extrapolated", "")] if outdoors else []),
        *([Column("extrapolated", "")] if room else []),
    ]
    rows = []
    for m in season.months:
        row: dict[str, Any] = {
            "month": MONTHS[m.month - 1],
            "outdoor_temperature": m.outdoor_c,
            "outdoor_humidity": m.outdoor_humidity_pct,
            "outdoor_emc": m.outdoor_emc_pct,
            "temperature": m.temperature_c,
            "humidity": m.humidity_pct,
            "emc": m.emc_pct,
            "emc_low": m.emcs_pct.low,
            "emc_high": m.emcs_pct.high,
            "humidity_low": m.humidities_pct.low,
            "humidity_high": m.humidities_pct.high,
            "held_by": m.machine.value if m.machine else None,
            "outdoor_extrapolated": m.outdoor_extrapolated,
            "extrapolated": m.extrapolated,
            "mark": _mark(m.outdoor_extrapolated, m.extrapolated),
        }
        rows.append(row)
    if any(r["mark"] for r in rows):
        columns.append(Column("mark", "extrapolated"))
    return Section("months", "", columns, rows)


def air_section(
    season: Season, units: str, outdoors: bool = True, room: bool = True, bar: str = ""
) -> Section:
    """The months for a first screen: temperatures and humidities whole, the wood last.

    What is taken from beyond the range of the equation has the mark of an estimate.

    Parameters: as month_section; units 'us' or 'si'; bar, the character of a bar for the wood in
    each month, '' for none.
    """

    def air(temperature_c: float | None, humidity_pct: float | None) -> str:
        """'70 F, 33 %'."""
        if temperature_c is None or humidity_pct is None:
            return ""
        degrees = KINDS["temperature"]
        at = f"{fixed(degrees.convert(temperature_c, units), 0)} {degrees.label(units)}"
        return f"{at}, {humidity_pct:.0f} %"

    columns = [Column("month", "month")]
    if outdoors:
        columns += [Column("outdoor_air", "air outdoors"), Column("outdoor_emc", "wood", "percent")]
    if room:
        columns += [
            Column("air", "air in the room"),
            Column("emc", "wood there", "percent"),
            Column("emc_low", "from", "percent"),
            Column("emc_high", "to", "percent"),
        ]
    if bar:
        columns.append(Column("bar", " "))
    most = season.wettest.emc_pct
    rows = [
        {
            "month": MONTHS[m.month - 1],
            "outdoor_air": air(m.outdoor_c, m.outdoor_humidity_pct),
            "outdoor_emc": f"{m.outdoor_emc_pct:.1f} %{ROUGH_MARK * m.outdoor_extrapolated}",
            "air": air(m.temperature_c, m.humidity_pct),
            "emc": m.emc_pct,
            "emc_low": m.emcs_pct.low,
            "emc_high": m.emcs_pct.high,
            "bar": bar * round(_SHORT_BAR * m.emc_pct / most),
        }
        for m in season.months
    ]
    return Section("months", "", columns, rows)


def chart_section(season: Season, bar: str) -> Section:
    """The moisture content of wood in the room as bars of a character, for a terminal."""
    most = season.wettest.emc_pct
    return Section.of(
        "chart",
        "Moisture content of wood in the room",
        [Column("month", "month"), Column("bar", "bar"), Column("emc", "%", "percent")],
        (
            (MONTHS[m.month - 1], bar * round(_BAR * m.emc_pct / most), m.emc_pct)
            for m in season.months
        ),
    )


def extremes_facts(season: Season) -> list[tuple[Column, Any]]:
    """The driest and the wettest as expected, and to design for, as values for programs."""
    dry, wet = season.driest, season.wettest
    return [
        (Column("driest_month", ""), dry.name),
        (Column("driest_emc", "", "percent"), dry.emc_pct),
        (Column("wettest_month", ""), wet.name),
        (Column("wettest_emc", "", "percent"), wet.emc_pct),
        (Column("design_driest", "", "percent"), season.design_driest.moisture_pct),
        (Column("design_wettest", "", "percent"), season.design_wettest.moisture_pct),
    ]


def season_answer(room: Room, units: str, chart: str = "") -> Answer:
    """The year of a room in a town: what to design for first, then the twelve months.

    Parameters: room; units 'us' or 'si'; chart, the character of the bars of a chart, '' for
    none.
    """
    return _season_answer(room.label, room.season, room.notes, room.place, units, chart)


def own_season_answer(
    label: str,
    season: Season,
    units: str,
    as_room: bool,
    interpolated: bool,
    southern: bool = False,
    chart: str = "",
) -> Answer:
    """The year of a room by the user's own figures.

    Parameters: label of the figures; season; units 'us' or 'si'; as_room, true where they are the
    air of the room itself and nothing is known of that outdoors; interpolated, true where they are
    two seasons and what lies between; southern, true where winter is in July; chart as in
    season_answer.
    """
    setting = season.setting
    given = Note("setting-rule", "the air of the room as you gave it")
    notes = (given if as_room else setting_rule(setting), *season.notes)
    if interpolated:
        depth = "July, the winter, to January" if southern else "January to July"
        text = f"months between follow a cosine from {depth}, our own choice"
        notes = (*notes, Note("two-seasons", text, EDITORIAL))
    return _season_answer(label, season, notes, None, units, chart, as_room)


def _season_answer(
    label: str,
    season: Season,
    notes: Sequence[Note],
    place: Place | None,
    units: str,
    chart: str,
    room_only: bool = False,
) -> Answer:
    """The year of a room, of a place or by the user's own figures."""
    outdoors = [m.outdoor_emc_pct for m in season.months]
    lead = (
        f"{sentence(label)}: design for wood from {end_text(season.design_driest)} to "
        f"{end_text(season.design_wettest)}."
    )
    second = f"The mean of the year is {percent_text(season.mean_emc_pct)}"
    if not room_only:
        second += (
            f"; outdoors under cover it is {percent_text(min(outdoors))} to "
            f"{percent_text(max(outdoors))}"
        )
    headline = [lead, *room_lines(season), f"{second}."]
    return Answer(
        headline=headline,
        screen=brief(
            headline,
            [air_section(season, units, outdoors=not room_only, bar=chart)],
            flag_lines(place) if place else [],
        ),
        facts=[
            *(place_facts(place) if place else []),
            (Column("setting", ""), season.setting.name),
            *extremes_facts(season),
            (Column("mean_emc", "", "percent"), season.mean_emc_pct),
        ],
        sections=[
            month_section(season, outdoors=not room_only),
            *([chart_section(season, chart)] if chart else []),
        ],
        notes=[*sentences([*notes, LAG], units), EMC_SOURCE],
    )
