"""Write the overlay: one writer at a time, each batch aside and renamed, never half."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from woodref.errors import InputError, WoodrefError, system_reason
from woodref.reference.overlay import (
    KINDS,
    WAY_OUT,
    batch_file,
    batch_of,
    damaged,
    files_sql,
    first_file,
    refuse_lists,
    stored,
    unreadable,
)
from woodref.reference.store import connect, dict_rows, engine, literal
from woodref.user_folders import user_folder

if TYPE_CHECKING:
    import duckdb

#: How long a second writer waits for the first [s].
LOCK_SECONDS = 10.0
_ASIDE = ".aside"
#: What to do about a damaged file before anything is written.
_MOVE_AWAY = "move the file away before adding to it"
#: Columns that no row goes without, besides those that say where it comes from.
_NEEDED: dict[str, tuple[str, ...]] = {
    "measurements": ("species_id", "property_id", "condition", "value"),
    "prices": ("species", "thickness", "price", "per"),
    "places": ("place", "month", "temperature_c", "relative_humidity_pct"),
    "yard": ("species",),
}
#: Letter the batches of a kind begin with.
_LETTER = {"measurements": "m", "prices": "p", "places": "a", "yard": "y"}
#: Columns of each kind, with their DuckDB types; the first five say where a row comes from.
_COMMON = {
    "batch": "varchar",
    "origin": "varchar",
    "added": "varchar",
    "file": "varchar",
    "line": "bigint",
}
COLUMNS: dict[str, dict[str, str]] = {
    "measurements": {
        **_COMMON,
        "species_id": "varchar",
        "species": "varchar",
        "property_id": "varchar",
        "condition": "varchar",
        "moisture_content_pct": "double",
        "sample_size": "bigint",
        "value": "double",
        "printed_value": "varchar",
        "printed_unit": "varchar",
        "measured": "varchar",
        "note": "varchar",
    },
    "prices": {
        **_COMMON,
        "species": "varchar",
        "thickness": "varchar",
        "price": "varchar",
        "per": "varchar",
        "low": "varchar",
        "high": "varchar",
        "currency": "varchar",
        "note": "varchar",
        "grade": "varchar",
        "date": "varchar",
        "width": "varchar",
        "length": "varchar",
    },
    "places": {
        **_COMMON,
        "place": "varchar",
        "month": "bigint",
        "temperature_c": "double",
        "relative_humidity_pct": "double",
        "note": "varchar",
    },
    "yard": {**_COMMON, "species": "varchar", "thickness": "varchar", "note": "varchar"},
}


@contextmanager
def _locked() -> Iterator[Path]:
    """The folder of the overlay, held by this process alone.

    Raises: WoodrefError where another process holds it for too long, or it cannot be made.
    """
    from filelock import FileLock, Timeout

    folder = user_folder("data")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with FileLock(folder / ".lock", timeout=LOCK_SECONDS):
            for left in folder.glob(f".*{_ASIDE}"):  # of a writer that was killed
                left.unlink(missing_ok=True)
            yield folder
    except Timeout:
        raise WoodrefError(
            f"{folder}: another woodref is writing your own figures; try again when it is done"
        ) from None
    except OSError as error:
        raise WoodrefError(f"{folder}: cannot be written: {system_reason(error)}") from None


def _make_table(connection: duckdb.DuckDBPyConnection, kind: str, table: str) -> None:
    columns = ", ".join(f"{name} {type_}" for name, type_ in COLUMNS[kind].items())
    connection.execute(f"create table {table} ({columns})")


def _table(
    connection: duckdb.DuckDBPyConnection,
    kind: str,
    files: Sequence[Path],
    way_out: str = _MOVE_AWAY,
) -> None:
    """The rows of some files of an overlay as the table ``own``, empty where there are none.

    Raises: WoodrefError for files that are damaged, with the way out.
    """
    _make_table(connection, kind, "own")
    if not files:
        return
    try:
        of_files = files_sql(files, way_out)
        refuse_lists(connection, files, way_out)
        connection.execute(f"insert into own by name select * from {of_files}")
    except engine().Error as error:
        raise unreadable(connection, files, error, way_out) from None
    needed = (*_COMMON, *_NEEDED[kind])
    counts = ", ".join(f"count(*) - count({column})" for column in needed)
    missing = connection.execute(f"select {counts} from own").fetchone() or ()
    for column, rows in zip(needed, missing, strict=True):
        if rows:
            raise damaged(files, f"a row without its {column}", way_out)


def _write(
    connection: duckdb.DuckDBPyConnection, query: str, aside: Path, place: Callable[[Path], Path]
) -> None:
    """Write the rows of a query aside and rename the file into its place, which hangs on it."""
    try:
        connection.execute(f"copy ({query}) to {literal(aside)} (format parquet, compression zstd)")
        with aside.open("rb+") as file:  # on the disk before it takes the place of the other
            os.fsync(file.fileno())
        target = place(aside)
        target.parent.mkdir(exist_ok=True)
        os.replace(aside, target)
    except engine().Error as error:
        raise WoodrefError(
            f"{aside.parent}: cannot be written: {_written_problem(error)}"
        ) from None
    finally:
        aside.unlink(missing_ok=True)


def _written_problem(error: Exception) -> str:
    """What the system said of a file that DuckDB could not write, else what DuckDB says."""
    said = re.search(r'(?:Could not|Cannot) [^:]*: ([^",:]+)', str(error))
    return said[1].strip().lower() if said else str(error).splitlines()[0]


def _aside(folder: Path, kind: str) -> Path:
    """A new file in the folder, whose name nobody can foresee."""
    descriptor, name = tempfile.mkstemp(dir=folder, prefix=f".{kind}-", suffix=_ASIDE)
    os.close(descriptor)
    return Path(name)


def _sizes(connection: duckdb.DuckDBPyConnection, files: Sequence[Path]) -> list[tuple[Path, int]]:
    """The number of rows of each file, as its end says."""
    sizes = []
    for file in files:
        try:
            row = connection.execute(
                f"select num_rows from parquet_file_metadata({literal(file)})"
            ).fetchone()
        except engine().Error as error:
            raise unreadable(connection, [file], error, _MOVE_AWAY) from None
        sizes.append((file, int(row[0]) if row else 0))
    return sizes


def add_rows(
    kind: str,
    connection: duckdb.DuckDBPyConnection,
    query: str,
    check: Callable[[], None] | None = None,
) -> str:
    """Add the rows of a query to the overlay of a kind, as a file of their own.

    Parameters: connection holding what the query reads; query giving the columns of COLUMNS
    but for ``batch``, by name; check, called when no other process can add rows and those
    stored batches that have no more rows are the table ``own`` of the connection.
    Returns: the identifier of the batch, for ``remove_batch``.
    Raises: what ``check`` raises; nothing is added then.
    """
    with _locked() as folder:
        files = stored(kind)
        sizes = _sizes(connection, files)
        if check:
            counted = connection.execute(f"select count(*) from ({query})").fetchone()
            rows = int(counted[0]) if counted else 0
            # A batch of more rows than the new ones is none of which they hold every row.
            held = [file for file, n in sizes if n <= rows or file == first_file(kind)]
            _table(connection, kind, held)
            check()
        batch = f"{_LETTER[kind]}{_last_number(connection, kind, files) + 1}"
        _make_table(connection, kind, "added")
        connection.execute(f"insert into added by name select '{batch}' as batch, * from ({query})")
        order = "species_id, line" if "species_id" in COLUMNS[kind] else "line"
        _write(
            connection,
            f"select * from added order by {order}",
            _aside(folder, kind),
            lambda written: batch_file(kind, batch, written),
        )
    return batch


def _last_number(connection: duckdb.DuckDBPyConnection, kind: str, files: Sequence[Path]) -> int:
    """The greatest number of a batch that is stored, 0 without any."""
    numbers = [int(n) for f in files if (n := batch_of(f)[1:]).isdecimal()]
    if first_file(kind) in files:
        row = connection.execute(
            "select max(try_cast(batch[2:] as bigint)) from " + files_sql([first_file(kind)])
        ).fetchone()
        numbers.append(int(row[0] or 0) if row else 0)
    return max(numbers, default=0)


def batches(kind: str) -> list[dict[str, Any]]:
    """The batches of a kind: identifier, origin, day, file and number of rows."""
    files = stored(kind)
    if not files:
        return []
    way_out = "move the file away"
    try:
        stored_batches = dict_rows(
            connect().execute(
                "select batch, any_value(origin) as table_origin, any_value(added) as added, "
                f"any_value(file) as file, count(*) as rows_kept from {files_sql(files, way_out)} "
                "group by batch order by try_cast(batch[2:] as bigint)"
            )
        )
    except engine().Error as error:
        raise unreadable(connect(), files, error, way_out) from None
    if any(batch["batch"] is None for batch in stored_batches):
        raise damaged(files, "a row without its batch", way_out)
    return stored_batches


def every_batch() -> list[dict[str, Any]]:
    """The batches of every kind, each with its kind."""
    return [{"table_kind": kind, **batch} for kind in KINDS for batch in batches(kind)]


def take_out(batch: str) -> int:
    """Take a batch of any kind out of the overlay; the number of rows removed.

    Raises: InputError for a batch that is not stored, with those that are.
    """
    kinds = {str(b["batch"]): str(b["table_kind"]) for b in every_batch()}
    if batch not in kinds:
        near = f"; stored are {', '.join(kinds)}" if kinds else "; nothing of your own is stored"
        raise InputError(f"no table of your own is called '{batch}'{near}")
    return remove_batch(kinds[batch], batch)


def rows_of(kind: str, batch: str = "") -> list[dict[str, Any]]:
    """The rows of a kind, of one batch or all, in the order they came."""
    files = stored(kind)
    if not files:
        return []
    connection = connect()
    _table(connection, kind, files, WAY_OUT)
    where = "where batch = ?" if batch else ""
    query = f"select * from own {where} order by try_cast(batch[2:] as bigint), line"
    return dict_rows(connection.execute(query, [batch] if batch else []))


def remove_batch(kind: str, batch: str) -> int:
    """Take a batch out of the overlay; the number of rows removed, 0 where there is none."""
    with _locked() as folder:
        files = stored(kind)
        connection = connect()
        mine = next((file for file in files if batch_of(file) == batch), None)
        if mine is not None:
            removed = _sizes(connection, [mine])[0][1]
            mine.unlink()
            return removed
        if first_file(kind) not in files:
            return 0
        _table(connection, kind, [first_file(kind)])
        row = connection.execute("delete from own where batch = ?", [batch]).fetchone()
        removed = int(row[0]) if row else 0
        if removed:
            query = "select * from own order by batch, line"
            _write(connection, query, _aside(folder, kind), lambda _: first_file(kind))
        return removed
