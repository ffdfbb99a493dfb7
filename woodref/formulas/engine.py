"""The few helpers that let one formula run on every engine.

``Q`` is the type of a quantity: a float, a NumPy array, a pandas Series or a
DuckDB expression. An engine is loaded lazily, by the type of the argument, so a
look-up with floats imports nothing.
"""

from __future__ import annotations

import math
from typing import Any, TypeAlias

Q: TypeAlias = Any


def _engine(*values: Q) -> str:
    """Name of the package whose type rules the computation ('' for plain numbers)."""
    for value in values:
        root = type(value).__module__.partition(".")[0]
        if root in ("duckdb", "_duckdb"):
            return "duckdb"
        if root in ("numpy", "pandas"):
            return "numpy"
    return ""


def _call(name: str, *values: Q) -> Q:
    """Call a DuckDB function of the given name on expressions and numbers."""
    import duckdb

    return duckdb.FunctionExpression(
        name,
        *(v if isinstance(v, duckdb.Expression) else duckdb.ConstantExpression(v) for v in values),
    )


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
    engine = _engine(x)
    if engine == "duckdb":
        return _call("exp", x)
    if engine == "numpy":
        import numpy

        return numpy.exp(x)
    return math.exp(x)


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
    engine = _engine(x)
    if engine == "duckdb":
        return _call("ln", x)
    if engine == "numpy":
        import numpy

        return numpy.log(x)
    return math.log(x)


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
    engine = _engine(x)
    radians = x * (math.pi / 180.0)
    if engine == "duckdb":
        return _call("cos", radians)
    if engine == "numpy":
        import numpy

        return numpy.cos(radians)
    return math.cos(radians)


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
    engine = _engine(x)
    degrees = 180.0 / math.pi
    if engine == "duckdb":
        return _call("atan", x) * degrees
    if engine == "numpy":
        import numpy

        return numpy.arctan(x) * degrees
    return math.atan(x) * degrees


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
    engine = _engine(x)
    if engine == "duckdb":
        return _call("floor", x)
    if engine == "numpy":
        import numpy

        return numpy.floor(x)
    return float(math.floor(x))


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
    engine = _engine(a, b)
    if engine == "duckdb":
        return _call("least", a, b)
    if engine == "numpy":
        import numpy

        return numpy.minimum(a, b)
    return min(a, b)


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
    engine = _engine(a, b)
    if engine == "duckdb":
        return _call("greatest", a, b)
    if engine == "numpy":
        import numpy

        return numpy.maximum(a, b)
    return max(a, b)


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
    engine = _engine(condition, yes, no)
    if engine == "duckdb":
        import duckdb

        wrapped = [
            v if isinstance(v, duckdb.Expression) else duckdb.ConstantExpression(v)
            for v in (yes, no)
        ]
        return duckdb.CaseExpression(condition, wrapped[0]).otherwise(wrapped[1])
    if engine == "numpy":
        return _where(condition, yes, no)
    return yes if condition else no


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
