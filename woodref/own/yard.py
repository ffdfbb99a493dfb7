"""What the shop's own yard has: a list of woods, which says what can be bought."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import duckdb

from woodref.errors import InputError, WoodrefError
from woodref.own.judge import look_up
from woodref.reference.overlay import present
from woodref.rows import RejectedRow

if TYPE_CHECKING:
    from woodref.own.tables import OwnTable

#: The woods a name means, by species_id.
Resolve = Callable[[str], frozenset[str]]


def judge_yard(
    connection: duckdb.DuckDBPyConnection, table: OwnTable, resolve: Resolve
) -> tuple[str, list[RejectedRow]]:
    """The query of the good rows of a yard list, and the rows whose name is no wood's.

    Parameters: connection with the table ``raw`` of its cells; table; resolve, which raises
    InputError for a name that is none.
    """
    column, bad = table.header.index("species"), []
    for line, cells in table.rows:
        name = " ".join(cells[column].split())
        try:
            if not name:
                raise InputError("is empty")
            resolve(name)
        except InputError as error:
            bad.append(RejectedRow(line, "species", name, str(error), cells))
    look_up(connection, "at_fault", "line bigint", [(b.line,) for b in bad])
    optional = ", ".join(c if c in table.header else f"'' as {c}" for c in ("thickness", "note"))
    return (
        f"select line, species, {optional} from raw where line not in (select line from at_fault)"
    ), bad


def own_yard(resolve: Resolve) -> frozenset[str] | None:
    """The woods of the stored yard lists by species_id, None where none is stored.

    Raises: WoodrefError naming the batch of a name that means no wood any more.
    """
    if not present("yard"):
        return None
    from woodref.own.storage import rows_of

    rows = rows_of("yard")
    woods: set[str] = set()
    for row in rows:
        try:
            woods |= resolve(str(row["species"]))
        except InputError as error:
            raise WoodrefError(
                f"your own yard, {row['batch']} of {row['file']}: {row['species']}: {error}; take "
                f"it out with woodref own remove {row['batch']}, or go on without: --no-own"
            ) from None
    return frozenset(woods) if rows else None
