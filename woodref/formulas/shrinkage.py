"""Shrinkage, and the size of a piece at one moisture content from its size at another.

Sources: Wood Handbook FPL-GTR-282 (2021), Eq. 4-9, p. 4-10; FPL-GTR-190 (2010),
Eq. 13-2 and 13-3, pp. 13-16 and 13-17.
"""

from __future__ import annotations

from math import isnan

from woodref.formulas.declaration import HANDBOOK, formula
from woodref.formulas.engine import Q, choose, cos_degrees, is_known, larger, smaller

#: Fiber saturation point used when the wood's own is not known [%].
FIBER_SATURATION_PCT = 30.0
#: Moisture contents between which a printed dimensional change coefficient holds, and the one
#: it is referred to [%].
COEFFICIENT_FROM_PCT, COEFFICIENT_TO_PCT, COEFFICIENT_AT_PCT = 6.0, 14.0, 10.0
#: A coefficient governs where the form by shrinkage differs from it by more than this share.
COEFFICIENT_GOVERNS_SHARE = 0.10


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
    after = share_of_green_size(to_moisture_pct, total_pct, fiber_saturation_pct)
    before = share_of_green_size(from_moisture_pct, total_pct, fiber_saturation_pct)
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


def implied_fiber_saturation(total_pct: Q, coefficient_per_pct: Q) -> Q:
    """Compute the fiber saturation point that a shrinkage and a coefficient of one wood imply.

    Parameters
    ----------
    total_pct : Q
        Shrinkage green to ovendry in one direction [% of green size], below 100.
    coefficient_per_pct : Q
        Dimensional change coefficient in the same direction [1 per % moisture content], above 0.

    Returns
    -------
    Q
        Fiber saturation point [%].

    Notes
    -----
    ``C = S / (100 F - S (F - 10))`` solved for F: the inverse of dimensional_change_coefficient
    at 10 % [1]_.

    References
    ----------
    .. [1] From Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 13-3, p. 13-17.
    """
    return total_pct * (1.0 / coefficient_per_pct - COEFFICIENT_AT_PCT) / (100.0 - total_pct)


def shrinkage_of_coefficient(
    coefficient_per_pct: Q, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute the shrinkage that a printed coefficient stands for.

    Parameters
    ----------
    coefficient_per_pct : Q
        Dimensional change coefficient [1 per % moisture content].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Shrinkage green to ovendry in the same direction [% of green size].

    Notes
    -----
    ``S = 100 F C / (1 + C (F - 10))``, the inverse of dimensional_change_coefficient at 10 % [1]_.

    References
    ----------
    .. [1] From Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Eq. 13-3, p. 13-17.
    """
    return (
        100.0
        * fiber_saturation_pct
        * coefficient_per_pct
        / (1.0 + coefficient_per_pct * (fiber_saturation_pct - COEFFICIENT_AT_PCT))
    )


def coefficient_off_shrinkage(
    coefficient_per_pct: Q, total_pct: Q, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute how far the coefficient of a shrinkage stands from a printed one.

    Parameters
    ----------
    coefficient_per_pct : Q
        Dimensional change coefficient as printed [1 per % moisture content], above 0.
    total_pct : Q
        Shrinkage green to ovendry in the same direction [% of green size].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Difference over the printed one, not below 0 [1]; above COEFFICIENT_GOVERNS_SHARE the
        printed one goes before the shrinkage from 6 to 14 %.
    """
    of_shrinkage = dimensional_change_coefficient(
        total_pct, COEFFICIENT_AT_PCT, fiber_saturation_pct
    )
    off = of_shrinkage / coefficient_per_pct - 1.0
    return larger(off, -1.0 * off)


def share_of_green_size(
    moisture_pct: Q, total_pct: Q, fiber_saturation_pct: Q = FIBER_SATURATION_PCT
) -> Q:
    """Compute the size at a moisture content over the green size, by shrinkage alone.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    total_pct : Q
        Shrinkage green to ovendry in that direction [% of green size].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Size over green size [1].

    Notes
    -----
    ``1 - S(M)/100`` [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.
    """
    return 1.0 - shrinkage_to(total_pct, moisture_pct, fiber_saturation_pct) / 100.0


def share_of_green_size_by_coefficient(
    moisture_pct: Q, total_pct: Q, fiber_saturation_pct: Q, coefficient_per_pct: Q
) -> Q:
    """Compute the size over the green size where a printed coefficient holds from 6 to 14 %.

    Parameters
    ----------
    moisture_pct : Q
        Moisture content [%].
    total_pct : Q
        Shrinkage green to ovendry in that direction [% of green size].
    fiber_saturation_pct : Q
        Fiber saturation point [%].
    coefficient_per_pct : Q
        Dimensional change coefficient C in that direction [1 per % moisture content].

    Returns
    -------
    Q
        Size over green size [1].

    Notes
    -----
    Above 14 % by shrinkage; from 6 to 14 % a straight line, ``1 + C (M - 10)`` times the size at
    10 %; below 6 % by shrinkage again. The three meet at 6 and 14 %, so that steps add up.
    Coefficients hold from 6 to 14 % [1]_.

    References
    ----------
    .. [1] Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Table 13-5, p. 13-16.
    """
    within = smaller(larger(moisture_pct, COEFFICIENT_FROM_PCT), COEFFICIENT_TO_PCT)
    at_top = share_of_green_size(COEFFICIENT_TO_PCT, total_pct, fiber_saturation_pct)

    def line(at: Q) -> Q:
        return 1.0 + coefficient_per_pct * (at - COEFFICIENT_AT_PCT)

    beyond = share_of_green_size(
        moisture_pct, total_pct, fiber_saturation_pct
    ) / share_of_green_size(within, total_pct, fiber_saturation_pct)
    return at_top * line(within) / line(COEFFICIENT_TO_PCT) * beyond


def share_of_green_size_on_curve(
    moisture_pct: Q, total_pct: Q, fiber_saturation_pct: Q, coefficient_per_pct: Q
) -> Q:
    """Compute the size over the green size, by a coefficient where that governs.

    Parameters
    ----------
    moisture_pct, total_pct, fiber_saturation_pct, coefficient_per_pct : Q
        As share_of_green_size_by_coefficient; a coefficient that is not known, nan or null,
        governs nothing.

    Returns
    -------
    Q
        Size over green size [1].

    Notes
    -----
    Where coefficient_off_shrinkage is above COEFFICIENT_GOVERNS_SHARE, it is
    share_of_green_size_by_coefficient, else share_of_green_size.
    """
    if type(coefficient_per_pct) is float and isnan(coefficient_per_pct):
        return share_of_green_size(moisture_pct, total_pct, fiber_saturation_pct)
    off = coefficient_off_shrinkage(coefficient_per_pct, total_pct, fiber_saturation_pct)
    governs = is_known(coefficient_per_pct) & (off > COEFFICIENT_GOVERNS_SHARE)
    curve = (moisture_pct, total_pct, fiber_saturation_pct)
    if governs is False:  # of one board, which takes one of the two alone
        return share_of_green_size(*curve)
    by_coefficient = share_of_green_size_by_coefficient(*curve, coefficient_per_pct)
    if governs is True:
        return by_coefficient
    return choose(governs, by_coefficient, share_of_green_size(*curve))


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
