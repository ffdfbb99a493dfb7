"""deflection at the command line."""

import contextlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.written import parse_load

pytestmark = pytest.mark.usefixtures("whole_pages")

SHELF = [
    "deflection",
    "eastern white pine",
    "--span",
    "36in",
    "--width",
    "10in",
    "--thickness",
    "3/4in",
]


def test_it_answers_first_and_is_never_structural(woodref):
    result = woodref(*SHELF, "--uniform", "20 lb/ft")
    assert result.code == 0
    assert result.out.startswith("Eastern white pine sags 3/32 in (1/16 to 5/32) under 20 lb per ")
    assert "meets the trade limit L/144 (1/4 in) and L/360 (3/32 in)" in result.out
    assert result.out.split("\n\n")[0].count("Never a structural value.") == 1


def test_json(woodref):
    data = json.loads(
        woodref(*SHELF, "--uniform", "300 N/m", "--units", "si", "--format", "json").out
    )
    assert 0.0 < data["sag_now_low_mm"] < data["sag_now_mm"] < data["sag_later_least_mm"]
    assert data["sag_later_least_mm"] < data["sag_later_most_mm"]
    assert data["verdict"] == "looks straight"
    assert data["uniform_load_n_m"] == 300.0
    assert [row["span_fraction"] for row in data["sag_limits"]] == ["L/144", "L/360"]
    assert all(r["needed_thickness_mm"] < r["needed_thickness_high_mm"] for r in data["sag_limits"])
    assert [row["creep_factor"] for row in data["sags"]] == [1.0, 1.5, 2.0]


def test_an_empty_shelf_is_never_cleared(woodref):
    assumed = json.loads(woodref(*SHELF, "--format", "json").out)
    assert assumed["usual_load"] == "shelf"
    assert assumed["usual_load_assumed"] is True
    assert "no load was named" in assumed["answer"][0]
    nothing = json.loads(woodref(*SHELF, "--load", "nothing", "--format", "json").out)
    assert nothing["verdict"] is None
    assert nothing["sag_limits"] == []
    upright = ["deflection", "teak", "--span", "48in", "--width", "3/4in", "--thickness", "3in"]
    assert woodref(*upright).code == 2


def test_a_round_rail_has_a_diameter(woodref):
    rail = ["deflection", "teak", "--span", "36in", "--diameter", "1-1/4in"]
    out = woodref(*rail, "--point", "60 lb").out
    assert "Diameter needed:" in out
    assert "upright or round part has no usual load" in woodref(*rail).err
    assert "or the --diameter" in woodref(*rail, "--width", "2in").err
    assert "or the --diameter" in woodref(*rail[:4]).err


def test_a_short_load_tells_no_creep(woodref):
    data = json.loads(woodref(*SHELF, "--point", "250 lb", "--short", "--format", "json").out)
    assert data["sag_later_least_in"] is None
    assert len(data["sags"]) == 1
    assert "No creep where the load comes and goes." in data["notes"]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--uniform", "20"], "write for example 20 lb/ft"),
        (["--uniform", "20 lb"], "write for example 20 lb/ft"),
        (["--point", "20 lb/ft"], "write for example 50 lb"),
        (["--point", "-5 lb"], "write for example 50 lb"),
        (["--support", "rope"], "use simple, fixed, cantilever"),
        (["--limit", "1/8in"], "write a fraction of the span, L/240 or 1/240"),
        (["--load", "bookss"], "did you mean 'books'?"),
        (["--load", "books", "--uniform", "20 lb/ft"], "not both"),
        (["--creep", "0.5"], "a creep factor is 1 to 10"),
        (["--moisture", "60"], "0 to 30 %"),
    ],
)
def test_mistakes_are_one_line(woodref, more, words):
    result = woodref(*SHELF, *more)
    assert result.code == 2
    assert words in result.err
    assert result.err.count("\n") == 1


def test_a_limit_of_ones_own_decides(woodref):
    own = json.loads(woodref(*SHELF, "--load", "books", "--limit", "1/240", "--format", "json").out)
    usual = json.loads(woodref(*SHELF, "--load", "books", "--format", "json").out)
    assert own["verdict"] == "sags too much"
    assert usual["verdict"] == "within the trade limit"
    assert own["sag_limits"][0]["span_fraction"] == "L/240"
    assert own["sag_limits"][1:] == usual["sag_limits"]
    assert "does not meet your limit L/240 (5/32 in)" in own["answer"][0]


@given(st.text(max_size=12))
def test_a_load_is_read_or_refused(text):
    for per_length in (True, False):
        with contextlib.suppress(InputError):
            assert parse_load(text, per_length) >= 0.0
