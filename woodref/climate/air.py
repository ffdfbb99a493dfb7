"""Air that a person gives: whether the moisture content of wood in it is known, and what it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.arrays import common_index, numbers, one_shape, refuse_first, within
from woodref.errors import InputError, UnitsError
from woodref.formulas.moisture import (
    EMC_TEMPERATURE_RANGE_C,
    equilibrium_moisture_content,
    relative_humidity_for,
)
from woodref.units import either_unit, quantity_told

if TYPE_CHECKING:
    from woodref.arrays import Flags, Floats, Numbers

#: What a temperature may lie outside the range by, so that its rounded ends are in it [degC].
_ROUNDED = 0.01


def checked_air(temperature_c: float, relative_humidity_pct: float) -> tuple[float, float]:
    """Air for which the moisture content of wood is known.

    Parameters: temperature_c [degC]; relative_humidity_pct [%].
    Raises: InputError outside 30 to 200 degF or 0 to below 100 % relative humidity.
    """
    _check_temperature(temperature_c)
    if not 0.0 <= relative_humidity_pct < 100.0:
        raise InputError(
            f"a relative humidity is 0 to below 100 %, not {relative_humidity_pct:g}; in "
            "saturated air wood takes up water without end"
        )
    return temperature_c, relative_humidity_pct


def _check_temperature(temperature_c: float) -> None:
    low, high = EMC_TEMPERATURE_RANGE_C
    if not low - _ROUNDED <= temperature_c <= high + _ROUNDED:
        nearest = ("30F", "-1C") if temperature_c < low else ("200F", "93C")

        def say(units: str) -> str:
            air = quantity_told("temperature", temperature_c, units)
            outside = either_unit(units, "30 to 200 F", "-1 to 93 C")
            return (
                f"air at {air} is outside {outside}, the range in which the moisture content of "
                f"wood was compared with print; nearest: {either_unit(units, *nearest)}"
            )

        raise UnitsError(say)


def moisture_in_air(temperature_c: float, relative_humidity_pct: float) -> float:
    """The moisture content wood comes to in air [%].

    Parameters and errors: as checked_air.
    Source: woodref.formulas.moisture.equilibrium_moisture_content.
    """
    checked_air(temperature_c, relative_humidity_pct)
    return float(equilibrium_moisture_content(temperature_c, relative_humidity_pct))


def humidity_to_keep(moisture_pct: float, temperature_c: float) -> float:
    """The relative humidity of the air that keeps wood at a moisture content [%].

    Parameters: moisture_pct wanted [%]; temperature_c of the air [degC].
    Raises: InputError as checked_air, and for a moisture content that no air keeps wood at.
    Source: woodref.formulas.moisture.relative_humidity_for.
    """
    _check_temperature(temperature_c)
    try:
        return float(relative_humidity_for(moisture_pct, temperature_c))
    except ValueError:
        most = equilibrium_moisture_content(temperature_c, 100.0)
        raise InputError(
            f"no air keeps wood at {moisture_pct:g} %: at this temperature damp air brings it to "
            f"{most:.0f} % at most, more is liquid water"
        ) from None


def moistures_in_air(temperature_c: Numbers, relative_humidity_pct: Numbers) -> Floats:
    """moisture_in_air, element by element of arrays whose shapes go together."""
    temperature, humidity = _stretched(temperature_c, relative_humidity_pct, "relative humidity")
    good = _warm(temperature) & (humidity >= 0.0) & (humidity < 100.0)
    refuse_first(good, lambda at: checked_air(temperature[at], humidity[at]))
    emc: Floats = equilibrium_moisture_content(temperature, humidity)
    return emc


def humidities_to_keep(moisture_pct: Numbers, temperature_c: Numbers) -> Floats:
    """humidity_to_keep, element by element of arrays whose shapes go together."""
    temperature, emc = _stretched(temperature_c, moisture_pct, "moisture content")
    most = equilibrium_moisture_content(temperature, 100.0)
    good = _warm(temperature) & (emc >= 0.0) & (emc < most)
    refuse_first(good, lambda at: humidity_to_keep(emc[at], temperature[at]))
    humidity: Floats = relative_humidity_for(emc, temperature)
    return humidity


def _warm(temperature_c: Floats) -> Flags:
    low, high = EMC_TEMPERATURE_RANGE_C
    return within(temperature_c, low - _ROUNDED, high + _ROUNDED)


def _stretched(temperature_c: Numbers, other: Numbers, name: str) -> tuple[Floats, Floats]:
    common_index((temperature_c, other))
    first, second = numbers("temperature", temperature_c), numbers(name, other)
    stretched = one_shape(first, second, names=("temperature", name))
    return stretched[0], stretched[1]
