"""How a wood looks, works, is used, stocked and called: looks, uses, stock, names, likenesses.

A cell of looks.csv was read in print only where ``look_fields_read`` or ``uses_read`` names it;
``look_basis`` and ``uses_basis`` say whether in the publication or in a text that quotes it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

import pandas as pd

from pipeline.read import SOURCES, read_table
from pipeline.sources.cells import rejected_frame, rejection, source_id_of
from woodref.reference.bases import CHECKED, EDITORIAL, SECOND_HAND, UNCHECKED
from woodref.reference.declared.looks import PLAIN_NAMES, RESEMBLANCES, USES_OF_WOODS
from woodref.reference.look_words import (
    AUSTRALIA_NZ,
    EUROPE,
    JUDGED,
    LOOK_CELLS,
    NORTH_AMERICA,
    basis_column,
)
from woodref.reference.name_rows import chosen_rows
from woodref.reference.names import fold

#: Columns of looks.csv that tell how a wood is stocked in a region.
STOCK_COLUMNS = {
    "stock_north_america": NORTH_AMERICA,
    "stock_europe": EUROPE,
    "stock_australia_nz": AUSTRALIA_NZ,
}
#: What stands for a source where nothing was read, and before the sources of single cells.
_NOT_READ, _CELLS_READ = "memory", "for the cells in look_fields_read: "


class _Woods(Protocol):
    """What is asked of the registry of woods."""

    @property
    def woods(self) -> Mapping[str, Mapping[str, str]]: ...


@dataclass(frozen=True)
class Looks:
    """The tables of this module by name, and the cells that found no place in them."""

    tables: dict[str, pd.DataFrame]
    rejected: pd.DataFrame


def listed(text: str) -> list[str]:
    """The parts of a cell that holds a list."""
    return [part for part in text.split("; ") if part]


def citations(text: str) -> list[str]:
    """The publications a source cell names, each with its place; none for what was not read."""
    return [c for c in (p.removeprefix(_CELLS_READ) for p in listed(text)) if c != _NOT_READ]


def publication_of(citation: str, origins: Mapping[str, Any]) -> str:
    """The publication of origins.toml whose words a citation begins with, the longest counting.

    Raises: KeyError for a citation that none of them begins.
    """
    begins = [words for words in origins["citations"] if citation.startswith(words)]
    if not begins:
        raise KeyError(f"looks.csv: no publication of origins.toml is cited by '{citation}'")
    return str(origins["citations"][max(begins, key=len)])


def _sources(text: str, origins: Mapping[str, Any]) -> dict[str, str]:
    """The cells source and source_ids of a source cell."""
    cited = citations(text)
    ids = dict.fromkeys(publication_of(c, origins) for c in cited)
    return {"source": "; ".join(cited), "source_ids": "; ".join(ids)}


def cell_basis(cell: str, named: Sequence[str], row_basis: str) -> str:
    """How a filled cell of looks is known.

    Parameters: cell, its column; named, the columns that ``look_fields_read`` names; row_basis,
    that of ``look_basis``. A named cell was read: second hand in a row that is so, else in a copy.
    """
    if cell in JUDGED:
        return EDITORIAL
    if cell not in named:
        return UNCHECKED
    return SECOND_HAND if row_basis == SECOND_HAND else CHECKED


def _look(row: Mapping[str, Any], origins: Mapping[str, Any]) -> dict[str, Any]:
    """One row of looks."""
    named = listed(row["look_fields_read"])
    empty = [c for c in named if not row.get(c)]
    if empty:
        raise ValueError(f"looks.csv line {row['source_line']}: read, but empty: {empty}")
    cells: dict[str, Any] = {}
    for cell in LOOK_CELLS:
        text = row[cell]
        cells[cell] = float(text) if text and cell.endswith("_lightness") else text
        cells[basis_column(cell)] = cell_basis(cell, named, row["look_basis"]) if text else ""
    return {
        "species_id": row["species_id"],
        "listed_name": row["common_name"],
        **cells,
        **_sources(row["look_source"], origins),
        "note": row["note"],
        **_place(row),
    }


def _uses(row: Mapping[str, Any], origins: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The rows of uses_of_woods of one wood; a use that was not read names no source."""
    read = listed(row["uses_read"])
    sources = _sources(row["uses_source"], origins)
    return [
        {
            "species_id": row["species_id"],
            "use": use,
            "position": position,
            "basis": row["uses_basis"] if use in read else UNCHECKED,
            **(sources if use in read else {}),
            **_place(row),
        }
        for position, use in enumerate(listed(row["principal_uses"]), 1)
    ]


