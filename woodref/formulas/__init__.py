"""Pure arithmetic of wood: the same function takes a float, an array, a column or an expression.

Every formula is written once with ``+ - * / **`` and the helpers of
:mod:`woodref.formulas.engine`, so that a float, a NumPy array, a pandas Series and a column
of DuckDB, Polars or Spark all go through the same lines. Percentages are percent of
ovendry mass (moisture content) or of green size (shrinkage).

In the docstrings ``Q`` is any of these; those of one call have shapes that go together, and
the result is of their kind. A unit stands in square brackets, ``[1]`` where there is none.
"""
