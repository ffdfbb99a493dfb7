"""The moisture contents of a piece: given, from air, or from the year of a room in a town."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from functools import partial
from typing import TYPE_CHECKING

from woodref.climate.room_figures import ROOM_KEYS, room_figures
from woodref.errors import InputError
from woodref.formulas.moisture import (
    EMC_TEMPERATURE_RANGE_C,
    equilibrium_moisture_content,
    relative_humidity_for,
)
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.note import Note
from woodref.record import record
from woodref.toml_reader import PERCENT, TomlTable
from woodref.units import KINDS
from woodref.written import parse_temperature

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.climate.seasons import DesignEnd

#: Keys of a table that gives a moisture content.
AIR = ("moisture_pct", "temperature", "humidity_pct")
#: Keys of [use] that name a room in a town, and what is changed of it.
ROOM = ("place", "setting", *ROOM_KEYS)
#: Keys of [build]: a moisture content, air, or a room in a town in a month.
BUILD = (*AIR, *ROOM, "month")
#: Keys of [use]: two conditions, or a room in a town with the month the piece arrives in.
USE = ("driest", "wettest", *ROOM, "month")


@record
class PieceAir:
    """A moisture content [%], and the air it comes from where it was given as air."""

    moisture_pct: float
    temperature_c: float | None = None
    humidity_pct: float | None = None


@record
class Rooms:
    """How the room of [use] is found: the look-up, and what goes before or behind the file.

    ``find`` takes a place, a setting ('' for the usual one) and the figures of it that are
    changed; None where there is no reference library. ``place``, ``setting`` and ``figures``
    replace those of the file; ``usual_place`` serves a file that names a setting alone.
    """

    find: Callable[[str, str, Mapping[str, float]], Room] | None = None
    place: str = ""
    setting: str = ""
    figures: Mapping[str, float] = field(default_factory=dict)
    usual_place: str = ""


NO_ROOMS = Rooms()


#: The room of a build that names a town alone.
_SHOP = "unheated-shop"


@record
class Use:
    """Driest and wettest in use, the room where one is named, and where they come from.

    ``month`` at whose beginning the piece arrives there, 0 where none is given.
    """

    driest: PieceAir
    wettest: PieceAir
    notes: tuple[Note, ...] = ()
    room: Room | None = None
    month: int = 0


def read_use(top: TomlTable, units: str, rooms: Rooms = NO_ROOMS) -> Use:
    """Driest and wettest of the table [use].

    Parameters: top of the file; units of bare temperatures; rooms, how a room is looked up.
    Raises: InputError naming file, table, key and problem.
    """
    replaced = bool(rooms.place or rooms.setting or rooms.figures)
    use = top.table("use", USE) if "use" in top or not replaced else None
    if use is None or replaced or any(key in use for key in (*ROOM, "month")):
        return _room_use(use, top, rooms, replaced, units)
    driest, wettest = (read_air(use.table(key, AIR), units) for key in ("driest", "wettest"))
    if driest.moisture_pct > wettest.moisture_pct:
        raise use.error(
            "driest",
            f"{driest.moisture_pct:.1f} % is more than the wettest {wettest.moisture_pct:.1f} %; "
            "exchange the two",
        )
    return Use(driest, wettest)


@record
class Build:
    """The moisture content of the build, its month (0 for none), and where it comes from."""

    air: PieceAir
    notes: tuple[Note, ...] = ()
    month: int = 0


def read_build(top: TomlTable, units: str, rooms: Rooms = NO_ROOMS) -> Build:
    """The table [build]: a moisture content, air, or a room in a town in a month.

    Wood that rested there long enough has come to the mean air of that month, or of the
    year where no month is given. The place of the command line is that of the use and does
    not move the shop.

    Parameters and errors: as read_use.
    """
    build = top.table("build", BUILD)
    if not any(key in build for key in (*ROOM, "month")):
        return Build(read_air(build, units))
    for key in AIR:
        if key in build:
            raise build.error(key, "give either a moisture content or air, or a place, not both")
    place = build.text("place") if "place" in build else rooms.usual_place
    if not place:
        raise build.error("place", 'is missing; write for example place = "Tucson"')
    if rooms.find is None:
        raise build.error("place", "a town needs the reference library; give moisture_pct")
    number = _month(build)
    setting = _setting(build, _SHOP)
    find = rooms.find
    figures = _figures(build, units)
    key = "place" if "place" in build else "setting"
    room = build.parsed(key, lambda: find(place, setting, figures))
    if number:
        at = room.season.months[number - 1]
        air = PieceAir(at.emc_pct, at.temperature_c, at.humidity_pct)
        label = f"built in {at.name}, {room.label}: {at.emc_pct:.1f} %"
    else:
        air = PieceAir(room.season.mean_emc_pct)
        label = f"built in {room.label}, mean of the year: {air.moisture_pct:.1f} %"
    if air.moisture_pct > FIBER_SATURATION_PCT:
        raise build.error(
            "month",
            f"wood comes to {air.moisture_pct:.1f} % there, above fiber "
            f"saturation ({FIBER_SATURATION_PCT:g} %)",
        )
    return Build(air, (Note("room-of-build", label), *room.notes), number)


def _month(table: TomlTable) -> int:
    """The month of a table by its number or name, 0 where none is given."""
    if "month" not in table:
        return 0
    from woodref.climate.seasons import month_number

    text = table.text("month")
    return table.parsed("month", lambda: month_number(text))


def _setting(table: TomlTable, usual: str) -> str:
    """The setting a table names, the usual one where it names none.

    Raises: InputError with the settings there are for another word.
    """
    if "setting" not in table:
        return usual
    from woodref.climate.settings import SETTINGS, setting_of

    text = table.text("setting")
    try:
        setting_of(text)
    except InputError:
        known = ", ".join(s.slug for s in SETTINGS.values())
        table.tell(table.error("setting", f"'{text}' is no setting; use {known}"))
        return usual
    return text


def _figures(table: TomlTable, units: str) -> dict[str, float]:
    """What a table changes of its room; bare temperatures are in the units of the file."""
    unit = "F" if units == "us" else "C"
    figures: dict[str, float] = {}
    for key in (k for k in ROOM_KEYS if k in table):
        value = table.data[key]
        text = table.text(key) if isinstance(value, str) else str(table.number(key, -500.0, 1000.0))
        figures |= table.parsed(key, partial(_figure, key, text, unit))
    return figures


def _figure(key: str, text: str, unit: str) -> dict[str, float]:
    return room_figures({key: text}, unit)


def _end_air(end: DesignEnd) -> PieceAir:
    """The moisture content of an end of the range, and the air of its month that brings it about.

    Without air where no air makes wood as wet.
    """
    celsius = end.month.temperature_c
    try:
        humidity = float(relative_humidity_for(end.moisture_pct, celsius))
    except ValueError:
        return PieceAir(end.moisture_pct)
    return PieceAir(end.moisture_pct, celsius, humidity)


def _room_use(
    use: TomlTable | None, top: TomlTable, rooms: Rooms, replaced: bool, units: str
) -> Use:
    """The driest and the wettest to design for of a room in a town."""
    month = _month(use) if use is not None else 0
    if use is not None and not replaced:
        for key in ("driest", "wettest"):
            if key in use:
                raise use.error(key, "give either driest and wettest, or a place, not both")
    place = rooms.place or (use.text("place") if use and "place" in use else rooms.usual_place)
    setting = rooms.setting or (_setting(use, "") if use else "")
    where = use or top
    if not place:
        raise where.error("place", 'is missing; write for example place = "Savannah, Georgia"')
    if rooms.find is None:
        raise where.error("place", "a town needs the reference library; give driest and wettest")
    find = rooms.find
    figures = {**(_figures(use, units) if use else {}), **rooms.figures}
    key = "place" if "place" in where else "setting"
    if replaced:
        room = find(place, setting, figures)
    else:
        room = where.parsed(key, lambda: find(place, setting, figures))
    dry, wet = room.season.design_driest, room.season.design_wettest
    driest, wettest = _end_air(dry), _end_air(wet)
    label = (
        f"{room.label}: designed for {dry.moisture_pct:.1f} % (nearest to it in {dry.month.name}) "
        f"to {wet.moisture_pct:.1f} % (in {wet.month.name})"
    )
    return Use(driest, wettest, (Note("room-of-use", label), *room.notes), room, month)


def read_air(table: TomlTable, units: str) -> PieceAir:
    """A moisture content, given as such or as temperature and relative humidity.

    Parameters: table with the keys of AIR; units of bare temperatures.
    Raises: InputError naming file, table, key and problem.
    """
    if "moisture_pct" in table:
        for key in ("temperature", "humidity_pct"):
            if key in table:
                raise table.error(key, "give either moisture_pct or the air, not both")
        return PieceAir(table.number("moisture_pct", 0.0, FIBER_SATURATION_PCT, PERCENT))
    if "temperature" not in table and "humidity_pct" not in table:
        raise table.error(
            "moisture_pct", "is missing; write moisture_pct = 7, or temperature and humidity_pct"
        )
    low, high = EMC_TEMPERATURE_RANGE_C
    if "temperature" in table and isinstance(table.data["temperature"], str):
        text = table.text("temperature")
        celsius = table.parsed(
            "temperature", lambda: parse_temperature(text, "F" if units == "us" else "C")
        )
    else:
        bare = table.number("temperature", -500.0, 1000.0)
        celsius = (bare - 32.0) / 1.8 if units == "us" else bare
    if not low - 0.01 <= celsius <= high + 0.01:
        given, least, most = (KINDS["temperature"].text(x, units) for x in (celsius, low, high))
        raise table.error(
            "temperature",
            f"{given} is outside {least} to {most}, where the equation of equilibrium moisture "
            "content holds",
        )
    humidity = table.number("humidity_pct", 0.0, 99.0, PERCENT)
    moisture = float(equilibrium_moisture_content(celsius, humidity))
    if moisture > FIBER_SATURATION_PCT:
        raise table.error(
            "humidity_pct",
            f"this air brings wood to {moisture:.1f} %, above fiber saturation "
            f"({FIBER_SATURATION_PCT:g} %), where wood does not move",
        )
    return PieceAir(moisture, celsius, humidity)
