"""Stock, board feet and cost."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import SIZES, WHITE_OAK, ids_of

from woodref.errors import InputError
from woodref.lumber.nominal import Nominal, choose_nominal, parse_nominal
from woodref.lumber.prices import parse_prices
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.piece.cost import lumber_line, part_board_feet, sheet_line, stock_for
from woodref.piece.parts_table import Part, Sheet
from woodref.quantity import Range, with_waste

NO_WASTE = Range(0, 0, 0)
IDS = frozenset(WHITE_OAK.species_ids)
SOLD = ThicknessesSold.only(SIZES)


def board(thickness_in, width_in=8.0, length_in=120.0, quantity=1, stock=None):
    return Part(
        "board",
        quantity,
        length_in * 25.4,
        width_in * 25.4,
        thickness_in * 25.4,
        "parts[1]",
        species="white oak",
        stock=parse_nominal(stock) if stock else None,
    )


@pytest.mark.parametrize(
    ("finished_in", "nominal"),
    [
        (0.5, "3/4"),
        (0.75, "4/4"),
        (0.8125, "4/4"),
        (0.875, "5/4"),
        (1.0, "5/4"),
        (1.25, "6/4"),
        (1.75, "8/4"),
        (2.0, "10/4"),
        (2.75, "12/4"),
    ],
)
def test_least_nominal_whose_dressed_thickness_reaches(finished_in, nominal):
    # NHLA standard thicknesses: 4/4 dresses to 13/16, 5/4 to 1-1/16, 6/4 to 1-5/16, 8/4 to 1-3/4.
    assert choose_nominal(finished_in * 25.4, SIZES).nominal == nominal
    assert choose_nominal(finished_in * 25.4, SIZES[::-1]).nominal == nominal


def test_no_stock_reaches():
    assert choose_nominal(76.0, SIZES) is None
    with pytest.raises(InputError, match=r"no standard stock dresses to 2.992 in \(76 mm\)"):
        stock_for(board(76 / 25.4), WHITE_OAK, SOLD)


def test_a_size_from_memory_keeps_that_word_and_a_tight_one_is_remarked():
    assert stock_for(board(2.0), WHITE_OAK, SOLD).unchecked
    assert not stock_for(board(0.75, stock="4/4"), WHITE_OAK, SOLD).unchecked


def test_stock_that_dresses_to_less_is_refused():
    with pytest.raises(InputError) as caught:
        stock_for(board(0.875, stock="4/4"), WHITE_OAK, SOLD)
    assert str(caught.value) == (
        "stock: 4/4 dresses to 13/16 in (20.64 mm): too thin for 7/8 in (22.22 mm); 5/4 reaches it"
    )


def test_board_feet_of_known_boards():
    # NHLA rules: 4/4, 8 in x 10 ft is 6-2/3 board feet; 8/4 twice that; under 4/4 as 4/4.
    assert part_board_feet(board(0.75), Nominal("4/4", 25.4)) == pytest.approx(20 / 3)
    assert part_board_feet(board(0.5), Nominal("3/4", 19.05)) == pytest.approx(20 / 3)
    assert part_board_feet(board(1.5, quantity=3), Nominal("8/4", 50.8)) == pytest.approx(40.0)


def test_cost_has_low_and_high_from_waste_and_price():
    text = "species,thickness,price,per,low,high\nwhite oak,4/4,9,board foot,8,10\n"
    prices = parse_prices(text, "p.csv", ids_of)
    line = lumber_line(
        "white oak", IDS, Nominal("4/4", 25.4), [board(0.75)], Range(25, 20, 30), prices
    )
    assert line.buy_board_feet.expected == pytest.approx(25 / 3)
    assert (line.cost.low, line.cost.expected, line.cost.high) == pytest.approx(
        (20 / 3 * 1.2 * 8, 75.0, 20 / 3 * 1.3 * 10)
    )


def test_a_price_by_volume_takes_the_true_thickness():
    text = "species,thickness,price,per\nwhite oak,20 mm,4000,m3\n"
    prices = parse_prices(text, "p.csv", ids_of)
    part = Part("b", 2, 1000.0, 100.0, 15.0, "parts[1]", species="white oak")
    line = lumber_line("white oak", IDS, Nominal("20 mm", 20.0), [part], NO_WASTE, prices)
    assert line.cost.expected == pytest.approx(2 * 1.0 * 0.1 * 0.02 * 4000)
    assert not line.cost.is_range
    # Board feet of the same stock are counted as if it were 1 in thick.
    assert line.net_board_feet == pytest.approx(0.2 * 0.0254 / 0.002359737216)


def test_what_has_no_price_says_what_the_list_has():
    text = "species,thickness,price,per\nwhite oak,8/4,9,board foot\n"
    prices = parse_prices(text, "p.csv", ids_of)
    line = lumber_line("white oak", IDS, Nominal("4/4", 25.4), [board(0.75)], NO_WASTE, prices)
    assert line.cost is None
    assert line.unpriced == "p.csv has no white oak 4/4, only 8/4"
    bare = lumber_line("white oak", IDS, Nominal("4/4", 25.4), [board(0.75)], NO_WASTE, None)
    assert (bare.cost, bare.unpriced) == (None, "no price list")


def sheet_part(sheet):
    return Part("s", 1, 2000.0, 1000.0, 12.0, "parts[1]", sheet=sheet)


def test_sheet_goods_are_priced_by_area_or_whole():
    by_area = Sheet("ply", 12.0, 600.0, Range(10, 9, 12), "m2")
    line = sheet_line(by_area, [sheet_part(by_area)], Range(10, 5, 20))
    assert (line.cost.low, line.cost.expected, line.cost.high) == pytest.approx((18.9, 22, 28.8))
    by_foot = Sheet("ply", 12.0, 600.0, Range(1, 1, 1), "ft2")
    assert sheet_line(by_foot, [sheet_part(by_foot)], NO_WASTE).cost.expected == pytest.approx(
        2.0 * 10.7639104
    )
    whole = Sheet("ply", 12.0, 600.0, Range(50, 50, 50), "sheet", 2.1)
    line = sheet_line(whole, [sheet_part(whole)], Range(10, 0, 20))
    assert (line.sheets.low, line.sheets.expected, line.sheets.high) == (1, 2, 2)
    assert (line.cost.low, line.cost.expected) == (50, 100)
    free = Sheet("ply", 12.0, 600.0)
    assert sheet_line(free, [sheet_part(free)], NO_WASTE).unpriced == "no price for ply"


@given(st.floats(3.0, 69.0))
def test_the_stock_reaches_and_no_thinner_one_does(thickness):
    chosen = choose_nominal(thickness, SIZES)
    assert chosen.dressed_mm >= thickness - 0.05
    assert all(s.dressed_mm < thickness for s in SIZES if s.rough_mm < chosen.rough_mm)


@given(st.floats(0.0, 1e4), st.floats(0, 100), st.floats(0, 100))
def test_waste_adds(net, first, second):
    low, high = sorted((first, second))
    buy = with_waste(net, Range((low + high) / 2, low, high))
    assert net <= buy.low <= buy.expected + 1e-9 <= buy.high + 2e-9
