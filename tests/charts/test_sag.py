"""A span as it sags, with its limits; the title tells if it stays within them."""

from itertools import pairwise

import pytest
from seen import assert_readable

import woodref
from woodref.charts.sag import sag_shape, sagged
from woodref.formulas.bending import UNIFORM

SHELF = woodref.Span(914.4, 254.0, 19.05)


def title(figure):
    return " ".join(figure.get_suptitle().split())


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_shelf_within_its_limit_and_one_that_sags(units):
    good = sagged(woodref.deflection("black cherry", SHELF, load="books"), units)
    seen = assert_readable(good)
    assert title(good).endswith(": within the trade limit")
    assert any(w.startswith("trade limit L/144") for w in seen)
    assert any(w.startswith("now ") for w in seen)
    assert any(w.startswith("after years ") for w in seen)
    bad = sagged(woodref.deflection("MDF", woodref.Span(1200.0, 300.0, 18.0), load="books"), units)
    assert_readable(bad)
    assert " sags too much: " in title(bad)
    assert "or more after years" in title(bad)
    assert "L/144 allows" in title(bad)


@pytest.mark.parametrize("support", ["simple", "fixed", "cantilever"])
def test_every_support_and_a_load_on_one_spot_are_readable(support):
    span = woodref.Span(700.0, 60.0, 40.0, support, point_n=300.0, short=True)
    d = woodref.deflection("Honduran rosewood", span, limit="L/480")
    seen = assert_readable(sagged(d, "us"))
    assert any(w.startswith("your limit L/480") for w in seen)
    assert not any(w.startswith("after years") for w in seen)
    assert any("~ estimated" in w for w in seen)


def test_its_own_weight_alone_is_no_verdict():
    told = title(sagged(woodref.deflection("white oak", SHELF, load="nothing"), "us"))
    assert told.endswith("under its own weight")


def test_the_line_drawn_is_the_elastic_line_of_a_spread_load():
    # w'''' is the same all along: fourth differences of the shape are equal.
    for support in UNIFORM:
        w = [sag_shape(support, n / 20.0) for n in range(21)]
        for _ in range(4):
            w = [b - a for a, b in pairwise(w)]
        assert w == pytest.approx([w[0]] * len(w))
        assert sag_shape(support, 0.0) == 0.0
        assert sag_shape(support, 1.0 if support == "cantilever" else 0.5) == pytest.approx(1.0)
