"""Weight of a piece with its items, shipped and settled."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from small_woods import BARE, BLACK_WALNUT, UNCHECKED_WOOD, WHITE_OAK

from woodref.board.shapes import Shape, volume_of
from woodref.board.weight import density_of, weight_of, weight_of_shape
from woodref.errors import InputError, NoDataError
from woodref.formulas.spread import Z90
from woodref.quantity import Range
from woodref.shipping.load import (
    ITEM_KINDS,
    USUAL_DENSITIES,
    WHOLE,
    Item,
    WoodPart,
    load,
    slab_mass,
    usual_slab,
)

TOP = WoodPart("top", WHITE_OAK, Shape("box", 1500, 450, 20), staves=4, lift="top")
LEG = WoodPart(
    "leg", BLACK_WALNUT, Shape("tapered leg", 700, 50, 50, end_width_mm=25), 4, lift="base"
)
SCREWS = Item("screws", 0.01, 20)
PANE = Item("pane", 6.0, 1, "glass", "top")
BLANKET = Item("blanket", 1.5, 1, "packaging")


def test_wood_weighs_as_its_density_says():
    found = load([TOP, LEG], [], 8.0, 8.0)
    oak, walnut = density_of(WHITE_OAK, 8.0), density_of(BLACK_WALNUT, 8.0)
    top = 1.5 * 0.45 * 0.02 * oak.density_kg_m3
    legs = 4 * volume_of(LEG.shape) * 1e-9 * walnut.density_kg_m3
    assert [x.shipped_kg.expected for x in found.lines] == pytest.approx([top, legs])
    assert found.lines[1].one_kg.expected == pytest.approx(legs / 4)
    assert found.shipped_kg.expected == pytest.approx(top + legs)
    assert found.settled_kg == found.shipped_kg
    assert found.densities == (oak, walnut)


def test_a_part_of_n_is_n_boards_and_woods_are_independent():
    """Written out by hand: correlation 0.5 within a wood, none between woods."""
    found = load([TOP, LEG], [], 8.0, 8.0)

    def sd(part, count):
        one = volume_of(part.shape) * 1e-9 * part.quantity / count
        one *= density_of(part.wood, 8.0).sd_kg_m3
        return one * sqrt(count + 0.5 * count * (count - 1))

    oak, walnut = sd(TOP, 4), sd(LEG, 4)
    for figure, spread in (
        (found.lines[0].shipped_kg, oak),
        (found.lines[1].shipped_kg, walnut),
        (found.shipped_kg, sqrt(oak**2 + walnut**2)),
    ):
        assert figure.high - figure.expected == pytest.approx(Z90 * spread)
        assert figure.expected - figure.low == pytest.approx(Z90 * spread)


def test_two_parts_of_one_wood_are_the_boards_of_one():
    one = load([WoodPart("all", WHITE_OAK, Shape("box", 900, 90, 20), 6)], [], 8.0, 8.0)
    two = load(
        [
            WoodPart("some", WHITE_OAK, Shape("box", 900, 90, 20), 2),
            WoodPart("others", WHITE_OAK, Shape("box", 900, 90, 20), 4),
        ],
        [],
        8.0,
        8.0,
    )
    assert two.shipped_kg.low == pytest.approx(one.shipped_kg.low)
    assert two.shipped_kg.high == pytest.approx(one.shipped_kg.high)


def test_the_same_as_the_weight_of_boards():
    boards = weight_of(WHITE_OAK, 900, 90, 20, 12.0, 6)
    found = load([WoodPart("all", WHITE_OAK, Shape("box", 900, 90, 20), 6)], [], 12.0, 12.0)
    assert tuple(found.shipped_kg)[:2] == pytest.approx(tuple(boards.total_kg)[:2])
    assert found.lines[0].one_kg.high == pytest.approx(boards.mass_kg.high)


def test_a_shape_weighs_as_the_box_of_its_volume():
    leg = weight_of_shape(WHITE_OAK, LEG.shape, 8.0, 4)
    box = weight_of(WHITE_OAK, volume_of(LEG.shape) / 2500.0, 50.0, 50.0, 8.0, 4)
    for ours, theirs in (
        (leg.mass_kg.expected, box.mass_kg.expected),
        (leg.mass_kg.low, box.mass_kg.low),
        (leg.total_kg.high, box.total_kg.high),
    ):
        assert ours == pytest.approx(theirs)


def test_water_alone_changes_the_weight():
    """The ovendry mass stays: 9 % of it more from 6 to 15 %; what is no wood keeps its weight."""
    found = load([TOP], [PANE], 6.0, 15.0)
    oak = found.lines[0]
    assert oak.settled_kg.expected / oak.shipped_kg.expected == pytest.approx(115 / 106)
    assert found.lines[1].settled_kg == found.lines[1].shipped_kg
    assert found.settled_kg.expected == pytest.approx(oak.shipped_kg.expected * 115 / 106 + 6.0)


def test_packaging_is_gone_once_settled():
    found = load([TOP], [BLANKET], 8.0, 8.0)
    assert found.shipped_kg.expected - found.settled_kg.expected == pytest.approx(1.5)
    assert found.lines[1].settled_kg.expected == 0.0


def test_lifts_and_the_heaviest():
    found = load([TOP, LEG], [SCREWS, PANE], 8.0, 8.0)
    lifts = dict(found.lifts)
    assert set(lifts) == {"top", "base", WHOLE}
    assert lifts[WHOLE].expected == pytest.approx(0.2)
    assert lifts["top"].expected == pytest.approx(found.lines[0].shipped_kg.expected + 6.0)
    assert found.heaviest_lift == ("top", lifts["top"])
    assert sum(x.expected for x in lifts.values()) == pytest.approx(found.shipped_kg.expected)


def test_recalled_figures_say_so():
    found = load([WoodPart("rail", UNCHECKED_WOOD, Shape("box", 900, 90, 20))], [PANE], 8.0, 8.0)
    assert [x.basis for x in found.lines] == ["unchecked", "given"]
    usual = usual_slab("top", "stone", (600, 400, 20))
    assert usual.basis == "unchecked"
    assert load([], [usual], 8.0, 8.0).lines[0].basis == "unchecked"


@pytest.mark.parametrize("kind", USUAL_DENSITIES)
def test_a_usual_slab_has_the_range_of_what_is_sold(kind):
    item = usual_slab("slab", kind, (1000, 1000, 10), 2)
    usual = USUAL_DENSITIES[kind]
    assert tuple(item.each_kg) == pytest.approx(
        (usual.expected / 100, usual.low / 100, usual.high / 100)
    )
    whole = load([], [item], 8.0, 8.0).shipped_kg
    assert (whole.low, whole.high) == pytest.approx((usual.low / 50, usual.high / 50))
    assert kind in ITEM_KINDS


def test_a_slab():
    # A pane of 1 m2 and 4 mm weighs 10 kg, 2.5 kg a millimeter (common practice, no source).
    assert slab_mass(1000, 1000, 4, 2500) == pytest.approx(10.0)


@given(
    st.floats(100, 3000),
    st.floats(20, 500),
    st.floats(5, 80),
    st.integers(1, 20),
    st.integers(1, 10),
    st.floats(0, 20),
    st.floats(0, 20),
)
def test_a_range_holds_its_figure(length, width, thickness, quantity, staves, build, settled):
    part = WoodPart("part", WHITE_OAK, Shape("box", length, width, thickness), quantity, staves)
    found = load([part], [SCREWS], build, settled)
    for figure in (found.shipped_kg, found.settled_kg, found.lines[0].one_kg):
        assert 0.0 < figure.low < figure.expected < figure.high
    line = found.lines[0]
    assert line.one_kg.expected * quantity == pytest.approx(line.shipped_kg.expected)
    # Boards of one part even out: the range of all is not wider than that of one, times n.
    spread = line.shipped_kg.high - line.shipped_kg.expected
    assert spread <= quantity * (line.one_kg.high - line.one_kg.expected) * (1 + 1e-9)


@pytest.mark.parametrize(
    ("parts", "items", "wets", "message"),
    [
        ([], [], (8, 8), "nothing to weigh"),
        ([TOP], [], (-1, 8), "moisture content at the build is 0 to 100 %"),
        ([TOP], [], (8, float("nan")), "moisture content when settled"),
        ([TOP], [], (8, 101), "when settled is 0 to 100 %"),
        ([WoodPart("rail", WHITE_OAK, Shape("box", 9, 9, 9), 0)], [], (8, 8), "rail: quantity"),
        ([WoodPart("rail", WHITE_OAK, Shape("box", 9, 9, 9), 1, 0)], [], (8, 8), "rail: quantity"),
        ([WoodPart("rail", WHITE_OAK, Shape("box", 9, 9, 0))], [], (8, 8), "thickness must be"),
        ([], [Item("pull", 0.1, 0)], (8, 8), "pull: a quantity is 1 to"),
        ([], [Item("pull", -0.1)], (8, 8), "pull: a weight of -0.2205 lb .-0.1 kg."),
        ([], [Item("pull", float("inf"))], (8, 8), "pull: a weight of inf"),
        ([], [Item("pull", Range(0.1, 0.2, 0.3))], (8, 8), "from 0.4409 lb"),
        ([], [Item("pull", 0.1, kind="brass")], (8, 8), "'brass' is none of hardware, glass"),
    ],
)
def test_an_impossible_load_is_an_error(parts, items, wets, message):
    with pytest.raises(InputError, match=message):
        load(parts, items, *wets)


def test_a_wood_without_density_cannot_be_weighed():
    with pytest.raises(NoDataError):
        load([WoodPart("rail", BARE, Shape("box", 900, 90, 20))], [], 8.0, 8.0)


def test_a_slab_of_an_impossible_density():
    with pytest.raises(InputError, match="10 to 9000"):
        slab_mass(100, 100, 10, 0.5)
    with pytest.raises(InputError, match="no usual density of 'hardware', only of glass"):
        usual_slab("pull", "hardware", (10, 10, 10))
