"""The air around a board in time: steady, or through a year that repeats."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, floor, pi
from typing import TYPE_CHECKING, NamedTuple

from woodref.drying.finish_fit import DAY_S
from woodref.formulas.air import saturation_vapor_pressure
from woodref.formulas.moisture import equilibrium_moisture_content, relative_humidity_for

if TYPE_CHECKING:
    from woodref.climate.seasons import Season

YEAR_DAYS = 365.0
MONTH_DAYS = YEAR_DAYS / 12.0
#: Temperature of a room where none is given [degC]; 68 degF.
ROOM_C = 20.0
#: Relative humidities between which the vapor over the wood is followed [%].
_HUMIDITY_PCT = (5.0, 95.0)


class AmbientAir(NamedTuple):
    """The air around a board in time: the moisture content it brings wood to, and its warmth.

    ``emc_pct`` [%] and ``temperature_c`` [degC] take a time [s]; ``low_pct``, ``high_pct`` the
    ends the moisture content moves between; ``mean_c`` [degC].
    """

    emc_pct: Callable[[float], float]
    temperature_c: Callable[[float], float]
    low_pct: float
    high_pct: float
    mean_c: float


def steady_air(moisture_pct: float, temperature_c: float, from_pct: float) -> AmbientAir:
    """Air that keeps wood at a moisture content, for a board that comes from another."""
    ends = sorted((moisture_pct, from_pct))
    return AmbientAir(
        lambda _: moisture_pct, lambda _: temperature_c, ends[0], ends[1], temperature_c
    )


def yearly_air(
    emc_pct: Sequence[float], temperature_c: Sequence[float], first: int = 1
) -> AmbientAir:
    """Air that repeats with the year, straight from the middle of one month to the next.

    Parameters: emc_pct, temperature_c of January to December [%, degC]; first month, at whose
    beginning the time is 0.
    """
    month_s = MONTH_DAYS * DAY_S

    def course(values: Sequence[float]) -> Callable[[float], float]:
        def at(time_s: float) -> float:
            since = time_s / month_s + (first - 1) - 0.5
            month = floor(since)
            share = since - month
            return (1.0 - share) * values[month % 12] + share * values[(month + 1) % 12]

        return at

    mean_c = sum(temperature_c) / 12.0
    return AmbientAir(course(emc_pct), course(temperature_c), min(emc_pct), max(emc_pct), mean_c)


def months_between(driest_pct: float, wettest_pct: float) -> tuple[float, ...]:
    """Twelve moisture contents of the air: a cosine, driest in January, wettest in July [%]."""
    share = [(1.0 - cos(2.0 * pi * n / 12.0)) / 2.0 for n in range(12)]
    return tuple(driest_pct + (wettest_pct - driest_pct) * s for s in share)


def vapor_per_pct(air: AmbientAir) -> float:
    """Change of the vapor pressure over wood with its moisture content [Pa per %].

    One slope for the whole range the air moves in.
    """
    ends = tuple(equilibrium_moisture_content(air.mean_c, h) for h in _HUMIDITY_PCT)
    low, high = (min(max(m, ends[0]), ends[1]) for m in (air.low_pct - 0.25, air.high_pct + 0.25))
    if high - low < 0.25:  # both beyond one end
        low, high = (ends[1] - 0.5, ends[1]) if low > ends[0] else (ends[0], ends[0] + 0.5)
    rise = relative_humidity_for(high, air.mean_c) - relative_humidity_for(low, air.mean_c)
    return float(saturation_vapor_pressure(air.mean_c) * rise / 100.0 / (high - low))


def air_of(season: Season) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Moisture content [%] and temperature [degC] of the months of a room, to design for."""
    return season.design_course_pct, tuple(m.temperature_c for m in season.months)
