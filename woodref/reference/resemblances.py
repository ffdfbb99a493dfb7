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
