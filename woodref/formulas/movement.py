"""The size across a face whose growth rings meet it at an angle, and how a change of it spreads.

Sources: Wood Handbook FPL-GTR-282 (2021), Eq. 4-9, p. 4-10; FPL-GTR-190 (2010), Table 13-5,
p. 13-16.
"""

from __future__ import annotations

from woodref.formulas.engine import Q
from woodref.formulas.shrinkage import share_of_green_size_on_curve, shrinkage_at_ring_angle


def share_of_green_size_across(
    moisture_pct: Q,
    ring_angle_deg: Q,
    tangential_pct: Q,
    radial_pct: Q,
    fiber_saturation_pct: Q,
    tangential_per_pct: Q,
    radial_per_pct: Q,
) -> Q:
    """Compute the size across a face at a moisture content over its green size.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    ring_angle_deg : Q
        As shrinkage_at_ring_angle [degree].
    tangential_pct, radial_pct : Q
        Shrinkage green to ovendry along and across the rings [% of green size].
    fiber_saturation_pct : Q
        Fiber saturation point [%].
    tangential_per_pct, radial_per_pct : Q
        Printed dimensional change coefficients along and across the rings
        [1 per % moisture content]; nan, in DuckDB NULL, for none.

    Returns
    -------
    Q
        Size over green size [1].

    Notes
    -----
    share_of_green_size_on_curve in either direction, turned to the face [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.
    """
    tangential, radial = (
        share_of_green_size_on_curve(moisture_pct, total, fiber_saturation_pct, coefficient)
        for total, coefficient in (
            (tangential_pct, tangential_per_pct),
            (radial_pct, radial_per_pct),
        )
    )
    return shrinkage_at_ring_angle(tangential, radial, ring_angle_deg)


def size_across(
    size: Q,
    from_moisture_pct: Q,
    to_moisture_pct: Q,
    ring_angle_deg: Q,
    tangential_pct: Q,
    radial_pct: Q,
    fiber_saturation_pct: Q,
    tangential_per_pct: Q,
    radial_per_pct: Q,
) -> Q:
    """Compute the size across a face after a change of moisture content.

    Parameters
    ----------
    size : Q
        Size at ``from_moisture_pct`` [any length].
    from_moisture_pct, to_moisture_pct : Q
        Moisture contents before and after [%].
    ring_angle_deg, tangential_pct, radial_pct, fiber_saturation_pct : Q
        As share_of_green_size_across [degree, %].
    tangential_per_pct, radial_per_pct : Q
        As share_of_green_size_across [1 per % moisture content].

    Returns
    -------
    Q
        Size in the unit of ``size``.

    Notes
    -----
    The share of the green size at the second over that at the first, exact [1]_.

    References
    ----------
    .. [1] From Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.
    """
    after, before = (
        share_of_green_size_across(
            moisture_pct,
            ring_angle_deg,
            tangential_pct,
            radial_pct,
            fiber_saturation_pct,
            tangential_per_pct,
            radial_per_pct,
        )
        for moisture_pct in (to_moisture_pct, from_moisture_pct)
    )
    return size * after / before


def cv_of_size_change(
    tangential: Q,
    radial: Q,
    tangential_sd: Q,
    radial_sd: Q,
    ring_angle_deg: Q,
    fiber_saturation_cv: Q = 0.0,
) -> Q:
    """Compute the coefficient of variation of a change of size between single boards.

    Parameters
    ----------
    tangential, radial : Q
        Shrinkage, or change per 1 % moisture content, along and across the rings [any one unit].
    tangential_sd, radial_sd : Q
        Their standard deviations in that unit.
    ring_angle_deg : Q
        As shrinkage_at_ring_angle [degree].
    fiber_saturation_cv : Q, optional
        Coefficient of variation of the fiber saturation point that a shrinkage is spread over;
        0 for a change per 1 % [1].

    Returns
    -------
    Q
        Coefficient of variation [1].

    Notes
    -----
    ``sqrt(a2 (1 + 3 f2) + f2 (1 + 8 f2))``, a that of the shrinkage and f that of the point: the
    spread of a ratio to the second order, any textbook of statistics. The point divides the
    change, and boards where it is low move more than boards where it is high move less. Shrinkages
    of one board go together, the point is independent of them (our assumption).
    """
    mixed = shrinkage_at_ring_angle(tangential, radial, ring_angle_deg)
    of_figures = shrinkage_at_ring_angle(tangential_sd, radial_sd, ring_angle_deg) / mixed
    squared, point = of_figures**2, fiber_saturation_cv**2
    return (squared * (1.0 + 3.0 * point) + point * (1.0 + 8.0 * point)) ** 0.5
