"""The tables behind the answers, as frames."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, overload

from woodref.api.shared import reference
from woodref.reference.glossary import Word, glossary, word_of
from woodref.reference.sources import Source, sources_of
from woodref.reference.tables import sql as frame_of
from woodref.reference.tables import table as whole_table
from woodref.reference.tables import table_names

if TYPE_CHECKING:
    import pandas
    import pyarrow


def sources() -> tuple[Source, ...]:
    """List the publications behind the numbers, in the order of precedence.

    Returns
    -------
    tuple of Source
        Each with its citation and license, how many printed figures it gives, how many of them
        are used and how they are known.
    """
    return tuple(sources_of(reference().store))


def words(term: str = "") -> tuple[Word, ...]:
    """Tell what a term means, or list the whole glossary.

    Parameters
    ----------
    term : str, optional
        A term, an abbreviation such as 'MC', or another name of it.

    Returns
    -------
    tuple of Word
        The term, or all of them, in plain words of our own.

    Raises
    ------
    InputError
        For a term that the glossary has not, with the nearest ones.
    """
    return (word_of(term),) if term else glossary()


def tables() -> dict[str, str]:
    """List the tables of the reference dataset.

    Returns
    -------
    dict of str to str
        The name of each table, with what one of its rows is.
    """
    return table_names()


@overload
def table(name: str, as_arrow: Literal[False] = ...) -> pandas.DataFrame: ...


@overload
def table(name: str, as_arrow: Literal[True]) -> pyarrow.Table: ...


def table(name: str, as_arrow: bool = False) -> pandas.DataFrame | pyarrow.Table:
    """Read a table of the reference dataset, whole.

    Parameters
    ----------
    name : str
        A name of :func:`woodref.tables`.
    as_arrow : bool, optional
        A table of Arrow in place of a frame of pandas.

    Returns
    -------
    pandas.DataFrame or pyarrow.Table
        SI units; a missing value is NaN or null.

    Raises
    ------
    InputError
        For a table that does not exist, with the nearest name.
    """
    return whole_table(name, True) if as_arrow else whole_table(name, False)


@overload
def sql(query: str, as_arrow: Literal[False] = ...) -> pandas.DataFrame: ...


@overload
def sql(query: str, as_arrow: Literal[True]) -> pyarrow.Table: ...


def sql(query: str, as_arrow: bool = False) -> pandas.DataFrame | pyarrow.Table:
    """Ask the tables of the reference dataset in SQL, for reading alone.

    Parameters
    ----------
    query : str
        One statement in the SQL of DuckDB: a SELECT or what reads like one.
    as_arrow : bool, optional
        A table of Arrow in place of a frame of pandas.

    Returns
    -------
    pandas.DataFrame or pyarrow.Table
        A missing value is NaN or null.

    Raises
    ------
    InputError
        For anything but one reading statement, and for an error in the SQL.

    Notes
    -----
    The query sees the tables of :func:`woodref.tables`, what is stored of the shop's own
    (own_measurements, own_prices, own_places, own_yard) and nothing else: no file, no network.
    """
    return frame_of(query, True) if as_arrow else frame_of(query, False)
