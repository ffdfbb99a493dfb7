"""The year of the air around a piece, and the moisture content wood comes to in it.

A setting turns the outdoor air of a month into the air of a room. A room is never still: beside
the expected course of a year stands the range a maker designs for, from the driest end of what
the room may come to, to the wettest.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import cos, pi
from typing import NamedTuple

from woodref.climate.settings import Machine, Setting, degrees
from woodref.display import Grid, Shown, number
from woodref.errors import InputError, UnitsError
from woodref.formulas.moisture import EMC_TEMPERATURE_RANGE_C
from woodref.formulas.room import (
    COOLING_BASE_C,
    DESIGN_LEAST_PCT,
    moisture_content_in_air,
    room_humidity,
    room_temperature,
)
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.note import Note
from woodref.quantity import Range
from woodref.record import record
from woodref.reference.places import COLDEST_C, HOTTEST_C, Weather
from woodref.units import either_unit, quantity_told

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
_EPSILON = 1e-3
#: An expected swing below this says nothing of when a room is dry [%].
_STILL_PCT = 0.5


class IndoorAir(NamedTuple):
    """The air of a room in a month: temperature [degC], humidity [%], and what holds it."""

    temperature_c: float
    humidities_pct: Range
    machine: Machine | None


class Month(NamedTuple):
    """A month in a setting: the air outdoors and in the room, and the EMC of wood in each.

    Temperatures [degC], humidities and moisture contents [%]; those of the room are what is
    expected, and the ends of what the room may come to. ``machine`` is what holds the humidity,
    None where nothing does. ``extrapolated`` and ``outdoor_extrapolated`` are true where that air
    is below 30 degF, where the printed table of equilibrium moisture content ends.
    """

    month: int
    outdoor_c: float
    outdoor_humidity_pct: float
    outdoor_emc_pct: float
    temperature_c: float
    humidities_pct: Range
    emcs_pct: Range
    machine: Machine | None
    extrapolated: bool
    outdoor_extrapolated: bool

    @property
    def name(self) -> str:
        """'January'."""
        return MONTH_NAMES[self.month - 1]

    @property
    def humidity_pct(self) -> float:
        """Expected relative humidity of the room [%]."""
        return self.humidities_pct.expected

    @property
    def emc_pct(self) -> float:
        """Moisture content wood is expected to come to in the room [%]."""
        return self.emcs_pct.expected


class DesignEnd(NamedTuple):
    """An end of the range to design for [%], and the month in which wood comes nearest to it.

    ``reached`` is true where the room may bring wood as far as that in this month, and false where
    only the least width of the range, or rain, goes so far.
    """

    moisture_pct: float
    month: Month
    reached: bool


@record(repr=False)
class Season(Shown):
    """Twelve months in a setting."""

    setting: Setting
    months: tuple[Month, ...]

    @property
    def driest(self) -> Month:
        """The month in which wood is expected to come to the least moisture content."""
        return min(self.months, key=lambda m: m.emc_pct)

    @property
    def wettest(self) -> Month:
        """The month in which it is expected to come to the most."""
        return max(self.months, key=lambda m: m.emc_pct)

    @property
    def mean_emc_pct(self) -> float:
        """Mean of the twelve months as expected [%]."""
        return sum(m.emc_pct for m in self.months) / len(self.months)

    @property
    def design_driest(self) -> DesignEnd:
        """The driest a maker designs for: the low end of the months, or DESIGN_LEAST_PCT off."""
        month = min(self.months, key=lambda m: m.emcs_pct.low)
        least = max(0.0, min(month.emcs_pct.low, self.mean_emc_pct - DESIGN_LEAST_PCT))
        return DesignEnd(least, month, month.emcs_pct.low <= least)

    @property
    def design_wettest(self) -> DesignEnd:
        """The wettest: the high end of the months, or DESIGN_LEAST_PCT off the mean.

        Fiber saturation where rain reaches the wood.
        """
        month = max(self.months, key=lambda m: m.emcs_pct.high)
        most = max(month.emcs_pct.high, self.mean_emc_pct + DESIGN_LEAST_PCT)
        if self.setting.figures.open_air:
            most = FIBER_SATURATION_PCT
        most = min(most, FIBER_SATURATION_PCT)
        return DesignEnd(most, month, month.emcs_pct.high >= most)

    @property
    def is_still(self) -> bool:
        """True where the expected course hardly moves, and no month is driest or wettest."""
        return self.wettest.emc_pct - self.driest.emc_pct < _STILL_PCT

    @property
    def design_pct(self) -> Range:
        """The mean of the year, and the driest and the wettest to design for [%]."""
        low, high = self.design_driest.moisture_pct, self.design_wettest.moisture_pct
        return Range(self.mean_emc_pct, low, high)

    @property
    def design_course_pct(self) -> tuple[float, ...]:
        """Moisture content of the months in a year that goes through the whole range [%].

        The expected course, stretched from its driest to its wettest month onto the range to
        design for; a cosine from the coldest month outdoors, half a year to its wettest, where the
        room hardly moves by itself.
        """
        low, high = self.design_driest.moisture_pct, self.design_wettest.moisture_pct
        dry, wet = self.driest, self.wettest
        span = wet.emc_pct - dry.emc_pct
        if not self.is_still:
            shares = [(m.emc_pct - dry.emc_pct) / span for m in self.months]
        else:
            first = min(self.months, key=lambda m: m.outdoor_c).month
            shares = [(1.0 - cos(2.0 * pi * (m.month - first) / 12.0)) / 2.0 for m in self.months]
        return tuple(low + (high - low) * share for share in shares)

    @property
    def held(self) -> dict[Machine, tuple[Month, ...]]:
        """The months in which each machine holds the humidity of the room."""
        by_machine = {m.machine for m in self.months if m.machine}
        return {
            machine: tuple(m for m in self.months if m.machine is machine)
            for machine in Machine
            if machine in by_machine
        }

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the figures of some months lack."""
        notes = []
        indoors = [MONTHS[m.month - 1] for m in self.months if m.extrapolated]
        outdoors = [MONTHS[m.month - 1] for m in self.months if m.outdoor_extrapolated]
        where = "in the room" if indoors and indoors != outdoors else "outdoors"
        if indoors or outdoors:
            end = EMC_TEMPERATURE_RANGE_C[0]
            notes.append(
                Note.told(
                    "emc-extrapolated",
                    lambda units: (
                        f"extrapolated {where}, below {degrees(round(end), units)} where the "
                        f"handbook's table ends: {', '.join(indoors or outdoors)}"
                    ),
                )
            )
        if any(m.outdoor_c < COLD_C for m in self.months):
            notes.append(
                Note.told(
                    "humidity-coarse",
                    lambda units: (
                        f"below {degrees(COLD_C, units)} outdoors the recorded humidity is "
                        "coarse: take those months as indicative"
                    ),
                )
            )
        return tuple(notes)

    def _line(self) -> str:
        design = self.design_pct
        return f"{self.setting.name}, design for {number(design.low)} to {number(design.high)} %"

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


