"""Folded coefficients give what the formulas give that they are folded from."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.density import density_at, specific_gravity_at
from woodref.formulas.folded import (
    across_by_share,
    density_by_coefficients,
    density_coefficients,
    lines_as_bends,
    share_by_coefficients,
    size_lines,
    tangential_share,
)
from woodref.formulas.shrinkage import share_of_green_size_on_curve, shrinkage_at_ring_angle

MOISTURES = st.floats(0.0, 120.0)
POINTS = st.floats(20.0, 35.0)
SHRINKAGES = st.floats(0.5, 16.0)


@given(MOISTURES, st.floats(0.1, 1.3), SHRINKAGES, POINTS)
def test_density(moisture, gravity, volumetric, point):
    folded = density_coefficients(gravity, volumetric, point)
    direct = density_at(specific_gravity_at(gravity, moisture, volumetric, point), moisture)
    assert density_by_coefficients(moisture, *folded, point) == pytest.approx(direct, rel=1e-12)


@given(MOISTURES, SHRINKAGES, POINTS, st.one_of(st.just(nan), st.floats(1e-4, 8e-3)))
def test_size_with_and_without_a_governing_coefficient(moisture, total, point, coefficient):
    folded = lines_as_bends(*size_lines(total, point, coefficient), point)
    direct = share_of_green_size_on_curve(moisture, total, point, coefficient)
    assert share_by_coefficients(moisture, *folded, point) == pytest.approx(direct, rel=1e-12)


@given(SHRINKAGES, SHRINKAGES, st.floats(0.0, 90.0))
def test_across_a_face(tangential, radial, angle):
    folded = across_by_share(tangential, radial, tangential_share(angle))
    assert folded == pytest.approx(shrinkage_at_ring_angle(tangential, radial, angle), rel=1e-12)
