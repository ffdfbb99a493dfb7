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
    """Equilibrium moisture content of wood in air.

    Hailwood-Horrobin two-hydrate form, constants of Simpson (1973): one average curve
    for any species between absorption and desorption.

    Parameters: temperature_c [degC]; relative_humidity_pct [%], 0 to below 100.
    Returns: moisture content [%].
    Valid: -1 to 93 degC (30 to 200 degF), the range checked against Table 4-2.
    Source: FPL-GTR-282 (2021), Eq. 4-5, p. 4-3.
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
    """Relative humidity that holds wood at a moisture content: the inverse of the EMC equation.

    Halves the interval from 0 to 100 % until it is below 1e-12; takes floats and NumPy arrays.
    Do not use Eq. 4-7 for this: it inverts Eq. 4-6, another curve.

    Parameters: emc_pct [%]; temperature_c [degC]. Scalars or arrays of shapes that broadcast.
    Returns: relative humidity [%], 0 to below 100.
    Raises: ValueError where no humidity below 100 % gives that moisture content.
    Valid: as equilibrium_moisture_content.
    Source: FPL-GTR-282 (2021), Eq. 4-5, p. 4-3, solved by bisection.
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
    """Moisture content from the masses of a sample before and after ovendrying.

    Parameters: wet_mass, dry_mass in one unit of mass, dry_mass above 0.
    Returns: moisture content [% of ovendry mass].
    Source: FPL-GTR-282 (2021), Eq. 4-2 (unchecked); ASTM D4442 has the oven method.
    """
    return 100.0 * (wet_mass - dry_mass) / dry_mass


def maximum_moisture_content(basic_specific_gravity: Q) -> Q:
    """Moisture content of wood whose cell walls and cavities are full of water.

    The text beside the equation prints 267 % at 0.30 and 44 % at 0.90, which fit a cell-wall
    specific gravity of 1.50, not the 1.54 of the equation.

    Parameters: basic_specific_gravity [1], above 0 and below 1.54.
    Returns: moisture content [%].
    Source: FPL-GTR-282 (2021), Eq. 4-3, p. 4-3.
    """
    return 100.0 * (1.0 / basic_specific_gravity - 1.0 / CELL_WALL_SPECIFIC_GRAVITY)


def sink_moisture_content(basic_specific_gravity: Q) -> Q:
    """Moisture content at which wood just sinks in water.

    Parameters: basic_specific_gravity [1], above 0.
    Returns: moisture content [%]; below 0 for a wood that sinks when dry.
    Source: FPL-GTR-282 (2021), Eq. 4-4, p. 4-3.
    """
    return 100.0 * (1.0 - basic_specific_gravity) / basic_specific_gravity


def meter_moisture_content(
    reading_pct: Q, temperature_c: Q, calibration_c: Q = METER_CALIBRATION_C
) -> Q:
    """Moisture content from the reading of a resistance meter in cold or warm wood.

    0.5 % is added for each 5.6 degC (10 degF) the wood is colder than the calibration
    temperature, and taken off for each it is warmer. The meter's own correction for the
    species comes on top and is not part of this.

    Parameters: reading_pct [%]; temperature_c of the wood [degC]; calibration_c [degC].
    Returns: moisture content [%], within about 1 % of the true average at best.
    Valid: readings from about 6 to 30 %.
    Source: FPL-GTR-190 (2010), p. 13-3 (page inferred).
    """
    return reading_pct + 0.5 * (calibration_c - temperature_c) * 1.8 / 10.0
