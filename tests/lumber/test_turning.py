"""Turnings glued from staves: how many, how thick, and what they come to."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import ALLOWANCES, SIZES, WHITE_OAK, WOODS

from woodref.board.shapes import Shape
from woodref.lumber.buying import buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.nominal import parse_nominal
from woodref.lumber.tally import parse_board
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.lumber.turning import glued_turning
from woodref.quantity import Range

INCH = 25.4
SOLD = ThicknessesSold.only(SIZES)


def glued(diameter_in, staves=1, stock=None):
    nominal = parse_nominal(stock) if stock else None
    return glued_turning(diameter_in * INCH, staves, nominal, WHITE_OAK, SOLD, ALLOWANCES)


def leg(diameter_in=5.0, staves=1, **more):
    d = diameter_in * INCH
    shape = Shape("cylinder", 28 * INCH, d, d)
    return CutPart("leg", 28 * INCH, d, d, "white oak", 4, staves, shape, **more)


def test_what_a_board_is_thick_enough_for_is_not_glued():
    # NHLA: 8/4 surfaced two sides is 1-3/4 in.
    assert glued(1.75, stock="8/4") is None
    assert glued(5.0, stock="24/4") is None


def test_the_staves_of_a_stock_reach_the_blank():
    # A 4 in leg, its blank 1/4 in larger: three staves of 1-3/4 in at the most, 1.417 in each.
    three = glued(4.0, stock="8/4")
    assert three.staves == 3
    assert three.stave_mm / INCH == pytest.approx(4.25 / 3)
    assert three.side_mm / INCH == pytest.approx(4.25)
    assert three.glue_faces == 2
    # Two faces of 4-1/4 in by 28 in.
    assert three.glue_area_m2(28 * INCH) == pytest.approx(2 * 4.25 * 28 * INCH**2 * 1e-6)


def test_as_many_staves_as_were_asked_for():
    assert glued(1.5, staves=2).stave_mm / INCH == pytest.approx(1.75 / 2)


@given(st.floats(0.5, 30.0), st.sampled_from([None, "4/4", "8/4"]))
def test_the_fewest_staves_that_stock_reaches(diameter_in, stock):
    made = glued(diameter_in, stock=stock)
    most = SOLD.most_mm(WHITE_OAK)
    if stock:
        most = next(s.dressed_mm for s in SIZES if s.nominal == stock)
    if made is None:
        assert diameter_in * INCH <= most + 0.051 or diameter_in * INCH > 23 * most
        return
    assert made.staves * made.stave_mm == pytest.approx(made.side_mm)
    assert made.stave_mm <= most + 0.051
    assert made.staves == 2 or made.side_mm / (made.staves - 1) > most


def test_a_plan_cuts_every_stave_of_every_turning():
    made = buying_plan([leg(stock=parse_nominal("8/4"))], WOODS, SOLD, ALLOWANCES,
                       Range(25.0, 20.0, 30.0), effort="quick")  # fmt: skip
    (part,) = made.parts
    assert part.glued.staves == 3
    assert made.blanks == 4 * 3
    (bought,) = made.purchases
    assert bought.nominal.label == "8/4"
    # Each stave is as wide as the leg: 5 in x 28 in x 2 in, and a fourth for waste.
    feet = 4 * 3 * 2 * 5 * 28 / 144
    assert bought.board_feet.expected == pytest.approx(1.25 * feet)


def test_a_thick_board_in_hand_is_turned_whole():
    boards = [(WHITE_OAK, parse_board("22/4 x 7 x 10ft"))]
    made = buying_plan([leg(stock=parse_nominal("22/4"))], WOODS, SOLD, ALLOWANCES,
                       Range(25.0, 20.0, 30.0), boards, effort="quick")  # fmt: skip
    assert made.parts[0].glued is None
    assert made.complete
