"""A shelf that sags: usual loads, limits, creep, modulus, the thickness and the span it allows."""

from dataclasses import replace

import pytest
from examples import FEW_OF_A_FIXTURE
from hypothesis import given
from hypothesis import strategies as st

from woodref.board.beam_material import Spread, modulus_in_use, of_panel, of_wood
from woodref.board.deflection import SagVerdict, deflection
from woodref.board.sag_limits import LimitKind, parse_limit
from woodref.board.span import LoadNotNamedError, Span, carried, carrying
from woodref.errors import InputError, NoDataError
from woodref.formulas.strength import property_at
from woodref.reference.library import Reference
from woodref.reference.panels import panel_figures
from woodref.reference.sag_rules import Carried, sag_rules

SHELF = Span(914.4, 254.0, 19.05, uniform_n_m=291.878)  # 36 in, 10 in, 3/4 in, 20 lb/ft
BARE = replace(SHELF, uniform_n_m=0.0)
LIBRARY = Reference(own=False)
RULES = sag_rules(LIBRARY)
LB, FT = 4.4482216152605, 0.3048


@pytest.fixture(scope="module")
def pine():
    return LIBRARY.wood("eastern white pine")


@pytest.fixture(scope="module")
def dry(pine):
    return of_wood(pine, 8.0)


def sag_of(material, span, **more):
    return deflection(material, span, RULES, **more)


def test_a_shelf_under_a_load_of_its_own(dry):
    """36 in of white pine, 10 by 3/4 in, 20 lb a foot: elastic, so 5 w L4 / 384 E I."""
    d = sag_of(dry, SHELF)
    assert d.now_mm.expected == pytest.approx(2.12, abs=0.02)
    assert d.now_mm.low < d.now_mm.expected < d.now_mm.high
    assert [c.limit.written for c in d.checks] == ["L/144", "L/360"]
    assert [c.sag_mm for c in d.checks] == pytest.approx([914.4 / 144, 914.4 / 360])
    assert d.verdict is SagVerdict.STRAIGHT


def test_creep_is_both_printed_rules_and_decides_nothing(dry):
    """FPL-GTR-190 (2010), p. 9-2 (1.5 times) and p. 5-39 (about twice)."""
    d = sag_of(dry, SHELF)
    assert [s.expected / d.now_mm.expected for s in d.later_mm] == pytest.approx([1.5, 2.0])
    own = sag_of(dry, SHELF, creep_factor=6.0)
    assert [s.expected / d.now_mm.expected for s in own.later_mm] == pytest.approx([6.0])
    assert own.own_creep
    assert not d.own_creep
    assert own.verdict is d.verdict
    assert own.checks == d.checks


def test_a_load_that_comes_and_goes_has_no_creep(dry):
    d = sag_of(dry, replace(SHELF, short=True))
    assert d.later_mm == ()
    assert not d.own_creep
    assert d.now_mm == sag_of(dry, SHELF).now_mm
    with pytest.raises(InputError, match="comes and goes has no creep"):
        sag_of(dry, replace(SHELF, short=True), creep_factor=2.0)


@pytest.mark.parametrize(
    ("load", "n_m"),
    [
        (Carried.SHELF, 40 * LB / FT * 10 / 12),
        (Carried.BOOKS, 50 * LB / FT * 10 / 12),
        (Carried.BOOK_ROW, 25 * LB / FT),
    ],
)
def test_usual_loads(load, n_m):
    """Architectural Woodwork Standards (2009), p. 253; a row of books 25 lb per running foot."""
    span = carrying(BARE, load, RULES)
    assert span.uniform_n_m == pytest.approx(n_m)
    assert span.usual.carried is load
    assert not span.usual_assumed


def test_a_flat_board_without_a_load_is_a_shelf_and_an_upright_one_is_asked_about(dry):
    span = carrying(BARE, None, RULES)
    assert span.usual.carried is Carried.SHELF
    assert span.usual_assumed
    assert carrying(SHELF, None, RULES) == SHELF
    with pytest.raises(LoadNotNamedError, match="upright or round part has no usual"):
        carrying(replace(BARE, width_mm=19.0, thickness_mm=90.0), None, RULES)
    assert carried("Row-of books") is Carried.BOOK_ROW
    with pytest.raises(InputError, match="did you mean 'books'"):
        carried("book")
    with pytest.raises(InputError, match="a weight of your own is a uniform load"):
        carried("5 kg")
    for load in (Carried.BOOKS, Carried.NOTHING):
        with pytest.raises(InputError, match="not both"):
            carrying(SHELF, load, RULES)


def test_nothing_on_it_is_no_verdict(dry):
    d = sag_of(dry, carrying(BARE, Carried.NOTHING, RULES))
    assert d.now_mm.expected > 0.0
    assert d.verdict is None
    assert not d.holds


