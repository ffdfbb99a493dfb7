"""Step 1, read: the source tables as strings, every row with the line it stands on."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pandas as pd

ROOT = Path(__file__).resolve().parent.parent
SOURCES = ROOT / "datasets" / "sources"
REFERENCE = ROOT / "datasets" / "reference"


def read_table(name: str, folder: Path = SOURCES) -> pd.DataFrame:
    """One source table, all cells as stripped strings ('' for an empty cell).

    Adds ``source_table`` (the file name) and ``source_line`` (the header is line 1).
    """
    file = f"{name}.csv"
    frame = pd.read_csv(folder / file, dtype=str, keep_default_na=False, encoding="utf-8")
    frame = frame.apply(lambda column: column.str.strip())
    frame["source_table"] = file
    frame["source_line"] = range(2, len(frame) + 2)
    return frame


def read_origins(folder: Path = SOURCES) -> dict[str, Any]:
    """The publications, editions and tables of origins.toml."""
    with (folder / "origins.toml").open("rb") as file:
        return tomllib.load(file)
