"""Step 1, read: the source tables as strings, every row with the line it stands on."""

from __future__ import annotations

import csv
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pandas as pd

from woodref.reference.bases import (
    CHECKED,
    CHECKED_TWICE,
    COMMON_PRACTICE,
    EDITORIAL,
    SECOND_HAND,
    UNCHECKED,
)

ROOT = Path(__file__).resolve().parent.parent
SOURCES = ROOT / "datasets" / "sources"
REFERENCE = ROOT / "datasets" / "reference"
#: Words of the source tables for how a number is known, and those of the dataset.
SOURCE_BASES = {
    "seen2": CHECKED_TWICE,
    "seen": CHECKED,
    "quoted": SECOND_HAND,
    "memory": UNCHECKED,
    "common practice": COMMON_PRACTICE,
    "ours": EDITORIAL,
    "": "",
}
#: Columns of the source tables that hold such a word.
_BASIS_COLUMNS = ("basis", "basis_12pct", "look_basis", "uses_basis", "stock_basis")
_WORDS = ", ".join(word for word in SOURCE_BASES if word)


@cache
def _headings(folder: Path) -> dict[str, list[str]]:
    """The columns of each table, by its name; none where the folder declares none."""
    file = folder / "headings.toml"
    return _toml(file) if file.is_file() else {}


def _toml(file: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise ValueError(f"{file.name}: is missing in {file.parent}") from None
    except ValueError as error:
        raise ValueError(f"{file.name}: {error}") from None


def _rows(file: Path) -> tuple[list[str], list[list[str]]]:
    """The heading of a table and its rows, cells stripped.

    Raises: ValueError as read_table.
    """
    try:
        with file.open(encoding="utf-8", newline="") as lines:
            heading, *rows = [[c.strip() for c in r] for r in csv.reader(lines, strict=True) if r]
    except FileNotFoundError:
        raise ValueError(f"{file.name}: is missing in {file.parent}") from None
    except (ValueError, csv.Error) as error:
        raise ValueError(f"{file.name}: is no table: {error}") from None
    first: dict[tuple[str, ...], int] = {}
    for line, row in enumerate(rows, start=2):
        if len(row) != len(heading):
            raise ValueError(
                f"{file.name} line {line}: has {len(row)} cells, the heading {len(heading)}"
            )
        before = first.setdefault(tuple(row), line)
        if before != line:
            raise ValueError(f"{file.name} line {line}: is line {before} once more")
    return heading, rows


def _other_heading(heading: list[str], declared: list[str]) -> str:
    """What is wrong with a heading."""
    for said, names, others in (("has no", declared, heading), ("has a new", heading, declared)):
        other = [name for name in names if name not in others]
        if other:
            return f"{said} column '{other[0]}'; headings.toml declares {', '.join(declared)}"
    return f"its columns stand in another order, or twice; write {','.join(declared)}"


def read_table(name: str, folder: Path = SOURCES) -> pd.DataFrame:
    """One source table, all cells as stripped strings ('' for an empty cell).

    Adds ``source_table`` (the file name) and ``source_line`` (the header is line 1). How a
    number is known stands in the words of the dataset, not in those of the table.

    Raises: ValueError, one line, for a file that is missing or no such table, a heading other than
    that of headings.toml, a row of another length or one that is there twice, and a basis that is
    no word of SOURCE_BASES.
    """
    file = f"{name}.csv"
    heading, rows = _rows(folder / file)
    declared = _headings(folder).get(name)
    if declared is not None and heading != declared:
        raise ValueError(f"{file}: {_other_heading(heading, declared)}")
    frame = pd.DataFrame(rows, columns=heading, dtype=str)
    frame["source_table"] = file
    frame["source_line"] = range(2, len(frame) + 2)
    for column in frame.columns.intersection(_BASIS_COLUMNS):
        unknown = frame.loc[~frame[column].isin(SOURCE_BASES), ["source_line", column]]
        if len(unknown):
            line, word = unknown.iloc[0]
            raise ValueError(f"{file} line {line}: '{word}' is not a basis; use {_WORDS}")
        frame[column] = frame[column].map(SOURCE_BASES)
    return frame


def read_origins(folder: Path = SOURCES) -> dict[str, Any]:
    """The publications, editions and tables of origins.toml."""
    return _toml(folder / "origins.toml")
