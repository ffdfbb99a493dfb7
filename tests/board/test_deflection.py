"""A shelf that sags: the handbook's modulus, moisture, creep, the thickness it needs."""

import pytest
from examples import FEW_OF_A_FIXTURE
from hypothesis import given
from hypothesis import strategies as st

from woodref.board.deflection import Span, deflection, modulus_in_use
from woodref.errors import InputError, NoDataError
from woodref.formulas.strength import property_at
from woodref.reference.library import Reference

SHELF = Span(914.4, 254.0, 19.05, uniform_n_m=291.878)  # 36 in, 10 in, 3/4 in, 20 lb/ft


@pytest.fixture(scope="module")
def pine():
    return Reference(own=False).wood("eastern white pine")


def test_a_shelf_of_books(pine):
    """A question of the trade: 36 in of white pine, 10 by 3/4 in, 20 lb of books a foot."""
    d = deflection(pine, SHELF, 8.0)
    assert d.now_mm.expected == pytest.approx(2.12, abs=0.02)
    assert d.later_mm.expected == pytest.approx(2.0 * d.now_mm.expected)
    assert d.visible_mm == pytest.approx(3 * 0.02 * 25.4)  # 0.02 in per foot, common practice
    assert d.later_mm.expected > d.visible_mm
    assert d.now_mm.low < d.now_mm.expected < d.now_mm.high


def test_the_thickness_it_needs_keeps_the_sag_under_the_limit(pine):
    d = deflection(pine, SHELF, 8.0)
    thicker = Span(914.4, 254.0, d.needed_mm, uniform_n_m=291.878)
    thinner = Span(914.4, 254.0, d.needed_mm - 0.2, uniform_n_m=291.878)
    assert deflection(pine, thicker, 8.0).later_mm.expected <= d.visible_mm
    assert deflection(pine, thinner, 8.0).later_mm.expected > d.visible_mm
    assert d.needed_high_mm > d.needed_mm


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
@given(st.floats(300, 2000), st.floats(50, 600), st.floats(12, 60), st.floats(0, 2000))
def test_more_load_more_sag_and_held_ends_less(pine, span, width, thickness, load):
    def sag(support, uniform):
        return deflection(pine, Span(span, width, thickness, support, uniform), 8.0).now_mm.expected

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
def test_what_cannot_be_is_refused(pine, span, words):
    with pytest.raises(InputError, match=words):
        deflection(pine, span, 8.0)


def test_a_wood_without_a_modulus():
    """Koa: no table holds a density of it, so that nothing can be estimated."""
    with pytest.raises(NoDataError, match="modulus of elasticity of koa"):
        deflection(Reference(own=False).wood("koa"), SHELF, 8.0)


def test_a_modulus_that_no_table_prints_is_estimated_and_told():
    pear = Reference(own=False).wood("pear")
    sag = deflection(pear, SHELF, 8.0)
    assert "modulus-estimated" in {n.code for n in sag.notes}
    assert sag.values[0].basis == "estimated"
    function = 16500 * (pear.estimate("basic_specific_gravity").value / (1 - 0.147 * 0.6)) ** 0.70
    assert sag.modulus_mpa == pytest.approx(function, rel=1e-3)  # Table 5-11a of FPL-GTR-282
    printed = deflection(Reference(own=False).wood("sugar maple"), SHELF, 8.0)
    assert sag.now_mm.high / sag.now_mm.expected > printed.now_mm.high / printed.now_mm.expected


def test_a_modulus_printed_at_another_moisture_is_used_and_told():
    """Kempas and jelutong: Agriculture Handbook 607 prints theirs at 15 %."""
    wood = Reference(own=False).wood("jelutong")
    sag = deflection(wood, SHELF, 8.0)
    assert "modulus-at-another-moisture" in {n.code for n in sag.notes}
    assert sag.modulus_mpa == wood.value("modulus_of_elasticity", "15pct").value
