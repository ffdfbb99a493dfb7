"""A condition in SQL that a user wrote, checked before it is used on a locked connection."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from contextlib import contextmanager
from re import fullmatch
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.files import one_line
from woodref.record import record
from woodref.reference.query import bounded, sql_problem

if TYPE_CHECKING:
    import duckdb


@record
class Clause:
    """One part of a condition that compares a column with a number."""

    column: str
    operator: str
    value: float

    @property
    def text(self) -> str:
        """'side_hardness_n >= 4000'."""
        return f"{self.column} {self.operator} {self.value:g}"


@contextmanager
def checked_condition(
    connection: duckdb.DuckDBPyConnection, table: str, condition: str, columns: Iterable[str]
) -> Iterator[None]:
    """See that a text is one boolean expression over a table, and bound what asking it takes.

    DuckDB parses it as an expression, so that no text can close a bracket and go on with
    another clause or statement; subqueries see the tables of the dataset alone.

    Parameters: connection, locked; table; condition; columns offered, for a misspelt one.
    Raises: InputError, one line, for anything else, with the nearest column; and for a condition
    that takes too long or too much memory, or cannot be told of a row.
    """
    import duckdb

    if not condition.strip():
        raise InputError('the condition is empty; write for example "side_hardness_n > 4000"')
    shown = f"the condition '{one_line(condition, 120)}'"
    try:
        with bounded(connection, shown):
            rows = connection.table(table)
            rows.filter(condition).limit(1).fetchall()
            types = [str(t) for t in rows.select(duckdb.SQLExpression(condition)).types]
            if types != ["BOOLEAN"]:
                raise InputError(
                    f"{shown} is no yes or no but {types[0].lower()}; compare it: "
                    "side_hardness_n > 4000"
                )
            yield
    except duckdb.Error as error:
        problem = sql_problem(error, condition, list(columns))
        raise InputError(f"{shown}: {one_line(problem, 200)}") from None


def parts_of(condition: str, columns: Collection[str]) -> tuple[Clause, ...]:
    """The comparisons of a condition that is nothing but comparisons joined by 'and'.

    Parameters: condition; columns that a comparison may begin with.
    Returns: empty where the condition is anything else, which is then looked at as a whole.
    """
    clauses = []
    for part in condition.lower().split(" and "):
        match = fullmatch(r"\s*\(?([a-z_0-9]+)\s*(>=|<=|>|<)\s*(\d+(?:\.\d*)?)\)?\s*", part)
        if not match or match[1] not in columns or part.count("(") != part.count(")"):
            return ()
        clauses.append(Clause(match[1], match[2], float(match[3])))
    return tuple(clauses)
