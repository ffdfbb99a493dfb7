"""Shapes, items and [shipping] as a piece file writes them."""

import tomllib

import pytest

from woodref.board.shapes import SHAPES, Shape, volume_of
from woodref.errors import InputError
from woodref.piece.shipping_table import (
    ITEM_KEYS,
    SHAPE_KEYS,
    SHIPPING_KEYS,
    read_item,
    read_shape,
    read_shipping,
)
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.shipping import Divisor, shipping_facts
from woodref.shipping.crate import USUAL_PADDING_MM, Packing
from woodref.shipping.load import ITEM_KINDS, WHOLE, Item
from woodref.toml_reader import TomlTable

LB, INCH = 0.45359237, 25.4


def table(text, keys, units):
    return TomlTable(tomllib.loads(text), "bench.toml", "part", keys, units)


def item(text, units="us"):
    return read_item(table(text, ITEM_KEYS, units), units)


def shape(text, sizes=(700.0, 50.0, 50.0), units="si"):
    return read_shape(table(text, SHAPE_KEYS, units), units, *sizes)


def shipping(text, units="us"):
    return read_shipping(table(text, SHIPPING_KEYS, units), units)


def test_an_item_by_its_mass():
    assert item('name = "pulls"\nmass = "1.2 lb"\nquantity = 4\nlift = "drawers"') == Item(
        "pulls", pytest.approx(1.2 * LB), 4, "hardware", "drawers"
    )
    assert item('name = "oil"\nkind = "finish"\nmass = 0.3', "si").mass_kg == 0.3
    assert item('name = "oil"\nkind = "finish"\nmass = 2', "us").mass_kg == pytest.approx(2 * LB)
    assert item('name = "pulls"\nmass = 0').lift == WHOLE


def test_an_item_with_its_price():
    found = item('name = "pulls"\nmass = "1 lb"\nprice = { expected = 8, low = 7, high = 10 }')
    assert found.price == Range(8.0, 7.0, 10.0)
    assert item('name = "pulls"\nmass = "1 lb"').price is None


def test_a_slab_of_a_density_of_its_own():
    text = 'name = "back"\nkind = "sheet goods"\nlength = 1000\nwidth = 500\nthickness = 6\n'
    found = item(text + 'density = "600 kg/m3"', "si")
    assert (found.mass_kg, found.basis) == (pytest.approx(1.8), "given")
    assert item(text + "density = 600", "si") == found
    pounds = item(text.replace("1000", '"1 m"') + "density = 36", "us").mass_kg
    assert pounds == pytest.approx(1.0 * 500 * INCH * 6 * INCH * 1e-6 * 36 * LB / 0.3048**3)


def test_a_slab_of_the_usual_density_is_from_memory():
    found = item('name = "pane"\nkind = "glass"\nlength = 1000\nwidth = 500\nthickness = 4', "si")
    assert found == Item(
        "pane",
        Range(pytest.approx(5.0), pytest.approx(4.9), pytest.approx(5.1)),
        1,
        "glass",
        WHOLE,
        "unchecked",
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('mass = "1 lb"', "part: name: is missing"),
        ('name = "pull"', 'part: mass: is missing; write for example mass = "1.2 lb"'),
        ('name = "pull"\nmass = true', "part: mass: must be a weight"),
        ('name = "pull"\nmass = -1', "part: mass: -1 is outside 0"),
        ('name = "pull"\nmass = "1 in"', "part: mass: 'in' in '1 in' is not a unit of mass"),
        ('name = "pull"\nmass = "500000 kg"', "part: mass: 1,102,311.3 lb is above 220,462.3 lb"),
        ('name = "pull"\nmass = 1\nkind = "brass"', "part: kind: 'brass' is not known"),
        ('name = "pull"\nmass = 1\nquantity = 0', "part: quantity: 0 is outside 1"),
        ('name = "pull"\nmass = 1\nlength = 3', "part: length: give the mass or the length"),
        ('name = "pull"\nlength = 3\nwidth = 2', "part: thickness: is missing"),
        ('name = "pull"\nlength = 3\nwidth = 2\nthickness = 1', "part: density: is missing; only"),
        (
            'name = "pull"\nlength = 3\nwidth = 2\nthickness = 1\ndensity = "heavy"',
            "part: density: 'heavy' is not a density",
        ),
        (
            'name = "pull"\nlength = 3\nwidth = 2\nthickness = 1\ndensity = 9999',
            "9,999.0 lb/ft3 is outside 0.6 lb/ft3 to 561.9 lb/ft3",
        ),
        ('name = "pull"\nmass = 1\nprice = -1', "part: price: -1 is outside 0"),
        ('name = "pull"\nmass = 1\nwieght = 2', "part: wieght: unknown key"),
    ],
)
def test_a_wrong_item_is_one_line(text, message):
    with pytest.raises(InputError) as caught:
        item(text)
    assert message in str(caught.value)
    assert str(caught.value).startswith("bench.toml: part")
    assert "\n" not in str(caught.value)


