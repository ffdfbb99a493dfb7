"""A mitered corner: its two members, and how it stands after they have changed in width."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot
from typing import NamedTuple

from woodref.errors import InputError, UnitsError
from woodref.formulas.miter import (
    cut_length,
    miter_angle,
    miter_opening,
    miter_slope,
    opened_gap,
)
from woodref.quantity import Range
from woodref.reference.woods import Wood
from woodref.units import sizes_told

#: Corners that are mitered [degree]: sharper ones and flatter ones are no joint of a frame.
CORNERS_DEG = (20.0, 170.0)
SQUARE_DEG = 90.0


class OtherMember(NamedTuple):
    """The second member of a mitered corner: its width [mm], wood, and ring angle [degree].

    ``wood`` None where it is that of the first member; ``corner_deg`` the angle between the two.
    """

    width_mm: float
    wood: Wood | None
    ring_angle_deg: float
    corner_deg: float


class Corner(NamedTuple):
    """A corner after a change: the gap [mm], its opening and the angles of the cuts [degree]."""

    gap: Range
    opening: Range
    cut_angle: Range
    other_cut_angle: Range


def checked_corner(width_mm: float, other: OtherMember) -> OtherMember:
    """A corner that two members can meet in.

    Raises: InputError for an angle outside CORNERS_DEG, and for members so unlike that the line of
    the miter misses one.
    """
    low, high = CORNERS_DEG
    if not low <= other.corner_deg <= high:
        raise InputError(
            f"a mitered corner is {low:g} to {high:g} degrees between its members, not "
            f"{other.corner_deg:g}; a frame of four has 90, of six 120"
        )
    for one, two in ((width_mm, other.width_mm), (other.width_mm, width_mm)):
        if not miter_slope(one, two, other.corner_deg) > 0.0:
            raise UnitsError(
                sizes_told(
                    f"members {{}} and {{}} wide meet in no miter at {other.corner_deg:g} degrees",
                    width_mm,
                    other.width_mm,
                )
            )
    return other


def _moved(expected: float, ends: list[tuple[float, float]], together: bool) -> Range:
    """A figure whose deviations come from two members: of one wood together, else independent."""
    if together:
        low, high = (sum(end[k] - expected for end in ends) for k in (0, 1))
        return Range(expected, expected + low, expected + high)
    low, high = (hypot(*(end[k] - expected for end in ends)) for k in (0, 1))
    return Range(expected, expected - low, expected + high)


def corner_after(
    width_mm: float, other: OtherMember, shares: tuple[Range, Range], own: tuple[Range, Range]
) -> Corner:
    """A corner after its members have lost shares of their widths.

    Parameters: width_mm of the first member when the miter was closed; other member; shares that
    the two have lost [1], of the range that the corner has, and ``own`` of each by itself, for
    its cut.
    Source: plane geometry, woodref.formulas.miter.
    """
    slopes = (
        float(miter_slope(width_mm, other.width_mm, other.corner_deg)),
        float(miter_slope(other.width_mm, width_mm, other.corner_deg)),
    )

    def opening(one: float, two: float) -> float:
        return float(miter_opening(one, slopes[0], two, slopes[1]))

    def gap(one: float, two: float) -> float:
        if one == two == 0.0:
            return 0.0  # a sine by way of a cosine is a hair beside nothing
        cuts = (
            cut_length(width_mm, one, slopes[0]),
            cut_length(other.width_mm, two, slopes[1]),
        )
        return float(opened_gap(*cuts, opening(one, two)))

    first, second = shares
    mean = (first.expected, second.expected)

    def spread(of: Callable[[float, float], float]) -> Range:
        ends = [
            (of(first.low, mean[1]), of(first.high, mean[1])),
            (of(mean[0], second.low), of(mean[0], second.high)),
        ]
        return _moved(of(*mean), ends, other.wood is None)

    angles = tuple(
        Range(*(float(miter_angle(s, slope)) for s in (share.expected, share.high, share.low)))
        for share, slope in zip(own, slopes, strict=True)
    )
    return Corner(spread(gap), spread(opening), angles[0], angles[1])
