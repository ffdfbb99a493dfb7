"""What a piece names is looked up once, and a mistake in it is one line with its place."""

from collections import Counter

import pytest

from woodref.errors import InputError
from woodref.lumber.prices import parse_prices
from woodref.lumber.stock_on_hand import WrittenBoard
from woodref.lumber.tally import board_of
from woodref.lumber.waste import WasteOrigin
from woodref.piece.piece import parse_piece
from woodref.piece.resolve import USUAL_SHEET_WASTE, USUAL_WASTE, resolve
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
species = "{species}"
length = 22
width = 2
thickness = "3/4"
[[parts]]
name = "rail"
species = "{species}"
length = 30
width = 3
thickness = "3/4"
{more}
"""
BUYING = '[buying]\nyard_widths = ["6 in"]\nyard_lengths = ["8 ft"]\n'


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


def piece(species="white oak", top="", more=""):
    return parse_piece(PIECE.format(species=species, top=top, more=more), "x.toml")


def board(species=""):
    return WrittenBoard(board_of("4/4", "6", "8", "2", species), "pile.csv")


class Counted:
    """The reference library, with a count of the woods it was asked for."""

    def __init__(self, reference):
        self.reference, self.asked = reference, Counter()

    def __getattr__(self, name):
        return getattr(self.reference, name)

    def wood(self, name):
        self.asked[name] += 1
        return self.reference.wood(name)


def test_a_wood_is_looked_up_once(reference):
    counted = Counted(reference)
    boards = [board("white oak"), board("white oak"), board("black cherry"), board("black cherry")]
    resolved = resolve(counted, piece(more=BUYING), boards=boards)
    assert counted.asked == {"white oak": 1, "black cherry": 1}
    woods = [wood.common_name for wood, _ in resolved.boards]
    assert woods == ["white oak", "white oak", "black cherry", "black cherry"]
    assert resolved.allowances.kerf_mm > 0.0


def test_a_board_without_a_wood_is_of_that_of_all_parts(reference):
    resolved = resolve(reference, piece(more=BUYING), boards=[board()])
    assert resolved.boards[0][0] is resolved.woods["white oak"]


@pytest.mark.parametrize("more", ["", BUYING])
def test_a_wood_that_nobody_knows_names_the_part_with_and_without_a_plan(reference, more):
    with pytest.raises(InputError) as caught:
        resolve(reference, piece("whit oke", more=more))
    start = "x.toml: parts[1] \"slat\": species: no wood is called 'whit oke'"
    assert str(caught.value).startswith(start)


def test_a_board_of_a_wood_that_nobody_knows_names_its_file(reference):
    with pytest.raises(InputError, match=r"^pile\.csv: no wood is called 'whit oke'"):
        resolve(reference, piece(more=BUYING), boards=[board("whit oke")])


def test_only_sheet_goods_and_a_board_without_a_wood(reference):
    text = PIECE.format(species="white oak", top="", more=BUYING)
    sheet = (
        '[[sheets]]\nname = "ply"\nthickness = "1/2"\ndensity = "38 lb/ft3"\n'
        '[[parts]]\nname = "back"\nsheet = "ply"\nlength = 30\nwidth = 22\n'
    )
    only_sheets = text[: text.index("[[parts]]")] + sheet + BUYING
    with pytest.raises(InputError, match="names no wood, and no part is of solid wood"):
        resolve(reference, parse_piece(only_sheets, "x.toml"), boards=[board()])


def test_the_waste_is_given_or_follows_from_the_grade_or_is_the_usual(reference):
    usual = resolve(reference, piece())
    assert (usual.waste, usual.sheet_waste) == (USUAL_WASTE, USUAL_SHEET_WASTE)
    graded = resolve(reference, piece(top='grade = "FAS"')).waste
    assert (graded.origin, graded.grade.name) == (WasteOrigin.GRADE, "FAS")
    given = resolve(reference, piece(top='grade = "FAS"', more="[waste]\nlumber_pct = 9\n")).waste
    assert (given.origin, given.pct.expected) == (WasteOrigin.PIECE, 9.0)
    # A plan of boards knows its offcuts.
    assert resolve(reference, piece(top='grade = "FAS"', more=BUYING)).waste == USUAL_WASTE


def test_prices_take_the_currency_of_the_piece(reference):
    prices = parse_prices(
        "species,thickness,price,per\nwhite oak,4/4,9,board foot\n",
        "p.csv",
        lambda name: frozenset(reference.wood(name).species_ids),
    )
    assert resolve(reference, piece(top='currency = "CHF"'), prices).currency == "CHF"
    assert resolve(reference, piece(top='currency = "CHF"')).currency == "CHF"
