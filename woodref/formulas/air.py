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
    """Air pressure of the standard atmosphere at an elevation.

    Parameters: elevation_m above sea level [m].
    Returns: pressure [Pa].
    Valid: -500 to 11 000 m.
    Source: standard atmosphere, ISO 2533 (1975).
    """
    return STANDARD_PRESSURE_PA * (1.0 - 2.25577e-5 * elevation_m) ** 5.2559


def saturation_vapor_pressure(temperature_c: Q) -> Q:
    """Pressure of water vapor in saturated air, over liquid water.

    Chosen because weather records are made with it and because it is short: from 0 to 50 degC
    it lies within 0.3 % of the longer equations of other texts, far below the error of a
    humidity record.

    Parameters: temperature_c [degC].
    Returns: vapor pressure [Pa].
    Valid: -45 to 60 degC.
    Source: WMO-No. 8, annex 4.B, Magnus form: 6.112 hPa exp(17.62 t / (243.12 + t)).
    """
    return 611.2 * exp(17.62 * temperature_c / (243.12 + temperature_c))


def humidity_ratio(
    temperature_c: Q, relative_humidity_pct: Q, pressure_pa: Q = STANDARD_PRESSURE_PA
) -> Q:
    """Mass of water vapor carried by a mass of dry air.

    Parameters: temperature_c [degC]; relative_humidity_pct [%]; pressure_pa of the air [Pa].
    Returns: humidity ratio [g of water per kg of dry air].
    Valid: -45 to 60 degC, vapor pressure well below the pressure of the air.
    Source: ideal gases: w = 0.621945 e / (p - e).
    """
    vapor = saturation_vapor_pressure(temperature_c) * relative_humidity_pct / 100.0
    return 1000.0 * VAPOR_TO_AIR * vapor / (pressure_pa - vapor)


def relative_humidity_of(
    ratio_g_kg: Q, temperature_c: Q, pressure_pa: Q = STANDARD_PRESSURE_PA
) -> Q:
    """Relative humidity of air of a known humidity ratio, at most 100 %.

    Water beyond saturation condenses and is no longer in the air.

    Parameters: ratio_g_kg [g of water per kg of dry air]; temperature_c [degC];
    pressure_pa [Pa].
    Returns: relative humidity [%], 0 to 100.
    Valid: as humidity_ratio.
    Source: inverse of humidity_ratio.
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
    """Relative humidity of air that was heated or cooled, and given water or not.

    Parameters: temperature_c, relative_humidity_pct of the air before [degC, %];
    to_temperature_c after [degC]; added_g_kg water given to it [g per kg of dry air];
    pressure_pa, the same before and after [Pa].
    Returns: relative humidity [%], at most 100.
    Valid: as humidity_ratio.
    Source: constant humidity ratio, but for the water added.
    """
    ratio = humidity_ratio(temperature_c, relative_humidity_pct, pressure_pa) + added_g_kg
    return relative_humidity_of(ratio, to_temperature_c, pressure_pa)
