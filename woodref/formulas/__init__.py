"""Pure arithmetic of wood: the same function takes a float, an array, a column or an expression.

Every formula is written once with ``+ - * / **`` and the helpers of
:mod:`woodref.formulas.engine`, so that a float, a NumPy array, a pandas Series and
a DuckDB expression all go through the same lines. Percentages are percent of
ovendry mass (moisture content) or of green size (shrinkage).
"""
