"""deflection at the command line."""

import contextlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.units import parse_load

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
    assert result.out.startswith("Eastern white pine sags 0.083 in (about 5/64) now")
    assert result.out.split("\n\n")[0].count("Never a structural value.") == 1


def test_json(woodref):
    data = json.loads(
        woodref(*SHELF, "--uniform", "300 N/m", "--units", "si", "--format", "json").out
    )
    assert 0.0 < data["sag_now_low_mm"] < data["sag_now_mm"] < data["sag_later_mm"]
    assert data["needed_thickness_mm"] < data["needed_thickness_high_mm"]
    assert {"modulus_of_elasticity_mpa", "own_weight_n", "visible_sag_mm", "creep_factor"} <= set(
        data
    )


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--uniform", "20"], "write for example 20 lb/ft"),
        (["--uniform", "20 lb"], "write for example 20 lb/ft"),
        (["--point", "20 lb/ft"], "write for example 50 lb"),
        (["--point", "-5 lb"], "write for example 50 lb"),
        (["--support", "rope"], "use simple, fixed, cantilever"),
        (["--limit", "40in"], "above 0 and below the span"),
        (["--creep", "0.5"], "a creep factor is 1 to 10"),
        (["--moisture", "60"], "0 to 30 %"),
    ],
)
def test_mistakes_are_one_line(woodref, more, words):
    result = woodref(*SHELF, *more)
    assert result.code == 2
    assert words in result.err
    assert result.err.count("\n") == 1


def test_a_limit_of_ones_own_gives_the_thickness_that_keeps_it(woodref):
    own = json.loads(woodref(*SHELF, "--limit", "1/8in", "--format", "json").out)
    usual = json.loads(woodref(*SHELF, "--format", "json").out)
    assert own["sag_limit_in"] == 0.125
    assert usual["sag_limit_in"] == usual["visible_sag_in"] == 0.06
    assert own["needed_thickness_in"] < usual["needed_thickness_in"]
    assert "To stay under 0.125 in (about 1/8) for years" in woodref(*SHELF, "--limit", "1/8in").out


@given(st.text(max_size=12))
def test_a_load_is_read_or_refused(text):
    for per_length in (True, False):
        with contextlib.suppress(InputError):
            assert parse_load(text, per_length) >= 0.0
