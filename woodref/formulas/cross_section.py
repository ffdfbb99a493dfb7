"""The cross-section of a board cut anywhere in the log, at another moisture content.

A point of the cross-section is a complex number, the pith at zero. With ``s_r`` and ``s_t``
the relative shrinkage across and along the rings, a point at distance ``r`` and angle ``a``
goes to ``r (1 - s_r)`` and ``a (1 - s_t) / (1 - s_r)``: the only map, but for a rigid motion,
whose strain is ``-s_r`` across and ``-s_t`` along the rings everywhere. It is free of stress
for a piece that does not hold the pith.

Source: kinematics of plane strain with rings as circles around the pith, derived here from
``e_r = du/dr`` and ``e_a = u/r + dv/(r da)``, any textbook of elasticity. Rings that are not
circles, reaction wood and stress from uneven drying are left out.
"""

from __future__ import annotations

from woodref.formulas.engine import Q
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT, size_at


def relative_shrinkage(
    total_pct: Q,
    from_moisture_pct: Q,
    to_moisture_pct: Q,
    fiber_saturation_pct: Q = FIBER_SATURATION_PCT,
) -> Q:
    """Compute the share of its size a piece loses between two moisture contents.

    Parameters
    ----------
    total_pct : Q
        Shrinkage green to ovendry in one direction [% of green size].
    from_moisture_pct, to_moisture_pct : Q
        Moisture contents before and after [%].
    fiber_saturation_pct : Q, optional
        Fiber saturation point [%].

    Returns
    -------
    Q
        Share of the size at ``from_moisture_pct`` [1]; negative on wetting.

    Notes
    -----
    ``s = 1 - D2 / D1 = (S(M2) - S(M1)) / (100 - S(M1))`` [1]_.

    References
    ----------
    .. [1] From Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), Eq. 4-9, p. 4-10.
    """
    return 1.0 - size_at(1.0, from_moisture_pct, to_moisture_pct, total_pct, fiber_saturation_pct)


def angle_ratio(radial: float, tangential: float) -> float:
    """Compute the angle around the pith after, over that before.

    Parameters
    ----------
    radial, tangential : float
        Relative shrinkage s_r and s_t [1], below 1.

    Returns
    -------
    float
        ``(1 - s_t) / (1 - s_r)`` [1].
    """
    return (1.0 - tangential) / (1.0 - radial)


def gap_deg(radial: float, tangential: float) -> float:
    """Compute the gap that a full ring around the pith is short of.

    Parameters
    ----------
    radial, tangential : float
        Relative shrinkage s_r and s_t [1], below 1.

    Returns
    -------
    float
        ``360 (1 - (1 - s_t) / (1 - s_r))`` [degree], negative where the ring is too long: a piece
        that holds the pith opens by this much.
    """
    return 360.0 * (1.0 - angle_ratio(radial, tangential))


def moved(z: Q, radial: float, tangential: float, facing: complex = 1.0) -> Q:
    """Compute where a point of the cross-section goes.

    Parameters
    ----------
    z : Q
        Point seen from the pith, a complex number or an array of them [any length]; any but the
        pith itself.
    radial, tangential : float
        Relative shrinkage s_r and s_t [1].
    facing : complex, optional
        A direction of length 1 into the piece, from which angles count, so that none of the piece
        lies 180 degrees away; the ray through it keeps its direction.

    Returns
    -------
    Q
        The point after, seen from the pith, in the unit of ``z``.

    Notes
    -----
    ``w' = (1 - s_r) |w|^(1 - k) w^k`` with ``w = z / facing`` and k of angle_ratio: distance times
    ``1 - s_r``, angle times k.
    """
    k = angle_ratio(radial, tangential)
    w = z / facing
    return (1.0 - radial) * abs(w) ** (1.0 - k) * w**k * facing


def moved_far(z: Q, radial: float, tangential: float, facing: complex = 1.0) -> Q:
    """Compute where a point goes when the pith is so far that the rings are straight.

    Parameters
    ----------
    z : Q
        Point seen from any fixed point, a complex number or an array of them [any length].
    radial, tangential : float
        Relative shrinkage s_r and s_t [1].
    facing : complex, optional
        The direction of length 1 away from the pith.

    Returns
    -------
    Q
        The point after, in the unit of ``z``.

    Notes
    -----
    The limit of moved: lengths along ``facing`` times ``1 - s_r``, across it ``1 - s_t``.
    """
    w = z / facing
    return ((1.0 - radial) * w.real + 1j * (1.0 - tangential) * w.imag) * facing


def length_ratio(z: Q, direction: Q, radial: float, tangential: float) -> Q:
    """Compute the length after over the length before of a short line at a point.

    Parameters
    ----------
    z : Q
        Point seen from the pith, a complex number or an array of them [any length].
    direction : Q
        Direction of the line, complex.
    radial, tangential : float
        Relative shrinkage s_r and s_t [1].

    Returns
    -------
    Q
        Ratio of lengths [1].

    Notes
    -----
    ``sqrt((1 - s_r)^2 cos^2 b + (1 - s_t)^2 sin^2 b)``, b the angle from the ray of the pith to
    the line: the ring-angle formula, exact, at every point of a face.
    """
    w = direction * z.conjugate()
    across, along = (1.0 - radial) * w.real, (1.0 - tangential) * w.imag
    return (across**2 + along**2) ** 0.5 / abs(w)
