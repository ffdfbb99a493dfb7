"""Moist air: the pressure of the vapor that saturates it.

Relative humidity is over liquid water at all temperatures, also below freezing, as weather
records give it; libraries for moist air take it over ice there.
Source: WMO-No. 8, Guide to Instruments and Methods of Observation, annex 4.B.
"""

from __future__ import annotations

from woodref.formulas.engine import Q, exp

#: Temperatures for which the vapor pressure is given [degC].
VAPOR_PRESSURE_RANGE_C = (-45.0, 60.0)


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