def test_a_part_without_a_shape():
    assert shape("") is None


@pytest.mark.parametrize(
    ("text", "sizes", "found"),
    [
        ('shape = "box"', (700, 50, 20), Shape("box", 700, 50, 20)),
        ('removed = "10 cm3"', (700, 50, 20), Shape("box", 700, 50, 20, removed_mm3=10e3)),
        ('shape = "disc"', (600, 600, 20), Shape("disc", 600, 600, 20)),
        ('shape = "cylinder"', (700, 38, 38), Shape("cylinder", 700, 38, 38)),
        (
            'shape = "tapered leg"\nend_width = 25',
            (700, 50, 50),
            Shape("tapered leg", 700, 50, 50, 25),
        ),
        (
            'shape = "tapered leg"\nend_width = "1 in"\nend_thickness = 20',
            (700, 50, 30),
            Shape("tapered leg", 700, 50, 30, 25.4, 20),
        ),
        ('shape = "ring"\ninner = 400', (600, 600, 20), Shape("ring", 600, 600, 20, inner_mm=400)),
        (
            'shape = "volume"\nvolume = "0.5 L"\nremoved = "100 cm3"',
            (700, 50, 50),
            Shape("volume", 700, 50, 50, volume_mm3=0.5e6, removed_mm3=0.1e6),
        ),
    ],
)
def test_shapes(text, sizes, found):
    assert shape(text, sizes) == found
    assert 0.0 < volume_of(found) <= sizes[0] * sizes[1] * sizes[2]


@pytest.mark.parametrize(
    ("text", "sizes", "message"),
    [
        ('shape = "ball"', (700, 50, 50), "shape: 'ball' is not known"),
        ("end_width = 25", (700, 50, 50), 'end_width: goes with shape = "tapered leg", not with a'),
        ('shape = "disc"\ninner = 25', (600, 600, 20), 'inner: goes with shape = "ring"'),
        ('shape = "disc"', (700, 600, 20), "length: a disc is as long as it is wide"),
        ('shape = "cylinder"', (700, 50, 40), "thickness: a cylinder is as thick as"),
        ('shape = "tapered leg"', (700, 50, 50), "shape: tapered leg: width at its end"),
        (
            'shape = "tapered leg"\nend_width = 25',
            (700, 50, 30),
            "shape: tapered leg: thickness at its end",
        ),
        (
            'shape = "tapered leg"\nend_width = 80',
            (700, 50, 50),
            "end_width: 80 is 80 mm; must be above 0 and at most 50 mm",
        ),
        ('shape = "ring"\ninner = 600', (600, 600, 20), "shape: the inner diameter"),
        ('shape = "volume"', (700, 50, 50), "shape: a shape given by its volume needs"),
        ('shape = "volume"\nvolume = 12', (700, 50, 50), "volume: must be text in quotes"),
        ('shape = "volume"\nvolume = "12 in"', (700, 50, 50), "volume: '12 in' is not a volume"),
        ('shape = "volume"\nvolume = "5 L"', (700, 50, 50), "volume: is more than length x width"),
        ('removed = "5 L"', (700, 50, 50), "removed: 5000 cm3 cannot be removed"),
    ],
)
def test_a_wrong_shape_is_one_line(text, sizes, message):
    with pytest.raises(InputError) as caught:
        shape(text, sizes)
    assert str(caught.value).startswith("bench.toml: part")
    assert message in str(caught.value)


