"""Trade names that cover several woods, which a yard may sell under one word."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from woodref.record import record
from woodref.reference.library import Reference, marks
from woodref.reference.woods import Wood


@record
class SharedName:
    """A trade name that covers several woods: how many it may mean, whether both woods."""

    name: str
    woods: int
    covers_both: bool
    note: str


def shared_names(
    reference: Reference, wood: Wood, species_ids: Sequence[str]
) -> dict[str, tuple[SharedName, ...]]:
    """Trade names that cover several woods, those that cover the first wood too before others.

    Parameters: reference library; wood, the first; species_ids of the others.
    Returns: names by species_id, of those that have some.
    """
    # Grouped here: DuckDB takes longer to plan the groups than to read the rows.
    rows = reference.store.rows(
        "with shared as (select name_key, name, species_id, note from {names} "
        "where name_kind = 'trade' and ambiguous) "
        "from shared where name_key in "
        f"(select name_key from shared where species_id in ({marks(species_ids)}))",
        list(species_ids),
    )
    by_key: dict[str, list[dict[str, Any]]] = {}
    for row in rows:
        by_key.setdefault(row["name_key"], []).append(row)
    first = set(wood.species_ids)
    of_woods: dict[SharedName, set[str]] = {}
    for group in by_key.values():
        ids = {row["species_id"] for row in group}
        if len(ids) > 1:
            name = min(row["name"] for row in group)
            note = max(row["note"] or "" for row in group)
            of_woods[SharedName(name, len(ids), bool(ids & first), note)] = ids
    names: dict[str, list[SharedName]] = {}
    for shared in sorted(of_woods, key=lambda s: (not s.covers_both, -s.woods, s.name)):
        for species_id in of_woods[shared]:
            names.setdefault(species_id, []).append(shared)
    return {species_id: tuple(shared) for species_id, shared in names.items()}
