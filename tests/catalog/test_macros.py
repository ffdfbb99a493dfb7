"""The formulas as macros give in a fresh DuckDB what the functions give."""

import duckdb
import pytest
from formula_cases import CASES

from woodref.catalog.macros import FORMULAS, macros


@pytest.fixture(scope="module")
def session():
    connection = duckdb.connect()
    connection.execute(macros())
    return connection


@pytest.mark.parametrize("function", FORMULAS, ids=lambda f: f.__name__)
def test_a_macro_is_its_function(session, function):
    room = function.__module__.rpartition(".")[2]
    case = CASES[f"{room}.{function.__name__}"]
    for values in zip(*case.values(), strict=True):
        named = dict(zip(case, values, strict=True))
        marks = ", ".join("?::double" for _ in named)
        told = session.execute(
            f"select {function.__name__}({marks})", list(named.values())
        ).fetchall()[0][0]
        assert told == pytest.approx(function(**named), rel=1e-12)


def test_defaults_are_those_of_the_functions(session):
    told = session.execute("select size_at(100.0, 12.0, 6.0, 8.0), shrinkage_to(8.0, 6.0)")
    from woodref.formulas.shrinkage import shrinkage_to, size_at

    assert told.fetchall()[0] == pytest.approx((size_at(100, 12, 6, 8), shrinkage_to(8, 6)))


def test_the_command_prints_them(woodref_command):
    result = woodref_command("sql", "--macros")
    assert result.out.strip() == macros()
    refused = woodref_command("sql")
    assert refused.code == 2
    assert "name a statement" in refused.err
