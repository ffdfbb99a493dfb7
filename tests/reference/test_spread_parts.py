"""What the spread of a figure is made of."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.answers.steps import spread_line
from woodref.formulas.spread import sd_of_range
from woodref.reference.library import Reference
from woodref.reference.woods import SpreadParts

PART = st.floats(0.0, 100.0)


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@given(PART, PART, PART, PART, PART, st.floats(0.0, 10.0))
def test_parts_join_in_quadrature(boards, mean, printed_range, estimate, woods, factor):
    parts = SpreadParts(boards, mean, printed_range, estimate, woods)
    assert parts.sd == pytest.approx(hypot(boards, parts.of_mean))
    assert parts.scaled(factor).sd == pytest.approx(factor * parts.sd, abs=1e-9)


@given(st.floats(0.0, 100.0), st.floats(0.0, 100.0))
def test_a_range_spreads_as_a_uniform_distribution(low, width):
    """Variance of the uniform distribution: width squared over 12 (any textbook)."""
    assert sd_of_range(low, low + width) ** 2 * 12.0 == pytest.approx(width**2, abs=1e-6)


def test_every_value_has_the_spread_of_its_parts(reference):
    ids = [
        r["species_id"]
        for r in reference.store.rows(
            "select distinct species_id from {measurements} where property_id = 'shrinkage_radial'"
        )
    ]
    for wood in reference.woods(ids).values():
        for v in (*wood.values.values(), *wood.estimates.values()):
            assert v.spread_parts.sd == pytest.approx(v.sd or 0.0)


def test_a_printed_range_widens_the_likely_range(reference):
    """Caribbean pine: specific gravity of Agriculture Handbook 607 printed 0.34 to 0.68."""
    ranged = [
        v
        for wood in reference.woods(
            r["species_id"]
            for r in reference.store.rows(
                "select species_id from {measurements} where preferred and value_low is not null"
            )
        ).values()
        for v in wood.values.values()
        if v.printed_low is not None and v.sd
    ]
    assert ranged
    for v in ranged:
        width = v.printed_high - v.printed_low
        assert v.spread_parts.printed_range == pytest.approx(width / 12.0**0.5)
        assert v.sd > hypot(v.spread_parts.boards, v.spread_parts.mean) or width == 0.0


def test_a_group_spreads_between_its_woods(reference):
    oak = reference.wood("red oak group").value("basic_specific_gravity")
    assert oak.spread_parts.woods > 0.0
    assert oak.spread_parts.sd == pytest.approx(oak.sd)


def test_the_line_names_its_parts(reference):
    printed = spread_line(reference.wood("white oak").value("basic_specific_gravity"))
    assert "10.0 % between boards" in printed
    assert "of the printed mean" in printed
    estimated = spread_line(reference.wood("ziricote").estimate("shrinkage_radial"))
    assert "of the estimate" in estimated
