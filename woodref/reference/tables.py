"""The reference tables, whole or by SQL, as frames of pandas or tables of Arrow."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal, overload

from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.reference.checksums import is_published
from woodref.reference.fields import TABLES
from woodref.reference.query import MOST_ROWS, answered, few_enough
from woodref.reference.store import data_directory

if TYPE_CHECKING:
    import duckdb
    import pandas
    import pyarrow


def table_names(folder: Path | None = None) -> dict[str, str]:
    """The tables of the dataset, each with what one of its rows is.

    Parameters: folder of the Parquet files, by default that of the package.
    """
    folder = folder or data_directory()
    return {
        name: table.description
        for name, table in TABLES.items()
        if is_published(folder / f"{name}.parquet", folder)
    }


@overload
def table(
    name: str, as_arrow: Literal[False] = ..., folder: Path | None = ...
) -> pandas.DataFrame: ...


@overload
def table(name: str, as_arrow: Literal[True], folder: Path | None = ...) -> pyarrow.Table: ...


def table(
    name: str, as_arrow: bool = False, folder: Path | None = None
) -> pandas.DataFrame | pyarrow.Table:
    """A table of the dataset, whole.

    Parameters: name of table_names; as_arrow for a table of Arrow in place of a frame; folder
    of the Parquet files.
    Returns: frame or table, a missing value NaN or null.
    Raises: InputError with the nearest name for a table that does not exist.
    """
    known = table_names(folder)
    if name not in known:
        raise InputError(f"no table is called '{name}'{did_you_mean(name, known)}")
    query = f"from {name}"
    return sql(query, True, folder) if as_arrow else sql(query, False, folder)


@overload
def sql(
    query: str, as_arrow: Literal[False] = ..., folder: Path | None = ...
) -> pandas.DataFrame: ...


@overload
def sql(query: str, as_arrow: Literal[True], folder: Path | None = ...) -> pyarrow.Table: ...


def sql(
    query: str, as_arrow: bool = False, folder: Path | None = None
) -> pandas.DataFrame | pyarrow.Table:
    """The rows of one reading statement over the tables of the dataset.

    The connection sees the tables and nothing else: no other file, no network.

    Parameters: query one SQL statement in the words of DuckDB; as_arrow and folder as table.
    Returns: frame or table, a missing value NaN or null.
    Raises: InputError for anything but one reading statement, for an error in the SQL, and for a
    query that gives more than a million rows, or takes more than a minute or 1 GB of memory.
    """
    if as_arrow:
        rows = answered(query, lambda c, s: _few(c, s).to_arrow_table(), folder)
        few_enough(rows.num_rows)
        return rows
    frame = answered(query, lambda c, s: _few(c, s).df(), folder)
    few_enough(len(frame))
    return frame


def _few(
    connection: duckdb.DuckDBPyConnection, statement: duckdb.Statement
) -> duckdb.DuckDBPyRelation:
    """The rows of a statement, one more than there may be at the most."""
    return connection.sql(statement).limit(MOST_ROWS + 1)
