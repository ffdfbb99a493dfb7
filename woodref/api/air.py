"""Moisture content of wood in air, and of a sample."""

from __future__ import annotations

from typing import TYPE_CHECKING, overload

from woodref.arrays import is_array, one
from woodref.climate.air import (
    humidities_to_keep,
    humidity_to_keep,
    moisture_in_air,
    moistures_in_air,
)
from woodref.errors import InputError
from woodref.formulas.moisture import METER_CALIBRATION_C
from woodref.moisture_readings import corrected_reading, sample_moisture

if TYPE_CHECKING:
    from woodref.arrays import Floats, Numbers

# Where every argument is a single value the first overload is the one that holds, so that the
# two overlap by design.


@overload
def emc(  # type: ignore[overload-overlap]
    temperature_c: float, relative_humidity_pct: float
) -> float: ...


@overload
def emc(temperature_c: Numbers, relative_humidity_pct: Numbers) -> Floats: ...


def emc(temperature_c: Numbers, relative_humidity_pct: Numbers) -> float | Floats:
    """Compute the equilibrium moisture content: what wood comes to in air held constant.

    Parameters
    ----------
    temperature_c : float or array_like
        Temperature of the air [degC], -1 to 93.
    relative_humidity_pct : float or array_like
        Relative humidity of the air [%], 0 to below 100.

    Returns
    -------
    float or numpy.ndarray
        Moisture content [%]. An array, of the one shape that the arguments go together to,
        where one of them is an array, a list or a series.

    Raises
    ------
    InputError
        For air outside the range compared with print; of arrays the first one is named.

    Notes
    -----
    The Hailwood-Horrobin equation [1]_: one average curve for all woods, between drying and
    taking up moisture.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.

    Examples
    --------
    >>> import woodref
    >>> round(woodref.emc(20.0, 50.0), 1)
    9.3
    >>> woodref.emc(20.0, [30.0, 50.0]).round(1)
    array([6.2, 9.3])
    """
    if is_array(temperature_c) or is_array(relative_humidity_pct):
        return moistures_in_air(temperature_c, relative_humidity_pct)
    return moisture_in_air(one(temperature_c), one(relative_humidity_pct))


@overload
def humidity_for(  # type: ignore[overload-overlap]
    emc_pct: float, temperature_c: float
) -> float: ...


@overload
def humidity_for(emc_pct: Numbers, temperature_c: Numbers) -> Floats: ...


def humidity_for(emc_pct: Numbers, temperature_c: Numbers) -> float | Floats:
    """Compute the relative humidity that keeps wood at a moisture content: the inverse of emc.

    Parameters
    ----------
    emc_pct : float or array_like
        Moisture content to keep [%].
    temperature_c : float or array_like
        Temperature of the air [degC], -1 to 93.

    Returns
    -------
    float or numpy.ndarray
        Relative humidity [%]; an array as :func:`woodref.emc`.

    Raises
    ------
    InputError
        Where no air keeps wood at that moisture content, and as :func:`woodref.emc`.
    """
    if is_array(emc_pct) or is_array(temperature_c):
        return humidities_to_keep(emc_pct, temperature_c)
    return humidity_to_keep(one(emc_pct), one(temperature_c))


def moisture(
    *,
    wet_kg: float | None = None,
    dry_kg: float | None = None,
    meter_pct: float | None = None,
    temperature_c: float | None = None,
    calibration_c: float = METER_CALIBRATION_C,
) -> float:
    """Compute the moisture content of a sample, from two weighings or a resistance meter.

    Parameters
    ----------
    wet_kg, dry_kg : float, optional
        Mass of the sample before and after ovendrying [kg, or any one unit of mass].
    meter_pct : float, optional
        In place of both, the reading of a resistance meter [%], 6 to 30.
    temperature_c : float, optional
        With a reading, the temperature of the wood [degC].
    calibration_c : float, optional
        The temperature the meter is made for [degC], 21.1 where nothing is said (common
        practice, no source).

    Returns
    -------
    float
        Moisture content [% of ovendry mass]; from a meter within about 1 % of the true average
        at best.

    Raises
    ------
    InputError
        Where neither both masses nor a reading with its temperature are given, and for masses
        or readings that cannot be.

    Notes
    -----
    0.5 % is added to a reading for each 5.6 degC the wood is colder than the meter was
    calibrated at, and taken off when warmer [1]_. The meter's own correction for the species
    comes on top.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), p. 13-3.

    Examples
    --------
    >>> import woodref
    >>> round(woodref.moisture(wet_kg=0.412, dry_kg=0.371), 1)
    11.1
    """
    weighed, metered = (wet_kg, dry_kg), (meter_pct, temperature_c)
    if None not in weighed and metered == (None, None):
        return sample_moisture(one(wet_kg), one(dry_kg))
    if None not in metered and weighed == (None, None):
        return corrected_reading(one(meter_pct), one(temperature_c), calibration_c)
    raise InputError("give wet_kg and dry_kg, or meter_pct and temperature_c")
