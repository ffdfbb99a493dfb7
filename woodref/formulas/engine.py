"""The few helpers that let one formula run on every engine.

``Q`` is the type of a quantity: a float, a NumPy array, a pandas Series, or a column of DuckDB,
Polars or Spark. An engine is loaded lazily, by the type of the argument, so a look-up with floats
imports nothing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, NamedTuple, TypeAlias

Q: TypeAlias = Any


class _Engine(NamedTuple):
    """What an engine calls the helpers."""

    exp: Callable[[Q], Q]
    log: Callable[[Q], Q]
    cos: Callable[[Q], Q]
    atan: Callable[[Q], Q]
    floor: Callable[[Q], Q]
    absolute: Callable[[Q], Q]
    smaller: Callable[[Q, Q], Q]
    larger: Callable[[Q, Q], Q]
    choose: Callable[[Q, Q, Q], Q]
    is_known: Callable[[Q], Q]


@cache
def _numpy() -> _Engine:
    import numpy as np

    return _Engine(
        np.exp,
        np.log,
        np.cos,
        np.arctan,
        np.floor,
        np.abs,
        np.minimum,
        np.maximum,
        _where,
        lambda x: np.equal(x, x),
    )


@cache
def _duckdb() -> _Engine:
    import duckdb

    def column(value: Q) -> Q:
        # A text by itself is the name of a column to some versions of DuckDB.
        return value if isinstance(value, duckdb.Expression) else duckdb.ConstantExpression(value)

    def choose(condition: Q, yes: Q, no: Q) -> Q:
        return duckdb.CaseExpression(condition, column(yes)).otherwise(column(no))

    def call(name: str) -> Callable[[Q], Q]:
        return lambda x: duckdb.FunctionExpression(name, x)

    return _Engine(
        call("exp"),
        call("ln"),
        call("cos"),
        call("atan"),
        call("floor"),
        call("abs"),
        # A choice takes half the time of least and greatest, which take any number of values.
        lambda a, b: choose(a < b, a, b),
        lambda a, b: choose(a > b, a, b),
        choose,
        lambda x: x.isnotnull(),
    )


@cache
def _polars() -> _Engine:
    import polars

    return _Engine(
        lambda x: x.exp(),
        lambda x: x.log(),
        lambda x: x.cos(),
        lambda x: x.arctan(),
        lambda x: x.floor(),
        lambda x: x.abs(),
        polars.min_horizontal,
        polars.max_horizontal,
        lambda condition, yes, no: polars.when(condition).then(yes).otherwise(no),
        lambda x: x.is_not_null() & x.is_not_nan(),
    )


@cache
def _pyspark() -> _Engine:
    from pyspark.sql import functions

    def column(value: Q) -> Q:
        return functions.lit(value) if isinstance(value, float | int) else value

    return _Engine(
        functions.exp,
        functions.ln,
        functions.cos,
        functions.atan,
        lambda x: functions.floor(x).cast("double"),
        functions.abs,
        lambda a, b: functions.least(column(a), column(b)),
        lambda a, b: functions.greatest(column(a), column(b)),
        lambda condition, yes, no: functions.when(condition, yes).otherwise(no),
        lambda x: x.isNotNull() & ~functions.isnan(x),
    )


_PLAIN = _Engine(
    math.exp,
    math.log,
    math.cos,
    math.atan,
    lambda x: float(math.floor(x)),
    abs,
    min,
    max,
    lambda condition, yes, no: yes if condition else no,
    lambda x: not math.isnan(x),
)
#: Types that rule no computation, which most values of a single board are of.
_NUMBERS = frozenset((float, int, bool))
#: What loads an engine, by the package of its values.
_LOADERS: Mapping[str, Callable[[], _Engine]] = {
    "duckdb": _duckdb,
    "_duckdb": _duckdb,
    "polars": _polars,
    "pyspark": _pyspark,
    "numpy": _numpy,
    "pandas": _numpy,
}


def _engine(*values: Q) -> _Engine:
    """Give the engine of the value that rules the computation; plain numbers rule none."""
    for value in values:
        kind = type(value)
        if kind in _NUMBERS:
            continue
        root = kind.__module__.partition(".")[0]
        if root in _LOADERS:
            return _LOADERS[root]()
    return _PLAIN


def exp(x: Q) -> Q:
    """Compute e to the power x.

    Parameters
    ----------
    x : Q
        Exponent.

    Returns
    -------
    Q
        Power.
    """
    return _engine(x).exp(x)


def log(x: Q) -> Q:
    """Compute the natural logarithm of x.

    Parameters
    ----------
    x : Q
        Above 0.

    Returns
    -------
    Q
        Logarithm.
    """
    return _engine(x).log(x)


def cos_degrees(x: Q) -> Q:
    """Compute the cosine of an angle in degrees.

    Parameters
    ----------
    x : Q
        Angle [degree].

    Returns
    -------
    Q
        Cosine [1].
    """
    return _engine(x).cos(x * (math.pi / 180.0))


def atan_degrees(x: Q) -> Q:
    """Compute the angle in degrees whose tangent is x.

    Parameters
    ----------
    x : Q
        Tangent [1].

    Returns
    -------
    Q
        Angle [degree], from -90 to 90.
    """
    return _engine(x).atan(x) * (180.0 / math.pi)


def floor(x: Q) -> Q:
    """Compute the largest whole number not above x, as a float.

    Parameters
    ----------
    x : Q
        Any number.

    Returns
    -------
    Q
        Whole number.
    """
    return _engine(x).floor(x)


def absolute(x: Q) -> Q:
    """Compute a value without its sign.

    Parameters
    ----------
    x : Q
        Any number.

    Returns
    -------
    Q
        Its distance from 0.
    """
    return _engine(x).absolute(x)


def smaller(a: Q, b: Q) -> Q:
    """Compute the smaller of two values, element by element.

    Parameters
    ----------
    a, b : Q
        Values to compare.

    Returns
    -------
    Q
        The smaller one.
    """
    if type(a) is float and type(b) is float:
        return min(a, b)
    return _engine(a, b).smaller(a, b)


def larger(a: Q, b: Q) -> Q:
    """Compute the larger of two values, element by element.

    Parameters
    ----------
    a, b : Q
        Values to compare.

    Returns
    -------
    Q
        The larger one.
    """
    if type(a) is float and type(b) is float:
        return max(a, b)
    return _engine(a, b).larger(a, b)


def choose(condition: Q, yes: Q, no: Q) -> Q:
    """Choose one of two values, element by element.

    Parameters
    ----------
    condition : Q
        What decides.
    yes, no : Q
        The value where it holds, and where it does not.

    Returns
    -------
    Q
        The chosen values; of series the index stays.
    """
    return _engine(condition, yes, no).choose(condition, yes, no)


def is_known(x: Q) -> Q:
    """Tell whether a value is known, element by element.

    Parameters
    ----------
    x : Q
        Any number; not known are nan, and the null of a database.

    Returns
    -------
    Q
        True where it is known.
    """
    return _engine(x).is_known(x)


def _where(condition: Q, yes: Q, no: Q) -> Q:
    """``numpy.where`` that keeps the index where a pandas Series takes part."""
    import numpy

    index = next((v.index for v in (condition, yes, no) if hasattr(v, "reindex")), None)
    if index is None:
        return numpy.where(condition, yes, no)
    import pandas

    # pandas aligns by label in arithmetic, so the same is done here before going by position.
    aligned = [v.reindex(index) if hasattr(v, "reindex") else v for v in (condition, yes, no)]
    return pandas.Series(numpy.where(*aligned), index=index)
