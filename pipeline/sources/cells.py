"""Cells of a source table: numbers, rejections, the publication, the woods a row is about."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, Protocol

import pandas as pd

from woodref.reference.fields import REJECTED


class Registry(Protocol):
    """What these readers ask of the registry of woods."""

    def woods_for(self, botanical: str, name: str = "", kind: str = "") -> list[str]:
        """The woods a printed botanical name, or a printed name, stands for."""
        ...


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
    if not text and row["basis"] == "common practice":
        return "common-practice"
    if text not in origins["editions"]:
        raise UnknownPublicationError(
            f"{row['source_table']} line {row['source_line']}: '{text}' is not among the "
            "editions of origins.toml"
        )
    return str(origins["editions"][text])


_GENUS_LETTER = re.compile(r"^([A-Z])\. ")


def botanical_parts(botanical: str) -> list[str]:
    """The names in a cell: 'Taxus chinensis; T. cuspidata' gives two, the genus written out."""
    parts: list[str] = []
    for part in (p.strip() for p in botanical.split(";")):
        if not part:
            continue
        letter = _GENUS_LETTER.match(part)
        if letter and parts and parts[0].startswith(letter[1]):
            part = f"{parts[0].split()[0]} {part[3:]}"
        parts.append(part)
    return parts


def woods_of(registry: Registry, botanical: str, name: str, kind: str = "") -> list[str]:
    """All woods a row is about, each once, in a stable order.

    A cell with several botanical names is about the woods of each. A row without a
    botanical name is looked up by its printed name.
    """
    parts = botanical_parts(botanical) or [""]
    found = [wood for part in parts for wood in registry.woods_for(part, name, kind)]
    return list(dict.fromkeys(found))


def is_group(botanical: str, woods: list[str]) -> bool:
    """True where a row was printed for several woods: a genus, a group, a list of species.

    A wood that is itself traded under 'Shorea spp.' is not rated as part of a group by
    a row of that name.
    """
    return len(woods) > 1 or ("spp." in botanical and any("spp" not in w.split("-") for w in woods))
