"""The thickness a part is bought in: as it is listed, else as yards usually sell that wood."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.lumber.prices import parse_prices, resolver
from woodref.lumber.yard import thicknesses_sold
from woodref.reference.library import Reference

INCH = 25.4
PLANING_MM = 4.0


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def cherry(reference):
    return reference.wood("black cherry")


@pytest.fixture(scope="module")
def pine(reference):
    return reference.wood("eastern white pine")


def sold(reference, wood, units="us", listed="", **more):
    prices = parse_prices(listed, "prices.csv", resolver(reference)) if listed else None
    return thicknesses_sold(reference, [wood], prices, units, PLANING_MM, **more)


@pytest.mark.parametrize(
    ("finished_in", "label"),
    [(0.5, "4/4"), (0.8125, "4/4"), (0.875, "5/4"), (1.5, "8/4"), (1.75, "8/4"), (3.5, "16/4")],
)
def test_hardwood_in_quarters_that_yards_stock(reference, cherry, finished_in, label):
    """NHLA: 4/4 dresses to 13/16 in; 7/4 and 14/4 stand in its table and on few racks."""
    assert sold(reference, cherry).choose(cherry, finished_in * INCH).nominal == label


def test_softwood_by_its_nominal_sizes(reference, pine):
    """Voluntary Product Standard PS 20: nominal 1 in dresses dry to 3/4, 1-1/4 to 1 in."""
    offered = sold(reference, pine)
    assert offered.choose(pine, 0.5 * INCH).nominal == "1 in"
    assert offered.choose(pine, 0.75 * INCH).nominal == "1 in"
    assert offered.choose(pine, 0.875 * INCH).nominal == "1-1/4 in"


def test_a_metric_piece_stays_metric(reference, cherry, pine):
    """Preferred sawn sizes of EN 1313 (from memory), less what planing takes."""
    offered = sold(reference, cherry, "si")
    assert offered.choose(cherry, 22.0).nominal == "27 mm"
    assert offered.choose(cherry, 24.0).nominal == "32 mm"
    assert sold(reference, pine, "si").choose(pine, 18.0).nominal == "22 mm"


def test_a_price_list_says_what_there_is(reference, cherry):
    listed = "species,thickness,price,per\nblack cherry,7/4,9,board foot\n"
    offered = sold(reference, cherry, listed=listed)
    assert offered.choose(cherry, 1.5 * INCH).nominal == "7/4"
    # What it lists reaches no farther: then as yards usually sell it, without a price.
    assert offered.choose(cherry, 2.0 * INCH).nominal == "10/4"
    metric = "species,thickness,price,per\nblack cherry,52 mm,2400,m3\n"
    assert sold(reference, cherry, listed=metric).choose(cherry, 25.0).nominal == "52 mm"


def test_a_row_for_any_thickness_names_none(reference, cherry):
    listed = "species,thickness,price,per\nblack cherry,any,9,board foot\n"
    assert sold(reference, cherry, listed=listed).choose(cherry, 1.5 * INCH).nominal == "8/4"


def test_what_the_yard_sells_goes_before_all(reference, cherry):
    listed = "species,thickness,price,per\nblack cherry,7/4,9,board foot\n"
    nominals = [parse_nominal("34 mm"), Nominal("8/4", 50.8)]
    offered = sold(reference, cherry, listed=listed, nominals=nominals)
    assert offered.choose(cherry, 1.1 * INCH).nominal == "34 mm"
    assert offered.choose(cherry, 3.0 * INCH) is None
    assert offered.most_mm(cherry) == pytest.approx(1.75 * INCH)


@given(st.floats(3.0, 95.0), st.sampled_from(["us", "si"]))
def test_what_is_chosen_reaches_and_nothing_thinner_does(thickness_mm, units):
    reference = Reference(own=False)
    cherry = reference.wood("black cherry")
    offered = sold(reference, cherry, units)
    chosen = offered.choose(cherry, thickness_mm)
    assert chosen.dressed_mm + 0.05 >= thickness_mm
    for size in offered.hardwood:
        if size.rough_mm < chosen.rough_mm:
            assert size.dressed_mm + 0.05 < thickness_mm
