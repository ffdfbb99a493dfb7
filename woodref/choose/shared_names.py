"""Trade names that cover several woods, which a yard may sell under one word."""

from __future__ import annotations

from collections.abc import Sequence

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
    first = list(wood.species_ids)
    others = f"species_id in ({marks(species_ids)})"
    rows = reference.store.rows(
        f"with asked as (select name_key from {{names}} where name_kind = 'trade' and {others}), "
        "shared as (select name_key, min(name) as name, count(distinct species_id) as woods, "
        "list(distinct species_id) as ids, max(coalesce(note, '')) as note, "
        f"bool_or(species_id in ({marks(first)})) as covers from {{names}} "
        "where name_kind = 'trade' and name_key in (from asked) "
        "group by name_key having bool_or(ambiguous) and woods > 1) "
        "select unnest(ids) as species_id, name, woods, covers, note from shared "
        "order by covers desc, woods desc, name",
        [*species_ids, *first],
    )
    names: dict[str, list[SharedName]] = {}
    for r in rows:
        shared = SharedName(r["name"], r["woods"], r["covers"], r["note"])
        names.setdefault(r["species_id"], []).append(shared)
    return {species_id: tuple(shared) for species_id, shared in names.items()}
