"""The year of the air around a piece, and the moisture content wood comes to in it.

A setting turns the outdoor air of a month into the air of a room. Every figure of a setting
is common practice without a source and can be changed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from math import cos, pi

from woodref.display import Grid, Shown, number
from woodref.errors import InputError
from woodref.formulas.air import STANDARD_PRESSURE_PA, standard_pressure
from woodref.formulas.moisture import EMC_TEMPERATURE_RANGE_C
from woodref.formulas.room import (
    ROOM_FIGURES,
    moisture_content_in_air,
    room_humidity,
    room_temperature,
)
from woodref.note import Note
from woodref.reference.places import Weather

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
MONTH_NAMES = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
#: Below this the vapor pressure of a record has one or two digits [degC].
COLD_C = -20.0
#: Monthly means of the air outside these are a slip of unit [degC].
COLDEST_C, HOTTEST_C = -60.0, 60.0
_EPSILON = 1e-3


@dataclass(frozen=True)
class Setting:
    """A kind of room: how it changes the outdoor air of a month.

    The figures are those of woodref.formulas.room.RoomFigures.
    """

    name: str
    indoor_c: float | None = None
    cooled_c: float | None = None
    warmer_c: float = 0.0
    added_g_kg: float = 0.0
    low_pct: float = 0.0
    high_pct: float = 100.0

    @property
    def slug(self) -> str:
        """The name as the command line writes it: 'heated-house'."""
        return self.name.replace(" ", "-")

    @property
    def rule(self) -> str:
        """The setting in a sentence without its end."""
        said = []
        if self.indoor_c is not None and self.indoor_c == self.cooled_c:
            said.append(f"{_degrees(self.indoor_c)} all year")
        else:
            if self.indoor_c is not None:
                said.append(f"the warmer of {_degrees(self.indoor_c)} and the outdoor mean")
            if self.cooled_c is not None:
                said.append(f"cooled to {_degrees(self.cooled_c)} at most")
        if self.warmer_c:
            said.append(f"{self.warmer_c:g} C ({self.warmer_c * 1.8:g} F) above the outdoor mean")
        said = said or ["the outdoor temperature"]
        water = f"outdoor air plus {self.added_g_kg:g} g of water per kg" if self.added_g_kg else ""
        said.append(water or "the moisture of the outdoor air")
        if self.low_pct > 0.0 or self.high_pct < 100.0:
            said.append(f"relative humidity held between {self.low_pct:g} and {self.high_pct:g} %")
        return ", ".join(said)


#: The settings, by name; their figures are common practice, no source.
SETTINGS: dict[str, Setting] = {
    name: Setting(name, **figures._asdict()) for name, figures in ROOM_FIGURES.items()
}


@dataclass(frozen=True)
class Month:
    """A month in a setting: the air outdoors and in the room, and the EMC of wood in each.

    Temperatures [degC], humidities and moisture contents [%]. ``extrapolated`` and
    ``outdoor_extrapolated`` are true where that air is below 30 degF, where the printed table
    of equilibrium moisture content ends.
    """

    month: int
    outdoor_c: float
    outdoor_humidity_pct: float
    outdoor_emc_pct: float
    temperature_c: float
    humidity_pct: float
    emc_pct: float
    extrapolated: bool
    outdoor_extrapolated: bool

    @property
    def name(self) -> str:
        """'January'."""
        return MONTH_NAMES[self.month - 1]


@dataclass(frozen=True, repr=False)
class Season(Shown):
    """Twelve months in a setting."""

    setting: Setting
    months: tuple[Month, ...]

    @property
    def driest(self) -> Month:
        """The month in which wood comes to the least moisture content."""
        return min(self.months, key=lambda m: m.emc_pct)

    @property
    def wettest(self) -> Month:
        """The month in which it comes to the most."""
        return max(self.months, key=lambda m: m.emc_pct)

    @property
    def mean_emc_pct(self) -> float:
        """Mean of the twelve months [%]."""
        return sum(m.emc_pct for m in self.months) / len(self.months)

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the figures of some months lack."""
        notes = []
        indoors = [MONTHS[m.month - 1] for m in self.months if m.extrapolated]
        outdoors = [MONTHS[m.month - 1] for m in self.months if m.outdoor_extrapolated]
        where = "in the room" if indoors and indoors != outdoors else "outdoors"
        if indoors or outdoors:
            text = (
                f"extrapolated {where}, below 30 F (-1 C) where the handbook's table ends: "
                f"{', '.join(indoors or outdoors)}"
            )
            notes.append(Note("emc-extrapolated", text))
        if any(m.outdoor_c < COLD_C for m in self.months):
            text = (
                f"below {COLD_C:g} C outdoors the recorded humidity is coarse: take those months "
                "as indicative"
            )
            notes.append(Note("humidity-coarse", text))
        return tuple(notes)

    def _line(self) -> str:
        dry, wet = self.driest.emc_pct, self.wettest.emc_pct
        return f"{self.setting.name}, wood from {number(dry)} to {number(wet)} %"

    def _grid(self) -> Grid:
        columns = ("month", "outdoors [degC]", "humidity [%]", "room [degC]", "humidity [%]")
        return Grid(
            (*columns, "wood [%]"),
            (
                (
                    m.name,
                    m.outdoor_c,
                    m.outdoor_humidity_pct,
                    m.temperature_c,
                    m.humidity_pct,
                    m.emc_pct,
                )
                for m in self.months
            ),
        )


