"""The map of a cross-section against what it was made to hold: strains, areas, limits."""

import cmath
from itertools import pairwise
from math import pi

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from woodref.formulas.cross_section import (
    angle_ratio,
    gap_deg,
    length_ratio,
    moved,
    moved_far,
    relative_shrinkage,
)
from woodref.formulas.shrinkage import shrinkage_at_ring_angle

radial = st.floats(-0.05, 0.08)
tangential = st.floats(-0.08, 0.15)
radii = st.floats(5.0, 2000.0)
angles = st.floats(-2.5, 2.5)


def test_relative_shrinkage_by_hand():
    # D(M) = 100 - 9 (1 - M/30): 94.6 at 12 %, 92.8 at 6 %; 1 - 92.8 / 94.6.
    assert relative_shrinkage(9.0, 12.0, 6.0) == pytest.approx(1.8 / 94.6)
    assert relative_shrinkage(9.0, 6.0, 12.0) == pytest.approx(-1.8 / 92.8)
    assert relative_shrinkage(9.0, 40.0, 30.0) == 0.0


@given(radii, angles, radial, tangential, st.floats(-pi, pi))
def test_strain_is_radial_across_and_tangential_along_the_rings(r, a, s_r, s_t, turn):
    facing = cmath.rect(1.0, turn)
    point, step = cmath.rect(r, a) * facing, 1e-4 * r

    def stretch(direction):
        ends = [moved(point + sign * step * direction, s_r, s_t, facing) for sign in (1, -1)]
        return abs(ends[0] - ends[1]) / (2.0 * step)

    outward = point / abs(point)
    assert stretch(outward) == pytest.approx(1.0 - s_r, rel=1e-7)
    assert stretch(1j * outward) == pytest.approx(1.0 - s_t, rel=1e-7)
    slanting = cmath.rect(1.0, 0.7)
    assert stretch(slanting) == pytest.approx(length_ratio(point, slanting, s_r, s_t), rel=1e-6)


@given(radii, angles, radial, tangential)
def test_distance_and_angle_go_where_the_map_says(r, a, s_r, s_t):
    after = moved(cmath.rect(r, a), s_r, s_t)
    assert abs(after) == pytest.approx(r * (1.0 - s_r), rel=1e-12)
    assert cmath.phase(after) == pytest.approx(a * (1.0 - s_t) / (1.0 - s_r), rel=1e-9, abs=1e-12)


def test_arrays_go_like_floats():
    points = numpy.array([3.0 + 4.0j, 10.0 - 2.0j, 50.0 + 0.0j])
    for function in (moved, moved_far):
        one_by_one = [function(complex(z), 0.01, 0.02, 1j) for z in points]
        assert function(points, 0.01, 0.02, 1j) == pytest.approx(one_by_one, rel=1e-14)
    lines = length_ratio(points, 1.0 + 1.0j, 0.01, 0.02)
    assert lines == pytest.approx([length_ratio(complex(z), 1 + 1j, 0.01, 0.02) for z in points])


def boundary_area(corners, move):
    """Area inside a mapped polygon: half the boundary integral of x dy - y dx.

    Gauss-Legendre on pieces of each straight side before; the Jacobian of the map is not used.
    """
    nodes, weights = numpy.polynomial.legendre.leggauss(24)
    total = 0.0
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        cuts = numpy.linspace(0.0, 1.0, 17)
        for low, high in pairwise(cuts):
            t = (high + low) / 2.0 + nodes * (high - low) / 2.0
            z, dz = move(start + (end - start) * t, end - start)
            total += float(numpy.sum(weights * (z.conjugate() * dz).imag) * (high - low) / 4.0)
    return total


def with_derivative(s_r, s_t, facing):
    """The mapped point and its derivative along a direction, by the chain rule in (r, angle)."""
    k = (1.0 - s_t) / (1.0 - s_r)

    def move(z, direction):
        w, d = z / facing, direction / facing
        r, a = abs(w), numpy.angle(w)
        dr, da = (d * w.conjugate()).real / r, (d * w.conjugate()).imag / r**2
        after = (1.0 - s_r) * r * numpy.exp(1j * k * a) * facing
        return moved(z, s_r, s_t, facing), after * (dr / r + 1j * k * da)

    return move


@given(
    st.floats(10.0, 400.0),
    st.floats(10.0, 80.0),
    st.floats(4.0, 600.0),
    st.floats(-300.0, 300.0),
    radial,
    tangential,
)
def test_area_ratio_is_the_product_of_both(width, thickness, distance, offset, s_r, s_t):
    """Exact to 1e-12: the area is integrated around the curved outline."""
    assume(abs(offset) < 3.0 * distance + width)
    left, low = offset - width / 2.0, distance
    corners = [
        complex(left, low),
        complex(left + width, low),
        complex(left + width, low + thickness),
        complex(left, low + thickness),
    ]
    middle = sum(corners) / 4.0
    area = boundary_area(corners, with_derivative(s_r, s_t, middle / abs(middle)))
    assert area / (width * thickness) == pytest.approx((1.0 - s_r) * (1.0 - s_t), rel=1e-12)


@given(st.floats(-0.06, 0.06), radii, angles, st.floats(-pi, pi))
def test_equal_shrinkages_only_scale(s, r, a, turn):
    z = cmath.rect(r, a)
    assert moved(z, s, s, cmath.rect(1.0, turn)) == pytest.approx(z * (1.0 - s), rel=1e-12)
    assert gap_deg(s, s) == 0.0


@given(st.floats(0.0, 90.0), st.floats(0.0, 0.02), st.floats(0.0, 0.025))
def test_far_from_the_pith_a_length_follows_the_ring_angle_formula(ring_angle, s_r, s_t):
    """Within 0.01 % at the shrinkages of a season; the formula is the small-strain one."""
    pith = -1e6 * cmath.rect(1.0, pi / 2.0 - ring_angle * pi / 180.0)
    facing = -pith / abs(pith)
    ends = [moved(x - pith, s_r, s_t, facing) for x in (-100.0, 100.0)]
    straight = [moved_far(complex(x), s_r, s_t, facing) for x in (-100.0, 100.0)]
    formula = 200.0 * (1.0 - shrinkage_at_ring_angle(s_t, s_r, ring_angle))
    for pair in (ends, straight):
        assert abs(pair[1] - pair[0]) == pytest.approx(formula, rel=1e-4)


def test_near_and_far_meet():
    for turn in (0.0, 0.4, 1.5):
        facing = cmath.rect(1.0, turn)
        away = 1e7 * facing
        near = moved(away + (30.0 + 12.0j), 0.01, 0.02, facing) - moved(away, 0.01, 0.02, facing)
        assert near == pytest.approx(moved_far(30.0 + 12.0j, 0.01, 0.02, facing), rel=1e-5)


def test_the_gap_of_a_disk():
    # A ring of 360 degrees keeps k of them: 360 (1 - 0.96 / 0.98).
    assert angle_ratio(0.02, 0.04) == pytest.approx(0.96 / 0.98)
    assert gap_deg(0.02, 0.04) == pytest.approx(360.0 * (0.02 / 0.98))
    assert gap_deg(-0.02, -0.04) < 0.0
