"""The gap beside a floating panel: the title says the finding, no size below zero is printed."""

import pytest

import woodref
from woodref.charts.figure import svg_text
from woodref.charts.gap_year import gap_year


@pytest.fixture(scope="module")
def room():
    return woodref.season("Columbus, Ohio", "heated house")


def drawn(room, units, **sizes):
    fixing = woodref.fixing(
        "black cherry", "floating-panel", 7.6, room.season.design_pct.low,
        room.season.design_pct.high, width_mm=14 * 25.4, units=units, **sizes,
    )  # fmt: skip
    return gap_year(fixing, room, units)


def texts(figure):
    from matplotlib.text import Text

    return [" ".join(t.get_text().split()) for t in figure.findobj(Text) if t.get_text()]


def test_the_title_says_what_becomes_of_the_gap(room):
    words = texts(drawn(room, "us", gap=25.4 * 3 / 16))
    assert "A gap of 3/16 in closes to 3/32 in by August: it holds" in words
    assert {"0", "1/32", "3/16"} <= set(words)
    assert "the panel binds" in words


def test_a_gap_that_is_used_up_is_said_to_bind_and_no_size_is_below_zero(room):
    words = texts(drawn(room, "si", gap=1.0))
    assert any(w.startswith("A gap of 1 mm is used up by ") for w in words)
    assert "no gap" in words
    assert any(w.endswith("mm too little") for w in words)
    assert not any(w.startswith("-") for w in words)


def test_the_same_question_draws_the_same_bytes(room):
    assert svg_text(drawn(room, "us", gap=4.0)) == svg_text(drawn(room, "us", gap=4.0))