def test_shipping_in_full():
    found = shipping(
        """
        length = 60
        depth = "18 in"
        height = "32 in"
        padding = 2
        wall = "1/2 in"
        wall_density = "36 lb/ft3"
        batten_width = 3
        batten_thickness = 0.75
        batten_density = 28
        pallet = true
        pallet_height = "5 in"
        divisors = ["139 in3/lb", "5000 cm3/kg"]
        """
    )
    assert found.size_mm == pytest.approx((60 * INCH, 18 * INCH, 32 * INCH))
    assert found.divisors == (
        Divisor("given", 139.0, "in3/lb", "given"),
        Divisor("given", 5000.0, "cm3/kg", "given"),
    )
    packing = found.packing
    assert (packing.padding_mm, packing.wall_mm) == pytest.approx((50.8, 12.7))
    assert packing.batten_mm == pytest.approx((76.2, 19.05))
    assert packing.wall_density_kg_m3 == pytest.approx(36 * LB / 0.3048**3)
    assert packing.pallet
    assert packing.pallet_height_mm == pytest.approx(127.0)
    assert found.padding_given


def test_shipping_at_least():
    found = shipping("length = 1500\ndepth = 450\nheight = 800", "si")
    assert found.size_mm == (1500.0, 450.0, 800.0)
    assert found.packing == Packing(USUAL_PADDING_MM)
    assert (found.divisors, found.padding_given) == ((), False)
    bare = shipping("length = 1500\ndepth = 450\nheight = 800\npadding = 0", "si")
    assert bare.packing.padding_mm == 0.0
    known = 'length = 1500\ndepth = 450\nheight = 800\npacking_mass = "12 kg"'
    assert shipping(known, "si").packing.mass_kg == 12.0


def test_the_usual_padding_is_the_middle_of_the_rule():
    padding = shipping_facts(Reference(own=False)).padding
    assert pytest.approx((padding.low_mm + padding.high_mm) / 2.0) == USUAL_PADDING_MM


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "part: length: is missing"),
        ("length = 60\ndepth = 18", "part: height: is missing"),
        ("length = 60\ndepth = 18\nheight = 0", "part: height: 0 is 0 in"),
        ("height = 32\npadding = -1", "part: padding: a length cannot be -1"),
        ("height = 32\npadding = false", "part: padding: must be a length"),
        ("height = 32\npadding = 50", "part: padding is below 39.37 in"),
        ("height = 32\nbatten_width = 3", "part: batten_thickness: is missing"),
        (
            "height = 32\nbatten_width = 3\nbatten_thickness = 1",
            "part: battens need a width, a thickness and the wall",
        ),
        ('height = 32\npallet = "yes"', "part: pallet: must be true or false"),
        ("height = 32\nwall_density = 1e5", "part: wall_density:"),
        ('height = 32\npacking_mass = "much"', "part: packing_mass:"),
        ("height = 32\ndivisors = 139", "part: divisors: must be a list"),
        ('height = 32\ndivisors = ["139"]', "part: divisors: '139' is not a divisor"),
        ("height = 32\ncrate = true", "part: crate: unknown key"),
    ],
)
def test_a_wrong_shipping_table_is_one_line(text, message):
    if "height = 32" in text:
        text = f"length = 60\ndepth = 18\n{text}"
    with pytest.raises(InputError) as caught:
        shipping(text)
    assert message in str(caught.value)
    assert str(caught.value).startswith("bench.toml: part")
    assert "\n" not in str(caught.value)


def test_every_shape_and_kind_can_be_written():
    for kind in ITEM_KINDS:
        assert item(f'name = "it"\nmass = 1\nkind = "{kind}"').kind == kind
    more = {"tapered leg": "end_width = 25", "ring": "inner = 20", "volume": 'volume = "0.1 L"'}
    for kind in SHAPES:
        text = f'shape = "{kind}"\n{more.get(kind, "")}'
        assert shape(text, (50.0, 50.0, 50.0)).kind == kind


def test_shipping_takes_the_outside_of_the_piece_where_it_has_no_size_of_its_own():
    outside = (600.0, 300.0, 700.0)
    assert read_shipping(table("padding = 40", SHIPPING_KEYS, "si"), "si", outside).size_mm == (
        outside
    )
    packed = "length = 650\ndepth = 310\nheight = 240"
    own = read_shipping(table(packed, SHIPPING_KEYS, "si"), "si", outside)
    assert own.size_mm == (650.0, 310.0, 240.0)
    with pytest.raises(InputError, match="height: is missing"):
        read_shipping(table("length = 650\ndepth = 310", SHIPPING_KEYS, "si"), "si", outside)
