"""Shrinkage, and the size of a piece at one moisture content from its size at another.

Sources: Wood Handbook FPL-GTR-282 (2021), Eq. 4-9, p. 4-10; FPL-GTR-190 (2010),
Eq. 13-2 and 13-3, pp. 13-16 and 13-17.
"""

from __future__ import annotations

from woodref.formulas.declaration import HANDBOOK, formula
from woodref.formulas.engine import Q, cos_degrees, smaller

#: Fiber saturation point used when the wood's own is not known [%].
FIBER_SATURATION_PCT = 30.0


@formula(
    "St cos2 + Sr sin2",
    ("St", "Sr", "a"),
    "general mechanics of materials",
    cos2=lambda _t, _r, angle: cos_degrees(angle) ** 2,
    sin2=lambda _t, _r, angle: 1.0 - cos_degrees(angle) ** 2,
)
def shrinkage_at_ring_angle(tangential_pct: Q, radial_pct: Q, ring_angle_deg: Q) -> Q:
    """Compute shrinkage across a face whose growth rings meet it at an angle.

    Parameters
    ----------
    tangential_pct, radial_pct : Q
        Shrinkage along and across the rings [% of green size].
    ring_angle_deg : Q
        Angle of the rings to the wide face [degree], 0 flat sawn, 45 rift, 90 quarter sawn; the
        thickness of the same board takes the complement, ``90 - a``.

    Returns
    -------
    Q
        Shrinkage across the face [% of green size].

    Notes
    -----
    ``S = St cos^2(a) + Sr sin^2(a)``: rotation of the small strain tensor, general mechanics of
    materials.
    """
    c2 = cos_degrees(ring_angle_deg) ** 2
    return tangential_pct * c2 + radial_pct * (1.0 - c2)


def shrinkage_to(
    total_pct: Q, moisture_pct: Q, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute shrinkage from green to a moisture content.

    Parameters
    ----------
    total_pct : Q
        Shrinkage green to ovendry [% of green size].
    moisture_pct : Q
        Moisture content x [%].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Shrinkage [% of green size], zero at and above fiber saturation.

    Notes
    -----
    ``Sx = S0 (1 - x / MCfs)``, a straight line between ovendry and fiber saturation [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.
    """
    return total_pct * (1.0 - smaller(moisture_pct, fiber_saturation_pct) / fiber_saturation_pct)


@formula(
    "D1 (1 - S/100 (1 - M2/MCfs)) / (1 - S/100 (1 - M1/MCfs))",
    ("D1", "M1", "M2", "S", "MCfs"),
    HANDBOOK,
    "4-9",
    M1=lambda _size, m1, _m2, _total, fsp: smaller(m1, fsp),
    M2=lambda _size, _m1, m2, _total, fsp: smaller(m2, fsp),
)
def size_at(
    size: Q,
    from_moisture_pct: Q,
    to_moisture_pct: Q,
    total_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> Q:
    """Compute the size at one moisture content of a piece measured at another.

    Parameters
    ----------
    size : Q
        Size at ``from_moisture_pct`` [any length].
    from_moisture_pct, to_moisture_pct : Q
        Moisture contents before and after [%]; exchange them for the inverse.
    total_pct : Q
        Shrinkage green to ovendry in that direction [% of green size].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Size in the unit of ``size``.

    Notes
    -----
    ``D2 = D1 (1 - S(M2)/100) / (1 - S(M1)/100)``, exact [1]_.

    References
    ----------
    .. [1] From Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.
    """
    after = 1.0 - shrinkage_to(total_pct, to_moisture_pct, fiber_saturation_pct) / 100.0
    before = 1.0 - shrinkage_to(total_pct, from_moisture_pct, fiber_saturation_pct) / 100.0
    return size * after / before


@formula(
    "D1 (1 + c (M2 - M1)/100)",
    ("D1", "M1", "M2", "c"),
    "change per 1 % moisture content as printed",
)
def size_by_change_per_pct(
    size: Q, from_moisture_pct: Q, to_moisture_pct: Q, change_pct_per_pct: Q
) -> Q:
    """Compute the size after a change of moisture content, by a printed change per 1 %.

    Parameters
    ----------
    size : Q
        Size at ``from_moisture_pct`` [any length].
    from_moisture_pct, to_moisture_pct : Q
        Moisture contents before and after [%], about 5 to 20 (common practice, no source).
    change_pct_per_pct : Q
        Change c, as printed in Europe and Australia [% of size per 1 % moisture content].

    Returns
    -------
    Q
        Size in the unit of ``size``.

    Notes
    -----
    ``D2 = D1 (1 + c (M2 - M1) / 100)``, the definition printed with the coefficients; publications
    are never mixed.
    """
    return size * (1.0 + change_pct_per_pct * (to_moisture_pct - from_moisture_pct) / 100.0)


def dimensional_change_coefficient(
    total_pct: Q, from_moisture_pct: Q = 10.0, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute the share of its size a piece gains or loses per 1 % of moisture content.

    Parameters
    ----------
    total_pct : Q
        Shrinkage green to ovendry [% of green size].
    from_moisture_pct : Q, optional
        Moisture content at the start [%], below fiber saturation.
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Coefficient [1 per % moisture content].

    Notes
    -----
    Eq. 13-3 over the size and the change: ``C = 1 / (100 MCfs / S - MCfs + MI)`` [1]_. Table 13-5,
    from 6 to 14 %, is this at MI = 10 %, ``C = S / (3000 - 20 S)``, the middle of its range.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 13-3,
       p. 13-17 (formula unchecked; it is Eq. 4-9 again).
    """
    return total_pct / (
        100.0 * fiber_saturation_pct - total_pct * (fiber_saturation_pct - from_moisture_pct)
    )


def size_by_coefficient(
    size: Q, from_moisture_pct: Q, to_moisture_pct: Q, coefficient_per_pct: Q
) -> Q:
    """Compute the size after a change of moisture content, by a coefficient.

    Parameters
    ----------
    size : Q
        Size at ``from_moisture_pct`` [any length].
    from_moisture_pct, to_moisture_pct : Q
        Moisture contents before and after [%], 6 to 14.
    coefficient_per_pct : Q
        Dimensional change coefficient C, tangential or radial [1 per % moisture content].

    Returns
    -------
    Q
        Size in the unit of ``size``.

    Notes
    -----
    ``D2 = D1 (1 + C (M2 - M1))``: the handbook's short form [1]_, a cross-check on size_at.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2, p. 13-16.
    """
    return size * (1.0 + coefficient_per_pct * (to_moisture_pct - from_moisture_pct))
