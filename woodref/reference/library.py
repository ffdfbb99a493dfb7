"""Look up a wood by any name, and everything printed about it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property
from pathlib import Path
from typing import Any

from woodref.errors import AmbiguousNameError, UnknownNameError
from woodref.reference.names import fold
from woodref.reference.store import Store
from woodref.reference.woods import Value, Wood, group_of, value_from_row

#: Order in which the kinds of names are tried.
NAME_ORDER = ("commercial", "botanical", "synonym", "group", "trade")

#: Columns of the species table that identify a wood.
_IDENTITY = (
    "species_id",
    "common_name",
    "botanical_name",
    "family",
    "kind",
    "trade_group",
    "origin",
    "tier",
    "qualifier",
    "note",
)
#: Columns of the measurements table that make a Value.
_VALUE = (
    "species_id",
    "property_id",
    "condition",
    "value",
    "value_low",
    "value_high",
    "moisture_content_pct",
    "printed_value",
    "printed_unit",
    "printed_table",
    "page",
    "source_id",
    "basis",
    "basis_reason",
    "sample",
    "note",
)


def _marks(items: Iterable[object]) -> str:
    return ", ".join("?" for _ in items)


class Reference:
    """The reference library: names in, woods and their printed numbers out.

    Opening is lazy and cheap; every look-up reads only the Parquet it needs.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = folder

    @cached_property
    def store(self) -> Store:
        """The DuckDB behind the library."""
        return Store(self._folder)

    def name_rows(self, name: str) -> list[dict[str, Any]]:
        """Rows of the names table for a name, of the first kind in NAME_ORDER that has any."""
        rows = self.store.rows(
            "select * from {names} where name_key = ? order by position, species_id", [fold(name)]
        )
        for kind in NAME_ORDER:
            chosen = [r for r in rows if r["name_kind"] == kind]
            if chosen:
                return chosen
        return []

    def woods(self, species_ids: Iterable[str]) -> dict[str, Wood]:
        """Woods by identifier, with their preferred values, in the order asked for."""
        ids = list(dict.fromkeys(species_ids))
        if not ids:
            return {}
        values: dict[str, dict[tuple[str, str], Value]] = {}
        for row in self.store.rows(
            f"select {', '.join(f'm.{c}' for c in _VALUE)}, s.short "
            "from {measurements} m join {sources} s using (source_id) "
            f"where m.preferred and m.species_id in ({_marks(ids)})",
            ids,
        ):
            value = value_from_row(row)
            key = (value.property_id, value.condition)
            values.setdefault(row["species_id"], {})[key] = value
        found: dict[str, Wood] = {}
        for row in self.store.rows(
            f"select {', '.join(_IDENTITY)} from {{species}} where species_id in ({_marks(ids)})",
            ids,
        ):
            identity: dict[str, Any] = {k: v or "" for k, v in row.items()}
            species_id = identity["species_id"]
            found[species_id] = Wood(**identity, values=values.get(species_id, {}))
        return {i: found[i] for i in ids if i in found}

    def wood(self, name: str) -> Wood:
        """The wood, or trade group, that goes by a name.

        Tried in order: common name in either word order, botanical name, synonym, trade
        group, trade name. Case, hyphens, accents and plurals do not matter.

        Raises: UnknownNameError with the nearest names; AmbiguousNameError with the
        candidates where the trade sells several woods under the name.
        """
        rows = self.name_rows(name)
        if not rows:
            raise UnknownNameError(name, self.nearest(name))
        woods = self.woods(r["species_id"] for r in rows)
        if rows[0]["name_kind"] == "group":
            return group_of(fold(name).replace(" ", "-"), rows[0]["name"], tuple(woods.values()))
        if len(woods) > 1:
            raise AmbiguousNameError(name, tuple(w.common_name for w in woods.values()))
        wood = next(iter(woods.values()))
        return replace(wood, note="; ".join(n for n in (wood.note, rows[0]["note"]) if n))

    def nearest(self, name: str, limit: int = 3) -> tuple[str, ...]:
        """Known names closest to a misspelt one, best first, one per wood."""
        from rapidfuzz import fuzz, process

        keys = {
            r["name_key"]: r["name"]
            for r in self.store.rows("select name_key, name from {names} order by name_key, name")
        }
        hits = process.extract(fold(name), list(keys), scorer=fuzz.ratio, limit=limit)
        return tuple(keys[key] for key, score, _ in hits if score >= 60.0)
