"""Look up a wood by any name, and everything printed about it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from pathlib import Path
from typing import Any

from woodref.errors import (
    AmbiguousNameError,
    PanelNameError,
    RegionalNameError,
    UnknownNameError,
)
from woodref.record import replace
from woodref.reference.bases import NO_DATA
from woodref.reference.estimated import (
    genus_density,
    has_density,
    implied_and_estimated,
    needs_estimates,
)
from woodref.reference.fiber_saturation import fiber_saturation_of
from woodref.reference.look_words import NORTH_AMERICA
from woodref.reference.name_rows import chosen_rows, in_order, keys_of, meant_rows
from woodref.reference.names import fold, natural_order
from woodref.reference.overlay import own_state, own_values
from woodref.reference.plain_names import REGIONAL, by_region
from woodref.reference.store import Store, data_directory
from woodref.reference.strengths import lacks_strength, strength_estimates
from woodref.reference.unit_systems import values_of
from woodref.reference.woods import TradeName, Value, Wood, group_of

#: Values by species_id, then by property_id and condition.
Values = dict[str, dict[tuple[str, str], Value]]


#: Woods kept by name: more than anybody asks for in one go.
_KEPT = 500
#: Said of a wood for which the shop has figures of its own.
_OWN_NOTE = "your own figures go before the printed ones; --no-own leaves them out"


#: Words of a botanical name of a species, and how alike a known name must be for the name to
#: be taken for a slip [0 to 100].
_BINOMIAL, _SLIP = 2, 88.0


def _asked_by(wood: Wood, ambiguous: str) -> str:
    """The name to ask for a wood by: its identifier where its own name is the ambiguous one."""
    same = fold(wood.common_name) == fold(ambiguous)
    return wood.species_id if same else wood.common_name


def marks(items: Iterable[object]) -> str:
    """Question marks of a query, one for each item."""
    return ", ".join("?" for _ in items)


def _trade_name(name: str, row: dict[str, Any]) -> TradeName | None:
    """The name asked for, where the row says that the trade sells several woods under it."""
    together = row.get("sold_together") or 0
    return TradeName(fold(name), together) if together else None


class Reference:
    """The reference library: names in, woods and their printed numbers out.

    Opening is lazy and cheap; every look-up reads only the Parquet it needs. The shop's own
    figures go before the printed ones unless ``own`` is false or WOODREF_NO_OWN is set. A plain
    name ('walnut') means what the yards of ``region`` mean by it; with '' one that differs by
    region is refused.
    """

    def __init__(
        self, folder: Path | None = None, own: bool = True, region: str = NORTH_AMERICA
    ) -> None:
        self._folder = folder
        self.uses_own = own
        self.region = region
        self._named: dict[tuple[str, str], Wood] = {}
        self._own_state: tuple[object, ...] = ()

    @cached_property
    def store(self) -> Store:
        """The DuckDB behind the library."""
        return Store(self.folder)

    @cached_property
    def folder(self) -> Path:
        """Folder of the Parquet files."""
        return self._folder or data_directory()

    def name_rows(self, name: str) -> list[dict[str, Any]]:
        """Rows of the names table for a name, of the first kind in NAME_ORDER that has any.

        Where the table has none, what a botanical name or a list of them comes to
        (woodref.reference.botanical).
        """
        key = fold(name)
        return chosen_rows(key, self.rows_found(key)) or self._botanical_rows(name)

    def rows_found(self, key: str) -> list[dict[str, Any]]:
        """All rows of names and of plain names for the keys of a folded name (keys_of)."""
        keys = keys_of(key)
        return in_order(
            self.store.rows(
                f"select * from {{ready_names}} where name_key in ({marks(keys)})",
                keys,
            )
        )

    def meant_rows(self, name: str) -> list[dict[str, Any]]:
        """Rows of what a name means in the region: as name_rows where it is no plain name."""
        key = fold(name)
        rows = meant_rows(key, self.rows_found(key), self.region)
        if len(rows) == 1 and rows[0].get("group_name"):
            members = self.name_rows(rows[0]["group_name"])
            together = rows[0]["sold_together"]
            return [
                {**r, "plain_note": rows[0]["note"], "sold_together": together} for r in members
            ]
        return rows or self._botanical_rows(name)

    def _botanical_rows(self, name: str) -> list[dict[str, Any]]:
        """Rows like those of the names table for a genus or a botanical name not in it."""
        from woodref.reference.botanical import botanical_meanings, listed_names

        parts = listed_names(name)
        if len(parts) > 1:
            meant = {r["species_id"]: {**r, "note": ""} for p in parts for r in self.name_rows(p)}
            return [{**r, "name_kind": "trade"} for r in meant.values()]
        known = self.store.rows(
            "select species_id, botanical_name from {species} order by species_id"
        )
        return [
            {"name": name.strip(), "name_kind": "botanical", "species_id": i, "note": note}
            for i, note in botanical_meanings(name, known)
        ]

    def values(self, species_ids: Iterable[str]) -> Values:
        """The preferred values of woods: species_id to (property_id, condition) to Value."""
        ids = list(dict.fromkeys(species_ids))
        values: Values = {}
        rows = self.store.rows(
            f"select * from {{ready_figures}} where species_id in ({marks(ids)})", ids
        )
        by_id = values_of(rows)
        for row in rows:
            if row["preferred"]:
                key = (row["property_id"], row["condition"])
                values.setdefault(row["species_id"], {})[key] = by_id[row["measurement_id"]]
        return values

    def woods(
        self, species_ids: Iterable[str], values: Values | None = None, own: bool = True
    ) -> dict[str, Wood]:
        """Woods by identifier, with their preferred values, in the order asked for.

        Parameters: species_ids; values of these woods where they were read already; own, whether
        figures of the shop's own go before the printed ones.
        """
        ids = list(dict.fromkeys(species_ids))
        if not ids:
            return {}
        values = self.values(ids) if values is None else values
        measured = own_values(self.store, ids) if self.uses_own and own else {}
        woods: dict[str, Wood] = {}
        for row in self.store.rows(
            f"select * from {{ready_identities}} where species_id in ({marks(ids)})", ids
        ):
            implied_pct = row.pop("fiber_saturation_pct")
            identity: dict[str, Any] = {k: v or "" for k, v in row.items()}
            identity["fiber_saturation"] = fiber_saturation_of(
                implied_pct, identity["shrinkage_relation"]
            )
            species_id = identity["species_id"]
            figures = values.get(species_id, {})
            if species_id in measured:
                figures = figures | measured[species_id]
                identity["note"] = "; ".join(n for n in (identity["note"], _OWN_NOTE) if n)
            wood = Wood(**identity, values=figures)
            woods[species_id] = replace(wood, estimates=self._estimates(wood))
        return {i: woods[i] for i in ids if i in woods}

    def _estimates(self, wood: Wood) -> dict[tuple[str, str], Value]:
        """Estimates for what no table prints of a wood; most woods need none, and ask nothing."""
        estimates: dict[tuple[str, str], Value] = {}
        if needs_estimates(wood) and not has_density(wood):
            density = genus_density(wood, self.store)
            return {} if density is None else {(density.property_id, density.condition): density}
        if needs_estimates(wood):
            estimates = implied_and_estimated(wood, self.relation_of(wood))
        if lacks_strength(wood):
            estimates |= strength_estimates(wood, estimates, self._strength_functions)
        return estimates

    @cached_property
    def _strength_functions(self) -> list[dict[str, Any]]:
        """The functions of specific gravity in use."""
        return self.store.rows("select * from {strength_functions} order by property_id, kind")

    def relation_of(self, wood: Wood) -> dict[str, Any]:
        """The row of shrinkage_relations that serves a wood without printed shrinkage."""
        rows = self.store.rows(
            "select * from {shrinkage_relations} where relation_id = ?", [wood.shrinkage_relation]
        )
        return rows[0]

    def wood(self, name: str) -> Wood:
        """The wood, or trade group, that goes by a name.

        A plain name means what the region's yards mean by it. Else tried in order: common name
        in either word order, botanical name, synonym, trade group, trade name. Case, hyphens,
        accents and plurals do not matter.

        Raises: UnknownNameError with the nearest names; AmbiguousNameError with the
        candidates where the trade sells several woods under the name; RegionalNameError where
        it means one wood here and another there.
        """
        state = own_state() if self.uses_own else ()
        if state != self._own_state:
            self._named.clear()
            self._own_state = state
        asked = (name, self.region)
        known = self._named.get(asked)
        if known is None:
            known = self.wood_of(name, self.meant_rows(name))
            if len(self._named) >= _KEPT:
                self._named.clear()
            self._named[asked] = known
        return known

    def wood_of(self, name: str, rows: list[dict[str, Any]], values: Values | None = None) -> Wood:
        """The wood, or trade group, of the rows that meant_rows gave for a name.

        Parameters: name; rows; values of their woods where they were read already.
        Raises: as wood.
        """
        if not rows:
            stand_in = self._of_a_genus(name)
            if stand_in is not None:
                return stand_in
            from woodref.reference.panel_names import panel_of

            if panel_of(name):
                raise PanelNameError(name)
            raise UnknownNameError(name, self.nearest(name))
        if rows[0]["name_kind"] == REGIONAL:
            raise RegionalNameError(name, by_region(rows))
        if rows[0].get("candidates"):
            raise AmbiguousNameError(name, tuple(rows[0]["candidates"].split("; ")))
        grouped = rows[0]["name_kind"] == "group"
        # A board of one member says nothing of the mean of all; it would change what print gives.
        woods = self.woods((r["species_id"] for r in rows), values, own=not grouped)
        if grouped:
            group = group_of(
                fold(rows[0]["name"]).replace(" ", "-"),
                natural_order(rows[0]["name"]),
                tuple(woods.values()),
            )
            plain = rows[0].get("plain_note")
            note = "; ".join(n for n in (group.note, plain) if n)
            return replace(group, note=note, trade_name=_trade_name(name, rows[0]))
        if len(woods) > 1:
            raise AmbiguousNameError(name, tuple(_asked_by(w, name) for w in woods.values()))
        wood = next(iter(woods.values()))
        note = "; ".join(n for n in (wood.note, rows[0]["note"]) if n)
        return replace(wood, note=note, trade_name=_trade_name(name, rows[0]))

    def _of_a_genus(self, name: str) -> Wood | None:
        """A species no table holds, of a genus they know; None where the name is another's slip."""
        words = name.split()
        if len(words) != _BINOMIAL or not all(w.isalpha() for w in words):
            return None
        genus = words[0].capitalize()
        rows = self.store.rows(
            "select family, kind from {species} where botanical_name like ? "
            "and basic_specific_gravity is not null order by family, kind",
            [f"{genus} %"],
        )
        if not rows or self.nearest_rows(name, 1, cutoff=_SLIP):
            return None
        botanical = f"{genus} {words[1].lower()}"
        wood = Wood(
            species_id=botanical.lower().replace(" ", "-"),
            common_name=botanical,
            botanical_name=botanical,
            family=rows[-1]["family"] or "",
            kind=rows[-1]["kind"] or "",
            trade_group="",
            origin="",
            data_coverage=NO_DATA,
            note=f"in no table; its genus {genus} is",
        )
        return replace(wood, estimates=self._estimates(wood))

    def names_of(self, species_ids: Iterable[str]) -> list[dict[str, Any]]:
        """Names of woods with their kind and note, those that mean one wood alone first."""
        ids = list(dict.fromkeys(species_ids))
        if not ids:
            return []
        return self.store.rows(
            "select species_id, name, name_key, name_kind, ambiguous, note, basis from {names} "
            f"where species_id in ({marks(ids)}) order by ambiguous, name_key, name_kind",
            ids,
        )

    def nearest(self, name: str, limit: int = 3) -> tuple[str, ...]:
        """Known names closest to a misspelt one, best first, one per wood."""
        return tuple(natural_order(r["name"]) for r in self.nearest_rows(name, limit))

    def nearest_rows(
        self, name: str, limit: int, cutoff: float = 60.0
    ) -> tuple[dict[str, Any], ...]:
        """Rows of the names table closest to a misspelt name, best first, one per wood."""
        from rapidfuzz import fuzz, process

        keys: dict[str, dict[str, Any]] = {}
        for row in self.store.rows(
            "select name_key, name, species_id, name_kind from {names} "
            "order by name_key, name_kind <> 'commercial', name, species_id"
        ):
            keys.setdefault(row["name_key"], row)
        hits = process.extract(
            fold(name), list(keys), scorer=fuzz.ratio, limit=4 * limit, score_cutoff=cutoff
        )
        by_wood: dict[str, dict[str, Any]] = {}
        for key, _, _ in hits:
            by_wood.setdefault(keys[key]["species_id"], keys[key])
        return tuple(by_wood.values())[:limit]
