"""Moist air: what happens to relative humidity when air is heated, cooled or given water.

Relative humidity is over liquid water at all temperatures, also below freezing, as weather
records give it; libraries for moist air take it over ice there.
Source of the vapor pressure: WMO-No. 8, Guide to Instruments and Methods of Observation,
annex 4.B; of the humidity ratio: the ideal-gas relations of any text on moist air.
"""

from __future__ import annotations

from woodref.formulas.engine import Q, exp, smaller

#: Pressure of the standard atmosphere at sea level [Pa] (ISO 2533).
STANDARD_PRESSURE_PA = 101_325.0
#: Mass of water vapor over that of dry air, for one volume, pressure and temperature.
VAPOR_TO_AIR = 0.621945
#: Temperatures for which the vapor pressure is given [degC].
VAPOR_PRESSURE_RANGE_C = (-45.0, 60.0)


def standard_pressure(elevation_m: Q) -> Q:
    """Compute the air pressure of the standard atmosphere at an elevation.

    Parameters
    ----------
    elevation_m : Q
        Above sea level [m], -500 to 11 000.

    Returns
    -------
    Q
        Pressure [Pa].

    Notes
    -----
    The standard atmosphere [1]_.

    References
    ----------
    .. [1] ISO 2533, Standard Atmosphere (1975).
    """
    return STANDARD_PRESSURE_PA * (1.0 - 2.25577e-5 * elevation_m) ** 5.2559


def saturation_vapor_pressure(temperature_c: Q) -> Q:
    """Compute the pressure of water vapor in saturated air, over liquid water.

    Parameters
    ----------
    temperature_c : Q
        Temperature of the air [degC], -45 to 60.

    Returns
    -------
    Q
        Vapor pressure [Pa].

    Notes
    -----
    ``6.112 hPa exp(17.62 t / (243.12 + t))`` [1]_. Chosen because weather records are made with it
    and because it is short: from 0 to 50 degC it lies within 0.3 % of the longer equations of
    other texts, far below the error of a humidity record.

    References
    ----------
    .. [1] World Meteorological Organization, Guide to Instruments and Methods of Observation,
       WMO-No. 8, annex 4.B, Magnus form.
    """
    return 611.2 * exp(17.62 * temperature_c / (243.12 + temperature_c))


def humidity_ratio(
    temperature_c: Q, relative_humidity_pct: Q, pressure_pa: Q = STANDARD_PRESSURE_PA
) -> Q:
    """Compute the mass of water vapor carried by a mass of dry air.

    Parameters
    ----------
    temperature_c : Q
        Temperature of the air [degC], -45 to 60.
    relative_humidity_pct : Q
        Relative humidity [%].
    pressure_pa : Q, optional
        Pressure of the air [Pa], well above that of the vapor.

    Returns
    -------
    Q
        Humidity ratio [g of water per kg of dry air].

    Notes
    -----
    Ideal gases: ``w = 0.621945 e / (p - e)``.
    """
    vapor = saturation_vapor_pressure(temperature_c) * relative_humidity_pct / 100.0
    return 1000.0 * VAPOR_TO_AIR * vapor / (pressure_pa - vapor)


def relative_humidity_of(
    ratio_g_kg: Q, temperature_c: Q, pressure_pa: Q = STANDARD_PRESSURE_PA
) -> Q:
    """Compute the relative humidity of air of a known humidity ratio, at most 100 %.

    Parameters
    ----------
    ratio_g_kg : Q
        Humidity ratio [g of water per kg of dry air].
    temperature_c : Q
        Temperature of the air [degC], -45 to 60.
    pressure_pa : Q, optional
        Pressure of the air [Pa].

    Returns
    -------
    Q
        Relative humidity [%], 0 to 100.

    Notes
    -----
    The inverse of humidity_ratio. Water beyond saturation condenses and is no longer in the air.
    """
    ratio = ratio_g_kg / 1000.0
    vapor = pressure_pa * ratio / (VAPOR_TO_AIR + ratio)
    return smaller(100.0 * vapor / saturation_vapor_pressure(temperature_c), 100.0)


def relative_humidity_after(
    temperature_c: Q,
    relative_humidity_pct: Q,
    to_temperature_c: Q,
    added_g_kg: Q = 0.0,
    pressure_pa: Q = STANDARD_PRESSURE_PA,
) -> Q:
    """Compute the relative humidity of air heated or cooled, and given water or not.

    Parameters
    ----------
    temperature_c, relative_humidity_pct : Q
        Air before [degC, %].
    to_temperature_c : Q
        Temperature after [degC].
    added_g_kg : Q, optional
        Water given to it [g per kg of dry air].
    pressure_pa : Q, optional
        Pressure of the air, the same before and after [Pa].

    Returns
    -------
    Q
        Relative humidity [%], at most 100.

    Notes
    -----
    The humidity ratio stays, but for the water added; holds where humidity_ratio does.
    """
    ratio = humidity_ratio(temperature_c, relative_humidity_pct, pressure_pa) + added_g_kg
    return relative_humidity_of(ratio, to_temperature_c, pressure_pa)
