"""Boards in hand and boards to buy, against plans that can be reckoned by hand."""

from collections import Counter
from dataclasses import replace

import pytest
from cut_boards import check_plan
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from small_woods import BLACK_WALNUT, SIZES, WHITE_OAK, WOODS, ids_of

from woodref.cutting.model import Blank, CutBoard, CutPlan, StockBoard, Strip
from woodref.errors import InputError
from woodref.lumber.buying import buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.cutting_instructions import cut_words, rest_of, used_pct
from woodref.lumber.multiples import multiples_of
from woodref.lumber.nominal import parse_nominal
from woodref.lumber.prices import parse_prices
from woodref.lumber.rough import Allowances
from woodref.lumber.tally import parse_board
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.lumber.yard import Yard
from woodref.quantity import Range

NONE = Allowances(0.0, 0.0, 0.0, 0.0, 4.7625)
USUAL = Allowances(25.4, 6.35, 25.4, 3.175, 4.7625)
WASTE = Range(25.0, 20.0, 30.0)
INCH, FOOT = 25.4, 304.8
HEAD = "species,thickness,price,per,low,high,grade,date,currency,width,length\n"
PRICES = (
    HEAD
    + "white oak,4/4,9,board foot,8,10,FAS,2025-03-31,USD,,\n"
    + "white oak,4/4,6,board foot,,,No. 1 Common,2025-03-31,USD,,\n"
)


def part(name, length_in, width_in, thickness_in=0.75, quantity=1, staves=1, **more):
    sizes = (x * INCH for x in (length_in, width_in, thickness_in))
    return CutPart(name, *sizes, more.pop("species", "white oak"), quantity, staves, **more)


def hand(*boards, wood=WHITE_OAK):
    return [(wood, parse_board(text)) for text in boards]


def plan(parts, boards=(), allowances=NONE, effort="quick", **more):
    given = {"sizes": SIZES, "waste": WASTE, **more}
    sizes, waste = given.pop("sizes"), given.pop("waste")
    found = buying_plan(
        parts,
        WOODS,
        ThicknessesSold.only(sizes),
        allowances,
        waste,
        boards,
        effort=effort,
        **given,
    )
    for lot in found.lots:
        check_plan(lot.plan, cuts=3 if more.get("third_cut") else 2)
    return found


def priced(text):
    return parse_prices(text, "p.csv", ids_of)


def test_all_parts_come_out_of_the_boards_in_hand():
    found = plan([part("rail", 48, 3, quantity=4)], hand("4/4 x 6 x 8ft x 2"))
    assert found.complete
    assert found.purchases == ()
    assert found.cost is None
    assert [len(lot.plan.boards) for lot in found.lots] == [1]
    assert [(b.quantity, w.common_name) for w, b in found.left_over] == [(1, "white oak")]


def test_a_panel_is_cut_as_its_staves():
    top = part("top", 40, 20, staves=5, quantity=2)
    (blank,) = multiples_of(top, USUAL)
    assert (blank.length_mm, blank.width_mm) == pytest.approx((41 * INCH, 4.25 * INCH))
    assert (blank.pieces, blank.blanks) == (1, 10)
    # Half a stave more than half a board: two of ten come out of one board of 4-1/2 in x 8 ft.
    found = plan([top], hand("4/4 x 4-1/2 x 8ft x 4"), USUAL)
    assert [(u.quantity, u.parts_short, u.reason) for u in found.uncut] == [
        (2, 1, "no board is left for it (41 in x 4-1/4 in rough)")
    ]


