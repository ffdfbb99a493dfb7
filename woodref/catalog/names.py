"""The names of a catalog, and the coefficients of the woods they mean."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import closing
from dataclasses import fields
from math import inf
from typing import TYPE_CHECKING, Any

import duckdb

from woodref.catalog.inputs import Parts
from woodref.catalog.lookups import distinct, fill
from woodref.catalog.request import Given
from woodref.choose.coefficients import Coefficients, coefficients, coefficients_of
from woodref.errors import InputError, UnknownNameError
from woodref.formulas.folded import (
    SIZE_COEFFICIENTS,
    density_coefficients,
    lines_as_bends,
    size_lines,
)
from woodref.formulas.moisture import maximum_moisture_content
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.reference.library import Reference
from woodref.reference.many_names import rows_of_names

if TYPE_CHECKING:
    import pyarrow

#: Unknown names that are told the nearest known ones, which takes a search for each.
_HINTED = 10
_TYPES = {str: "varchar", float: "double", bool: "boolean"}


def look_up_names(
    connection: duckdb.DuckDBPyConnection, parts: Parts, reference: Reference
) -> dict[str, tuple[Coefficients, frozenset[str]]]:
    """The table ``names``: the coefficients of every name, or why it means no wood.

    Returns: by the name, its coefficients and the species it stands for.
    """
    heading = parts.headings.columns[Given.WOOD]
    texts = [row[0] for row in distinct(connection, parts, [heading]) if row[0]]
    names = [text for text in texts if text.strip()]
    blanks = [text for text in texts if not text.strip()]
    known, problems = _woods(reference, names)
    blank = [None] * len(fields(Coefficients))
    missing = {"": "is missing"} | dict.fromkeys(blanks, "is missing")
    rows: list[list[Any]] = [[name, why, inf, *blank] for name, why in (missing | problems).items()]
    rows += [_row(name, c) for name, (c, _) in known.items()]
    _make_names(connection, rows)
    return known


def _row(name: str, known: Coefficients) -> list[Any]:
    basic = known.basic_specific_gravity
    most = inf if basic is None else float(maximum_moisture_content(basic))
    return [name, "", most, *(getattr(known, f.name) for f in fields(Coefficients))]


def _make_names(connection: duckdb.DuckDBPyConnection, rows: Sequence[Sequence[Any]]) -> None:
    """The table ``names`` of names with their coefficients."""
    types = {"__text": "varchar", "problem": "varchar", "__most_pct": "double"}
    types |= {f"__{f.name}": _sql_type(str(f.type)) for f in fields(Coefficients)}
    fill(connection, "looked_up", types, rows)
    # In two steps: one expression of all would be long, and take DuckDB longer than the rows.
    lines = ", ".join(f"{sql} as {name}" for name, sql in _lines().items())
    folded = ", ".join(f"{sql} as __{name}" for name, sql in _folded().items())
    connection.execute(
        f"create temp table names as select {', '.join(types)}, {folded} "
        f"from (select *, {lines} from looked_up)"
    )


def coefficients_table(reference: Reference, names: Sequence[str] | None = None) -> pyarrow.Table:
    """The coefficients of woods as a table, a row for each name, or for every wood without names.

    Raises: InputError for a name that means no wood, or several.
    """
    if names is None:
        known = {i: (c, frozenset({i})) for i, c in coefficients(reference).items()}
    else:
        known, problems = _woods(reference, names)
        if problems:
            raise InputError(next(iter(problems.values())))
    with closing(duckdb.connect(":memory:")) as connection:
        _make_names(connection, [_row(name, c) for name, (c, _) in known.items()])
        named = ", ".join(f"{c} as {c.removeprefix('__')}" for c in name_columns())
        return connection.sql(f"select __text as name, {named} from names").to_arrow_table()


def name_columns() -> list[str]:
    """The columns of ``names`` that rows are computed with."""
    known = [f.name for f in fields(Coefficients)]
    return [f"__{name}" for name in ("most_pct", *known, *_folded())]


_SIDES = ("tangential", "radial")
#: What size_lines gives, of either side of the wood.
_LINES = ("ovendry", "below", "within", "above")


def _lines() -> dict[str, object]:
    """The lines a size changes along, of either side of the wood."""
    made: dict[str, object] = {}
    for side in _SIDES:
        total, point, per_pct = (
            _column(name) for name in (side, "fiber_saturation_pct", f"{side}_per_pct")
        )
        by_change = (1.0, *[total / 100.0] * 3)
        by_shrinkage = size_lines(total, point, per_pct)
        made |= {
            f"{side}_{name}": f"case when __by_change then {change} else {shrunk} end"
            for name, change, shrunk in zip(_LINES, by_change, by_shrinkage, strict=True)
        }
    # A change per 1 % goes on as long as wood moves at all.
    point = _column("fiber_saturation_pct")
    made["moves_to_pct"] = f"case when __by_change then {FIBER_SATURATION_PCT} else {point} end"
    return made


def _folded() -> dict[str, object]:
    """What depends on the wood alone, so that a row costs a few multiplications."""
    middle, per_pct = density_coefficients(
        *(_column(n) for n in ("basic_specific_gravity", "volumetric_pct", "fiber_saturation_pct"))
    )
    made: dict[str, object] = {"middle_m3_per_kg": middle, "m3_per_kg_per_pct": per_pct}
    for side in _SIDES:
        named = [*(f"{side}_{name}" for name in _LINES), "moves_to_pct"]
        bends = lines_as_bends(*map(duckdb.ColumnExpression, named))
        made |= {f"{side}_{n}": sql for n, sql in zip(SIZE_COEFFICIENTS, bends, strict=True)}
    return made | {"moves_to_pct": "moves_to_pct"}


def _column(name: str) -> duckdb.Expression:
    """A column of ``looked_up``."""
    return duckdb.ColumnExpression(f"__{name}")


def _sql_type(annotation: str) -> str:
    return next(sql for kind, sql in _TYPES.items() if annotation.startswith(kind.__name__))


def _woods(
    reference: Reference, names: Sequence[str]
) -> tuple[dict[str, tuple[Coefficients, frozenset[str]]], dict[str, str]]:
    """What each name means, and why the others mean no wood."""
    rows = rows_of_names(reference, names)
    single: dict[str, str] = {}
    known: dict[str, tuple[Coefficients, frozenset[str]]] = {}
    problems: dict[str, str] = {}
    unknown = 0
    for name in names:
        meant = rows[name]
        ids = {r["species_id"] for r in meant}
        plain = len(ids) == 1 and None not in ids
        if plain and meant[0]["name_kind"] != "group" and not meant[0].get("candidates"):
            single[name] = ids.pop()
            continue
        unknown += not meant
        if not meant and unknown > _HINTED:
            problems[name] = str(UnknownNameError(name, ()))
            continue
        try:
            wood = reference.wood_of(name, meant)
        except InputError as error:
            problems[name] = str(error)
        else:
            known[name] = (coefficients_of(wood), frozenset(wood.species_ids))
    table = coefficients(reference, sorted(set(single.values()))) if single else {}
    known |= {name: (table[i], frozenset({i})) for name, i in single.items()}
    return {n: known[n] for n in names if n in known}, problems
