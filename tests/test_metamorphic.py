"""What must follow when a question changes: units, order, size, moisture content, parts of a whole.

No number is known beforehand here; two answers are held against each other.
"""

import pytest
from examples import FEW, SOME
from hypothesis import given
from hypothesis import strategies as st
from small_woods import BLACK_WALNUT, SUGAR_MAPLE, WHITE_OAK, estimated

from woodref.board.movement import movement, size_for
from woodref.board.panel import Stave, panel_movement
from woodref.board.shapes import Shape, parse_shape
from woodref.board.weight import density_of, weight_of, weight_of_shape
from woodref.lumber.tally import board_of, lot_of, tally, total
from woodref.piece.piece import parse_piece
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.shipping import shipping_facts
from woodref.shipping.crate import Packing, crate
from woodref.shipping.load import Item, WoodPart, load

FACTS = shipping_facts(Reference(own=False))
WOODS = st.sampled_from([WHITE_OAK, BLACK_WALNUT, SUGAR_MAPLE])
SIZES = st.tuples(st.floats(50.0, 3000.0), st.floats(20.0, 900.0), st.floats(4.0, 100.0))
DRY = st.floats(2.0, 28.0)
ANGLES = st.floats(0.0, 90.0)
#: So much larger is larger by more than rounding.
MORE = st.floats(1.01, 3.0)
NEAR = {"rel": 1e-9, "abs": 1e-12}


def near(figure, **how):
    return pytest.approx(tuple(figure), **(how or NEAR))


# Boards


@given(WOODS, SIZES, DRY, st.integers(1, 30))
@SOME
def test_a_board_weighs_the_same_in_inches(wood, size, moisture, quantity):
    names = ("length", "width", "thickness")
    metric = {n: f"{mm!r} mm" for n, mm in zip(names, size, strict=True)}
    inches = {n: f"{mm / 25.4!r} in" for n, mm in zip(names, size, strict=True)}
    one, other = (
        weight_of_shape(wood, parse_shape("box", sizes, "mm"), moisture, quantity)
        for sizes in (metric, inches)
    )
    assert other.total_kg.expected == pytest.approx(one.total_kg.expected, rel=1e-9)


@given(WOODS, SIZES, DRY, MORE)
@SOME
def test_weight_goes_with_volume_whichever_size_grows(wood, size, moisture, more):
    weight = weight_of(wood, *size, moisture).mass_kg
    for n in range(3):
        larger = [mm * (more if k == n else 1.0) for k, mm in enumerate(size)]
        assert tuple(weight_of(wood, *larger, moisture).mass_kg) == near(weight.scaled(more))


@given(WOODS, SIZES, DRY, DRY, st.integers(1, 40))
@SOME
def test_wetter_and_more_boards_weigh_more(wood, size, one_pct, other_pct, quantity):
    dry, wet = sorted((one_pct, other_pct))
    if wet - dry > 0.01:
        lighter, heavier = (weight_of(wood, *size, pct).mass_kg.expected for pct in (dry, wet))
        assert heavier > lighter
    few = weight_of(wood, *size, dry, quantity).total_kg
    many = weight_of(wood, *size, dry, quantity + 1).total_kg
    assert many.expected == pytest.approx(few.expected * (quantity + 1) / quantity)
    assert many.high > few.high
    # Boards make up for each other: the range of more of them is narrower, as a share of it.
    assert many.high / many.expected < few.high / few.expected


@given(WOODS, DRY)
@FEW
def test_a_range_of_weight_is_as_far_up_as_down_where_nothing_cuts_it(wood, moisture):
    likely = density_of(wood, moisture).likely_kg_m3
    assert likely.high - likely.expected == pytest.approx(likely.expected - likely.low)


@given(WOODS, st.floats(1.0, 2000.0), DRY, DRY, ANGLES, MORE)
@SOME
def test_movement_goes_with_size_and_has_a_range_alike_on_both_sides(
    wood, size, start, end, angle, more
):
    one = movement(wood, size, start, end, angle).likely_change_mm
    larger = movement(wood, size * more, start, end, angle).likely_change_mm
    assert tuple(larger) == near(one.scaled(more), rel=1e-6, abs=1e-9)
    assert one.high - one.expected == pytest.approx(one.expected - one.low, abs=1e-9)


