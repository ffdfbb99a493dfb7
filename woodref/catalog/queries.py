"""The queries of a catalog for DuckDB: its steps one within the other, and the answers.

Columns that begin with two underscores are ours.
"""

from __future__ import annotations

from collections.abc import Iterable

import duckdb

from woodref.catalog.compute import Column, Step
from woodref.catalog.inputs import Parts, quoted
from woodref.catalog.prepare import LookedUp
from woodref.catalog.request import Want
from woodref.catalog.results import ABSENT, Result
from woodref.catalog.sized import Sized, double
from woodref.catalog.stock import with_stock_sql
from woodref.reference.store import literal


def column_of(name: str) -> Column:
    """A column of ours as what a formula takes."""
    return duckdb.ColumnExpression(f"__{name}")


def computed_sql(
    rows: Sized,
    parts: Parts,
    known: LookedUp,
    steps: Iterable[Step],
) -> str:
    """The rows that can be computed, with what is computed of them.

    Parameters: rows as sized_sql gives them; parts; known, what was looked up of it; steps, in
    columns of this module.
    """
    query = rows.good_sql
    if {Want.BOARD_FEET, Want.COST} & set(known.want):
        cost = Want.COST in known.want
        query = with_stock_sql(f"({query})", parts, known.bare, known.reaches, cost)
    for step in steps:
        named = ", ".join(f"{sql} as __{name}" for name, sql in step.items())
        query = f"select *, {named} from ({query})"
    return query


def answers_sql(computed: str, parts: Parts, made: list[Result], want: tuple[Want, ...]) -> str:
    """The catalog's own columns, the answers, and ``unanswered``: those a row has no figure for."""
    told = [quoted(c) for c in parts.columns]
    for result in made:
        over = "" if result.factor == 1.0 else f" / {double(result.factor)}"
        told.append(f"__{result.step}{over} as {quoted(result.name)}")
    figures = {w: f"__{ABSENT[w]}" for w in want if w in ABSENT}
    if figures:
        all_there = " and ".join(f"{step} is not null" for step in figures.values())
        missing = ", ".join(
            f"case when {step} is null then {literal(w)} end" for w, step in figures.items()
        )
        told.append(
            f"case when {all_there} then '' else concat_ws(',', {missing}) end as unanswered"
        )
    else:
        told.append("'' as unanswered")
    return f"select {', '.join(told)} from ({computed})"
