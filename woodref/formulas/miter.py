"""The miter of a frame corner whose members change in width and not in length.

The frame is held at its corner, and the miter is closed when it is fitted: its line runs from the
outer corner to the inner one. The cut then runs over a member's length a and over its width W,
tan of its angle to the outer edge being W / a; the width alone becomes ``W (1 - s)``, and the cut
turns. In a square corner of two members of one width that tan is 1. Source: plane geometry.
"""

from __future__ import annotations

from woodref.formulas.declaration import formula
from woodref.formulas.engine import Q, atan_degrees, cos_degrees


def miter_slope(width: Q, other_width: Q, corner_deg: Q) -> Q:
    """Compute the tan of a miter cut to the outer edge of its member, when the miter is closed.

    Parameters
    ----------
    width, other_width : Q
        Widths of the member and of the other one [any length, the same].
    corner_deg : Q
        Angle between the two members [degree], 90 in a frame of four.

    Returns
    -------
    Q
        tan of the angle [1]; not above zero where so unlike members meet in no miter.

    Notes
    -----
    ``W sin c / (V + W cos c)``: the line of the miter lies as far from either outer edge at the
    inner corner as that member is wide. Plane geometry.
    """
    return width * cos_degrees(90.0 - corner_deg) / (other_width + width * cos_degrees(corner_deg))


def miter_angle(shrinkage: Q, slope: Q = 1.0) -> Q:
    """Compute the angle of a miter cut to the outer edge after a change of width.

    Parameters
    ----------
    shrinkage : Q
        Share s of the width that is lost since the miter was closed [1], below 1; below zero
        where the member swells.
    slope : Q, optional
        As miter_slope [1]; 1 of a cut at 45 degrees.

    Returns
    -------
    Q
        Angle [degree]; smaller than it was where the width shrinks.

    Notes
    -----
    ``atan(t (1 - s))``; measured from a line across the member it is the complement. Plane
    geometry, no change of length.
    """
    return atan_degrees(slope * (1.0 - shrinkage))


def miter_opening(shrinkage: Q, slope: Q, other_shrinkage: Q, other_slope: Q) -> Q:
    """Compute the angle between the two cuts of a corner after a change of width.

    Parameters
    ----------
    shrinkage, slope : Q
        Of one member, as miter_angle [1].
    other_shrinkage, other_slope : Q
        Of the other [1].

    Returns
    -------
    Q
        Angle [degree]; above zero it opens toward the inside of the corner, below zero toward
        the outside.

    Notes
    -----
    What the two cuts have lost of their angles when closed, which filled the corner. Plane
    geometry.
    """
    closed = miter_angle(0.0, slope) + miter_angle(0.0, other_slope)
    return closed - miter_angle(shrinkage, slope) - miter_angle(other_shrinkage, other_slope)


def corner_opening(shrinkage: Q) -> Q:
    """Compute the angle between the two cuts of a square corner after a change of width.

    Parameters
    ----------
    shrinkage : Q
        As miter_angle [1], of both members.

    Returns
    -------
    Q
        Angle [degree], as miter_opening.

    Notes
    -----
    ``90 - 2 atan(1 - s)``: what the two cuts lack of the square corner. Plane geometry.
    """
    return 90.0 - 2.0 * miter_angle(shrinkage)


def cut_length(width: Q, shrinkage: Q, slope: Q) -> Q:
    """Compute the length of a miter cut after a change of width.

    Parameters
    ----------
    width : Q
        Width of the member when the miter is closed [any length].
    shrinkage, slope : Q
        As miter_angle [1].

    Returns
    -------
    Q
        Length, in the unit of ``width``.

    Notes
    -----
    ``W sqrt(1 / t2 + (1 - s)2)``. Plane geometry, no change of length.
    """
    return width * (1.0 / slope**2 + (1.0 - shrinkage) ** 2) ** 0.5


def opened_gap(cut: Q, other_cut: Q, opening_deg: Q) -> Q:
    """Compute the gap at the open end of a miter of any corner.

    Parameters
    ----------
    cut, other_cut : Q
        Lengths of the two cuts, as cut_length [any length, the same].
    opening_deg : Q
        As miter_opening [degree].

    Returns
    -------
    Q
        Gap across the miter in the unit of the cuts, in sign as miter_gap.

    Notes
    -----
    ``(r + q) sin(d / 2)``, the chord between cuts of one length; where they differ their mean, and
    the inner corners stand out of line as well. Plane geometry.
    """
    return (cut + other_cut) * cos_degrees(90.0 - opening_deg / 2.0)


@formula("sqrt(2) W s", ("W", "s"), "plane geometry")
def miter_gap(width: Q, shrinkage: Q) -> Q:
    """Compute the gap at the open end of the miter of a square corner.

    Parameters
    ----------
    width : Q
        Width W of both members when the miter is closed [any length].
    shrinkage : Q
        As miter_angle [1].

    Returns
    -------
    Q
        Gap in the unit of ``width``, from one cut to the other; above zero at the inside, where
        the cuts meet at the outer corner, below zero at the outside, where they meet at the inner.

    Notes
    -----
    The inner ends of the cuts stand at ``(W, W (1 - s))`` and ``(W (1 - s), W)`` from the outer
    corner, ``sqrt(2) W s`` apart. Plane geometry.
    """
    return 2.0**0.5 * width * shrinkage
