"""How two woods look beside each other: how near, in what they differ, what print says."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import sqrt
from typing import TYPE_CHECKING

from woodref.choose.look_distance import (
    WEIGHTS,
    appearance_of,
    band_of,
    look_distance,
    look_distances,
)
from woodref.record import record
from woodref.reference.looks import Look, look_of_group, looks_of
from woodref.reference.resemblances import (
    Resemblance,
    resemblances_between,
    resemblances_by_wood,
)

if TYPE_CHECKING:
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood

#: A part of the look that adds less than this to the distance is too little to name (our
#: judgment).
TOLD = 0.2
#: The word for each part of the look, both measures of the pores under one.
_PARTS = {"pore_size": "pores"}


@record
class LookPair:
    """Two woods side by side.

    ``distance`` and ``band`` as woodref.choose.look_distance, None where the look of one is not
    known; ``differs`` the parts of the look that part them, the most telling first; ``first`` and
    ``other`` their looks; ``printed`` what print says of the two.
    """

    distance: float | None
    band: str | None
    differs: tuple[str, ...]
    first: Look | None
    other: Look | None
    printed: tuple[Resemblance, ...]

    @property
    def unchecked(self) -> bool:
        """True where a cell the distance rests on is recalled."""
        return any(look is not None and _unchecked(look) for look in (self.first, self.other))


def _unchecked(look: Look) -> bool:
    from woodref.reference.bases import UNCHECKED

    cells = ("texture", "pores", "pore_size", "figure", "luster")
    used = [*look.seen.values(), *(look.cells[c] for c in cells if c in look.cells)]
    return any(cell.basis == UNCHECKED for cell in used)


def _parted_by(pairs: Sequence[tuple[Look, Look]]) -> tuple[str, ...]:
    """The parts of the look that add to the distance, the most telling first."""
    apart = [look_distances(appearance_of(a), appearance_of(b)) for a, b in pairs]
    adds = {
        part: sqrt(weight) * sum(each[part] for each in apart) / len(apart)
        for part, weight in WEIGHTS.items()
    }
    telling = sorted((p for p in adds if adds[p] >= TOLD), key=lambda p: -adds[p])
    return tuple(dict.fromkeys(_PARTS.get(p, p) for p in telling))


def look_pair(reference: Reference, first: Wood, other: Wood) -> LookPair:
    """How two woods look beside each other.

    A trade group stands as near as its members do on average (our judgment).

    Parameters: reference library; first; other.
    """
    one, two = (looks_of(reference, wood.species_ids) for wood in (first, other))
    printed = resemblances_between(reference, first.species_ids, other.species_ids)
    return pair_of((first.species_id, one), (other.species_id, two), printed)


def look_pairs(reference: Reference, first: Wood, others: Sequence[str]) -> dict[str, LookPair]:
    """How many woods look beside one, read at once.

    Parameters: reference library; first; others by species_id.
    Returns: a pair for each of the others.
    """
    looks = {x.species_id: x for x in looks_of(reference, [*first.species_ids, *others])}
    one = [looks[i] for i in first.species_ids if i in looks]
    printed = resemblances_by_wood(reference, first.species_ids)
    return {
        i: pair_of(
            (first.species_id, one), (i, [looks[i]] if i in looks else []), printed.get(i, ())
        )
        for i in others
    }


def pair_of(
    first: tuple[str, Sequence[Look]],
    other: tuple[str, Sequence[Look]],
    printed: tuple[Resemblance, ...],
) -> LookPair:
    """Two woods side by side, each by its species_id and the looks of its members."""
    (first_id, one), (other_id, two) = first, other
    pairs = list(product(one, two))
    distances = [look_distance(appearance_of(a), appearance_of(b)) for a, b in pairs]
    distance = sum(distances) / len(distances) if distances else None
    return LookPair(
        distance,
        None if distance is None else band_of(distance),
        _parted_by(pairs) if pairs else (),
        look_of_group(first_id, one),
        look_of_group(other_id, two),
        printed,
    )