def test_more_than_print_allows_on_one_shelf_is_known(dry):
    """Architectural Woodwork Standards (2009), p. 253: 200 lb on any one shelf."""
    wide = replace(BARE, width_mm=600.0, span_mm=1800.0)
    assert sag_of(dry, carrying(wide, Carried.SHELF, RULES)).over_shelf_limit
    assert not sag_of(dry, carrying(BARE, Carried.SHELF, RULES)).over_shelf_limit
    assert not sag_of(dry, replace(BARE, point_n=2000.0, short=True)).over_shelf_limit
    limit = 200.0 * LB
    shelf = carrying(BARE, Carried.SHELF, RULES)
    for load, over in ((0.99 * limit, False), (1.01 * limit, True), (1.8 * limit, True)):
        loaded = replace(shelf, uniform_n_m=load / (shelf.span_mm / 1000.0))
        assert sag_of(dry, loaded).over_shelf_limit is over


@pytest.mark.parametrize(
    ("thickness", "verdict"),
    [(30.0, SagVerdict.STRAIGHT), (19.05, SagVerdict.TRADE), (12.0, SagVerdict.SAGS)],
)
def test_the_verdict_names_the_finest_limit_that_is_met(dry, thickness, verdict):
    span = carrying(replace(BARE, thickness_mm=thickness), Carried.BOOKS, RULES)
    assert sag_of(dry, span).verdict is verdict


def test_a_limit_of_ones_own_decides(dry):
    own = sag_of(dry, SHELF, own_limit=parse_limit("1/480"))
    assert own.deciding.limit.kind is LimitKind.OWN
    assert own.verdict is SagVerdict.SAGS
    assert not own.holds
    assert sag_of(dry, SHELF, own_limit=parse_limit("L/240")).verdict is SagVerdict.OWN


@pytest.mark.parametrize("text", ["1/8in", "240", "L/", "2/240", "L/40", "L/9999", "", "1/0"])
def test_what_is_no_limit_is_refused(text):
    with pytest.raises(InputError, match="limit of sag"):
        parse_limit(text)


@FEW_OF_A_FIXTURE
@given(
    st.floats(300, 2000), st.floats(50, 600), st.sampled_from(("simple", "fixed", "cantilever")),
    st.floats(10, 2000), st.floats(0, 500),
)  # fmt: skip
def test_needed_thickness_and_longest_span_just_meet_their_limit(
    dry, length, width, support, uniform, point
):
    span = Span(length, width, 19.0, support, uniform, point)
    for c in sag_of(dry, span).checks:
        for thickness, met in ((c.needed_mm, True), (c.needed_mm - 0.2, False)):
            if 1.0 < thickness < length / 2.0:
                again = sag_of(dry, replace(span, thickness_mm=thickness))
                assert (again.now_mm.expected <= c.sag_mm) is met
        assert c.needed_high_mm >= c.needed_mm
        if c.longest_mm and 40.0 < c.longest_mm < 9000.0:
            for span_mm, met in ((c.longest_mm, True), (c.longest_mm + 0.2, False)):
                reach = sag_of(dry, replace(span, span_mm=span_mm))
                check = next(x for x in reach.checks if x.limit == c.limit)
                assert check.met is met


def test_a_panel_by_print_or_by_figures_of_ones_own():
    figures = panel_figures(LIBRARY, "plywood")
    printed = of_panel("plywood", figures)
    assert printed.modulus_mpa == figures.modulus_mpa
    assert printed.density_kg_m3 == 500.0
    assert printed.spread is Spread.PRODUCTS
    own = of_panel("birch plywood", figures, 9000.0, 680.0)
    assert (own.modulus_mpa.low, own.modulus_mpa.high) == (9000.0, 9000.0)
    assert own.density_kg_m3 == 680.0
    assert own.spread is Spread.NONE
    assert "panel-creep" in {n.code for n in own.notes}
    span = carrying(BARE, Carried.BOOKS, RULES)
    weightless = replace(span, own_weight=False)
    ratio = sag_of(printed, weightless).now_mm.expected / sag_of(own, weightless).now_mm.expected
    assert ratio == pytest.approx(9000.0 / 7755.0)
    for known in ({}, {"modulus_mpa": 9000.0}, {"density_kg_m3": 600.0}):
        with pytest.raises(InputError, match="nothing says how stiff and heavy"):
            of_panel("tray", **known)


def test_without_its_own_weight_a_board_sags_by_its_load_alone(dry):
    light = replace(SHELF, own_weight=False, uniform_n_m=10.0)
    once, twice = (sag_of(dry, replace(light, uniform_n_m=n)).now_mm.expected for n in (10.0, 20.0))
    assert twice == pytest.approx(2.0 * once)


def test_thin_boards_and_light_loads_are_some(dry):
    assert sag_of(dry, replace(SHELF, thickness_mm=0.9)).now_mm.expected > 0.0
    assert replace(BARE, point_n=0.5).loaded
    assert replace(BARE, uniform_n_m=0.5).loaded
    with pytest.raises(InputError, match="not both"):
        carrying(replace(BARE, uniform_n_m=0.5), Carried.BOOKS, RULES)