def test_what_is_missing_is_bought_and_priced():
    # 8 ft boards of 6 in give four rails each: two in hand, so one of the nine is left.
    rails = [part("rail", 48, 3, quantity=9)]
    found = plan(
        rails,
        hand("4/4 x 6 x 8ft x 2"),
        yard=Yard((6 * INCH, 8 * INCH), (4 * FOOT, 8 * FOOT)),
        prices=priced(PRICES),
        grade="fas",
    )
    assert [(u.part.name, u.quantity) for u in found.uncut] == [("rail", 1)]
    (buy,) = found.purchases
    assert buy.boards == ((pytest.approx(6 * INCH), pytest.approx(4 * FOOT), 1),)
    assert buy.board_feet == Range(2.0, 2.0, 2.0)
    assert buy.waste is None
    assert found.cost == Range(18.0, 16.0, 20.0)
    assert (buy.prices[0].grade, buy.prices[0].date) == ("FAS", "2025-03-31")
    assert found.currency == "USD"
    assert found.unpriced == ()


def test_without_a_yard_the_waste_is_counted_and_never_beside_a_plan():
    found = plan([part("rail", 48, 3, quantity=4)], prices=priced(PRICES), grade="No. 1 Common")
    (buy,) = found.purchases
    # 4 ft2 of face; 20 to 30 % on top.
    f = buy.board_feet
    assert (f.expected, f.low, f.high) == pytest.approx((5.0, 4.8, 5.2))
    assert buy.waste == WASTE
    assert found.cost.expected == pytest.approx(30.0)
    assert (found.cost.low, found.cost.high) == pytest.approx((28.8, 31.2))
    assert found.uncut[0].reason == "no white oak in hand"


@pytest.mark.parametrize(
    ("row", "cost"),
    [
        # A board of 6 in x 8 ft x 4/4 is 4 board feet and 0.00944 m3.
        ("white oak,4/4,9,board foot,,,,,,,", 36.0),
        ("white oak,any,4000,m3,,,,,,,", 4000 * 4 * 0.002359737216),
        ("white oak,4/4,5,linear foot,,,,,,6 in,", 40.0),
        ("white oak,4/4,31,board,,,,,,6 in,8 ft", 31.0),
        ("white oak,4/4,31,board,,,,,,6 in,10 ft", None),
        ("white oak,4/4,5,linear foot,,,,,,7 in,", None),
        ("white oak,5/4,9,board foot,,,,,,,", None),
        ("black walnut,4/4,9,board foot,,,,,,,", None),
    ],
)
def test_prices_by_the_board_foot_the_cubic_meter_the_foot_and_the_board(row, cost):
    found = plan(
        [part("rail", 96, 6)], yard=Yard((6 * INCH,), (8 * FOOT,)), prices=priced(HEAD + row)
    )
    (buy,) = found.purchases
    if cost is None:
        assert buy.cost is None
        assert found.cost is None
        assert buy.unpriced.startswith("p.csv has no price for white oak 4/4")
    else:
        assert buy.cost.expected == pytest.approx(cost)


def test_the_price_of_the_very_board_goes_before_that_by_the_foot_and_by_amount():
    text = HEAD + (
        "white oak,4/4,9,board foot,,,,,,,\n"
        "white oak,4/4,4,linear foot,,,,,,6 in,\n"
        "white oak,4/4,20,board,,,,,,6 in,8 ft\n"
    )
    for lengths, cost in (((8,), 20.0), ((10,), 40.0)):
        found = plan(
            [part("rail", 96, 6)],
            yard=Yard((6 * INCH,), tuple(x * FOOT for x in lengths)),
            prices=priced(text),
        )
        assert found.cost.expected == pytest.approx(cost)


def test_what_the_list_does_not_have_is_said():
    rail, yard = [part("rail", 48, 3)], Yard((6 * INCH,), (8 * FOOT,))
    assert plan(rail, yard=yard).unpriced == ("no price list",)
    other = plan(rail, yard=yard, prices=priced(PRICES), grade="Selects")
    assert other.unpriced == (
        "p.csv has no price for white oak 4/4 Selects, only of another grade or sold in another "
        "way",
    )
    thick = plan([part("leg", 28, 2, 1.5)], yard=yard, prices=priced(PRICES))
    assert thick.unpriced == ("p.csv has no price for white oak 8/4, only 4/4",)


