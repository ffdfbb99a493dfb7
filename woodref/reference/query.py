"""SQL over the reference tables, for reading alone.

The connection sees the Parquet files of the dataset and nothing else: no other file, no
network, no extension, no variable of the program; its configuration is locked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from threading import Timer
from typing import Any, NamedTuple, TypeVar

import duckdb

from woodref.errors import InputError, WoodrefError
from woodref.reference.checksums import is_published
from woodref.reference.fields import TABLES
from woodref.reference.overlay import KINDS, files_sql, present
from woodref.reference.store import connect, data_directory, literal, table_sql

Taken = TypeVar("Taken")
#: What a query may take: seconds, memory, and rows of its answer.
MOST_SECONDS, MOST_MEMORY, MOST_ROWS = 60.0, "1GB", 1_000_000


class Rows(NamedTuple):
    """The result of a query: column names and rows."""

    columns: tuple[str, ...]
    rows: list[tuple[Any, ...]]


def locked_connection(
    folder: Path | None = None,
    prepare: Callable[[duckdb.DuckDBPyConnection], None] | None = None,
    files: Sequence[Path] = (),
    tables: Iterable[str] = TABLES,
) -> duckdb.DuckDBPyConnection:
    """An in-memory DuckDB with one view per table, shut off from everything else.

    Parameters: folder of the Parquet files; prepare, called before the connection is shut off,
    to put tables into memory that are made of the views and of what the program knows; files of
    other tables that it may read; tables of the dataset that it sees.
    """
    folder = folder or data_directory()
    of_tables = {t: folder / f"{t}.parquet" for t in tables}
    present = {t: path for t, path in of_tables.items() if is_published(path, folder)}
    connection = connect()
    for table in present:
        connection.execute(f"create view {table} as select * from {table_sql(folder, table)}")
    if prepare:
        prepare(connection)
    paths = ", ".join(map(literal, (*present.values(), *files)))
    for setting in (
        # Secrets that DuckDB keeps in the folder of a user are no business of a query.
        "set allow_persistent_secrets = false",
        f"set allowed_paths = [{paths}]",
        f"set memory_limit = '{MOST_MEMORY}'",
        "set temp_directory = ''",
        "set autoload_known_extensions = false",
        "set autoinstall_known_extensions = false",
        "set python_enable_replacements = false",
        "set enable_external_access = false",
        "set lock_configuration = true",
    ):
        connection.execute(setting)
    return connection


def _nearest(missing: str, known: list[str]) -> str:
    from rapidfuzz import fuzz, process

    hit = process.extractOne(missing.lower(), known, scorer=fuzz.ratio, score_cutoff=50.0)
    return f"; nearest: {hit[0]}" if hit else ""


def sql_problem(error: duckdb.Error, query: str, columns: list[str] | None = None) -> str:
    """The first line of a DuckDB message, with the nearest table or column of ours.

    Parameters: error; query it is about; columns on offer, by default those of the tables.
    """
    import re

    first = str(error).partition("\n")[0].strip()
    table = re.search(r"Table with name (\S+) does not exist", first)
    if table:
        known = [*TABLES, *(f"own_{kind}" for kind in KINDS)]
        if table[1] in known[len(TABLES) :]:
            return f"no table '{table[1]}', as nothing of your own of this kind is stored"
        return f"no table '{table[1]}'{_nearest(table[1], known)}"
    column = re.search(r'column "([^"]+)" (?:was )?not found|column named "([^"]+)"', first)
    if column:
        mentioned = [t for t in TABLES if re.search(rf"\b{t}\b", query, re.IGNORECASE)]
        known = [f.name for t in mentioned or TABLES for f in TABLES[t].fields]
        known = [*(columns or []), *(known if mentioned or not columns else [])]
        name = column[1] or column[2]
        return f"no column '{name}'{_nearest(name, known)}"
    if isinstance(error, duckdb.PermissionException):
        return f"a query reads the tables of the dataset alone, no file and no address ({first})"
    return first


@contextmanager
def bounded(connection: duckdb.DuckDBPyConnection, what: str) -> Iterator[None]:
    """Stop what a user's SQL asks of a connection where it takes too long or too much memory.

    Parameters: connection of locked_connection, which bounds its memory; what is stopped.
    Raises: InputError in place of DuckDB's own errors.
    """
    stop = Timer(MOST_SECONDS, connection.interrupt)
    stop.daemon = True
    stop.start()
    try:
        yield
    except duckdb.InterruptException:
        raise InputError(
            f"{what} took more than {MOST_SECONDS:g} seconds and was stopped; ask for less"
        ) from None
    except duckdb.OutOfMemoryException:
        raise InputError(f"{what} needs more than {MOST_MEMORY} of memory; ask for less") from None
    finally:
        stop.cancel()


def few_enough(rows: int) -> None:
    """Refuse an answer of more than MOST_ROWS rows.

    Raises: InputError.
    """
    if rows > MOST_ROWS:
        raise InputError(f"the query gives more than {MOST_ROWS:,} rows; add a limit to it")


def answered(
    query: str,
    take: Callable[[duckdb.DuckDBPyConnection, duckdb.Statement], Taken],
    folder: Path | None = None,
) -> Taken:
    """What is taken from the answer to one reading statement over the reference tables.

    What is stored of the shop's own stands beside them as own_measurements and so on.

    Parameters: query one SQL statement, a SELECT or what reads like one (FROM, WITH, VALUES,
    DESCRIBE, SUMMARIZE, SHOW); take, called with the connection and the checked statement;
    folder of the Parquet files.
    Raises: InputError for anything but one reading statement, for an error in the SQL, and for a
    query that takes too long or too much memory.
    """
    if any("\ud800" <= c <= "\udfff" for c in query):
        raise InputError("the statement holds bytes that are no text")
    own = {f"own_{kind}": files for kind in KINDS if (files := present(kind))}

    def add_own(prepared: duckdb.DuckDBPyConnection) -> None:
        for table, files in own.items():
            prepared.execute(f"create view {table} as select * from {files_sql(files)}")

    try:
        connection = locked_connection(
            folder, add_own, files=[file for files in own.values() for file in files]
        )
    except duckdb.Error as error:
        raise WoodrefError(
            f"your own figures cannot be read ({str(error).splitlines()[0]}); go on without them: "
            "--no-own"
        ) from None
    try:
        statements = connection.extract_statements(query)
        if len(statements) != 1:
            raise InputError(f"one statement at a time, not {len(statements)}")
        if statements[0].type != duckdb.StatementType.SELECT:
            raise InputError("the dataset is read only; write a statement that starts with select")
        with bounded(connection, "the query"):
            return take(connection, statements[0])
    except duckdb.Error as error:
        raise InputError(f"SQL: {sql_problem(error, query)}") from None
    finally:
        connection.close()


def run_query(query: str, folder: Path | None = None, limit: int | None = None) -> Rows:
    """The rows of one reading statement over the reference tables.

    Parameters: query and folder as answered; limit on the rows returned.
    Returns: Rows.
    Raises: as answered.
    """

    def rows(connection: duckdb.DuckDBPyConnection, statement: duckdb.Statement) -> Rows:
        cursor = connection.execute(statement)
        columns = tuple(c[0] for c in cursor.description or ())
        if limit is not None:
            return Rows(columns, cursor.fetchmany(limit))
        held = cursor.fetchmany(MOST_ROWS + 1)
        few_enough(len(held))
        return Rows(columns, held)

    return answered(query, rows, folder)
