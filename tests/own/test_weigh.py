"""A weighed board: its density, its place among its kind, kept as an own figure."""

import pytest
from examples import FEW_OF_A_FIXTURE
from hypothesis import given
from hypothesis import strategies as st

from woodref.board.weight import density_of, weight_of
from woodref.errors import InputError
from woodref.own.storage import rows_of
from woodref.own.weigh import Heaviness, keep, weigh
from woodref.reference.library import Reference

SIZES = (1200.0, 150.0, 25.0)


def test_an_average_board_stands_in_the_middle(reference):
    oak = reference.wood("white oak")
    mass = weight_of(oak, *SIZES, 8.0).mass_kg.expected
    board = weigh(oak, *SIZES, mass, 8.0)
    assert board.lighter_share == pytest.approx(0.5)
    assert board.heaviness is Heaviness.USUAL
    assert board.basic_specific_gravity == pytest.approx(0.60, abs=0.001)


@pytest.mark.parametrize(("times", "heaviness"), [(1.15, Heaviness.HEAVY), (0.85, Heaviness.LIGHT)])
def test_heavy_and_light(reference, times, heaviness):
    oak = reference.wood("white oak")
    mass = times * weight_of(oak, *SIZES, 8.0).mass_kg.expected
    assert weigh(oak, *SIZES, mass, 8.0).heaviness is heaviness


@FEW_OF_A_FIXTURE
@given(st.floats(0.25, 1.0), st.floats(0.0, 60.0))
def test_a_kept_board_gives_its_own_weight_back(reference, gravity, moisture):
    """Weight to basic specific gravity and back, for a wood with shrinkage of its own."""
    oak = reference.wood("white oak")
    mass = 1000.0 * gravity * (1 + moisture / 100) * 1200 * 150 * 25e-9
    board = weigh(oak, *SIZES, mass, moisture)
    assert board.density_kg_m3 == pytest.approx(1000.0 * gravity * (1 + moisture / 100))


def test_a_kept_board_is_kept_as_weighed_and_as_basic(reference):
    """The wood then has the board's own density at the moisture content it was weighed at."""
    board = weigh(reference.wood("white oak"), *SIZES, 3.6, 8.0)
    keep(board, "one board")
    basic, weighed = rows_of("measurements")
    assert basic["value"] == pytest.approx(board.basic_specific_gravity)
    assert (weighed["value"], weighed["moisture_content_pct"]) == (board.density_kg_m3, 8.0)
    assert basic["batch"] == weighed["batch"]
    after = density_of(Reference().wood("white oak"), 8.0)
    assert after.density_kg_m3 == pytest.approx(board.density_kg_m3, rel=1e-6)


def test_a_board_is_set_against_print_not_against_itself(reference):
    printed = reference.wood("white oak")
    first = weigh(printed, *SIZES, 3.6, 8.0)
    keep(first, "one board")
    again = weigh(Reference().wood("white oak"), *SIZES, 3.6, 8.0, printed=printed)
    assert again.lighter_share == pytest.approx(first.lighter_share)


def test_koa_becomes_a_wood_with_a_density(reference):
    """No table holds koa; a board on the scale does."""
    koa = reference.wood("koa")
    board = weigh(koa, *SIZES, 2.8, 8.0, reference.relation_of(koa))
    assert board.published is None
    assert board.heaviness is Heaviness.UNKNOWN
    keep(board, "one board")
    again = density_of(Reference().wood("koa"), 8.0)
    assert again.density_kg_m3 == pytest.approx(board.density_kg_m3, rel=1e-6)
    row = rows_of("measurements")[0]
    assert row["species_id"] == "acacia-koa"
    assert "kg/m3 at 8 %" in row["note"]


@pytest.mark.parametrize(
    ("sizes", "mass", "moisture", "words"),
    [
        ((0.0, 150.0, 25.0), 3.0, 8.0, "above 0"),
        (SIZES, 300.0, 8.0, "which no wood has"),
        (SIZES, 0.01, 8.0, "which no wood has"),
        (SIZES, 3.0, -1.0, "cannot be"),
    ],
)
def test_what_cannot_be_is_refused(reference, sizes, mass, moisture, words):
    with pytest.raises(InputError, match=words):
        weigh(reference.wood("teak"), *sizes, mass, moisture)


def test_a_group_cannot_be_kept(reference):
    board = weigh(reference.wood("hickory"), *SIZES, 3.6, 8.0)
    with pytest.raises(InputError, match="trade group"):
        keep(board, "one board")