def test_the_thinnest_stock_that_dresses_comes_first_and_thicker_takes_what_is_left():
    rails = [part("rail", 48, 6, quantity=3)]
    found = plan(rails, hand("5/4 x 6 x 8ft", "4/4 x 6 x 8ft"))
    assert found.complete
    assert [(lot.nominal.label, len(lot.plan.boards[0].blanks)) for lot in found.lots] == [
        ("4/4", 2),
        ("5/4", 1),
    ]


def test_thick_stock_is_not_planed_away_for_thin_parts():
    found = plan([part("rail", 48, 6)], hand("8/4 x 6 x 8ft"))
    (left,) = found.uncut
    assert (
        left.reason == "only thicker white oak in hand, which is better resawn than planed so far"
    )
    assert plan([part("rail", 48, 6)], hand("6/4 x 6 x 8ft")).complete


def test_what_needs_the_thicker_stock_is_not_pushed_out_of_it():
    thin, thick = part("rail", 48, 6, quantity=4), part("top", 48, 6, 1.0, quantity=2)
    found = plan([thin, thick], hand("4/4 x 6 x 8ft", "5/4 x 6 x 8ft"))
    assert [(u.part.name, u.quantity) for u in found.uncut] == [("rail", 2)]
    found = plan([thin, thick], hand("4/4 x 6 x 8ft", "5/4 x 6 x 8ft x 2"))
    assert found.complete
    # A thin part as large as the thick board must not take its place.
    large = part("panel", 96, 6)
    found = plan([large, thick], hand("4/4 x 5 x 8ft", "5/4 x 6 x 8ft"))
    assert [(u.part.name, u.quantity) for u in found.uncut] == [("panel", 1)]


def test_why_no_board_in_hand_will_do():
    top = part("top", 48, 5, 0.875)
    cases = {
        ("4/4 x 6 x 8ft",): "4/4 dresses to 13/16 in: too thin for 7/8 in, and no white oak in "
        "hand is thicker",
        ("5/4 x 4 x 8ft",): "48 in x 5 in rough is larger than every board; glue it up: give it "
        "staves",
        ("5/4 x 6 x 3ft",): "48 in x 5 in rough is larger than every board",
        (): "no white oak in hand",
    }
    for boards, reason in cases.items():
        assert [u.reason for u in plan([top], hand(*boards)).uncut] == [reason]
    walnut = hand("8/4 x 9 x 9ft", wood=BLACK_WALNUT)
    found = plan([top], walnut)
    assert found.uncut[0].reason == "no white oak in hand"
    assert found.left_over == tuple(walnut)


def test_stock_named_for_a_part_must_reach_it():
    thin = part("top", 48, 5, 0.875, stock=parse_nominal("4/4"))
    with pytest.raises(
        InputError,
        match=r"^top: 4/4 dresses to 13/16 in: too thin for 7/8 in; "
        r"5/4 reaches it$",
    ):
        plan([thin], hand("5/4 x 6 x 8ft"))
    thick = replace(thin, stock=parse_nominal("8/4"))
    found = plan([thick], hand("5/4 x 6 x 8ft"))
    assert found.uncut[0].reason == "no 8/4 white oak in hand"
    assert found.purchases[0].nominal.label == "8/4"


def test_boards_that_are_planed_already_are_as_thick_as_they_are():
    rail = [part("rail", 48, 3)]
    boards = hand("3/4in x 6 x 8ft")
    assert not plan(rail, boards).complete
    assert plan(rail, boards, surfaced=True).complete
    assert plan([replace(rail[0], stock=parse_nominal("3/4 in"))], boards, surfaced=True).complete


def test_metric_stock_no_table_holds_loses_the_planing_allowance():
    boards = [(WHITE_OAK, parse_board("27 x 160 x 2500", "si"))]
    allowances = replace(NONE, planing_mm=5.0)
    assert plan([part("rail", 48, 3, 22.0 / INCH)], boards, allowances).complete
    found = plan([part("rail", 48, 3, 22.2 / INCH)], boards, allowances, units="si")
    assert found.uncut[0].reason.startswith("27 mm dresses to 22 mm: too thin for 22.2 mm")


