"""Moisture content of wood, and the air it is in equilibrium with.

Sources: Wood Handbook FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 4.
"""

from __future__ import annotations

from woodref.formulas.engine import Q


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