def test_a_green_modulus_as_high_as_the_dry_one_or_none_moves_nothing(pine):
    dry, green = (pine.value("modulus_of_elasticity", c) for c in ("12pct", "green"))
    alike = replace(green, value=dry.value)
    same = replace(pine, values={**pine.values, (alike.property_id, alike.condition): alike})
    unknown = {k: v for k, v in pine.values.items() if v is not green}
    for values in (same.values, unknown):
        modulus, used, notes = modulus_in_use(replace(pine, values=values), 8.0)
        assert (modulus, used) == (dry.value, (dry,))
        assert notes[0].code == "modulus-not-moved"


def test_a_short_span_may_need_less_than_a_veneer(dry):
    span = replace(SHELF, span_mm=20.0, thickness_mm=5.0, uniform_n_m=10.0)
    check = sag_of(dry, span).deciding
    assert 0.5 < check.needed_mm < 1.5


def test_the_modulus_moves_by_the_own_intersection_of_a_wood():
    """FPL-GTR-282 (2021), Eq. 5-3: the table prints 24 % of white ash, other woods have 25."""
    ash = LIBRARY.wood("white ash")
    dry, green = (ash.value("modulus_of_elasticity", c).value for c in ("12pct", "green"))
    modulus, values, _ = modulus_in_use(ash, 8.0)
    assert modulus == pytest.approx(property_at(dry, green, 8.0, 24.0))
    assert values[-1] is ash.value("intersection_moisture_content")


def test_a_modulus_without_a_spread_has_no_range(pine):
    even = {key: replace(v, sd=None) for key, v in pine.values.items()}
    modulus = of_wood(replace(pine, values=even), 8.0).modulus_mpa
    assert modulus.low == modulus.high == modulus.expected


def test_the_modulus_moves_with_moisture(pine):
    dry, green = (pine.value("modulus_of_elasticity", c).value for c in ("12pct", "green"))
    at_12, _, _ = modulus_in_use(pine, 12.0)
    at_8, values, notes = modulus_in_use(pine, 8.0)
    assert at_12 == pytest.approx(dry)
    assert at_8 == pytest.approx(property_at(dry, green, 8.0, 25.0))
    assert len(values) == 2
    assert notes[-1].code == "modulus-as-tested"
    assert modulus_in_use(pine, 8.0, shear_free=True)[0] == pytest.approx(1.10 * at_8)


@FEW_OF_A_FIXTURE
@given(st.floats(300, 2000), st.floats(50, 600), st.floats(12, 60), st.floats(1, 2000))
def test_more_load_more_sag_and_held_ends_less(dry, span, width, thickness, load):
    def sag(support, uniform):
        return sag_of(dry, Span(span, width, thickness, support, uniform)).now_mm.expected

    assert sag("simple", load) <= sag("simple", load + 10.0)
    assert sag("fixed", load) < sag("simple", load) < sag("cantilever", load)


@pytest.mark.parametrize(
    ("span", "words"),
    [
        (Span(0.0, 254.0, 19.0), "the span must be above 0"),
        (Span(900.0, -1.0, 19.0), "the width must be above 0"),
        (Span(30.0, 254.0, 19.0), "a block, not a beam"),
        (Span(900.0, 254.0, 19.0, "hanging"), "use simple, fixed, cantilever"),
        (Span(900.0, 254.0, 19.0, uniform_n_m=-1.0), "cannot be negative"),
        (Span(900.0, 254.0, 19.0, point_n=5.0, point_at_mm=901.0), "outside the span"),
    ],
)
def test_what_cannot_be_is_refused(dry, span, words):
    with pytest.raises(InputError, match=words):
        sag_of(dry, span)


def test_a_wood_without_a_modulus():
    """Koa: no table holds a density of it, so that nothing can be estimated."""
    with pytest.raises(NoDataError, match="modulus of elasticity of koa"):
        of_wood(LIBRARY.wood("koa"), 8.0)


def test_a_modulus_that_no_table_prints_is_estimated_and_told():
    pear = LIBRARY.wood("pear")
    material = of_wood(pear, 8.0)
    assert "modulus-estimated" in {n.code for n in material.notes}
    assert material.values[0].basis == "estimated"
    shrunk = 0.147 * (1 - 12 / pear.fiber_saturation.pct)
    basic = pear.estimate("basic_specific_gravity").value
    function = 16500 * (basic / (1 - shrunk)) ** 0.70
    modulus = material.modulus_mpa
    assert modulus.expected == pytest.approx(function, rel=1e-3)  # Table 5-11a of FPL-GTR-282
    printed = of_wood(LIBRARY.wood("sugar maple"), 8.0).modulus_mpa
    assert modulus.low / modulus.expected < printed.low / printed.expected


def test_a_modulus_printed_at_another_moisture_is_used_and_told():
    """Kempas and jelutong: Agriculture Handbook 607 prints theirs at 15 %."""
    wood = LIBRARY.wood("jelutong")
    material = of_wood(wood, 8.0)
    assert "modulus-at-another-moisture" in {n.code for n in material.notes}
    assert material.modulus_mpa.expected == wood.value("modulus_of_elasticity", "15pct").value