def test_trimming_the_ends_shortens_boards():
    rail = [part("rail", 94, 3)]
    allowances = replace(USUAL, length_mm=0.0, width_mm=0.0)
    assert plan(rail, hand("4/4 x 6 x 8ft"), allowances).complete
    # Two of 47 in and a kerf are 94-1/8 in; 8 ft less an inch at each end is 94 in.
    stacked = [part("rail", 47, 5, quantity=2)]
    found = plan(stacked, hand("4/4 x 6 x 8ft", "4/4 x 6 x 2in"), allowances)
    assert [u.quantity for u in found.uncut] == [1]
    assert Counter(b.length_mm for _, b in found.left_over) == {2 * INCH: 1}


def test_the_yard_must_sell_what_a_part_needs():
    yard = Yard((6 * INCH,), (8 * FOOT,))
    with pytest.raises(
        InputError,
        match=r"^top: 48 in x 7 in rough is larger than every board that the yard sells; offer "
        r"larger boards, or glue it up: give it staves$",
    ):
        plan([part("top", 48, 7)], yard=yard)
    with pytest.raises(InputError, match=r"^block: no standard stock dresses to 6 in"):
        plan([part("block", 8, 6, 6.0)], yard=yard)


@pytest.mark.parametrize(
    ("widths", "lengths", "said"),
    [
        ((), (2400.0,), "a yard needs widths and lengths"),
        ((150.0,), (), "a yard needs widths and lengths"),
        (tuple(range(1, 22)), tuple(range(1, 11)), "more than 200 sizes"),
    ],
)
def test_a_yard_that_sells_nothing_or_too_much(widths, lengths, said):
    with pytest.raises(InputError, match=said):
        Yard(widths, lengths)


def test_nominal_widths_are_bought_and_dressed_widths_are_used():
    # Two strips of 2-3/4 in fit 5-1/2 in, the dressed width of a nominal 6 in; three do not.
    yard = Yard((6 * INCH,), (8 * FOOT,), (5.5 * INCH,))
    found = plan([part("strip", 96, 2.75, quantity=3)], yard=yard)
    assert found.purchases[0].boards == ((6 * INCH, 8 * FOOT, 2),)
    assert found.purchases[0].board_feet.expected == pytest.approx(8.0)


def test_names_that_cannot_be_told_apart_are_refused():
    rail = part("rail", 48, 3)
    with pytest.raises(InputError, match="'rail' is there twice"):
        plan([rail, rail])
    with pytest.raises(InputError, match="nothing to cut"):
        plan([])
    woods = {
        "white oak": WHITE_OAK,
        "oak": replace(WHITE_OAK, species_id="oak-group", members=(WHITE_OAK,)),
    }
    sold = ThicknessesSold.only(SIZES)
    with pytest.raises(InputError, match="'white oak' and 'oak' are sold as one another"):
        buying_plan([rail, replace(rail, name="other", species="oak")], woods, sold, NONE, WASTE)


def test_an_interrupt_ends_all_plans_with_the_best_so_far():
    calls = []

    def stop(words, progress):
        calls.append(words)
        raise KeyboardInterrupt

    parts = [part("rail", 31, 2.3, quantity=23), part("leg", 28, 1.6, 1.5, quantity=7)]
    found = plan(parts, yard=Yard((6 * INCH, 7 * INCH), (8 * FOOT,)), report=stop)
    assert found.interrupted
    assert not any(sum(lot.plan.left) for lot in found.lots)
    assert {lot.nominal.label for lot in found.lots} == {"4/4", "8/4"}


