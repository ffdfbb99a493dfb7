"""Step 1, read: the source tables as strings, every row with the line it stands on."""

from __future__ import annotations

import tomllib
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


def read_table(name: str, folder: Path = SOURCES) -> pd.DataFrame:
    """One source table, all cells as stripped strings ('' for an empty cell).

    Adds ``source_table`` (the file name) and ``source_line`` (the header is line 1). How a
    number is known stands in the words of the dataset, not in those of the table.

    Raises: ValueError naming the line of a basis that is no word of SOURCE_BASES.
    """
    file = f"{name}.csv"
    frame = pd.read_csv(folder / file, dtype=str, keep_default_na=False, encoding="utf-8")
    frame = frame.apply(lambda column: column.str.strip())
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
    with (folder / "origins.toml").open("rb") as file:
        return tomllib.load(file)
