"""What boards amount to and cost, and the waste that a grade asks for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.lumber.board_price import amounts_of, board_price
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.lumber.price_rows import Price
from woodref.lumber.waste import graded_waste
from woodref.quantity import Range

INCH, FOOT = 25.4, 304.8


def test_board_feet_and_volume_of_a_board():
    feet, volume = amounts_of(parse_nominal("8/4"), 6 * INCH, 8 * FOOT)
    assert feet == pytest.approx(8.0)
    assert volume == pytest.approx(8 * 0.002359737216)
    # Under 4/4 counts as 4/4 by the board foot, not by the cubic meter.
    feet, volume = amounts_of(parse_nominal("3/4"), 12 * INCH, FOOT)
    assert (feet, volume) == pytest.approx((1.0, 0.75 * 0.002359737216))


@pytest.mark.parametrize(
    ("per", "amount"),
    [("board foot", 5.0), ("m3", 5 * 0.002359737216), ("linear foot", 8.0), ("board", 1.0)],
)
def test_a_board_by_every_kind_of_price(per, amount):
    price = Price(2, "ash", frozenset({"ash"}), None, Range(9.0, 8.0, 11.0), per)
    found = board_price(price, Nominal("5/4", 31.75), 6 * INCH, 8 * FOOT)
    assert (found.expected, found.low, found.high) == pytest.approx(
        (9 * amount, 8 * amount, 11 * amount)
    )


@given(st.floats(1.0, 100.0), st.floats(0.1, 100.0))
def test_the_waste_of_a_yield_gives_the_clear_wood_back(clear_pct, needed):
    bought = needed * (1.0 + graded_waste(clear_pct) / 100.0)
    assert bought * clear_pct / 100.0 == pytest.approx(needed)


@pytest.mark.parametrize("clear_pct", [0.0, -1.0, 100.1, float("nan")])
def test_a_yield_that_cannot_be(clear_pct):
    with pytest.raises(InputError, match="a yield is above 0 and at most 100 %"):
        graded_waste(clear_pct)
