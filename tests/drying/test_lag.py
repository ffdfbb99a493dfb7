"""A board behind the air: its finish, its thickness, a year that repeats, what is not known."""

import numpy as np
import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from small_woods import SUGAR_MAPLE, WHITE_OAK

from woodref.board.movement import movement
from woodref.drying.ambient import months_between, steady_air, vapor_per_pct, yearly_air
from woodref.drying.finish import BARE, finish_on
from woodref.drying.finish_fit import CASES
from woodref.drying.follow import board_of, follow
from woodref.drying.lag import lag_step, lag_year, width_change
from woodref.errors import InputError, NoDataError
from woodref.formulas.air import saturation_vapor_pressure
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.quantity import Range
from woodref.reference.finishes import finish_rows
from woodref.reference.library import Reference

DAY = 86_400.0


@pytest.fixture(scope="module")
def rows():
    return finish_rows(Reference())


@pytest.fixture(scope="module")
def three(rows):
    return [BARE, *(finish_on(rows, n, 3) for n in ("linseed oil", "urethane varnish"))]


@pytest.fixture(scope="module")
def ash():
    return board_of(Reference().wood("white ash"), 19.05)


def test_after_two_wet_months_varnish_leaves_least(ash, three):
    bare, oil, varnish = lag_step(ash, three, 6.0, 10.0, [61.0])
    assert bare.mean_share[0].expected > oil.mean_share[0].expected > 0.9
    assert 0.4 < varnish.mean_share[0].expected < 0.8


def test_a_range_holds_its_likely_value_and_says_something(ash, three):
    for step in lag_step(ash, three, 6.0, 10.0, [7.0, 61.0]):
        for s in (*step.mean_share, *step.middle_share):
            assert 0.0 <= s.low <= s.expected <= s.high <= 1.0
        assert step.mean_share[0].high - step.mean_share[0].low > 0.05


def test_the_middle_is_behind_the_mean(ash, three):
    for step in lag_step(ash, three, 6.0, 10.0, [3.0, 10.0, 30.0]):
        pairs = zip(step.middle_share, step.mean_share, strict=True)
        assert all(middle.expected < mean.expected for middle, mean in pairs)


def test_a_finish_does_not_change_where_wood_comes_to_rest(ash, three):
    for step in lag_step(ash, three, 6.0, 10.0, [3650.0]):
        assert step.mean_share[0].low == pytest.approx(1.0, abs=1e-3)


def test_one_face_alone_holds_back_less_than_both(ash, rows):
    both = finish_on(rows, "shellac", 3)
    one = finish_on(rows, "shellac", 3, one_face=True)
    shares = [s.mean_share[0].expected for s in lag_step(ash, [BARE, one, both], 6.0, 10.0, [30.0])]
    assert shares[0] > shares[1] > shares[2]


def test_a_year_between_its_ends(ash, three):
    emc = months_between(6.0, 10.0)
    assert (min(emc), max(emc)) == (6.0, 10.0)
    years = lag_year(ash, three, emc)
    shares = [y.mean_share.expected for y in years]
    assert 1.0 > shares[0] > shares[1] > shares[2] > 0.3
    for y in years:
        assert y.swing_pct == pytest.approx(4.0)
        assert 6.0 < y.driest_pct.expected < y.wettest_pct.expected < 10.0
        # The mid-month figures lie within the extremes of the year, close to them.
        means = [m.mean_pct.expected for m in y.months]
        assert min(means) == pytest.approx(y.driest_pct.expected, abs=0.1)
        assert max(means) == pytest.approx(y.wettest_pct.expected, abs=0.1)


def test_a_year_repeats(ash, three):
    """Another year from its end comes back to the same profile."""
    emc = months_between(6.0, 12.0)
    year = lag_year(ash, three, emc)[2]
    air = yearly_air(emc, (20.0,) * 12)
    times = [n / 72.0 * 365.0 * DAY for n in range(4 * 72 + 1)]
    last = follow(ash, three[2], air, 9.0, times)[0].mean_pct[-73:]
    assert min(last) == pytest.approx(year.driest_pct.expected, abs=0.03)
    assert max(last) == pytest.approx(year.wettest_pct.expected, abs=0.03)


