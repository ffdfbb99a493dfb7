"""deflection at the command line."""

import contextlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.cli.deflection import parse_load
from woodref.errors import InputError

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
    assert result.out.startswith("Eastern white pine sags 0.084 in (about 5/64) now")
    assert result.out.split("\n\n")[0].count("Never a structural value.") == 1


def test_json(woodref):
    data = json.loads(
        woodref(*SHELF, "--uniform", "300 N/m", "--units", "si", "--format", "json").out
    )
    assert [row["when"] for row in data["sag"]] == ["now", "after years"]
    assert data["needed_thickness_mm"] < data["needed_thickness_if_limp_mm"]
    assert {"modulus_of_elasticity_mpa", "own_weight_n", "visible_mm", "creep_factor"} <= set(data)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--uniform", "20"], "write for example 20 lb/ft"),
        (["--uniform", "20 lb"], "write for example 20 lb/ft"),
        (["--point", "20 lb/ft"], "write for example 50 lb"),
        (["--point", "-5 lb"], "write for example 50 lb"),
        (["--support", "rope"], "use simple, fixed, cantilever"),
        (["--creep", "0.5"], "a creep factor is 1 to 10"),
        (["--moisture", "60"], "0 to 30 %"),
    ],
)
def test_mistakes_are_one_line(woodref, more, words):
    result = woodref(*SHELF, *more)
    assert result.code == 2
    assert words in result.err
    assert result.err.count("\n") == 1


@given(st.text(max_size=12))
def test_a_load_is_read_or_refused(text):
    for per_length in (True, False):
        with contextlib.suppress(InputError):
            assert parse_load(text, per_length) >= 0.0
