"""The pairs of woods that print itself calls alike."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from woodref.reference.library import Reference, marks


class Resemblance(NamedTuple):
    """What print says of two woods: their printed names, in what they are alike, where it says so.

    ``compares`` in words of ours; ``edition`` and ``page`` of the publication; ``basis`` how the
    row is known.
    """

    wood: str
    like: str
    compares: str
    edition: str
    page: str
    basis: str


def resemblances_between(
    reference: Reference, first: Sequence[str], other: Sequence[str]
) -> tuple[Resemblance, ...]:
    """What print says of two woods being alike, whichever of them it names first.

    Parameters: reference library; first and other the species_ids of each wood.
    """
    if not first or not other:
        return ()
    one = f"species_id in ({marks(first)}) and like_species_id in ({marks(other)})"
    two = f"like_species_id in ({marks(first)}) and species_id in ({marks(other)})"
    rows = reference.store.rows(
        'select wood, "like", what_print_compares as compares, edition, page, basis '
        f"from {{resemblances}} where ({one}) or ({two}) order by source_line",
        [*first, *other, *first, *other],
    )
    return tuple(Resemblance(**{k: v or "" for k, v in row.items()}) for row in rows)


def resemblances_by_wood(
    reference: Reference, first: Sequence[str]
) -> dict[str, tuple[Resemblance, ...]]:
    """What print says of a wood being like others, by the species_id of the other.

    Parameters: reference library; first the species_ids of the wood.
    """
    own = marks(first)
    rows = reference.store.rows(
        f"select case when species_id in ({own}) then like_species_id "
        "else species_id end as other, "
        'wood, "like", what_print_compares as compares, edition, page, basis '
        f"from {{resemblances}} where (species_id in ({own})) <> (like_species_id in ({own})) "
        "order by source_line",
        [*first, *first, *first],
    )
    pairs: dict[str, list[Resemblance]] = {}
    for row in rows:
        told = {k: v or "" for k, v in row.items() if k != "other"}
        pairs.setdefault(row["other"], []).append(Resemblance(**told))
    return {other: tuple(told) for other, told in pairs.items()}
