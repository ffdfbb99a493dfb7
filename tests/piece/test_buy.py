"""The lumber of a piece by a plan of boards, by its grade, or by a waste factor: never two."""

import pytest

from woodref.errors import InputError
from woodref.lumber.nominal import Nominal
from woodref.lumber.prices import parse_prices, resolver
from woodref.lumber.stock_on_hand import WrittenBoard
from woodref.lumber.tally import board_of
from woodref.piece.buy import cut_parts_of
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import parse_piece
from woodref.reference.library import Reference

PIECE = """
name = "rack (invented)"
units = "us"
{top}
[build]
moisture_pct = 7
[use]
driest = {{ moisture_pct = 6 }}
wettest = {{ moisture_pct = 11 }}
[[parts]]
name = "slat"
species = "white oak"
quantity = 8
length = 22
width = 2
thickness = "3/4"
{more}
"""
PRICES = """species,thickness,price,per,grade
white oak,4/4,9,board foot,FAS
white oak,4/4,6,board foot,No. 1 Common
"""
YARD = '[buying]\nyard_widths = ["6 in"]\nyard_lengths = ["8 ft"]\neffort = "quick"\n'


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def prices(reference):
    return parse_prices(PRICES, "list.csv", resolver(reference))


def of(reference, prices, top="", more="", boards=()):
    piece = parse_piece(PIECE.format(top=top, more=more), "x.toml")
    return estimate_piece(reference, piece, prices, boards)


def test_a_grade_brings_its_price_and_the_waste_of_its_yield(reference, prices):
    found = of(reference, prices, top='grade = "No. 1 Common"')
    (line,) = found.lumber
    net = 8 * 2 * 22 / 144
    assert line.price.grade == "No. 1 Common"
    # NHLA: No. 1 Common promises 66 2/3 % of clear face: half as much again.
    assert line.buy_board_feet.expected == pytest.approx(net * 1.5, rel=1e-3)
    assert found.cost.expected == pytest.approx(net * 1.5 * 6, rel=1e-3)
    assert any("clear face that No. 1 Common promises" in note.text for note in found.remarks)


def test_waste_that_is_given_stays(reference, prices):
    found = of(reference, prices, 'grade = "No. 1 Common"', "[waste]\nlumber_pct = 10")
    assert found.lumber[0].buy_board_feet.expected == pytest.approx(8 * 2 * 22 / 144 * 1.1)


def test_a_plan_takes_the_place_of_any_waste(reference, prices):
    found = of(reference, prices, 'grade = "FAS"', YARD)
    boards = sum(n for p in found.plan.purchases for _, _, n in p.boards)
    assert boards == 1  # two slats across 6 in with their allowances, four along 8 ft
    assert found.cost.expected == pytest.approx(boards * 0.5 * 8 * 9)
    assert found.lumber[0].cost is None
    assert "grade" not in {note.code for note in found.remarks}


def test_boards_in_hand_cost_nothing(reference, prices):
    boards = [WrittenBoard(board_of("4/4", "6", "8", "2", "white oak"), "pile.csv")]
    found = of(reference, prices, more=YARD, boards=boards)
    assert found.plan.complete
    assert found.plan.purchases == ()
    assert found.cost is None


def test_effort_and_third_cut_are_those_of_the_table(reference, prices):
    spec = of(reference, prices, more=YARD + "third_cut = true\n").piece.buying
    assert (spec.effort, spec.third_cut) == ("quick", True)
    plain = of(reference, prices, more=YARD.replace('effort = "quick"\n', "")).piece.buying
    assert (plain.effort, plain.third_cut) == ("usual", False)


def test_allowances_are_those_of_the_table(reference, prices):
    wide = of(reference, prices, 'grade = "FAS"', YARD + 'width_allowance = "3 in"\n')
    boards = sum(n for p in wide.plan.purchases for _, _, n in p.boards)
    assert boards == 2  # one slat across now


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ('[buying]\nyard_widths = ["6 in"]\n', "buying: yard_lengths: is missing"),
        ('[buying]\neffort = "long"\n', "buying: boards: is missing"),
        ('[buying]\nyard_widths = 6\nyard_lengths = ["8 ft"]\n', "must be a list of lengths"),
        ('[buying]\nyard_widths = ["6 inc"]\nyard_lengths = ["8 ft"]\n', "6 inc"),
        ('[buying]\nyard_widths = ["1 in"]\nyard_lengths = ["8 ft"]\n', "slat"),
        (YARD + 'kerf = "2 in"\n', "kerf"),
        (YARD + "krf = 1\n", "did you mean 'kerf'?"),
        (YARD.replace("quick", "fast"), "effort: 'fast' is not known"),
        (YARD + "third_cut = 3\n", "third_cut"),
    ],
)
def test_mistakes_are_one_line_with_the_file(reference, prices, more, words):
    with pytest.raises(InputError) as caught:
        of(reference, prices, more=more)
    message = str(caught.value)
    assert message.startswith("x.toml: ")
    assert words in message
    assert "\n" not in message


