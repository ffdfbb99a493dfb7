"""Cells of a source table: numbers, rejections, the publication of a row."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pandas as pd

from woodref.reference.bases import COMMON_PRACTICE
from woodref.reference.declared.origins import REJECTED


class UnknownPublicationError(ValueError):
    """A row names a publication that origins.toml does not list."""


def number(text: str) -> float | None:
    """The printed number, None where the cell is not one: '7.5' is 7.5, '10/H' is None."""
    try:
        return float(text.replace(",", ""))
    except ValueError:
        return None


def rejection(row: Mapping[str, Any], column: str, reason: str) -> dict[str, Any]:
    """One row of the table ``rejected``."""
    return {
        "source_table": row["source_table"],
        "source_line": row["source_line"],
        "source_column": column,
        "printed_value": row[column],
        "reason": reason,
    }


def rejected_frame(rows: list[dict[str, Any]]) -> pd.DataFrame:
    """Rejections as a frame that has its columns even when empty."""
    return pd.DataFrame(rows, columns=list(REJECTED.columns))


def source_id_of(row: Mapping[str, Any], origins: Mapping[str, Any], column: str) -> str:
    """The publication of a row, by the text of its edition or source column.

    A row of common practice without such a text belongs to 'common-practice'.

    Raises: UnknownPublicationError naming the file, line and text.
    """
    text = row[column]
    if not text and row["basis"] == COMMON_PRACTICE:
        return "common-practice"
    if text not in origins["editions"]:
        raise UnknownPublicationError(
            f"{row['source_table']} line {row['source_line']}: '{text}' is not among the "
            "editions of origins.toml"
        )
    return str(origins["editions"][text])
