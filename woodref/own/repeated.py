"""Tell a table that is stored already, so that none of its boards counts twice."""

from __future__ import annotations

from typing import NamedTuple

import duckdb

from woodref.own.storage import COLUMNS
from woodref.reference.store import dict_rows

#: Columns that say where a row comes from, or what its wood was called, and not what it holds.
_NOT_HELD = {"batch", "origin", "added", "file", "line", "species"}


class StoredBatch(NamedTuple):
    """A stored table whose rows a new one holds again: ``whole`` where it holds no others."""

    batch: str
    added: str
    file: str
    rows: int
    whole: bool


def repeated_batch(
    kind: str, connection: duckdb.DuckDBPyConnection, query: str, file: str
) -> StoredBatch | None:
    """The stored table that a new one repeats: all its rows and no others, or all and more.

    Where a new table holds more rows, only a stored one of its own file name counts: boards that
    weigh the same are no sign of it. Of prices and places the latest table holds alone, so that
    a longer one may come after a shorter one.

    Parameters: kind; connection holding what the query reads, and what is stored as the table
    ``own``; query giving the new rows; file, the name of the new table.
    """
    columns = [c for c in COLUMNS[kind] if c not in _NOT_HELD]
    text = ", ".join(f"coalesce({c}::varchar, '') as {c}" for c in columns)
    cursor = connection.execute(
        f"with new as (select {text}, count(*) as n from ({query}) group by all), "
        f"old as (select batch, added, file, {text}, count(*) as n from own group by all) "
        "select batch, any_value(added) as added, any_value(file) as file, "
        "sum(old.n)::bigint as rows, sum(old.n) = (select sum(n) from new) as whole "
        f"from old left join new using ({', '.join(columns)}) group by batch "
        "having bool_and(coalesce(new.n, 0) >= old.n) "
        "order by whole desc, try_cast(batch[2:] as bigint)"
    )
    longer = kind == "measurements"
    repeats = (StoredBatch(**row) for row in dict_rows(cursor))
    return next((b for b in repeats if b.whole or (longer and b.file == file)), None)
