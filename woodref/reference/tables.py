"""The reference tables, whole or by SQL, as frames of pandas or tables of Arrow."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal, overload

from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.reference.checksums import is_published
from woodref.reference.fields import TABLES
from woodref.reference.query import answered
from woodref.reference.store import data_directory

if TYPE_CHECKING:
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
    Raises: InputError for anything but one reading statement, and for an error in the SQL.
    """
    if as_arrow:
        return answered(query, lambda c, statement: c.sql(statement).to_arrow_table(), folder)
    return answered(query, lambda c, statement: c.sql(statement).df(), folder)