def _degrees(celsius: float) -> str:
    return f"{celsius:.3g} C ({celsius * 1.8 + 32.0:.3g} F)"


def setting_of(name: str) -> Setting:
    """The setting of a name, with spaces or hyphens.

    Raises: InputError with the nearest one.
    """
    by_key = {s.slug: s for s in SETTINGS.values()}
    key = "-".join(name.lower().replace("-", " ").split())
    if key in by_key:
        return by_key[key]
    from woodref.files import nearest

    hint = nearest(key, by_key, f"use {', '.join(by_key)}")
    raise InputError(f"no setting '{name}'; {hint}")


def changed(setting: Setting, **figures: float | None) -> Setting:
    """The setting with some of its figures replaced; None leaves a figure as it is.

    A temperature given for the room replaces the rule of a room that has none; where the room
    is also cooled, the cooling limit does not stay below it.

    Raises: InputError for figures that make no room; TypeError for an unknown figure.
    """
    known = {f.name for f in fields(Setting)} - {"name"}
    if unknown := set(figures) - known:
        raise TypeError(f"a setting has no {', '.join(sorted(unknown))}")
    given = {k: v for k, v in figures.items() if v is not None}
    new = replace(setting, **given)  # type: ignore[arg-type]
    if "indoor_c" in given:
        new = replace(new, warmer_c=0.0)
        steady = setting.indoor_c is not None and setting.indoor_c == setting.cooled_c
        if new.cooled_c is not None and (steady or new.cooled_c < given["indoor_c"]):
            new = replace(new, cooled_c=given["indoor_c"])
    _check(new)
    return new


def _check(setting: Setting) -> None:
    low, high = setting.low_pct, setting.high_pct
    for name, value in (("lowest", low), ("highest", high)):
        if not 0.0 <= value <= 100.0:
            raise InputError(f"the {name} relative humidity is 0 to 100 %, not {value:g}")
    if low > high:
        raise InputError(
            f"the lowest relative humidity {low:g} % is above the highest {high:g} %; exchange them"
        )
    if setting.indoor_c is not None and not -20.0 <= setting.indoor_c <= 60.0:
        raise InputError(f"a room is held at -20 to 60 C, not {setting.indoor_c:g} C")
    if not 0.0 <= setting.added_g_kg <= 20.0:
        raise InputError(
            f"the water added is 0 to 20 g per kg of air, not {setting.added_g_kg:g}; a lived-in "
            "house adds about 2"
        )


