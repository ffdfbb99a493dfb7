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


def test_macros_and_coefficients_give_what_the_library_gives(session):
    import woodref

    names = ["white oak", "teak", "black cherry"]
    session.register("woods", woodref.coefficients(names))
    bends = "tangential_bend_at_6, tangential_bend_at_14, tangential_bend_at_saturation"
    line = f"tangential_level, tangential_slope, {bends}, moves_to_pct"
    rows = session.execute(
        "select name, density_by_coefficients(9, middle_m3_per_kg, m3_per_kg_per_pct, "
        f"fiber_saturation_pct), share_by_coefficients(13, {line}) "
        f"/ share_by_coefficients(5, {line}) from woods"
    ).fetchall()
    assert [r[0] for r in rows] == names
    for name, density, share in rows:
        assert density == pytest.approx(woodref.density(name, 9).density_kg_m3)
        moved = woodref.movement(name, 100.0, 5, 13, cut="flat")
        assert 100.0 * share - 100.0 == pytest.approx(moved.change_mm, rel=1e-6)