def _no_month(celsius: float) -> UnitsError:
    return UnitsError(
        lambda units: (
            "a monthly mean temperature is "
            f"{either_unit(units, '-76 to 140 F', '-60 to 60 C')}, not "
            f"{quantity_told('temperature', celsius, units)}; check the unit"
        )
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
            raise _no_month(m.temperature_c).headed(f"{where}: {name}: ")
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


def indoor_air(setting: Setting, outdoor: Weather) -> IndoorAir:
    """The air of a room in a month.

    Parameters: setting; outdoor air.
    Source: woodref.formulas.room; the figures of the setting are common practice, no source.
    """
    f = setting.figures
    celsius = float(room_temperature(outdoor.temperature_c, f.warmer_c, f.heated_c, f.cooled_c))
    ceilings = {Machine.DEHUMIDIFIER: f.dehumidifier_pct}
    if outdoor.temperature_c > COOLING_BASE_C:
        ceilings[Machine.AIR_CONDITIONER] = f.cooler_pct
    ceiling = min(ceilings.values())

    def humidity(end: int) -> float:
        return float(f.humidity(outdoor.temperature_c, outdoor.humidity_pct, celsius, end))

    humidities = Range(humidity(0), humidity(-1), humidity(1))
    machine = None
    unheld = room_humidity(outdoor.temperature_c, outdoor.humidity_pct, celsius, f.gain_g_m3)
    if unheld > ceiling:
        machine = min(ceilings, key=lambda m: ceilings[m])
    elif unheld < f.humidifier_pct:
        machine = Machine.HUMIDIFIER
    return IndoorAir(celsius, humidities, machine)


def season(months: Sequence[Weather], setting: Setting) -> Season:
    """Air and equilibrium moisture content through the year, outdoors and in a setting.

    Parameters: months, twelve, in any order; setting.
    Returns: Season.
    Raises: InputError for a missing, doubled or impossible month.
    Source: FPL-GTR-282 (2021), Eq. 4-5; woodref.formulas.air.
    """
    coldest = EMC_TEMPERATURE_RANGE_C[0] - _EPSILON
    year = []
    for m in checked_months(months):
        air = indoor_air(setting, m)
        year.append(
            Month(
                month=m.month,
                outdoor_c=m.temperature_c,
                outdoor_humidity_pct=m.humidity_pct,
                outdoor_emc_pct=moisture_content_in_air(m.temperature_c, m.humidity_pct),
                temperature_c=air.temperature_c,
                humidities_pct=air.humidities_pct,
                emcs_pct=Range(
                    *(moisture_content_in_air(air.temperature_c, h) for h in air.humidities_pct)
                ),
                machine=air.machine,
                extrapolated=air.temperature_c < coldest,
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