def checked_months(months: Sequence[Weather], where: str = "the figures") -> tuple[Weather, ...]:
    """Twelve months in order, each once, each with possible air.

    Raises: InputError naming the month that is missing, there twice or impossible.
    """
    by_month: dict[int, Weather] = {}
    for m in months:
        if m.month not in range(1, 13):
            raise InputError(f"{where}: a month is 1 to 12, not {m.month}")
        name = MONTH_NAMES[m.month - 1]
        if m.month in by_month:
            raise InputError(f"{where}: {name} is there twice")
        if not 0.0 <= m.humidity_pct <= 100.0:
            raise InputError(
                f"{where}: {name}: a relative humidity is 0 to 100 %, not {m.humidity_pct:g}"
            )
        if not COLDEST_C <= m.temperature_c <= HOTTEST_C:
            raise InputError(
                f"{where}: {name}: a monthly mean temperature is -60 to 60 C (-76 to 140 F), not "
                f"{m.temperature_c:.0f} C ({m.temperature_c * 1.8 + 32.0:.0f} F); check the unit"
            )
        by_month[m.month] = m
    missing = [MONTH_NAMES[n - 1] for n in range(1, 13) if n not in by_month]
    if missing:
        verb = "is" if len(missing) == 1 else "are"
        raise InputError(f"{where}: {', '.join(missing)} {verb} missing; give all twelve months")
    return tuple(by_month[n] for n in range(1, 13))


def two_seasons(
    winter: tuple[float, float], summer: tuple[float, float], southern: bool = False
) -> tuple[Weather, ...]:
    """Twelve months from the air of two seasons: a cosine from January to July.

    Parameters: winter, summer temperature [degC] and relative humidity [%] at their depth;
    southern exchanges them, winter being in July there.
    Source: our own interpolation.
    """
    first, second = (summer, winter) if southern else (winter, summer)
    months = []
    for n in range(12):
        share = (1.0 - cos(2.0 * pi * n / 12.0)) / 2.0
        celsius, humidity = (a + (b - a) * share for a, b in zip(first, second, strict=True))
        months.append(Weather(n + 1, celsius, humidity))
    return checked_months(months)


def indoor_air(
    setting: Setting, outdoor: Weather, pressure_pa: float = STANDARD_PRESSURE_PA
) -> tuple[float, float]:
    """Temperature [degC] and relative humidity [%] of a room in a month.

    Parameters: setting; outdoor air; pressure_pa of the air [Pa].
    Source: woodref.formulas.room; the figures of the setting are common practice, no source.
    """
    celsius = room_temperature(
        outdoor.temperature_c, setting.warmer_c, setting.indoor_c, setting.cooled_c
    )
    humidity = room_humidity(
        outdoor.temperature_c,
        outdoor.humidity_pct,
        celsius,
        setting.added_g_kg,
        setting.low_pct,
        setting.high_pct,
        pressure_pa,
    )
    return float(celsius), float(humidity)


def season(months: Sequence[Weather], setting: Setting, elevation_m: float = 0.0) -> Season:
    """Air and equilibrium moisture content through the year, outdoors and in a setting.

    Parameters: months, twelve, in any order; setting; elevation_m of the place [m], which
    sets the pressure of the air.
    Returns: Season.
    Raises: InputError for a missing, doubled or impossible month.
    Source: FPL-GTR-282 (2021), Eq. 4-5; woodref.formulas.air.
    """
    pressure = standard_pressure(elevation_m)
    coldest = EMC_TEMPERATURE_RANGE_C[0] - _EPSILON
    year = []
    for m in checked_months(months):
        celsius, humidity = indoor_air(setting, m, pressure)
        year.append(
            Month(
                month=m.month,
                outdoor_c=m.temperature_c,
                outdoor_humidity_pct=m.humidity_pct,
                outdoor_emc_pct=moisture_content_in_air(m.temperature_c, m.humidity_pct),
                temperature_c=celsius,
                humidity_pct=humidity,
                emc_pct=moisture_content_in_air(celsius, humidity),
                extrapolated=celsius < coldest,
                outdoor_extrapolated=m.temperature_c < coldest,
            )
        )
    return Season(setting, tuple(year))


def month_number(text: str) -> int:
    """The number of a month, 1 to 12, from its number or its name, at least three letters.

    Raises: InputError for anything else, with the nearest name where there is one.
    """
    asked = text.strip().lower()
    if number := re.fullmatch(r"0*([1-9]|1[0-2])", asked):
        return int(number[1])
    names = [name.lower() for name in MONTH_NAMES]
    begun = [n for n, name in enumerate(names, 1) if name.startswith(asked)]
    if len(asked) >= 3 and len(begun) == 1:
        return begun[0]
    from woodref.files import closest

    near = closest(asked, names)
    way_on = f"nearest: {near.capitalize()}" if near else "write 1 to 12, or a name such as Jan"
    raise InputError(f"'{text}' is not a month; {way_on}")
