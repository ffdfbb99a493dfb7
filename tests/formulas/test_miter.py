"""The miter of a corner against the same corner drawn with coordinates."""

import cmath
from math import cos, degrees, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.miter import (
    corner_opening,
    cut_length,
    miter_angle,
    miter_gap,
    miter_opening,
    miter_slope,
    opened_gap,
)

shares = st.floats(-0.15, 0.15)
widths = st.floats(5.0, 500.0)


def drawn(width, s):
    """Angle between the cuts, and the gap, of two members pushed together in a square corner.

    One member is drawn with its cut, the other is its mirror image about the diagonal; both keep
    their outer edges on the axes and are slid along them until the cuts touch at one end.
    """
    outer, inner = complex(0.0, 0.0), complex(width, width * (1.0 - s))

    def mirrored(z):
        return complex(z.imag, z.real)

    def apart(z):
        """How far a point lies on its own side of the diagonal."""
        return z.real - z.imag

    slide = -min(apart(outer), apart(inner))
    cut = [outer + slide, inner + slide]
    gaps = [abs(z - mirrored(z)) for z in cut]
    assert min(gaps) == pytest.approx(0.0, abs=1e-9 * width)
    direction = cut[1] - cut[0]
    angle = degrees(cmath.phase(mirrored(direction)) - cmath.phase(direction))
    return angle, gaps[1] - gaps[0]


@given(widths, shares)
def test_angle_and_gap_are_those_of_the_drawing(width, s):
    angle, gap = drawn(width, s)
    assert corner_opening(s) == pytest.approx(angle, abs=1e-9)
    assert miter_gap(width, s) == pytest.approx(gap, abs=1e-9 * width)


def test_a_miter_by_hand():
    # tan a = 0.98: a = 44.421 degrees; 100 mm wide it opens by 1.414 times 2 mm.
    assert miter_angle(0.02) == pytest.approx(44.421, abs=5e-4)
    assert corner_opening(0.02) == pytest.approx(1.1575, abs=1e-3)
    assert miter_gap(100.0, 0.02) == pytest.approx(2.828, abs=5e-4)


@given(shares)
def test_nothing_turns_without_a_change_and_what_opens_inside_closes_outside(s):
    assert miter_angle(0.0) == pytest.approx(45.0)
    assert corner_opening(0.0) == pytest.approx(0.0, abs=1e-12)
    if abs(s) > 1e-9:
        assert (corner_opening(s) > 0.0) == (s > 0.0)
        assert (miter_angle(s) < 45.0) == (s > 0.0)
    assert miter_gap(80.0, -s) == -miter_gap(80.0, s)
    # Swelling by the same factor turns the cut back past 45 degrees by the same angle.
    back = 1.0 - 1.0 / (1.0 - s)
    assert corner_opening(back) == pytest.approx(-corner_opening(s), abs=1e-9)


@given(widths, widths, st.floats(0.001, 0.15))
def test_the_gap_grows_with_the_width_and_the_angle_does_not(one, other, s):
    assert miter_gap(one, s) * other == pytest.approx(miter_gap(other, s) * one)


def corners(width, other, corner, s, q):
    """The two cuts of a corner by coordinates: its outer corner at nothing, inner ends apart.

    Member one lies along the axis of x above it, member two along the ray of the corner; the inner
    edges meet where the miter line ends, and then come nearer to the outer ones.
    """
    ray = cmath.exp(1j * radians(corner))
    # Width away from one outer edge, and other away from the ray.
    x = (other + width * cos(radians(corner))) / sin(radians(corner))
    inner = complex(x, width)
    along = (inner / ray).real  # of the second member, whose outer edge is the ray
    return complex(x, width * (1.0 - s)), ray * complex(along, -other * (1.0 - q)), inner


angles = st.floats(30.0, 150.0)


@given(widths, st.floats(0.7, 1.4), angles, shares, shares)
def test_any_corner_of_any_members_is_that_of_the_drawing(width, ratio, corner, s, q):
    other = width * ratio
    slopes = miter_slope(width, other, corner), miter_slope(other, width, corner)
    if min(slopes) < 0.05:
        return
    first, second, inner = corners(width, other, corner, s, q)
    # Closed, both cuts are the line from corner to corner, and fill the angle between them.
    assert cut_length(width, 0.0, slopes[0]) == pytest.approx(abs(inner), rel=1e-9)
    assert cut_length(other, 0.0, slopes[1]) == pytest.approx(abs(inner), rel=1e-9)
    closed = miter_angle(0.0, slopes[0]) + miter_angle(0.0, slopes[1])
    assert closed == pytest.approx(corner, abs=1e-7)
    opening = miter_opening(s, slopes[0], q, slopes[1])
    apart = degrees(cmath.phase(second) - cmath.phase(first))
    assert opening == pytest.approx(apart, abs=1e-7)
    cuts = cut_length(width, s, slopes[0]), cut_length(other, q, slopes[1])
    assert cuts == (pytest.approx(abs(first)), pytest.approx(abs(second)))
    gap = opened_gap(*cuts, opening)
    # The ends stand this far apart across the miter, and out of line by what the cuts differ.
    whole = abs(second - first)
    assert gap**2 + (cuts[0] - cuts[1]) ** 2 * cos(radians(opening / 2.0)) ** 2 == pytest.approx(
        whole**2, rel=1e-6, abs=1e-9
    )


@given(widths, shares)
def test_a_square_corner_of_like_members_is_the_plain_case(width, s):
    assert miter_slope(width, width, 90.0) == pytest.approx(1.0)
    assert miter_opening(s, 1.0, s, 1.0) == pytest.approx(corner_opening(s), abs=1e-9)
    cut = cut_length(width, s, 1.0)
    assert opened_gap(cut, cut, corner_opening(s)) == pytest.approx(
        miter_gap(width, s), abs=1e-9 * width
    )


def test_six_sides_and_unlike_members_by_hand():
    # Six sides: 120 degrees between members, each cut at 60 to its edge. A frame of 2 in and 3 in
    # members: tan a = 2/3 and 3/2, 33.69 and 56.31 degrees.
    assert miter_angle(0.0, miter_slope(50.0, 50.0, 120.0)) == pytest.approx(60.0)
    assert miter_angle(0.0, miter_slope(2.0, 3.0, 90.0)) == pytest.approx(33.690, abs=1e-3)
    assert miter_angle(0.0, miter_slope(3.0, 2.0, 90.0)) == pytest.approx(56.310, abs=1e-3)
    # d(atan t)/dt = 1 / (1 + t2): two cuts at 60 degrees turn less than two at 45.
    slope = miter_slope(50.0, 50.0, 120.0)
    assert miter_opening(0.02, slope, 0.02, slope) < corner_opening(0.02)