def test_a_linear_board_follows_the_textbook():
    """Thin, held back by its faces alone: share 1 / sqrt(1 + (w T)^2), any text on lag.

    Straight lines between twelve points of a cosine hold (sin x / x)^2 of it, x = pi / 12.
    """
    board = board_of(SUGAR_MAPLE, 2.0)
    rows = finish_rows(Reference())
    epoxy = finish_on(rows, "epoxy", 2)
    emc = months_between(7.9, 8.1)
    step = lag_step(board, [epoxy], 7.9, 8.1, [1.0, 30.0])[0]
    left = [1.0 - s.expected for s in step.mean_share]
    constant_days = 29.0 / np.log(left[0] / left[1])
    expected = np.sinc(1.0 / 12.0) ** 2 / np.hypot(1.0, 2.0 * np.pi / 365.0 * constant_days)
    assert lag_year(board, [epoxy], emc)[0].mean_share.expected == pytest.approx(
        expected, abs=0.005
    )


@FEW
@given(thin=st.floats(5.0, 40.0), more=st.floats(2.0, 40.0))
def test_a_thicker_board_is_slower(thin, more):
    first, second = (
        lag_step(board_of(WHITE_OAK, t), [BARE], 6.0, 12.0, [20.0])[0] for t in (thin, thin + more)
    )
    assert second.mean_share[0].expected < first.mean_share[0].expected
    assert second.mean_share[0].low < first.mean_share[0].low


def test_air_of_a_year_meets_its_months_and_repeats():
    emc = tuple(float(n) for n in range(5, 17))
    air = yearly_air(emc, (20.0,) * 12, first=3)
    month = 365.0 / 12.0 * DAY
    assert air.emc_pct(0.5 * month) == pytest.approx(emc[2])
    assert air.emc_pct(9.5 * month) == pytest.approx(emc[11])
    assert air.emc_pct(12.5 * month) == pytest.approx(emc[2])
    assert air.emc_pct(1.0 * month) == pytest.approx((emc[2] + emc[3]) / 2.0)


def test_the_vapor_over_wood_rises_as_the_equation_says():
    low, high = (equilibrium_moisture_content(20.0, h) for h in (30.0, 60.0))
    air = steady_air(high, 20.0, low)
    secant = saturation_vapor_pressure(20.0) * 0.3 / (high - low)
    assert vapor_per_pct(air) == pytest.approx(secant, rel=0.05)


@pytest.mark.parametrize("ends", [(0.0, 0.0), (0.0, 30.0), (29.0, 30.0), (8.0, 8.0)])
def test_the_vapor_over_wood_is_known_at_the_ends_too(ends):
    assert 1.0 < vapor_per_pct(steady_air(ends[1], 20.0, ends[0])) < 2000.0


def test_width_follows_the_mean_and_joins_both_ranges():
    sharp = width_change(SUGAR_MAPLE, 300.0, 6.0, Range(9.0, 9.0, 9.0))
    moved = movement(SUGAR_MAPLE, 300.0, 6.0, 9.0)
    assert tuple(sharp) == pytest.approx(tuple(moved.likely_change_mm))
    wide = width_change(SUGAR_MAPLE, 300.0, 6.0, Range(9.0, 8.0, 9.5))
    assert wide.expected == sharp.expected
    assert wide.low < sharp.low < sharp.high < wide.high


@pytest.mark.parametrize("thickness", [0.0, 0.5, 153.0, float("nan")])
def test_an_impossible_thickness(thickness):
    with pytest.raises(InputError, match="a thickness of 1/32 to 6 in"):
        board_of(SUGAR_MAPLE, thickness)


def test_a_wood_without_density():
    from small_woods import BARE as NO_FIGURES

    with pytest.raises(NoDataError):
        board_of(NO_FIGURES, 20.0)


@pytest.mark.parametrize(
    ("ends", "days", "problem"),
    [
        ((6.0, 31.0), [7.0], "the second moisture content 31"),
        ((-1.0, 8.0), [7.0], "the first moisture content -1"),
        ((8.0, 8.0), [7.0], "nothing to follow"),
        ((6.0, 8.0), [0.0], "days are above 0"),
        ((6.0, 8.0), [], "days are above 0"),
    ],
)
def test_impossible_questions(ash, ends, days, problem):
    with pytest.raises(InputError, match=problem):
        lag_step(ash, [BARE], *ends, days)


def test_an_impossible_month(ash):
    with pytest.raises(InputError, match="month 12: the moisture content 40"):
        lag_year(ash, [BARE], (*[8.0] * 11, 40.0))


def test_a_memory_row_keeps_the_word(rows):
    assert finish_on(rows, "shellac", 1).basis == "unchecked"
    assert finish_on(rows, "linseed oil", 1).basis == "checked"
    assert finish_on(rows, "none", 5) == BARE


def test_the_likely_case_stands_first():
    assert len(CASES) == len(set(CASES)) == 9
    assert CASES[0] == (2.5, 1.0)
