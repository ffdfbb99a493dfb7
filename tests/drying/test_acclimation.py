"""Stock that acclimatizes in a room before it is milled."""

import pytest
from small_woods import SUGAR_MAPLE, WHITE_OAK

from woodref.climate.rooms import room_of
from woodref.drying.acclimation import acclimate, acclimate_in
from woodref.errors import InputError
from woodref.reference.library import Reference
from woodref.reference.trade import acclimation_rule

INCH = 25.4


@pytest.fixture(scope="module")
def reference():
    return Reference()


def test_maple_of_an_inch_takes_about_50_days():
    """12 to 7 %: the relation's time for 4/4, worked apart from this program."""
    stock = acclimate(SUGAR_MAPLE, INCH, 12.0, 7.0)
    assert 40.0 < stock.mean_days.expected < 60.0
    assert stock.middle_days.expected > stock.mean_days.expected


def test_days_mean_what_they_say():
    stock = acclimate(SUGAR_MAPLE, INCH, 12.0, 7.0)
    for day in stock.course:
        near = day.mean_pct.expected - 7.0 < 1.0
        assert near == (day.days > stock.mean_days.expected)
        assert day.mean_pct.low <= day.mean_pct.expected <= day.mean_pct.high
        assert day.mean_pct.expected <= day.middle_pct.expected + 1e-6


def test_twice_as_thick_takes_about_four_times_as_long():
    thin, thick = (
        acclimate(SUGAR_MAPLE, t, 12.0, 7.0).mean_days.expected for t in (INCH, 2 * INCH)
    )
    assert thick / thin == pytest.approx(4.0, abs=0.2)


def test_a_board_half_as_fast_takes_twice_as_long():
    days = acclimate(SUGAR_MAPLE, 2 * INCH, 12.0, 7.0).mean_days
    assert days.high / days.expected == pytest.approx(2.0, abs=0.05)
    assert days.expected / days.low == pytest.approx(2.0, abs=0.05)


def test_stock_near_the_room_is_acclimatized():
    stock = acclimate(SUGAR_MAPLE, INCH, 7.9, 7.0)
    assert (stock.mean_days.expected, stock.middle_days.high) == (0.0, 0.0)


def test_the_driest_thickest_stock_gets_an_answer():
    assert acclimate(SUGAR_MAPLE, 152.4, 30.0, 3.0).middle_days.high > 3650.0


def test_wetting_is_followed_too():
    stock = acclimate(SUGAR_MAPLE, INCH, 6.0, 11.0)
    assert stock.course[0].mean_pct.expected > 6.0
    assert stock.mean_days.expected > 5.0


@pytest.mark.parametrize("ends", [(31.0, 7.0), (12.0, -1.0), (12.0, 45.0)])
def test_impossible_stock(ends):
    with pytest.raises(InputError, match="moisture content"):
        acclimate(SUGAR_MAPLE, INCH, *ends)


def test_in_a_room_the_month_counts_or_the_mean_of_the_year(reference):
    duluth = room_of(reference, "Duluth").season
    january = duluth.months[0]
    month = acclimate_in(WHITE_OAK, INCH, 9.0, duluth, 1)
    assert month == acclimate(WHITE_OAK, INCH, 9.0, january.emc_pct, january.temperature_c)
    year = acclimate_in(WHITE_OAK, INCH, 9.0, duluth)
    assert year.to_pct == duluth.mean_emc_pct


def test_the_rule_of_the_trade_is_common_practice(reference):
    rule = acclimation_rule(reference)
    assert (rule.low_days, rule.high_days, rule.basis) == (7.0, 14.0, "common_practice")