@given(WOODS, DRY, DRY, DRY, ANGLES)
@SOME
def test_steps_of_moisture_add_up_and_further_is_more(wood, first, second, third, angle):
    straight = movement(wood, 300.0, first, third, angle).after_mm
    there = movement(wood, 300.0, first, second, angle).after_mm
    assert movement(wood, there, second, third, angle).after_mm == pytest.approx(straight)
    assert movement(wood, straight, third, first, angle).after_mm == pytest.approx(300.0)
    assert size_for(wood, 300.0, first, third, angle).after_mm == pytest.approx(300.0)
    low, middle, high = sorted((first, second, third))
    ways = [movement(wood, 300.0, low, pct, angle).after_mm for pct in (low, middle, high)]
    assert ways == sorted(ways)


@given(WOODS, DRY, DRY, ANGLES, ANGLES)
@SOME
def test_flatter_sawn_moves_more(wood, start, end, one, other):
    flat, quarter = sorted((one, other))
    more, less = (abs(movement(wood, 300.0, start, end, a).change_mm) for a in (flat, quarter))
    assert more >= less - 1e-9


@given(WOODS, DRY, DRY, ANGLES, st.integers(1, 12), st.floats(20.0, 1500.0))
@SOME
def test_staves_move_as_the_board_they_were_cut_from_and_spread_less(
    wood, start, end, angle, count, width
):
    whole = movement(wood, width, start, end, angle)
    staves = panel_movement(wood, [Stave(width / count, angle)] * count, start, end)
    assert staves.after_mm == pytest.approx(whole.after_mm)
    assert staves.likely_mm.high - staves.after_mm <= whole.likely_mm.high - whole.after_mm + 1e-9
    together = movement(wood, width, start, end, angle, boards=count)
    assert tuple(staves.likely_mm) == near(together.likely_mm, rel=1e-9, abs=1e-9)


# Lumber


THICKNESSES = st.sampled_from(["3/4", "4/4", "5/4", "6/4", "8/4"])
WIDTHS, LENGTHS = st.integers(3, 24), st.integers(4, 16)


@given(THICKNESSES, WIDTHS, LENGTHS, st.integers(1, 20))
@SOME
def test_a_pile_is_its_boards_in_either_unit(thickness, width, length, quantity):
    inches = lot_of(board_of(thickness, str(width), str(length), str(quantity), "ash"))
    written = (f"{width * 25.4!r} mm", f"{length * 304.8!r} mm")
    metric = lot_of(board_of(thickness, *written, str(quantity), "ash", units="si"))
    assert metric.board_feet == pytest.approx(inches.board_feet)
    assert metric.volume_m3 == pytest.approx(inches.volume_m3)
    one = lot_of(board_of(thickness, str(width), str(length), "1", "ash"))
    assert inches.board_feet == pytest.approx(quantity * one.board_feet)


@given(st.lists(st.tuples(THICKNESSES, WIDTHS, LENGTHS), min_size=2, max_size=6))
@SOME
def test_two_piles_are_the_sum_of_each(sizes):
    boards = [board_of(t, str(w), str(n), "1", "ash") for t, w, n in sizes]
    whole, first, rest = (total(tally(b)) for b in (boards, boards[:1], boards[1:]))
    assert whole.board_feet == pytest.approx(first.board_feet + rest.board_feet)
    assert whole.volume_m3 == pytest.approx(first.volume_m3 + rest.volume_m3)


@given(THICKNESSES, WIDTHS, LENGTHS)
@SOME
def test_a_wider_longer_or_thicker_board_is_no_less(thickness, width, length):
    one = lot_of(board_of(thickness, str(width), str(length), "1", "ash"))
    for larger in (
        board_of(thickness, str(width + 1), str(length), "1", "ash"),
        board_of(thickness, str(width), str(length + 1), "1", "ash"),
        board_of("12/4", str(width), str(length), "1", "ash"),
    ):
        assert lot_of(larger).board_feet >= one.board_feet
        assert lot_of(larger).volume_m3 > one.volume_m3


# Pieces