SHELF = """
name = "invented shelf"
units = "us"
[build]
moisture_pct = 7
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 11 }
[[sheets]]
name = "back board"
thickness = "1/4"
density = 40
[[parts]]
name = "shelf"
species = "white oak"
length = 36
width = 10
thickness = "3/4"
quantity = 2
staves = 3
stock = "5/4"
[[parts]]
name = "side"
species = "white oak"
length = 40
width = 10
thickness = "3/4"
quantity = 2
staves = [ { width = 6 }, { width = 4 } ]
[[parts]]
name = "back"
sheet = "back board"
length = 36
width = 40
"""


def test_the_parts_of_a_piece_are_its_solid_ones_and_uneven_staves_are_parts():
    shelf, wide, narrow = cut_parts_of(parse_piece(SHELF, "shelf.toml"))
    assert (shelf.length_mm, shelf.width_mm) == pytest.approx((36 * 25.4, 10 * 25.4))
    assert shelf.stock == Nominal("5/4", 31.75)
    assert (shelf.quantity, shelf.staves) == (2, 3)
    assert [
        (p.name, round(p.width_mm / 25.4, 3), p.staves, p.quantity) for p in (wide, narrow)
    ] == [
        ("side, stave 1", 6.0, 1, 2),
        ("side, stave 2", 4.0, 1, 2),
    ]


THICK_ONLY = "species,thickness,price,per\nwhite oak,8/4,12,board foot\n"


def thicker(reference, top="", more="", thickness="1/2"):
    text = PIECE.format(top=top, more=more).replace('"3/4"', f'"{thickness}"')
    listed = parse_prices(THICK_ONLY, "p.csv", resolver(reference))
    made = estimate_piece(reference, parse_piece(text, "x.toml"), listed)
    return made, [n.text for n in made.remarks if n.code == "thicker-listed"]


def test_thin_parts_of_a_wood_listed_thick_alone_are_remarked(reference):
    """The list is what can be bought, and stays; that thinner is usual is told, and resawing."""
    made, (said,) = thicker(reference)
    # 1/2 in and 3/16 in of planing each, 1/8 in of kerf: two come from the 2 in of a rough 8/4.
    assert "in the price list is 8/4" in said
    assert "usually have 4/4" in said
    assert said.endswith("resaw, 2 boards from one 8/4")
    assert [line.nominal.label for line in made.lumber] == ["8/4"]
    assert made.cost is not None
    assert "resaw" not in thicker(reference, thickness="1")[1][0]


@pytest.mark.parametrize(("more", "thickness"), [('stock = "8/4"', "1/2"), ("", "1-3/4")])
def test_stock_that_is_given_or_usual_is_not_remarked(reference, more, thickness):
    assert thicker(reference, more=more, thickness=thickness)[1] == []


def test_what_a_plan_buys_is_remarked_too(reference):
    made, (said,) = thicker(reference, more=YARD)
    assert [name for name, _ in made.plan.thicker_listed] == ["slat"]
    assert said.startswith("slat: ")


@pytest.mark.parametrize(
    ("more", "kinds"),
    [
        ("", [(5, 1), (4, 1)]),
        ("safe_length = 0\n", []),
        ('safe_length = "20 in"\n', [(9, 1)]),
        ('safe_length = "8 in"\n', [(3, 3)]),
    ],
)
def test_short_parts_are_cut_in_multiples_by_the_safe_length_of_the_table(
    reference, prices, more, kinds
):
    text = PIECE.format(top="", more=YARD + more).replace("length = 22", "length = 2.5")
    made = estimate_piece(
        reference, parse_piece(text.replace("quantity = 8", "quantity = 9"), "x.toml"), prices
    )
    assert [(m.pieces, m.blanks) for m in made.multiples] == kinds
    # The caution stays, whatever is planned.
    assert "short-blank" in [n.code for n in made.remarks]


def test_a_turned_part_too_thick_for_a_board_is_glued_from_staves(reference, prices):
    text = PIECE.format(top="", more='shape = "cylinder"\nstock = "8/4"')
    text = text.replace("width = 2\n", "width = 4\n").replace('"3/4"', "4")
    made = estimate_piece(reference, parse_piece(text, "x.toml"), prices)
    (part,) = made.parts
    assert (part.part.staves, part.part.layers) == (3, 3)
    # Eight of three staves of 2 in x 4 in x 22 in.
    assert made.board_feet == pytest.approx(8 * 3 * 2 * 4 * 22 / 144)
    assert part.part.volume_m3 == pytest.approx(8 * 3.14159265 * 4 * 22 * 25.4**3 * 1e-9)
    (note,) = [n for n in made.remarks if n.code == "glued-turning"]
    assert "3 staves 1-13/32 in thick, 8/4" in note.said("us")
    # A single board of that kind is likelier to be far off than the mean of three.
    plain = estimate_piece(
        reference, parse_piece(text.replace('"8/4"', '"20/4"'), "x.toml"), prices
    ).parts[0]
    assert plain.part.glued is None
    wide, narrow = (p.movements[0].likely_mm for p in (plain, part))
    assert wide.high - wide.low > narrow.high - narrow.low
