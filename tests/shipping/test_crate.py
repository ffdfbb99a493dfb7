"""Crates, cartons, their freight class and who can lift them."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError, NoDataError
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.shipping import parse_divisor, shipping_facts
from woodref.shipping.crate import Packing, UsualFigure, crate, dimensional_weight, freight_class
from woodref.shipping.lifting import lifting, recommended_weight_limit

LB, INCH = 0.45359237, 25.4
FACTS = shipping_facts(Reference(own=False))


@pytest.fixture
def facts():
    return FACTS


SIDEBOARD = (1500.0, 450.0, 800.0)
LOAD = Range(60.0, 54.0, 66.0)


def test_every_figure_says_how_it_is_known(facts):
    bases = [x.basis for x in (*facts.classes, *facts.divisors, facts.ceiling, facts.pallet)]
    bases += [x.basis for x in (facts.packing_pct, facts.padding, facts.two_people, facts.lift)]
    assert set(bases) <= {"checked", "checked_twice", "unchecked", "common_practice"}


def test_a_carton(facts):
    found = crate(SIDEBOARD, LOAD, Packing(50.0), facts)
    assert found.size_mm == (1600.0, 550.0, 900.0)
    assert found.volume_m3 == pytest.approx(1.6 * 0.55 * 0.9)
    # 10 to 20 % of the piece (common practice, no source).
    assert found.packing_kg == Range(pytest.approx(9.0), pytest.approx(5.4), pytest.approx(13.2))
    assert found.gross_kg.expected == pytest.approx(69.0)
    assert found.density_kg_m3 == pytest.approx(69.0 / 0.792)


def test_a_crate_weighs_what_its_boards_weigh(facts):
    """Six panels and twelve battens counted one by one."""
    found = crate(SIDEBOARD, LOAD, Packing(40.0, 12.0, 600.0, (70.0, 20.0), 500.0), facts)
    assert found.size_mm == pytest.approx((1644.0, 594.0, 944.0))
    room = 1.58, 0.53, 0.88
    a, b, c = (x + 0.024 for x in room)
    panels = 2 * (a * b + a * room[2] + room[1] * room[2]) * 0.012
    assert a * b * c - room[0] * room[1] * room[2] == pytest.approx(panels)
    battens = 4 * (1.644 + 0.594 + 0.944) * 0.07 * 0.02
    by_hand = panels * 600.0 + battens * 500.0
    assert found.packing_kg.expected == pytest.approx(by_hand)
    assert found.packing_kg.high == pytest.approx(by_hand * 1.15)


def test_a_pallet_is_as_large_as_the_floor(facts):
    flat = crate((48 * INCH, 40 * INCH, 500.0), LOAD, Packing(0.0), facts)
    on = crate((48 * INCH, 40 * INCH, 500.0), LOAD, Packing(0.0, pallet=True), facts)
    assert on.size_mm[2] - flat.size_mm[2] == 140.0
    # 30 to 50 lb for 48 x 40 in (common practice, no source).
    assert on.packing_kg.low - flat.packing_kg.low == pytest.approx(30 * LB)
    assert on.packing_kg.high - flat.packing_kg.high == pytest.approx(50 * LB)
    half = crate((48 * INCH, 20 * INCH, 500.0), LOAD, Packing(0.0, pallet=True), facts)
    assert half.packing_kg.low - flat.packing_kg.low == pytest.approx(15 * LB)


def test_a_known_packing_weight_replaces_the_rules(facts):
    packing = Packing(40.0, 12.0, pallet=True, pallet_height_mm=100.0, mass_kg=30.0)
    found = crate(SIDEBOARD, LOAD, packing, facts)
    assert found.packing_kg == Range(30.0, 30.0, 30.0)
    assert packing.unchecked == ()
    assert Packing(40.0, 12.0, batten_mm=(70.0, 20.0), pallet=True).unchecked == (
        UsualFigure.WALL_DENSITY,
        UsualFigure.BATTEN_DENSITY,
        UsualFigure.PALLET_HEIGHT,
    )


def test_what_is_recalled():
    assert Packing(40.0, 12.0, pallet=True).unchecked == (
        UsualFigure.WALL_DENSITY,
        UsualFigure.PALLET_HEIGHT,
    )
    assert Packing(40.0).unchecked == ()


def test_divisors_of_ones_own(facts):
    own = [parse_divisor("200 in3/lb"), parse_divisor("4000cm3/kg")]
    found = crate(SIDEBOARD, LOAD, Packing(50.0), facts, own)
    assert [d.divisor for d in found.dimensional] == own
    assert found.dimensional[1].dimensional_kg == pytest.approx(792_000 / 4000)
    assert len(crate(SIDEBOARD, LOAD, Packing(50.0), facts).dimensional) == len(facts.divisors)


@pytest.mark.parametrize("text", ["", "139", "in3/lb", "0 in3/lb", "139 in3/kg", "-5 cm3/kg"])
def test_other_text_is_no_divisor(text):
    with pytest.raises(InputError, match="write for example 139 in3/lb or 5000 cm3/kg"):
        parse_divisor(text)


@given(st.floats(0.01, 20.0), st.floats(0.1, 2000.0), st.floats(1.0, 20_000.0))
def test_the_larger_weight_is_charged(volume, mass, divisor):
    found = dimensional_weight(
        volume, Range(mass, mass * 0.9, mass * 1.1), parse_divisor(f"{divisor:.3f} cm3/kg")
    )
    for charged, gross in (
        (found.chargeable_kg.expected, mass),
        (found.chargeable_kg.low, mass * 0.9),
        (found.chargeable_kg.high, mass * 1.1),
    ):
        assert charged == max(found.dimensional_kg, gross)


@given(st.floats(0.0, 1000.0))
def test_every_density_has_one_class(density):
    holds = [
        c
        for c in FACTS.classes
        if c.low_lb_ft3 <= density < (inf if c.high_lb_ft3 is None else c.high_lb_ft3)
    ]
    assert holds == [freight_class(density, FACTS.classes)]


def test_no_class_below_nothing(facts):
    with pytest.raises(InputError, match="no step of the density scale"):
        freight_class(-1.0, facts.classes)


def test_the_class_moves_with_the_range(facts):
    found = crate((600, 600, 600), Range(100.0, 40.0, 200.0), Packing(0.0, mass_kg=0.0), facts)
    low, mid, high = (float(x.name) for x in (found.freight_low, found.freight, found.freight_high))
    assert low > mid > high


@pytest.mark.parametrize(
    ("pounds", "two", "people"),
    [
        ((60, 50, 70), "yes", 2),
        ((60, 50, 75), "yes", 2),
        ((60, 50, 76), "perhaps", 2),
        ((100, 90, 110), "perhaps", 3),
        ((101, 90, 110), "no", 3),
        ((20, 10, 30), "yes", 1),
        ((400, 390, 410), "no", 9),
    ],
)
def test_two_people(facts, pounds, two, people):
    """Usual limit of two: 75 to 100 lb (common practice, no source); one: 51 lb (NIOSH)."""
    found = lifting(Range(*(x * LB for x in pounds)), facts)
    assert (found.two_people, found.people) == (two, people)


def test_reaching_out_asks_for_more_people(facts):
    load = Range(40.0, 38.0, 42.0)
    ideal = lifting(load, facts)
    far = lifting(load, facts, recommended_weight_limit(50.0))
    assert far.one_person_kg == pytest.approx(11.5)
    assert (ideal.people, far.people, far.two_people) == (2, 4, "no")
    with pytest.raises(InputError, match="nothing should be lifted by hand"):
        lifting(load, facts, recommended_weight_limit(70.0))


@given(st.floats(0, 63), st.floats(0, 175), st.floats(0, 175), st.floats(0, 135))
def test_no_lift_is_better_than_the_ideal_one(reach, height, way, twist):
    limit = recommended_weight_limit(reach, height, way, twist)
    assert 0.0 < limit <= 23.0 + 1e-9
    assert recommended_weight_limit(min(63.0, reach + 5), height, way, twist) <= limit
    assert recommended_weight_limit(reach, height, way, min(135.0, twist + 5)) <= limit


def test_where_the_lifting_equation_ends():
    for beyond in ((64, 75, 25, 0), (25, 176, 25, 0), (25, 75, 176, 0), (25, 75, 25, 136)):
        assert recommended_weight_limit(*beyond) == 0.0
    for wrong in ((-1, 75), (25, -1), (float("nan"), 75)):
        with pytest.raises(InputError, match="0 or more"):
            recommended_weight_limit(*wrong)
    with pytest.raises(InputError, match="multiplier is 0 to 1"):
        recommended_weight_limit(25, coupling_multiplier=1.2)


def test_parcel_limits(facts):
    """150 lb, 108 in, 165 in of length plus girth (common practice, no source)."""
    small = crate((600, 400, 300), Range(10, 9, 11), Packing(25.0), facts)
    assert small.over == ()
    long = crate((2800, 100, 100), Range(10, 9, 11), Packing(0.0), facts)
    assert long.over == ("longest side",)
    assert long.limits[2].value == pytest.approx(2800 + 4 * 100)
    bulky = crate((1200, 900, 900), Range(10, 9, 11), Packing(0.0), facts)
    assert bulky.over == ("length plus girth",)
    heavy = Packing(0.0, mass_kg=0.0)
    verdicts = [
        crate((600, 400, 300), Range(mass, 60, 72), heavy, facts).limits[0].over
        for mass in (67.0, 69.0)
    ]
    assert verdicts == ["perhaps", "yes"]


@given(st.floats(50, 5000), st.floats(50, 2000), st.floats(0, 200), st.floats(0, 50))
def test_more_packing_is_never_smaller_or_lighter(length, depth, padding, wall):
    size = (length, depth, 700.0)
    found = crate(size, LOAD, Packing(padding, wall), FACTS)
    more = crate(size, LOAD, Packing(padding, wall, pallet=True), FACTS)
    assert found.volume_m3 >= length * depth * 700.0 * 1e-9 * (1 - 1e-12)
    assert more.volume_m3 > found.volume_m3
    assert more.gross_kg.low > found.gross_kg.low >= LOAD.low
    assert found.gross_kg.low <= found.gross_kg.expected <= found.gross_kg.high


@pytest.mark.parametrize(
    ("size", "load", "packing", "message"),
    [
        ((0, 450, 800), LOAD, Packing(0.0), "length must be above 0"),
        ((1500, 450, float("nan")), LOAD, Packing(0.0), "height must be"),
        (SIDEBOARD, LOAD, Packing(-1.0), r"padding is below 39\.37 in \(1000 mm\)"),
        (SIDEBOARD, LOAD, Packing(0.0, 250.0), r"a wall below 7\.874 in \(200 mm\)"),
        (SIDEBOARD, LOAD, Packing(0.0, 12.0, batten_mm=(-70.0, 20.0)), "a batten is below"),
        (SIDEBOARD, LOAD, Packing(0.0, 12.0, batten_mm=(70.0, 0.0)), "battens need a width"),
        (SIDEBOARD, LOAD, Packing(0.0, batten_mm=(70.0, 20.0)), "the wall of a crate"),
        (SIDEBOARD, LOAD, Packing(0.0, 12.0, 1.0), "or 10 to 9000 kg/m3, not 0.06243 lb/ft3"),
        (
            SIDEBOARD,
            LOAD,
            Packing(0.0, pallet_height_mm=2000.0),
            r"a pallet is below 39\.37 in",
        ),
        (SIDEBOARD, LOAD, Packing(0.0, mass_kg=-1.0), "packing cannot weigh -2.205 lb .-1 kg."),
        (SIDEBOARD, Range(0.0, 0.0, 0.0), Packing(0.0), "must weigh something"),
        (SIDEBOARD, Range(5.0, 6.0, 7.0), Packing(0.0), "must weigh something"),
    ],
)
def test_an_impossible_crate_is_an_error(facts, size, load, packing, message):
    with pytest.raises(InputError, match=message):
        crate(size, load, packing, facts)


def test_a_dataset_without_the_figures():
    class Empty:
        def rows(self, *_):
            return []

    class Bare:
        store = Empty()

    with pytest.raises(NoDataError, match="the dataset lacks a figure of shipping"):
        shipping_facts(Bare())
