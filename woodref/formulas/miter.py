"""The miter of a frame corner whose members change in width and not in length.

Both members have the same width, the frame is held square, and the miter is closed at 45 degrees
when it is fitted. The cut then runs over a member's length W and over its width W; the width alone
becomes ``W (1 - s)``, and the cut turns. Source: plane geometry.
"""

from __future__ import annotations

from woodref.formulas.declaration import formula
from woodref.formulas.engine import Q, atan_degrees


def miter_angle(shrinkage: Q) -> Q:
    """Compute the angle of a 45 degree miter cut to the outer edge after a change of width.

    Parameters
    ----------
    shrinkage : Q
        Share s of the width that is lost since the miter was closed [1], below 1; below zero
        where the member swells.

    Returns
    -------
    Q
        Angle [degree]; below 45 where the width shrinks.

    Notes
    -----
    ``atan(1 - s)``; measured from a line across the member it is ``atan(1 / (1 - s))``, the
    complement. Plane geometry, no change of length.
    """
    return atan_degrees(1.0 - shrinkage)


def corner_opening(shrinkage: Q) -> Q:
    """Compute the angle between the two cuts of a square corner after a change of width.

    Parameters
    ----------
    shrinkage : Q
        As miter_angle [1].

    Returns
    -------
    Q
        Angle [degree]; above zero it opens toward the inside of the corner, below zero toward
        the outside.

    Notes
    -----
    ``90 - 2 atan(1 - s)``: what the two cuts lack of the square corner. Plane geometry.
    """
    return 90.0 - 2.0 * miter_angle(shrinkage)


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