def piece(units="si", parts=((1000.0, 400.0, 20.0, 1),), build=8.0):
    """The estimate of a piece of white oak parts of length, width, thickness [mm] and quantity."""
    unit, per = ("mm", 1.0) if units == "si" else ("in", 25.4)
    lines = [
        f'name = "a piece"\nunits = "{units}"\n[build]\nmoisture_pct = {build}\n[use]\n'
        "driest = { moisture_pct = 6 }\nwettest = { moisture_pct = 11 }\n"
    ]
    for n, (length, width, thickness, quantity) in enumerate(parts):
        sizes = zip(("length", "width", "thickness"), (length, width, thickness), strict=True)
        lines += [f'[[parts]]\nname = "part {n}"\nspecies = "white oak"\nquantity = {quantity}\n']
        lines += [f'{name} = "{size / per!r} {unit}"\n' for name, size in sizes]
    return estimated(parse_piece("".join(lines), "x.toml"))


def moves(estimate):
    return [p.movements[-1].likely_change_mm for p in estimate.parts]


PARTS = st.lists(
    st.tuples(
        st.floats(200.0, 1500.0), st.floats(50.0, 140.0), st.floats(10.0, 40.0), st.integers(1, 4)
    ),
    min_size=1,
    max_size=3,
)


@given(PARTS)
@FEW
def test_a_piece_is_the_same_in_either_unit_and_order(parts):
    metric, inches, turned = piece("si", parts), piece("us", parts), piece("si", parts[::-1])
    for other in (inches, turned):
        assert tuple(other.mass_kg["build"]) == near(metric.mass_kg["build"], rel=1e-9)
        assert other.board_feet == pytest.approx(metric.board_feet)
    for one, same in zip(moves(metric), moves(inches), strict=True):
        assert tuple(same) == near(one, rel=1e-6, abs=1e-9)


@given(PARTS, st.floats(6.0, 11.0))
@FEW
def test_a_piece_is_the_sum_of_its_parts(parts, build):
    whole = piece("si", parts, build)
    each = [piece("si", [part], build) for part in parts]
    assert whole.mass_kg["build"].expected == pytest.approx(
        sum(e.mass_kg["build"].expected for e in each)
    )
    assert whole.board_feet == pytest.approx(sum(e.board_feet for e in each))
    twice = piece("si", [(*size, 2 * quantity) for *size, quantity in parts], build)
    mass, double = whole.mass_kg["build"], twice.mass_kg["build"]
    assert double.expected == pytest.approx(2.0 * mass.expected)
    assert double.high < 2.0 * mass.high
    assert double.low > 2.0 * mass.low


# Shipping


@given(WOODS, SIZES, DRY, st.integers(1, 6), st.floats(0.1, 30.0))
@SOME
def test_a_load_is_what_is_in_it(wood, size, build, quantity, item_kg):
    part = WoodPart("top", wood, Shape("box", *size), quantity)
    item = Item("hardware", item_kg, 3)
    alone, other = load([part], [], build, build), load([], [item], build, build)
    both = load([part], [item], build, build).shipped_kg
    assert both.expected == pytest.approx(alone.shipped_kg.expected + 3.0 * item_kg)
    assert other.shipped_kg.expected == pytest.approx(3.0 * item_kg)
    more = load([part, part], [], build, build).shipped_kg
    assert more.expected == pytest.approx(2.0 * alone.shipped_kg.expected)
    assert more.high < 2.0 * alone.shipped_kg.high
    wetter = load([part], [], build, build + 1.0)
    assert wetter.settled_kg.expected > alone.settled_kg.expected


@given(SIZES, st.floats(1.0, 200.0), MORE)
@SOME
def test_a_carton_has_no_upper_side_and_grows_with_what_is_in_it(size, mass, more):
    kg = Range(mass, 0.9 * mass, 1.1 * mass)
    one = crate(size, kg, Packing(40.0), FACTS)
    turned = crate((size[2], size[0], size[1]), kg, Packing(40.0), FACTS)
    assert turned.volume_m3 == pytest.approx(one.volume_m3)
    assert tuple(turned.gross_kg) == near(one.gross_kg)
    heavier = crate(size, kg.scaled(more), Packing(40.0), FACTS)
    assert tuple(heavier.gross_kg) == near(one.gross_kg.scaled(more))
    larger = crate((size[0] * more, *size[1:]), kg, Packing(40.0), FACTS)
    assert larger.volume_m3 > one.volume_m3
    assert larger.density_kg_m3 < one.density_kg_m3
