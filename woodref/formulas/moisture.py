"""Moisture content of wood, and the air it is in equilibrium with.

Sources: Wood Handbook FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 4.
"""

from __future__ import annotations

from woodref.formulas.engine import Q, choose

#: Temperatures between which the EMC equation is checked against Table 4-2: 30 to 200 degF.
EMC_TEMPERATURE_RANGE_C = ((30.0 - 32.0) / 1.8, (200.0 - 32.0) / 1.8)
#: Specific gravity of cell-wall substance (FPL-GTR-282, p. 4-3).
CELL_WALL_SPECIFIC_GRAVITY = 1.54
#: Moisture contents between which a resistance meter can be used [%] (FPL-GTR-190, p. 13-3).
METER_RANGE_PCT = (6.0, 30.0)
#: Temperature a resistance meter is taken to be calibrated at, 70 degF (common practice, no
#: source: the meter's own instructions say).
METER_CALIBRATION_C = (70.0 - 32.0) / 1.8


def equilibrium_moisture_content(temperature_c: Q, relative_humidity_pct: Q) -> Q:
    """Compute the equilibrium moisture content of wood in air.

    Parameters
    ----------
    temperature_c : Q
        Temperature of the air [degC], -1 to 93 (30 to 200 degF), the range checked against Table
        4-2.
    relative_humidity_pct : Q
        Relative humidity [%], 0 to below 100.

    Returns
    -------
    Q
        Moisture content [%].

    Notes
    -----
    Hailwood-Horrobin two-hydrate form, constants of Simpson (1973): one average curve for any
    species between absorption and desorption [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.
    """
    t = temperature_c
    w = 349.0 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * relative_humidity_pct / 100.0
    hydrate = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh)
    return 1800.0 / w * (kh / (1.0 - kh) + hydrate)


def relative_humidity_for(emc_pct: Q, temperature_c: Q) -> Q:
    """Compute the relative humidity that holds wood at a moisture content.

    Parameters
    ----------
    emc_pct : Q
        Moisture content [%], a float or an array of NumPy.
    temperature_c : Q
        Temperature of the air [degC], as equilibrium_moisture_content, of a shape that broadcasts.

    Returns
    -------
    Q
        Relative humidity [%], 0 to below 100.

    Raises
    ------
    ValueError
        Where no humidity below 100 % gives that moisture content.

    Notes
    -----
    The inverse of the EMC equation [1]_, by halving the interval from 0 to 100 % until it is below
    1e-12. Eq. 4-7 does not serve: it inverts Eq. 4-6, another curve.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.
    """
    reach = equilibrium_moisture_content(temperature_c, 100.0)
    within = (emc_pct >= 0.0) & (emc_pct < reach)
    if not (within if isinstance(within, bool) else within.all()):
        raise ValueError("no relative humidity below 100 % gives that moisture content")
    low, high = 0.0 * reach, 0.0 * reach + 100.0
    for _ in range(48):  # 100 / 2**48 is below 1e-12
        middle = (low + high) / 2.0
        dry = equilibrium_moisture_content(temperature_c, middle) < emc_pct
        low, high = choose(dry, middle, low), choose(dry, high, middle)
    return (low + high) / 2.0


def moisture_content(wet_mass: Q, dry_mass: Q) -> Q:
    """Compute moisture content from the masses of a sample before and after ovendrying.

    Parameters
    ----------
    wet_mass, dry_mass : Q
        Masses [any one unit of mass], the dry one above 0.

    Returns
    -------
    Q
        Moisture content [% of ovendry mass].

    Notes
    -----
    The definition [1]_; ASTM D4442 has the oven method.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-2 (unchecked).
    """
    return 100.0 * (wet_mass - dry_mass) / dry_mass


def maximum_moisture_content(basic_specific_gravity: Q) -> Q:
    """Compute the moisture content of wood full of water, in cell walls and cavities.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1], above 0 and below 1.54.

    Returns
    -------
    Q
        Moisture content [%].

    Notes
    -----
    The text beside the equation [1]_ prints 267 % at 0.30 and 44 % at 0.90, which fit a cell-wall
    specific gravity of 1.50, not the 1.54 of the equation.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-3, p. 4-3.
    """
    return 100.0 * (1.0 / basic_specific_gravity - 1.0 / CELL_WALL_SPECIFIC_GRAVITY)


def sink_moisture_content(basic_specific_gravity: Q) -> Q:
    """Compute the moisture content at which wood just sinks in water.

    Parameters
    ----------
    basic_specific_gravity : Q
        Basic specific gravity [1], above 0.

    Returns
    -------
    Q
        Moisture content [%]; below 0 for a wood that sinks when dry.

    Notes
    -----
    Where the density with its water is that of water [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-4, p. 4-3.
    """
    return 100.0 * (1.0 - basic_specific_gravity) / basic_specific_gravity


def meter_moisture_content(
    reading_pct: Q, temperature_c: Q, calibration_c: Q = METER_CALIBRATION_C
) -> Q:
    """Compute moisture content from the reading of a resistance meter in cold or warm wood.

    Parameters
    ----------
    reading_pct : Q
        Reading [%], about 6 to 30.
    temperature_c : Q
        Temperature of the wood [degC].
    calibration_c : Q, optional
        Temperature the meter is made for [degC].

    Returns
    -------
    Q
        Moisture content [%], within about 1 % of the true average at best.

    Notes
    -----
    0.5 % is added for each 5.6 degC (10 degF) the wood is colder than the calibration temperature,
    and taken off for each it is warmer [1]_. The meter's own correction for the species comes on
    top and is not part of this.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), p. 13-3 (page inferred).
    """
    return reading_pct + 0.5 * (calibration_c - temperature_c) * 1.8 / 10.0
