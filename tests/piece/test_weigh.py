"""Weight of a piece with shapes, items and packaging; what it settles at; its crate."""

from math import pi

import pytest
from small_woods import WHITE_OAK, estimated

from woodref.board.shapes import Shape
from woodref.board.weight import density_of
from woodref.errors import InputError
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import parse_piece
from woodref.reference.library import Reference
from woodref.shipping.load import Item, WoodPart, load

PIECE = """
name = "stool (invented)"
units = "si"
[build]
moisture_pct = 12
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 10 }
[[parts]]
name = "seat"
species = "white oak"
length = 300
width = 300
thickness = 30
staves = 3
shape = "disc"
[[parts]]
name = "leg"
species = "white oak"
quantity = 3
length = 450
width = 40
thickness = 40
shape = "cylinder"
lift = "legs"
"""
ITEMS = """
[[items]]
name = "screws"
quantity = 9
mass = "5 g"
price = 0.2
[[items]]
name = "carton"
kind = "packaging"
mass = 1.5
[shipping]
length = 320
depth = 320
height = 500
padding = 40
"""


def of(text):
    return estimated(parse_piece(text, "x.toml"))


def test_shapes_weigh_what_they_hold():
    density = density_of(WHITE_OAK, 12.0).density_kg_m3
    seat, leg = of(PIECE).parts
    assert seat.mass_kg["build"].expected == pytest.approx(pi / 4 * 0.3**2 * 0.03 * density)
    assert leg.mass_kg["build"].expected == pytest.approx(3 * pi / 4 * 0.04**2 * 0.45 * density)
    # Lumber is bought for the block a shape is cut from.
    assert seat.board_feet == pytest.approx(0.3 * 0.3 / 0.09290304 * 1.5)


def test_the_piece_is_the_load_of_the_library():
    found = of(PIECE + ITEMS)
    parts = [
        WoodPart("seat", WHITE_OAK, Shape("disc", 300, 300, 30), 1, 3),
        WoodPart("leg", WHITE_OAK, Shape("cylinder", 450, 40, 40), 3),
    ]
    same = load(parts, [Item("screws", 0.005, 9)], 12.0, 8.0)
    assert found.piece.settled_pct == 8.0  # the middle of driest and wettest
    assert found.mass_kg["settled"] == same.settled_kg
    assert found.mass_kg["build"] == same.shipped_kg


def test_packaging_is_shipped_and_then_gone():
    bare, packed = of(PIECE), of(PIECE + ITEMS)
    added = packed.mass_kg["build"].expected - bare.mass_kg["build"].expected
    assert added == pytest.approx(0.045)
    shipped = packed.masses.packed.expected - packed.mass_kg["build"].expected
    assert shipped == pytest.approx(1.5)


def test_lifts_and_the_heaviest():
    lifts = dict(of(PIECE).masses.lifts)
    assert list(lifts) == ["the piece", "legs"]
    whole = sum(x.expected for x in lifts.values())
    assert whole == pytest.approx(of(PIECE).mass_kg["build"].expected)
    name, mass = of(PIECE).masses.heaviest_lift
    assert mass.expected == max(x.expected for x in lifts.values())
    assert lifts[name] == mass


def test_the_caution_is_about_the_heaviest_lift():
    reference = Reference(own=False)
    heavy = PIECE.replace("quantity = 3", "quantity = 90")
    found = estimate_piece(reference, parse_piece(heavy, "x.toml"))
    (caution,) = [n for n in found.notices if n.kind == "lifting"]
    assert caution.text.startswith("The heaviest lift, legs, weighs more than 23 kg,")


def test_items_are_part_of_the_cost_and_said_where_they_have_no_price():
    found = of(PIECE + ITEMS)
    assert found.priced_cost.expected == pytest.approx(1.8)
    assert "carton: no price" in found.unpriced


def test_the_crate_takes_what_is_shipped():
    reference = Reference(own=False)
    found = estimate_piece(reference, parse_piece(PIECE + ITEMS, "x.toml"))
    assert found.crate.size_mm == pytest.approx((400.0, 400.0, 580.0))
    packing = found.crate.gross_kg.expected - found.masses.packed.expected
    assert packing == pytest.approx(found.crate.packing_kg.expected)
    assert estimate_piece(reference, parse_piece(PIECE, "x.toml")).crate is None


def test_a_part_without_density_is_left_out_and_said():
    text = PIECE.replace('species = "white oak"\nquantity', 'species = "bare wood"\nquantity')
    found = of(text)
    assert found.parts[1].mass_kg is None
    assert "leg: no table holds a density" in found.unweighed[0]
    assert found.mass_kg["build"] == found.parts[0].mass_kg["build"]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('shape = "disc"', 'shape = "dish"', "parts[1] \"seat\": shape: 'dish' is not known"),
        ("width = 300", "width = 200", "is as long as it is wide"),
        ('mass = "5 g"', 'mass = "5 g"\nlength = 3', "items[1]"),
        ("depth = 320", "deep = 320", "shipping: deep: unknown key"),
    ],
)
def test_mistakes_name_table_and_key(old, new, words):
    with pytest.raises(InputError) as caught:
        of((PIECE + ITEMS).replace(old, new, 1))
    assert words in str(caught.value)
    assert str(caught.value).startswith("x.toml: ")