@FEW
@given(
    st.lists(
        st.tuples(
            st.floats(4, 60),
            st.floats(1, 20),
            st.sampled_from([0.5, 0.75, 1.0, 1.5]),
            st.integers(1, 4),
            st.integers(1, 4),
        ),
        min_size=1,
        max_size=4,
    ),
    st.lists(
        st.sampled_from(["4/4 x 6 x 8ft x 2", "5/4 x 8 x 6ft", "8/4 x 5 x 4ft x 3"]),
        max_size=3,
        unique=True,
    ),
)
def test_every_blank_is_cut_or_left_once(listed, boards):
    parts = [part(f"part {k}", a, max(b, c), c, n, s) for k, (a, b, c, n, s) in enumerate(listed)]
    stock = hand(*boards)
    found = plan(parts, stock, USUAL)
    cut = Counter(
        lot.plan.blanks[i].name for lot in found.lots for b in lot.plan.boards for i in b.blanks
    )
    left = Counter({u.part.name: u.quantity for u in found.uncut})
    for p in parts:
        assert cut[p.name] + left[p.name] == p.quantity * p.staves
    used = Counter(lot.plan.stock[b.stock].name for lot in found.lots for b in lot.plan.boards)
    kept = sum(b.quantity for _, b in found.left_over)
    assert sum(used.values()) + kept == sum(b.quantity for _, b in stock)
    for purchase in found.purchases:
        assert purchase.board_feet.low <= purchase.board_feet.expected <= purchase.board_feet.high


def test_a_board_in_words():
    parts = [part("rail", 47, 3, quantity=2), part("stile", 90, 2.5)]
    found = plan(parts, hand("4/4 x 6 x 8ft"), replace(NONE, kerf_mm=3.175))
    (lot,) = found.lots
    (board,) = lot.plan.boards
    assert cut_words(lot.plan, board, "us") == (
        "rip 3 in: rail 47 in (2 times); rip 2-1/2 in: stile 90 in"
    )
    assert used_pct(lot.plan, board) == pytest.approx(100 * (2 * 47 * 3 + 90 * 2.5) / 576)
    # A quarter inch is left along the board: no rest worth a word.
    assert rest_of(lot.plan, board) is None
    parts = [part("rail", 40, 5), part("stile", 30, 2.5, quantity=2), part("pull", 10, 2)]
    found = plan(parts, hand("4/4 x 5-1/4 x 8ft"), replace(NONE, kerf_mm=3.175), units="si")
    (lot,) = found.lots
    (board,) = lot.plan.boards
    words = cut_words(lot.plan, board, "us")
    assert words.startswith("crosscut 40 in: rail 5 in; crosscut 30 in: stile 2-1/2 in (2")
    assert words.endswith("crosscut 10 in: pull 2 in")
    assert rest_of(lot.plan, board) == pytest.approx((15.625 * INCH, 5.25 * INCH))


def test_a_blank_smaller_than_its_section_is_trimmed():
    blanks = (Blank("rail", 1000.0, 60.0), Blank("stile", 800.0, 50.0))
    stock = (StockBoard("board", 1000.0, 120.0, 1),)
    board = CutBoard(0, False, (Strip(0.0, 1000.0, ((0,), (1,))),))
    plan = CutPlan(blanks, stock, 3.0, (board,), (0, 0), (), 1, 0.12, "boards")
    assert cut_words(plan, board, "si") == (
        "crosscut 1000 mm: rail 60 mm, stile 50 mm, trimmed to 800 mm"
    )
    assert rest_of(plan, board) is None


def test_a_third_cut_is_made_where_it_is_allowed():
    """By hand: 2 and 3.9 in. across fill 6 in., the short ones one above the other by the square.

    Two cuts part them only in bands of 2, 3.9 and 1.9 in., which are wider together.
    """
    parts = [
        part("long", 46, 2),
        part("square", 22, 3.9),
        part("short", 22, 1.9, quantity=2),
    ]
    stock = hand("4/4 x 6 x 4ft x 2")
    two, three = (plan(parts, stock, third_cut=allowed) for allowed in (False, True))
    assert [len(lot.plan.boards) for p in (two, three) for lot in p.lots] == [2, 1]
    (lot,) = three.lots
    assert any(len(piece) > 1 for b in lot.plan.boards for s in b.strips for piece in s.pieces)
