"""Every public formula gives the same numbers with floats, NumPy, pandas, DuckDB and Polars."""

import inspect

import duckdb
import numpy
import pandas
import polars
import pytest
from formula_cases import CASES, EXEMPT, FORMULAS


def test_every_public_formula_is_covered_or_exempt():
    assert set(CASES) | set(EXEMPT) == set(FORMULAS)
    assert not set(CASES) & set(EXEMPT)


@pytest.mark.parametrize("name", CASES)
def test_every_parameter_is_exercised(name):
    assert set(CASES[name]) == set(inspect.signature(FORMULAS[name]).parameters)


def by_duckdb(build, columns):
    """Values of the expression ``build`` makes from the columns of a relation."""
    connection = duckdb.connect()
    rows = zip(*columns.values(), strict=True)
    connection.execute(f"create table t ({', '.join(f'{c} double' for c in columns)})")
    connection.executemany(f"insert into t values ({', '.join('?' * len(columns))})", list(rows))
    expression = build(**{c: duckdb.ColumnExpression(c) for c in columns})
    return [row[0] for row in connection.table("t").select(expression).fetchall()]


def by_polars(build, columns):
    """Values of the expression ``build`` makes from the columns of a frame."""
    expression = build(**{c: polars.col(c) for c in columns})
    return polars.DataFrame(columns).select(expression.alias("value"))["value"].to_list()


@pytest.mark.parametrize("name", CASES)
def test_same_numbers_on_every_engine(name):
    function, columns = FORMULAS[name], CASES[name]
    rows = [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
    floats = [function(**row) for row in rows]
    assert all(type(f) is float for f in floats)

    arrays = function(**{c: numpy.array(v) for c, v in columns.items()})
    assert isinstance(arrays, numpy.ndarray)
    index = [f"board {i}" for i in range(len(rows))]
    series = function(**{c: pandas.Series(v, index=index) for c, v in columns.items()})
    assert isinstance(series, pandas.Series)
    assert list(series.index) == index

    for other in (arrays, series, by_duckdb(function, columns), by_polars(function, columns)):
        assert list(other) == pytest.approx(floats, rel=1e-9, abs=1e-9)


def test_choose_on_every_engine():
    choose = FORMULAS["engine.choose"]
    a, b = [1.0, 5.0, 3.0], [2.0, 4.0, 3.0]
    expected = [choose(x < y, x, y) for x, y in zip(a, b, strict=True)]
    assert expected == [1.0, 4.0, 3.0]
    assert list(choose(numpy.array(a) < numpy.array(b), numpy.array(a), numpy.array(b))) == expected
    left, right = (pandas.Series(v, index=["x", "y", "z"]) for v in (a, b))
    picked = choose(left < right, left, right)
    assert picked.to_dict() == dict(zip("xyz", expected, strict=True))
    for by in (by_duckdb, by_polars):
        assert by(lambda a, b: choose(a < b, a, b), {"a": a, "b": b}) == expected
    assert by_duckdb(lambda a: choose(a < 3.0, 0.0, 1.0), {"a": a}) == [0.0, 1.0, 1.0]
    # Texts are constants, and no names of columns, with the lowest version too.
    assert by_duckdb(lambda a: choose(a < 3.0, "a", "b"), {"a": a}) == ["a", "b", "b"]


@pytest.mark.parametrize(("condition", "chosen"), [(True, [1.0, 1.0]), (False, [2.0, 3.0])])
def test_a_choice_that_a_plain_truth_decides_has_the_shape_of_its_values(condition, chosen):
    choose = FORMULAS["engine.choose"]
    many = numpy.array([2.0, 3.0])
    assert list(choose(condition, 1.0, many)) == chosen
    assert list(choose(not condition, many, 1.0)) == chosen


def test_choose_aligns_series_by_label_as_pandas_does():
    choose = FORMULAS["engine.choose"]
    yes = pandas.Series([10.0, 20.0], index=["a", "b"])
    no = pandas.Series([2.0, 1.0], index=["b", "a"])
    picked = choose(pandas.Series([False, False], index=["a", "b"]), yes, no)
    assert picked.to_dict() == {"a": 1.0, "b": 2.0}
    assert choose(yes > 15.0, 0.5, no).to_dict() == {"a": 1.0, "b": 0.5}


def test_what_is_not_known_on_every_engine():
    is_known = FORMULAS["engine.is_known"]
    values = [1.0, float("nan"), -2.0]
    assert [is_known(v) for v in values] == [True, False, True]
    assert list(is_known(numpy.array(values))) == [True, False, True]
    assert list(is_known(pandas.Series(values))) == [True, False, True]
    held = {"x": [1.0, None, -2.0]}
    for by in (by_duckdb, by_polars):
        assert by(is_known, held) == [True, False, True]
    assert by_polars(is_known, {"x": values}) == [True, False, True]
