"""A wood's own fiber saturation point, and the printed coefficient from 6 to 14 %."""

from dataclasses import replace

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import WHITE_OAK, value

import woodref
from woodref.board.movement import movement
from woodref.board.movement_basis import movement_basis
from woodref.board.weight import density_of
from woodref.formulas.shrinkage import (
    COEFFICIENT_FROM_PCT,
    COEFFICIENT_TO_PCT,
    dimensional_change_coefficient,
    implied_fiber_saturation,
    share_of_green_size_by_coefficient,
    size_by_coefficient,
)
from woodref.reference.bases import IMPLIED, OWN
from woodref.reference.fiber_saturation import FiberSaturation, fiber_saturation_of

shrinkages = st.floats(1.0, 15.0)
points = st.floats(18.0, 34.0)
coefficients = st.floats(0.0004, 0.006)
moistures = st.floats(0.0, 30.0)


def with_coefficients(wood, radial, tangential):
    """The wood with two printed coefficients beside its shrinkages."""
    more = (
        value("dimensional_change_coefficient_radial", radial),
        value("dimensional_change_coefficient_tangential", tangential),
    )
    return replace(wood, values=wood.values | {(v.property_id, v.condition): v for v in more})


@given(shrinkages, points)
def test_the_point_is_the_one_the_coefficient_was_made_with(total, point):
    coefficient = dimensional_change_coefficient(total, 10.0, point)
    assert implied_fiber_saturation(total, coefficient) == pytest.approx(point)


@given(shrinkages, points, coefficients)
def test_the_curve_is_continuous_where_the_coefficient_begins_and_ends(total, point, coefficient):
    for at in (COEFFICIENT_FROM_PCT, COEFFICIENT_TO_PCT):
        below, above = (
            share_of_green_size_by_coefficient(m, total, point, coefficient)
            for m in (at - 1e-9, at + 1e-9)
        )
        assert below == pytest.approx(above, abs=1e-8)


@given(moistures, moistures, moistures, st.sampled_from(["iroko", "khaya", "white oak", "teak"]))
def test_steps_add_up(first, second, third, name):
    wood = woodref.wood(name)
    whole = movement(wood, 300.0, first, third).after_mm
    halfway = movement(wood, 300.0, first, second).after_mm
    assert movement(wood, halfway, second, third).after_mm == pytest.approx(whole, rel=1e-12)


def test_a_coefficient_that_differs_by_more_than_a_tenth_governs_from_6_to_14():
    """Iroko, Wood Handbook FPL-GTR-190 (2010), Table 13-5, p. 13-17: CT 0.00205."""
    iroko = woodref.wood("iroko")
    basis = movement_basis(iroko)
    assert basis.by_coefficient
    assert basis.tangential_coefficient.value == 0.00205
    by_handbook = size_by_coefficient(300.0, 6.0, 14.0, 0.00205) - 300.0
    # The handbook's short form starts from the first size; ours from the size at 10 %.
    assert movement(iroko, 300.0, 6.0, 14.0).change_mm == pytest.approx(by_handbook, rel=0.01)


def test_a_coefficient_of_the_shrinkage_changes_nothing():
    """White oak: the printed coefficients are those of its shrinkage at 30 %, Table 13-5."""
    printed = with_coefficients(WHITE_OAK, 0.00194, 0.00376)
    assert not movement_basis(printed).by_coefficient
    for span in ((6.0, 14.0), (4.0, 20.0), (30.0, 0.0)):
        plain = movement(WHITE_OAK, 300.0, *span).after_mm
        assert movement(printed, 300.0, *span).after_mm == plain


def test_own_shrinkage_goes_before_a_printed_coefficient():
    own = with_coefficients(WHITE_OAK, 0.00100, 0.00200)
    assert movement_basis(own).by_coefficient
    values = {
        k: replace(v, basis=OWN) if k[0].startswith("shrinkage") else v
        for k, v in own.values.items()
    }
    assert not movement_basis(replace(own, values=values)).by_coefficient


def test_many_at_once_are_those_of_each():
    names = ["iroko", "khaya", "white oak", "western redcedar", "European beech"] * 3
    start = numpy.linspace(0.0, 28.0, len(names))
    found = woodref.movement(names, 300.0, start, 9.0, cut="rift")
    for i, name in enumerate(names):
        one = woodref.movement(name, 300.0, float(start[i]), 9.0, cut="rift")
        assert found.change_mm[i] == pytest.approx(one.change_mm, rel=1e-12, abs=1e-12)
        assert found.likely_mm.high[i] == pytest.approx(one.likely_mm.high, rel=1e-12)


def test_movement_and_density_take_the_same_point():
    lower = replace(WHITE_OAK, fiber_saturation=FiberSaturation(22.0, IMPLIED))
    assert movement(lower, 300.0, 22.0, 6.0).after_mm == movement(lower, 300.0, 30.0, 6.0).after_mm
    assert density_of(lower, 12.0).density_kg_m3 < density_of(WHITE_OAK, 12.0).density_kg_m3
    assert density_of(lower, 25.0).notes[0].code == "above-fiber-saturation"


def test_the_spread_of_the_point_goes_into_the_likely_range():
    """Shrinkage 15 % over a point of 30 with 4 either way: 21.0 %, drawn in test_coverage.py."""
    change = movement(WHITE_OAK, 300.0, 6.0, 14.0).likely_change_mm
    half = (change.high - change.low) / 2.0 / change.expected
    a2, f2 = 0.15**2, (4.0 / 30.0) ** 2
    assert half == pytest.approx(1.6449 * (a2 + f2 + 3.0 * a2 * f2 + 8.0 * f2**2) ** 0.5, rel=1e-3)


@pytest.mark.parametrize(
    ("implied", "relation", "pct"), [(22.0, "other", 22.0), (None, "united-states", 30.0)]
)
def test_a_point_implied_by_print_goes_before_the_general_one(implied, relation, pct):
    point = fiber_saturation_of(implied, relation)
    assert (point.pct, point.implied) == (pct, implied is not None)
    assert fiber_saturation_of(None, "other").pct == 28.0
