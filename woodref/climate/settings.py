"""Kinds of rooms: how each changes the outdoor air, and what a user may change of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from typing import Any

from woodref.errors import InputError, UnitsError
from woodref.formulas.room import COOLING_BASE_C, HOT_C, OPEN_WINDOWS_C, ROOM_FIGURES, RoomFigures
from woodref.note import Note
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.places import Weather
from woodref.units import either_unit, quantity_told


class Machine(Enum):
    """What holds the humidity of a room, by the words for it."""

    AIR_CONDITIONER = "air conditioner"
    HUMIDIFIER = "humidifier"
    DEHUMIDIFIER = "dehumidifier"


@record
class Setting:
    """A kind of room, by its name, and its figures."""

    name: str
    figures: RoomFigures

    @property
    def slug(self) -> str:
        """The name as the command line writes it: 'heated-house'."""
        return self.name.replace(" ", "-")

    @property
    def is_outdoors(self) -> bool:
        """True where the air is that outdoors, under cover or in the open."""
        f = self.figures
        return f.heated_c is None and f.cooled_c is None and f.warmer_c == 0.0

    def rule(self, units: str) -> str:
        """The setting in a sentence without its end, in the units 'us' or 'si'."""
        f = self.figures
        said = [_temperature_rule(f, units)]
        if f.gain_g_m3:
            low, high = max(0.0, f.gain_g_m3 - f.gain_band_g_m3), f.gain_g_m3 + f.gain_band_g_m3
            said.append(
                f"cooking, showers and breathing add {f.gain_g_m3:g} g/m3 of moisture in frost "
                f"({low:g} to {high:g}), none from "
                f"{degrees(OPEN_WINDOWS_C, units)} outdoors on"
            )
        for machine, point in machines(f).items():
            end = "at least" if machine is Machine.HUMIDIFIER else "at most"
            where = f" in months over {degrees(COOLING_BASE_C, units)}"
            months = where if machine is Machine.AIR_CONDITIONER else ""
            band = f"{max(0.0, point - f.band_pct):g} to {min(100.0, point + f.band_pct):g} %"
            said.append(f"the {machine.value} holds {point:g} % {end} ({band}){months}")
        if f.open_air:
            said.append("rain and sun on it")
        return ", ".join(said)


#: The settings, by name; their figures are common practice, no source.
SETTINGS: dict[str, Setting] = {name: Setting(name, f) for name, f in ROOM_FIGURES.items()}


def machines(figures: RoomFigures) -> dict[Machine, float]:
    """The machines of a room, each with the relative humidity it is set to [%]."""
    points = {
        Machine.AIR_CONDITIONER: (figures.cooler_pct, 100.0),
        Machine.HUMIDIFIER: (figures.humidifier_pct, 0.0),
        Machine.DEHUMIDIFIER: (figures.dehumidifier_pct, 100.0),
    }
    return {machine: point for machine, (point, none) in points.items() if point != none}


def degrees(celsius: float, units: str) -> str:
    """A temperature of a rule in the units 'us' or 'si': '70 F', '21 C'."""
    return f"{celsius * 1.8 + 32.0:.0f} F" if units == "us" else f"{celsius:g} C"


def _temperature_rule(f: RoomFigures, units: str) -> str:
    if f.heated_c is not None and f.heated_c == f.cooled_c:
        return f"{degrees(f.heated_c, units)} all year"
    said = []
    if f.heated_c is not None:
        said.append(f"heated to {degrees(f.heated_c, units)}")
    if f.cooled_c is not None:
        said.append(f"cooled to {degrees(f.cooled_c, units)}")
    if f.warmer_c:
        above = f"{f.warmer_c * 1.8:g} F" if units == "us" else f"{f.warmer_c:g} C"
        said.append(f"{above} above the outdoor mean")
    return " and ".join(said) or "the air outdoors"


def setting_rule(setting: Setting, more: str = "") -> Note:
    """The remark that tells the rule of a setting, and more about it."""
    return Note.told(
        "setting-rule",
        lambda units: f"{setting.name}: {setting.rule(units)}{more}",
        COMMON_PRACTICE,
    )


#: What people call rooms that are no settings by name, and the settings such a room may be.
_WORDS = {
    "porch": ("outdoors-under-cover", "unheated-shop where it is closed in"),
    "garage": ("unheated-shop", "heated-house where it is heated"),
    "shop": ("unheated-shop", "heated-house where it is heated"),
    "house": ("heated-house", "air-conditioned-house"),
}


def setting_of(name: str) -> Setting:
    """The setting of a name, with spaces or hyphens.

    Raises: InputError with the nearest one.
    """
    by_key = {s.slug: s for s in SETTINGS.values()}
    key = "-".join(name.lower().replace("-", " ").split())
    if key in by_key:
        return by_key[key]
    from woodref.files import nearest

    if key in _WORDS:
        raise InputError(f"no setting '{name}'; a {name.strip()} is {' or '.join(_WORDS[key])}")
    hint = nearest(key, by_key, f"use {', '.join(by_key)}")
    raise InputError(f"no setting '{name}'; {hint}")


def usual_setting(months: Sequence[Weather]) -> Setting:
    """The setting of a climate where none is named: a hot place is not a heated house.

    Parameters: months of outdoor air.
    Source: common practice, no source.
    """
    hot = max(m.temperature_c for m in months) > HOT_C
    return SETTINGS["air-conditioned house" if hot else "heated house"]


def changed(setting: Setting, figures: Mapping[str, float]) -> Setting:
    """The setting with some of its figures replaced.

    A temperature it is heated to replaces the rule of a room that has none; where the room is
    also cooled, the cooling limit does not stay below it.

    Parameters: setting; figures by the names of RoomFigures.
    Raises: InputError for figures that make no room.
    """
    given: dict[str, Any] = dict(figures)
    old = setting.figures
    if "heated_c" in given:
        given["warmer_c"] = 0.0
        steady = old.heated_c is not None and old.heated_c == old.cooled_c
        if "cooled_c" not in given and old.cooled_c is not None:
            warmest = given["heated_c"] if steady else max(old.cooled_c, given["heated_c"])
            given["cooled_c"] = warmest
    if "gain_g_m3" in given:  # the classes of the standard are twice this wide
        given["gain_band_g_m3"] = min(given["gain_g_m3"], 2.0)
    new = Setting(setting.name, old._replace(**given))
    _check(new.figures)
    return new


def _check(f: RoomFigures) -> None:
    """Refuse figures that make no room."""
    for machine, point in machines(f).items():
        if not 0.0 <= point <= 100.0:
            raise InputError(f"a relative humidity is 0 to 100 %, not {point:g} ({machine.value})")
    if f.humidifier_pct > f.dehumidifier_pct:
        raise InputError(
            f"the humidifier's {f.humidifier_pct:g} % is above the dehumidifier's "
            f"{f.dehumidifier_pct:g} %; exchange them"
        )
    for word, celsius in (("heated", f.heated_c), ("cooled", f.cooled_c)):
        if celsius is not None and not -20.0 <= celsius <= 60.0:
            raise _no_room(word, celsius)
    if f.heated_c is not None and f.cooled_c is not None and f.heated_c > f.cooled_c:
        ends = f.heated_c, f.cooled_c

        def say(units: str) -> str:
            heated, cooled = (quantity_told("temperature", end, units) for end in ends)
            return f"the room is heated to {heated} and cooled to {cooled}; exchange them"

        raise UnitsError(say)
    if not 0.0 <= f.gain_g_m3 <= 15.0:
        raise InputError(
            "cooking, showers and breathing add 0 to 15 g/m3 of moisture, not "
            f"{f.gain_g_m3:g}; a dwelling about 4"
        )
    if not 0.0 <= f.band_pct <= 50.0:
        raise InputError(
            f"a machine holds within 0 to 50 % of its set point, not {f.band_pct:g}; usual is 10"
        )


def _no_room(word: str, celsius: float) -> UnitsError:
    return UnitsError(
        lambda units: (
            f"a room is {word} to {either_unit(units, '-4 to 140 F', '-20 to 60 C')}, not "
            f"{quantity_told('temperature', celsius, units)}"
        )
    )
