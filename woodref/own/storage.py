"""Write the overlay: one writer at a time, aside and renamed, never half."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from woodref.errors import InputError, WoodrefError
from woodref.reference.overlay import KINDS, own_file, own_folder, stored
from woodref.reference.store import connect, dict_rows, engine

if TYPE_CHECKING:
    import duckdb

#: How long a second writer waits for the first [s].
LOCK_SECONDS = 10.0
_ASIDE = ".aside"
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

    folder = own_folder()
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
        raise WoodrefError(f"{folder}: cannot be written: {error.strerror}") from None


def _table(connection: duckdb.DuckDBPyConnection, kind: str, path: Path | None) -> None:
    """The rows of an overlay as the table ``own``, empty where there is none."""
    columns = ", ".join(f"{name} {kind_}" for name, kind_ in COLUMNS[kind].items())
    connection.execute(f"create table own ({columns})")
    if path is not None:
        try:
            connection.execute(
                f"insert into own by name select * from read_parquet('{_quoted(path)}')"
            )
        except engine().Error as error:
            raise WoodrefError(
                f"{path}: your own figures cannot be read ({str(error).splitlines()[0]}); move "
                "the file away before adding to it"
            ) from None


def _quoted(path: Path) -> str:
    return str(path).replace("'", "''")


def _replace(connection: duckdb.DuckDBPyConnection, kind: str, folder: Path) -> None:
    """Write the table ``own`` aside and rename it into place."""
    target = own_file(kind)
    aside = folder / f".{kind}-{os.getpid()}{_ASIDE}"
    try:
        connection.execute(
            f"copy (select * from own order by batch, line) to '{_quoted(aside)}' "
            "(format parquet, compression zstd)"
        )
        with aside.open("rb+") as file:  # on the disk before it takes the place of the other
            os.fsync(file.fileno())
        os.replace(aside, target)
    except engine().Error as error:
        raise WoodrefError(f"{target}: cannot be written: {str(error).splitlines()[0]}") from None
    finally:
        aside.unlink(missing_ok=True)


def add_rows(
    kind: str,
    connection: duckdb.DuckDBPyConnection,
    query: str,
    check: Callable[[], None] | None = None,
) -> str:
    """Add the rows of a query to the overlay of a kind.

    Parameters: connection holding what the query reads; query giving the columns of COLUMNS
    but for ``batch``, by name; check, called when no other process can add rows and those
    stored are the table ``own`` of the connection.
    Returns: the identifier of the batch, for ``remove_batch``.
    Raises: what ``check`` raises; nothing is added then.
    """
    with _locked() as folder:
        _table(connection, kind, stored(kind))
        if check:
            check()
        row = connection.execute(
            "select coalesce(max(try_cast(batch[2:] as bigint)), 0) + 1 from own"
        ).fetchone()
        batch = f"{_LETTER[kind]}{row[0] if row else 1}"
        connection.execute(f"insert into own by name select '{batch}' as batch, * from ({query})")
        _replace(connection, kind, folder)
    return batch


def batches(kind: str) -> list[dict[str, Any]]:
    """The batches of a kind: identifier, origin, day, file and number of rows."""
    path = stored(kind)
    if path is None:
        return []
    connection = connect()
    _table(connection, kind, path)
    return _dicts(
        connection,
        "select batch, any_value(origin) as table_origin, any_value(added) as added, "
        "any_value(file) as file, count(*) as rows_kept from own group by batch "
        "order by try_cast(batch[2:] as bigint)",
    )


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


def _dicts(
    connection: duckdb.DuckDBPyConnection, query: str, parameters: Sequence[object] = ()
) -> list[dict[str, Any]]:
    return dict_rows(connection.execute(query, list(parameters)))


def rows_of(kind: str, batch: str = "") -> list[dict[str, Any]]:
    """The rows of a kind, of one batch or all, in the order they came."""
    path = stored(kind)
    if path is None:
        return []
    connection = connect()
    _table(connection, kind, path)
    where = "where batch = ?" if batch else ""
    query = f"select * from own {where} order by try_cast(batch[2:] as bigint), line"
    return _dicts(connection, query, [batch] if batch else [])


def remove_batch(kind: str, batch: str) -> int:
    """Take a batch out of the overlay; the number of rows removed, 0 where there is none."""
    with _locked() as folder:
        path = stored(kind)
        if path is None:
            return 0
        connection = connect()
        _table(connection, kind, path)
        row = connection.execute("delete from own where batch = ?", [batch]).fetchone()
        removed = int(row[0]) if row else 0
        if removed:
            _replace(connection, kind, folder)
        return removed
