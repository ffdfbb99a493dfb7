"""The spread rules, checked against statistics.NormalDist of the standard library."""

from statistics import NormalDist

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.spread import (
    Z90,
    Difference,
    chance_greater,
    cv_of_boards,
    difference,
    likely_range,
    sd_of_sum,
    sd_of_woods,
)

sds = st.lists(st.floats(0.0, 100.0), min_size=1, max_size=12)
means = st.floats(-100.0, 100.0)
positive = st.floats(0.1, 50.0)


def test_z90_is_the_normal_deviate_of_the_central_90_pct():
    assert NormalDist().inv_cdf(0.95) == pytest.approx(Z90, abs=1e-12)


@given(sds)
def test_full_correlation_adds_and_none_adds_squares(parts):
    assert sd_of_sum(parts, 1.0) == pytest.approx(sum(parts))
    assert sd_of_sum(parts, 0.0) == pytest.approx(sum(s * s for s in parts) ** 0.5)


@given(sds, st.floats(0.0, 1.0))
def test_any_correlation_lies_between(parts, correlation):
    assert sd_of_sum(parts, 0.0) - 1e-6 <= sd_of_sum(parts, correlation)
    assert sd_of_sum(parts, correlation) <= sd_of_sum(parts, 1.0) + 1e-6


@given(positive, st.integers(1, 200))
def test_more_boards_spread_less_each(sd, boards):
    assert sd_of_sum([sd] * boards) / boards <= sd + 1e-9


@given(sds, sds)
def test_woods_are_independent_of_each_other(first, second):
    both = sd_of_woods({"a": first, "b": second})
    assert both == pytest.approx((sd_of_sum(first) ** 2 + sd_of_sum(second) ** 2) ** 0.5)
    assert sd_of_woods({"a": [3.0, 4.0], "b": [12.0]}, 0.0) == 13.0
    assert sd_of_woods({"a": [3.0, 5.0], "b": [6.0]}, 1.0) == 10.0


@given(positive, positive)
def test_range_holds_90_pct_unless_cut(mean, sd):
    low, high = likely_range(mean, sd, low=-1e9)
    normal = NormalDist(mean, sd)
    assert normal.cdf(high) - normal.cdf(low) == pytest.approx(0.9)


@given(st.floats(0.0, 100.0), positive)
def test_range_is_cut_at_physical_limits(mean, sd):
    low, high = likely_range(mean, sd, low=0.0, high=100.0)
    assert 0.0 <= low <= mean <= high <= 100.0


@given(means, positive, means, positive)
def test_chance_greater_is_symmetric_and_normal(mean_a, sd_a, mean_b, sd_b):
    chance = chance_greater(mean_a, sd_a, mean_b, sd_b)
    assert chance + chance_greater(mean_b, sd_b, mean_a, sd_a) == pytest.approx(1.0)
    gap = NormalDist(mean_a, sd_a) - NormalDist(mean_b, sd_b)
    assert chance == pytest.approx(1.0 - gap.cdf(0.0), abs=1e-9)


def test_chance_without_spread():
    assert chance_greater(2.0, 0.0, 1.0, 0.0) == 1.0
    assert chance_greater(1.0, 0.0, 2.0, 0.0) == 0.0
    assert chance_greater(1.0, 0.0, 1.0, 0.0) == 0.5


@pytest.mark.parametrize(
    ("chance", "shown"),
    [
        (0.95, Difference.CLEAR),
        (0.05, Difference.CLEAR),
        (0.75, Difference.SLIGHT),
        (0.6, Difference.WITHIN_SPREAD),
    ],
)
def test_difference_words(chance, shown):
    assert difference(chance) is shown


@given(st.floats(0.0, 100.0), st.integers(1, 50), st.floats(0.0, 1.0))
def test_the_spread_of_equal_boards_is_that_of_their_sum(cv, boards, correlation):
    together = sd_of_sum([cv / boards] * boards, correlation)
    assert cv_of_boards(cv, boards, correlation) == pytest.approx(together, abs=1e-9)


def test_a_likely_range_of_arrays_is_that_of_each_element():
    expected, sd = numpy.array([1.0, 5.0, 100.0]), numpy.array([2.0, 0.5, 10.0])
    most = numpy.array([10.0, 5.2, 1000.0])
    low, high = likely_range(expected, sd, 0.0, most)
    each = [likely_range(*one) for one in zip(expected, sd, [0.0] * 3, most, strict=True)]
    assert list(zip(low, high, strict=True)) == each
    assert low[0] == 0.0
    assert high[1] == 5.2


@pytest.mark.parametrize(
    ("chance", "shown"),
    [
        (0.9, Difference.CLEAR),
        (0.1, Difference.CLEAR),
        (0.8999, Difference.SLIGHT),
        (0.7, Difference.SLIGHT),
        (0.6999, Difference.WITHIN_SPREAD),
        (0.5, Difference.WITHIN_SPREAD),
    ],
)
def test_differences_at_their_limits(chance, shown):
    assert difference(chance) is shown
