import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.strength import modulus_along_grain, property_at

strengths = st.floats(1.0, 200.0)
ratios = st.floats(1.01, 2.5)
intersections = st.floats(20.0, 28.0)


@given(strengths, ratios, intersections)
def test_passes_through_both_tested_values(green, ratio, intersection):
    dry = green * ratio
    assert property_at(dry, green, 12.0, intersection) == pytest.approx(dry)
    assert property_at(dry, green, intersection, intersection) == pytest.approx(green)


@given(strengths, ratios, intersections, st.floats(0.0, 100.0))
def test_stays_green_beyond_the_intersection(green, ratio, intersection, more):
    wet = property_at(green * ratio, green, intersection + more, intersection)
    assert wet == pytest.approx(green)


@given(strengths, ratios, st.floats(2.0, 24.0))
def test_drier_is_stronger_where_12_pct_is_stronger_than_green(green, ratio, moisture):
    dry = green * ratio
    assert property_at(dry, green, moisture) > property_at(dry, green, moisture + 1.0)


def test_modulus_along_grain():
    assert modulus_along_grain(12_000.0) == pytest.approx(13_200.0)
