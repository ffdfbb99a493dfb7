"""The formulas as macros of DuckDB, written out by the functions themselves.

A formula runs on columns as it runs on numbers; what DuckDB writes of the expression that comes
out of it is the text of the macro. So a macro can say nothing else than its function.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from inspect import Parameter, signature
from typing import Any

import duckdb

from woodref.formulas import density, folded, lumber, moisture, movement, shrinkage, spread

#: The formulas that are given as macros, in the order in which they are printed.
FORMULAS: tuple[Callable[..., Any], ...] = (
    density.specific_gravity_at,
    density.basic_specific_gravity_from,
    density.volumetric_shrinkage,
    density.volumetric_shrinkage_general,
    density.density_at,
    density.mass_of,
    density.greatest_density,
    shrinkage.shrinkage_at_ring_angle,
    shrinkage.shrinkage_to,
    shrinkage.size_at,
    shrinkage.size_by_change_per_pct,
    shrinkage.dimensional_change_coefficient,
    movement.share_of_green_size_across,
    movement.size_across,
    movement.cv_of_size_change,
    folded.density_by_coefficients,
    folded.share_by_coefficients,
    folded.tangential_share,
    folded.across_by_share,
    moisture.equilibrium_moisture_content,
    moisture.maximum_moisture_content,
    spread.cv_of_boards,
    lumber.board_feet,
    lumber.surface_measure,
    lumber.board_feet_of_surface,
)
_PRINTED = re.compile(r"\.\. \[1\] (.*?)\s*(?:\.\. \[2\]|\Z|\n\n)", re.DOTALL)
_SUMMARY = re.compile(r"Compute (.*?)\.(?:\s|$)", re.DOTALL)


def macro(function: Callable[..., Any]) -> str:
    """One formula as a statement that makes a macro of its name and parameters."""
    parameters = signature(function).parameters
    columns = {name: duckdb.ColumnExpression(name) for name in parameters}
    text = str(function(**columns))
    listed = ", ".join(_declared(p) for p in parameters.values())
    return f"create or replace macro {function.__name__}({listed}) as\n    {text};"


def _declared(parameter: Parameter) -> str:
    if parameter.default is Parameter.empty:
        return f'"{parameter.name}"'
    return f'"{parameter.name}" := {float(parameter.default)!r}::DOUBLE'


def macros() -> str:
    """Every formula of FORMULAS as SQL, each with what it computes and where it is printed."""
    parts = [
        "-- The formulas of woodref as macros of DuckDB. SI: mm, kg/m3, moisture content and\n"
        "-- shrinkage in percent, ring angles in degrees (0 flat sawn, 90 quarter sawn)."
    ]
    for function in FORMULAS:
        page = (function.__doc__ or "").strip()
        said, printed = _SUMMARY.match(page), _PRINTED.search(page)
        summary = " ".join(said[1].split()) if said else function.__name__
        lines = [f"-- {summary[:1].upper()}{summary[1:]}."]
        if printed:
            lines.append(f"-- {' '.join(printed[1].split())}")
        parts.append("\n".join([*lines, macro(function)]))
    return "\n\n".join(parts)
