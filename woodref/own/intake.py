"""Take a table of the shop's into the overlay: every row kept, or rejected with its reason."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import duckdb

from woodref.errors import InputError
from woodref.files import closest, write_text
from woodref.own.judge import (
    MEASURED_OPTIONAL,
    judge_measurements,
    judge_places,
    load,
    property_words,
    reject_incomplete,
)
from woodref.own.storage import add_rows
from woodref.own.tables import BadRow, Table, read_own_table

if TYPE_CHECKING:
    from woodref.reference.library import Reference

#: Columns of each kind: those needed, and those that may be left out.
REQUIRED: dict[str, tuple[str, ...]] = {
    "measurements": ("species", "property", "value", "unit"),
    "prices": ("species", "thickness", "price", "per"),
    "places": ("place", "month", "temperature", "humidity_pct"),
}
OPTIONAL: dict[str, tuple[str, ...]] = {
    "measurements": MEASURED_OPTIONAL,
    "prices": ("low", "high", "currency", "note"),
    "places": ("note",),
}


@dataclass(frozen=True)
class Intake:
    """What became of a table: rows read, kept and rejected; the batch; the rejects file."""

    kind: str
    rows: int
    kept: int
    bad: tuple[BadRow, ...]
    batch: str
    rejects: Path | None


def _bad_rows(connection: duckdb.DuckDBPyConnection, table: Table) -> list[BadRow]:
    """The rejected rows with what is at fault in each."""
    faults = connection.execute(
        "select line, at_fault, reason from judged where reason is not null order by line"
    ).fetchall()
    cells = dict(table.rows)
    out = []
    for line, column, reason in faults:
        row = cells[line]
        value = row[table.header.index(column)] if column in table.header else ""
        out.append(BadRow(line, column, value, reason, row))
    return out


def _with_hints(bad: list[BadRow]) -> list[BadRow]:
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


def write_rejects(path: Path, header: tuple[str, ...], bad: Iterable[BadRow]) -> Path:
    """Write the rejected rows beside the table, with line, column and reason."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["line", "column", "reason", *header])
    for row in bad:
        writer.writerow([row.line, row.column, row.reason, *row.cells])
    target = rejects_file(path)
    write_text(target, out.getvalue(), overwrite=True)
    return target


def take_in(
    reference: Reference, path: Path, kind: str, origin: str, today: date | None = None
) -> Intake:
    """Add the good rows of a table to the overlay and keep the others in a rejects file.

    Parameters: reference to resolve names of woods; path of a CSV file; kind of the table;
    origin, where the figures come from, shown beside each of them.
    Returns: Intake; rows = kept + rejected.
    Raises: InputError for a file that cannot be read as such a table, or an empty origin.
    """
    if not origin.strip():
        raise InputError('say where the figures come from: --origin "weighed in the shop"')
    table = read_own_table(path, REQUIRED[kind], OPTIONAL[kind])
    connection = duckdb.connect(":memory:")
    bad = list(table.bad)
    if kind == "prices":
        good_query, more = _prices(connection, table, path, reference)
        bad = more
    else:
        load(connection, table)
        if kind == "measurements":
            good_query = judge_measurements(connection, table, reference)
        else:
            good_query = judge_places(connection, table)
            reject_incomplete(connection)
        bad += _with_hints(_bad_rows(connection, table))
    bad.sort(key=lambda b: b.line)
    counted = connection.execute(f"select count(*) from ({good_query})").fetchone()
    kept = int(counted[0]) if counted else 0
    rows = len(table.rows) + len(table.bad)
    if rows != kept + len(bad):
        raise AssertionError(f"{path}: {rows} rows, {kept} kept and {len(bad)} rejected")
    batch = ""
    if kept:
        connection.execute("create table facts (origin varchar, added varchar, file varchar)")
        connection.execute(
            "insert into facts values (?, ?, ?)",
            [origin.strip(), (today or date.today()).isoformat(), path.name],
        )
        batch = add_rows(kind, connection, f"select f.*, g.* from ({good_query}) g, facts f")
    rejects = write_rejects(path, table.header, bad) if bad else None
    return Intake(kind, rows, kept, tuple(bad), batch, rejects)


def _prices(
    connection: duckdb.DuckDBPyConnection, table: Table, path: Path, reference: Reference
) -> tuple[str, list[BadRow]]:
    """The good rows of a price list, judged by the reader that estimates use."""
    from woodref.estimate.estimate import resolver
    from woodref.estimate.prices import check_prices
    from woodref.files import read_text

    resolve = resolver(reference)

    def known(name: str) -> frozenset[str]:
        return resolve(name)

    _, faults = check_prices(read_text(path, "price list"), str(path), known)
    cells = dict(table.rows) | {b.line: b.cells for b in table.bad}
    bad = [BadRow(f.line, f.column, f.value, f.reason, cells.get(f.line, ())) for f in faults]
    load(connection, table)
    optional = ", ".join(c if c in table.header else f"'' as {c}" for c in OPTIONAL["prices"])
    connection.execute("create table at_fault (line bigint)")
    if bad:
        connection.executemany("insert into at_fault values (?)", [[b.line] for b in bad])
    return (
        f"select line, species, thickness, price, per, {optional} from raw "
        "where line not in (select line from at_fault)"
    ), bad