def _stock(row: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The rows of stock of one wood."""
    return [
        {
            "species_id": row["species_id"],
            "region": region,
            "class": row[column],
            "basis": row["stock_basis"],
            **_place(row),
            "source_column": column,
        }
        for column, region in STOCK_COLUMNS.items()
        if row[column]
    ]


def _place(row: Mapping[str, Any]) -> dict[str, Any]:
    """Where in datasets/sources a row comes from."""
    return {k: row[k] for k in ("source_table", "source_line")}


def looks(registry: _Woods, origins: Mapping[str, Any], folder: Path = SOURCES) -> Looks:
    """The tables looks, uses_of_woods and stock.

    Parameters: registry of the woods; origins as read from origins.toml; folder of the source
    files. Returns: the tables; the cells of a row about no wood of the dataset are rejected.
    Raises: KeyError, ValueError for a row that names an unknown publication or an empty cell.
    """
    rows = read_table("looks", folder).to_dict("records")
    known = [r for r in rows if r["species_id"] in registry.woods]
    rejected = [
        rejection(r, column, f"no wood of the dataset is {r['species_id']}")
        for r in rows
        if r["species_id"] not in registry.woods
        for column in (*LOOK_CELLS, *STOCK_COLUMNS, "principal_uses")
        if r[column]
    ]
    return Looks(
        {
            "looks": pd.DataFrame([_look(r, origins) for r in known]),
            "uses_of_woods": pd.DataFrame(
                [use for r in known for use in _uses(r, origins)],
                columns=list(USES_OF_WOODS.columns),
            ),
            "stock": pd.DataFrame([stocked for r in known for stocked in _stock(r)]),
        },
        rejected_frame(rejected),
    )


def plain_common_names(
    looked: pd.DataFrame, names: pd.DataFrame, woods: Mapping[str, Mapping[str, str]]
) -> dict[str, str]:
    """The names by which looks.csv lists woods that have none but their botanical one.

    Parameters: looked, the table looks; names, those there are; woods by identifier.
    Returns: name by species_id, of names that mean no other wood; one with a remark in
    parentheses is that of another wood of the list.
    """
    meant = names.groupby("name_key")["species_id"].agg(set).to_dict()
    return {
        r["species_id"]: r["listed_name"]
        for r in looked.to_dict("records")
        if woods[r["species_id"]]["common_name"] == woods[r["species_id"]]["botanical_name"]
        and "(" not in r["listed_name"]
        and meant.get(fold(r["listed_name"]), {r["species_id"]}) == {r["species_id"]}
    }


def listed_names(
    looked: pd.DataFrame, names: pd.DataFrame, common: Mapping[str, str]
) -> pd.DataFrame:
    """Rows of the table names for common names that are not in it.

    Parameters: looked, the table looks; names, those there are; common as plain_common_names.
    """
    known = set(names["name_key"])
    bare = [
        r
        for r in looked.to_dict("records")
        if r["species_id"] in common and fold(r["listed_name"]) not in known
    ]
    return pd.DataFrame(
        {
            "name": r["listed_name"],
            "name_key": fold(r["listed_name"]),
            "species_id": r["species_id"],
            "name_kind": "commercial",
            "ambiguous": False,
            "note": "",
            "position": 0,
            "basis": EDITORIAL,
            "source_table": r["source_table"],
            "source_line": r["source_line"],
        }
        for r in bare
    )


class _Meanings:
    """What a name of a list means: by the table of names, or as looks.csv lists it."""

    def __init__(self, names: pd.DataFrame, looked: pd.DataFrame) -> None:
        listed_names = zip(looked["listed_name"], looked["species_id"], strict=True)
        self._listed = {fold(name): species_id for name, species_id in listed_names}
        self._names: dict[str, list[dict[str, Any]]] = {}
        for row in names.to_dict("records"):
            self._names.setdefault(str(row["name_key"]), []).append(row)

    def rows(self, name: str) -> list[dict[str, Any]]:
        """Rows of the names table, of the first kind that has the name."""
        key = fold(name)
        return chosen_rows(key, self._names.get(key, []))

    def listed(self, name: str) -> str | None:
        """The wood that looks.csv lists under a name."""
        return self._listed.get(fold(name))

    def wood(self, name: str) -> str | None:
        """The one wood a name means, None where it means none or several."""
        found = {r["species_id"] for r in self.rows(name)}
        return str(found.pop()) if len(found) == 1 else None

    def group(self, name: str) -> str | None:
        """The trade group of a name, None where it is none."""
        rows = self.rows(name)
        return str(rows[0]["name"]) if rows and rows[0]["name_kind"] == "group" else None


def _resemblances(
    meant: _Meanings, origins: Mapping[str, Any], folder: Path
) -> tuple[pd.DataFrame, list[dict[str, Any]]]:
    found: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    for row in read_table("resemblances", folder).to_dict("records"):
        pair = [meant.listed(row[c]) or meant.wood(row[c]) for c in ("wood", "like")]
        if None in pair:
            unknown = [row[c] for c, w in zip(("wood", "like"), pair, strict=True) if not w]
            reason = f"no one wood of the dataset goes by {', '.join(unknown)}"
            columns = ("wood", "like", "what_print_compares")
            rejected += [rejection(row, c, reason) for c in columns]
            continue
        found.append(
            {
                **{k: row[k] for k in RESEMBLANCES.columns if k in row},
                "species_id": pair[0],
                "like_species_id": pair[1],
                "source_id": source_id_of(row, origins, "edition"),
            }
        )
    return pd.DataFrame(found, columns=list(RESEMBLANCES.columns)), rejected


def _plain_names(meant: _Meanings, folder: Path) -> tuple[pd.DataFrame, list[dict[str, Any]]]:
    found: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    for row in read_table("plain_names", folder).to_dict("records"):
        group = meant.group(row["means"])
        species_id = None if group else meant.wood(row["means"])
        if row["means"] and not (group or species_id):
            reason = f"no one wood of the dataset goes by {row['means']}"
            rejected += [rejection(row, c, reason) for c in ("name", "region", "means")]
            continue
        found.append(
            {
                **row,
                "name_key": fold(row["name"]),
                "species_id": species_id,
                "group_name": group,
            }
        )
    return pd.DataFrame(found, columns=list(PLAIN_NAMES.columns)), rejected


def called(
    names: pd.DataFrame, looked: pd.DataFrame, origins: Mapping[str, Any], folder: Path = SOURCES
) -> Looks:
    """The tables resemblances and plain_names.

    Parameters: names and looked, the tables names and looks; origins as read from origins.toml;
    folder of the source files.
    """
    meant = _Meanings(names, looked)
    alike, not_alike = _resemblances(meant, origins, folder)
    plain, not_plain = _plain_names(meant, folder)
    return Looks(
        {"resemblances": alike, "plain_names": plain}, rejected_frame([*not_alike, *not_plain])
    )
