"""What a user may change of a room: the same keys in a piece file, on the command line and here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from woodref.errors import InputError, UnitsError
from woodref.units import either_unit
from woodref.written import parse_percent, parse_temperature


class _Key(NamedTuple):
    """The figure of RoomFigures a key stands for, how it is read, and an example of it."""

    field: str
    parse: Callable[[str, str], float]
    example: str


def _percent(text: str, _: str) -> float:
    return parse_percent(text, "relative humidity")


def _number(text: str, _: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise InputError(f"'{text}' is not a number") from None


#: Keys in the order they are told.
ROOM_KEYS: dict[str, _Key] = {
    "heated_to": _Key("heated_c", parse_temperature, "68F"),
    "cooled_to": _Key("cooled_c", parse_temperature, "76F"),
    "vapor_gain_g_m3": _Key("gain_g_m3", _number, "4"),
    "humidifier_pct": _Key("humidifier_pct", _percent, "35"),
    "dehumidifier_pct": _Key("dehumidifier_pct", _percent, "50"),
    "cooler_pct": _Key("cooler_pct", _percent, "55"),
    "band_pct": _Key("band_pct", _percent, "10"),
}


def room_figures(given: Mapping[str, str], temperature_unit: str) -> dict[str, float]:
    """Figures of a room from the text of its keys.

    Parameters: given, text by key of ROOM_KEYS; temperature_unit of a bare temperature, 'C' or
    'F'.
    Returns: figures by the names of woodref.formulas.room.RoomFigures.
    Raises: InputError naming the key and the nearest one, or what is wrong with its value.
    """
    figures = {}
    for key, text in given.items():
        if key not in ROOM_KEYS:
            from woodref.files import did_you_mean

            raise InputError(f"a room has no {key}{did_you_mean(key, ROOM_KEYS)}")
        try:
            figures[ROOM_KEYS[key].field] = ROOM_KEYS[key].parse(text, temperature_unit)
        except InputError as error:
            raise error.headed(f"{key}: ") from None
    return figures


def read_room_option(values: list[str], temperature_unit: str) -> dict[str, float]:
    """Figures of a room from KEY=VALUE texts.

    Raises: InputError for a text without '=', a key given twice, and as room_figures.
    """
    given: dict[str, str] = {}
    for value in values:
        key, equals, text = (part.strip() for part in value.partition("="))
        if not (equals and text):
            raise UnitsError(
                lambda units, value=value: (  # type: ignore[misc]
                    "--room takes a key and a value, "
                    f"heated_to={either_unit(units, '68F', '20C')}, not '{value}'"
                )
            )
        if key in given:
            raise InputError(f"--room {key} is given twice")
        given[key] = text
    return room_figures(given, temperature_unit)
