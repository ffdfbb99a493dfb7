"""The miter of a corner against the same corner drawn with coordinates."""

import cmath
from math import degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.miter import corner_opening, miter_angle, miter_gap

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
