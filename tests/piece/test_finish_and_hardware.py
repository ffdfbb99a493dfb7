"""The finish of a piece: its area, how much of it, what it costs."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.drying.finish import BARE
from woodref.errors import InputError
from woodref.piece.estimate import estimate_piece
from woodref.piece.finish_and_hardware import faces_m2, finish_line, item_cost
from woodref.piece.finish_table import parse_area, parse_coverage
from woodref.piece.piece import parse_piece
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.shipping.load import Item

PIECE = """
name = "board (invented)"
units = "si"
[build]
moisture_pct = 8
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 10 }
[[parts]]
name = "board"
species = "white oak"
quantity = 2
length = 1000
width = 200
thickness = 20
[finish]
"""
PLY = """
[[sheets]]
name = "ply"
thickness = 10
density = 600
[[parts]]
name = "bottom"
sheet = "ply"
length = 600
width = 500
"""


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


def piece(finish):
    return parse_piece(PIECE + finish, "x.toml")


def finish_of(reference, finish):
    return estimate_piece(reference, piece(finish)).finish


def test_all_faces_of_the_parts(reference):
    read = piece('name = "shellac"\ncoats = 3\n')
    assert faces_m2(read) == pytest.approx(2 * 2 * (0.2 + 0.02 + 0.004))
    line = estimate_piece(reference, read).finish
    assert line.area_m2 == pytest.approx(0.896)
    assert (line.liters, line.cost, line.mass_kg) == (None, None, 0.0)


def test_area_coats_and_coverage_give_liters_and_cost(reference):
    line = finish_of(
        reference,
        'name = "shellac"\ncoats = 3\narea = "2 m2"\ncoverage = "10 m2/L"\ndry_g_m2 = 30\n'
        "price_per_l = { expected = 20, low = 18, high = 25 }\n",
    )
    assert line.liters == pytest.approx(0.6)
    assert (line.cost.expected, line.cost.low, line.cost.high) == pytest.approx((12.0, 10.8, 15.0))
    assert line.mass_kg == pytest.approx(0.18)
    gallon = finish_of(
        reference,
        'name = "shellac"\ncoats = 3\narea = "200 ft2"\ncoverage = "400 ft2/gallon"\n'
        "price_per_gallon = 60\n",
    )
    assert gallon.cost.expected == pytest.approx(200 * 3 / 400 * 60)


def test_a_finish_of_nothing():
    sheets = PIECE.replace(PIECE[PIECE.index("[[parts]]") :], PLY)
    read = parse_piece(sheets + '[finish]\nname = "shellac"\ncoverage = "10 m2/L"\n', "x.toml")
    assert faces_m2(read) == 0.0
    with pytest.raises(InputError, match="the area of a finish must be above 0, not 0"):
        finish_line(read, BARE)


@given(st.integers(1, 50), st.floats(0.0, 1e4))
def test_hardware_costs_what_its_pieces_cost(quantity, price):
    cost = item_cost(Item("hinge", 0.1, quantity, price=Range(price, 0.9 * price, 1.1 * price)))
    assert cost.expected == pytest.approx(quantity * price)
    assert cost.low <= cost.expected <= cost.high
    assert item_cost(Item("hinge", 0.1, quantity)) is None


def test_it_is_part_of_the_cost_and_of_the_weight(reference):
    bare = estimate_piece(reference, parse_piece(PIECE.replace("[finish]", ""), "x"))
    coated = estimate_piece(
        reference,
        piece(
            'name = "shellac"\ncoats = 2\ncoverage = "10 m2/L"\nprice_per_l = 20\ndry_g_m2 = 100\n'
        ),
    )
    assert bare.cost is None
    assert coated.priced_cost.expected == pytest.approx(0.896 * 2 / 10 * 20)
    added = coated.mass_kg["build"].expected - bare.mass_kg["build"].expected
    assert added == pytest.approx(0.896 * 2 * 0.1)


@pytest.mark.parametrize(
    ("finish", "words"),
    [
        ('name = "shelac"\n', "no finish is called 'shelac'; nearest: "),
        ('name = "shellac"\ncoats = 9\n', "nearest: "),
        ('name = "shellac"\nprice_per_l = 20\n', "coverage: is missing"),
        ('name = "shellac"\ncoverage = "10"\n', "is not a coverage"),
        ('name = "shellac"\narea = "10"\n', "is not an area"),
        (
            'name = "shellac"\ncoverage = "9 m2/L"\nprice_per_l = 2\nprice_per_quart = 3\n',
            "give one price",
        ),
        ('name = "shellac"\nprize_per_l = 20\n', "did you mean 'price_per_l'?"),
    ],
)
def test_mistakes_are_one_line(reference, finish, words):
    with pytest.raises(InputError) as caught:
        finish_of(reference, finish)
    message = str(caught.value)
    assert message.startswith("x.toml: finish: ")
    assert words in message
    assert "\n" not in message


@given(st.text(max_size=14))
def test_any_text_is_read_or_refused(text):
    for parse in (parse_area, parse_coverage):
        with contextlib.suppress(InputError):
            assert parse(text) > 0.0


@given(st.floats(0.1, 1000), st.sampled_from(["m2", "ft2"]), st.sampled_from(["L", "quart", "gal"]))
def test_coverage_units_agree(value, area, volume):
    per_l = parse_coverage(f"{value:.4f} {area}/{volume}")
    m2 = parse_area(f"{value:.4f} {area}")
    liters = {"L": 1.0, "quart": 0.946352946, "gal": 3.785411784}[volume]  # NIST SP 811
    assert per_l == pytest.approx(m2 / liters)
