import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.shrinkage import (
    dimensional_change_coefficient,
    shrinkage_at_ring_angle,
    shrinkage_to,
    size_at,
    size_by_change_per_pct,
    size_by_coefficient,
)

sizes = st.floats(1.0, 5000.0)
moistures = st.floats(0.0, 60.0)
below_saturation = st.floats(0.0, 30.0)
shrinkages = st.floats(0.5, 15.0)


@given(sizes, moistures, moistures, shrinkages)
def test_size_there_and_back(size, first, second, total):
    there = size_at(size, first, second, total)
    assert size_at(there, second, first, total) == pytest.approx(size)


@given(sizes, moistures, moistures, moistures, shrinkages)
def test_size_does_not_depend_on_the_way(size, first, second, third, total):
    stepped = size_at(size_at(size, first, second, total), second, third, total)
    assert stepped == pytest.approx(size_at(size, first, third, total))


@given(sizes, below_saturation, st.floats(0.01, 10.0), shrinkages)
def test_wood_never_shrinks_on_wetting(size, start, more, total):
    wider = size_at(size, start, start + more, total)
    assert wider > size if start < 29.9 else wider >= size


@given(st.floats(30.0, 200.0), st.floats(30.0, 200.0), shrinkages)
def test_nothing_moves_above_fiber_saturation(first, second, total):
    assert shrinkage_to(total, first) == 0.0
    assert size_at(100.0, first, second, total) == 100.0


@given(shrinkages, shrinkages, st.floats(0.0, 90.0))
def test_mixed_shrinkage_lies_between_radial_and_tangential(tangential, radial, angle):
    mixed = shrinkage_at_ring_angle(tangential, radial, angle)
    assert min(tangential, radial) - 1e-9 <= mixed <= max(tangential, radial) + 1e-9


@given(shrinkages, shrinkages, st.floats(0.0, 90.0))
def test_width_and_thickness_share_the_two_shrinkages(tangential, radial, angle):
    width = shrinkage_at_ring_angle(tangential, radial, angle)
    thickness = shrinkage_at_ring_angle(tangential, radial, 90.0 - angle)
    assert width + thickness == pytest.approx(tangential + radial)


def test_ring_angles_of_the_three_cuts():
    assert shrinkage_at_ring_angle(9.9, 4.8, 0.0) == 9.9
    assert shrinkage_at_ring_angle(9.9, 4.8, 45.0) == pytest.approx(7.35)
    assert shrinkage_at_ring_angle(9.9, 4.8, 90.0) == pytest.approx(4.8)


@given(sizes, below_saturation, below_saturation, shrinkages)
def test_coefficient_at_the_start_is_the_exact_change(size, start, end, total):
    """Eq. 13-3 and Eq. 4-9 are one line seen from two ends."""
    coefficient = dimensional_change_coefficient(total, start)
    by_coefficient = size_by_coefficient(size, start, end, coefficient)
    assert by_coefficient == pytest.approx(size_at(size, start, end, total))


@given(sizes, st.floats(5.0, 20.0), st.floats(5.0, 20.0), st.floats(0.05, 0.6))
def test_change_per_pct_is_the_coefficient_in_percent(size, start, end, change):
    assert size_by_change_per_pct(size, start, end, change) == pytest.approx(
        size_by_coefficient(size, start, end, change / 100.0)
    )
