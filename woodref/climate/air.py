"""Air that a person gives: whether the moisture content of wood in it is known, and what it is."""

from __future__ import annotations

from woodref.errors import InputError
from woodref.formulas.moisture import (
    EMC_TEMPERATURE_RANGE_C,
    equilibrium_moisture_content,
    relative_humidity_for,
)


def checked_air(temperature_c: float, relative_humidity_pct: float) -> tuple[float, float]:
    """Air for which the moisture content of wood is known.

    Parameters: temperature_c [degC]; relative_humidity_pct [%].
    Raises: InputError outside 30 to 200 degF or 0 to below 100 % relative humidity.
    """
    low, high = EMC_TEMPERATURE_RANGE_C
    if not low - 0.01 <= temperature_c <= high + 0.01:
        near = "30F" if temperature_c < low else "200F"
        raise InputError(
            f"air at {temperature_c * 1.8 + 32.0:.0f} F ({temperature_c:.0f} C) is outside 30 to "
            f"200 F (-1 to 93 C), the range in which the moisture content of wood was compared "
            f"with print; nearest: {near}"
        )
    if not 0.0 <= relative_humidity_pct < 100.0:
        raise InputError(
            f"a relative humidity is 0 to below 100 %, not {relative_humidity_pct:g}; in "
            "saturated air wood takes up water without end"
        )
    return temperature_c, relative_humidity_pct


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
    checked_air(temperature_c, 0.0)
    try:
        return float(relative_humidity_for(moisture_pct, temperature_c))
    except ValueError:
        most = equilibrium_moisture_content(temperature_c, 100.0)
        raise InputError(
            f"no air keeps wood at {moisture_pct:g} %: at this temperature damp air brings it to "
            f"{most:.0f} % at most, more is liquid water"
        ) from None
