"""Take a table of the shop's into the overlay: every row kept, or rejected with its reason."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import duckdb

from woodref.display import Shown
from woodref.errors import InputError
from woodref.files import closest
from woodref.lumber.price_rows import OPTIONAL as PRICES_OPTIONAL
from woodref.lumber.prices import check_rows, resolver
from woodref.own.judge import (
    MEASURED_OPTIONAL,
    judge_measurements,
    load,
    look_up,
    property_words,
)
from woodref.own.judge_places import judge_places
from woodref.own.prices import own_currency
from woodref.own.repeated import repeated_batch
from woodref.own.storage import add_rows
from woodref.own.tables import REJECTED, OwnTable, read_own_table
from woodref.own.yard import judge_yard
from woodref.record import record
from woodref.rows import RejectedRow, write_rejects

if TYPE_CHECKING:
    from woodref.reference.library import Reference

#: Columns of each kind: those needed, and those that may be left out.
REQUIRED: dict[str, tuple[str, ...]] = {
    "measurements": ("species", "property", "value", "unit"),
    "prices": ("species", "thickness", "price", "per"),
    "places": ("place", "month", "temperature", "humidity_pct"),
    "yard": ("species",),
}
OPTIONAL: dict[str, tuple[str, ...]] = {
    "measurements": MEASURED_OPTIONAL,
    "prices": PRICES_OPTIONAL,
    "places": ("hemisphere", "note"),
    "yard": ("thickness", "note"),
}


@record(repr=False)
class Intake(Shown):
    """What became of a table: rows read, kept and rejected; the batch; the rejects file."""

    kind: str
    rows: int
    kept: int
    bad: tuple[RejectedRow, ...]
    batch: str
    rejects: Path | None

    def _line(self) -> str:
        return f"{self.kept} of {self.rows} rows kept as {self.batch or 'nothing'}"


def _bad_rows(connection: duckdb.DuckDBPyConnection, table: OwnTable) -> list[RejectedRow]:
    """The rejected rows with what is at fault in each."""
    cells = ", ".join(f"raw.{column}" for column in table.header)
    faults = connection.execute(
        f"select line, at_fault, reason, {cells} from judged join raw using (line) "
        "where reason is not null order by line"
    ).fetchall()
    out = []
    for line, column, reason, *row in faults:
        value = row[table.header.index(column)] if column in table.header else ""
        out.append(RejectedRow(line, column, value, reason, tuple(row)))
    return out


def _with_hints(bad: list[RejectedRow]) -> list[RejectedRow]:
    """Rows with a misspelt property get the nearest one, found once per word."""
    words = list(property_words())
    near: dict[str, str] = {}
    out = []
    for row in bad:
        if row.column == "property" and row.value:
            if row.value not in near:
                hit = closest(row.value, words)
                near[row.value] = f"; nearest: {hit}" if hit else ""
            out.append(replace(row, reason=row.reason + near[row.value]))
        else:
            out.append(row)
    return out


def rejects_file(path: Path) -> Path:
    """Where the rejected rows of a table are kept: beside it."""
    return path.with_name(f"{path.stem}.rejects.csv")


def _refuse_repeated(
    kind: str, connection: duckdb.DuckDBPyConnection, query: str, path: Path
) -> None:
    """Refuse a table whose rows are stored already; InputError says as what, and a way out."""
    again = repeated_batch(kind, connection, query, path.name)
    if again is None:
        return
    rows = "its 1 good row is" if again.rows == 1 else f"its {again.rows:,} good rows are"
    if not again.whole:
        rows = f"it holds all rows of {again.batch} and more; those are"
    raise InputError(
        f"{path}: {rows} stored already, as {again.batch} of {again.file} (added {again.added}), "
        f"and would count twice; take that out first with woodref own remove {again.batch}, or "
        "tell other boards apart by a date or a note"
    )


def take_in(
    reference: Reference,
    path: Path,
    kind: str,
    origin: str,
    today: date | None = None,
    overwrite: bool = False,
) -> Intake:
    """Add the good rows of a table to the overlay and keep the others in a rejects file.

    Parameters: reference to resolve names of woods; path of a CSV file; kind of the table;
    origin, where the figures come from, shown beside each of them; today, the day they are
    added; overwrite, whether a rejects file of other rows may be replaced.
    Returns: Intake; rows = kept + rejected.
    Raises: InputError for a file that cannot be read as such a table, one without rows, an empty
    origin, a table that is stored already, or a rejects file of other rows.
    """
    if not origin.strip():
        raise InputError('say where the figures come from: --origin "weighed in the shop"')
    table = read_own_table(path, REQUIRED[kind], OPTIONAL[kind], stream=kind == "measurements")
    connection = duckdb.connect(":memory:")
    load(connection, table)
    counted = connection.execute("select count(*) from raw").fetchone()
    rows = int(counted[0]) if counted else 0
    if not rows and not table.bad:
        raise InputError(f"{path}: has a heading but no rows")
    if kind == "prices":
        good_query, bad = _prices(connection, table, reference)
    elif kind == "measurements":
        good_query = judge_measurements(connection, table, reference)
        bad = _with_hints(_bad_rows(connection, table))
    elif kind == "yard":
        good_query, bad = judge_yard(connection, table, resolver(reference))
    else:
        good_query = judge_places(connection, table)
        bad = _bad_rows(connection, table)
    kept = rows - len(bad)
    bad = sorted([*table.bad, *bad], key=lambda b: b.line)
    # The rejects go first: what cannot be kept there must not be half taken in.
    rejects = (
        write_rejects(rejects_file(path), table.header, bad, REJECTED, overwrite) if bad else None
    )
    batch = ""
    if kept:
        look_up(
            connection,
            "facts",
            "origin varchar, added varchar, file varchar",
            [(" ".join(origin.split()), (today or date.today()).isoformat(), path.name)],
        )
        batch = add_rows(
            kind,
            connection,
            f"select f.*, g.* from ({good_query}) g, facts f",
            lambda: _refuse_repeated(kind, connection, good_query, path),
        )
    return Intake(kind, kept + len(bad), kept, tuple(bad), batch, rejects)


def _prices(
    connection: duckdb.DuckDBPyConnection, table: OwnTable, reference: Reference
) -> tuple[str, list[RejectedRow]]:
    """The good rows of a price list, judged by the reader that estimates use."""
    good, bad = check_rows(table.header, table.rows, resolver(reference))
    held = own_currency()
    cells = dict(table.rows)
    if held:
        bad += [
            RejectedRow(
                p.line,
                "currency",
                p.currency,
                f"your stored prices are in {held}; one list has one currency (woodref own list, "
                "woodref own remove)",
                cells[p.line],
            )
            for p in good
            if p.currency not in ("", held)
        ]
    look_up(connection, "at_fault", "line bigint", [(b.line,) for b in bad])
    optional = ", ".join(c if c in table.header else f"'' as {c}" for c in OPTIONAL["prices"])
    return (
        f"select line, species, thickness, price, per, {optional} from raw "
        "where line not in (select line from at_fault)"
    ), bad
