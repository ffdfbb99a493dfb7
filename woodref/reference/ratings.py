"""Printed classes of a wood: decay resistance, gluing, paintability, pores, machining."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, NamedTuple

from woodref.note import Note
from woodref.reference.bases import UNCHECKED
from woodref.reference.library import Reference, marks

if TYPE_CHECKING:
    from woodref.reference.woods import Wood

#: What makers ask first, by the first words of the scale; the rest follows by name.
_ORDER = (
    "decay resistance",
    "ease of bonding",
    "paintability",
    "pore arrangement",
    "size of pores",
    "heartwood color",
    "planing",
    "shaping",
    "turning",
    "boring",
    "mortising",
    "sanding",
    "steam bending",
    "nailing",
    "screwing",
)


class Rating(NamedTuple):
    """One printed class on a scale, which names its edition; scales are never mixed.

    ``share_pct`` percent of pieces, for machining; ``condition`` what the class means, or
    where it holds; ``for_group`` true where it was printed for a group of woods,
    ``printed_name`` the name it was printed for.
    """

    species_id: str
    scale: str
    rating: str
    share_pct: float | None
    condition: str
    footnote: str
    printed_name: str
    for_group: bool
    source: str
    basis: str

    @property
    def table(self) -> str:
        """The edition and table that end the name of the scale."""
        return self.scale.rpartition(", ")[2]

    @property
    def unchecked(self) -> bool:
        """True where the class is recalled and was not seen in print."""
        return self.basis == UNCHECKED


def _place(scale: str) -> int:
    return next((i for i, words in enumerate(_ORDER) if scale.startswith(words)), len(_ORDER))


def _without_nulls(row: dict[str, Any]) -> dict[str, Any]:
    return {k: "" if v is None and k != "share_pct" else v for k, v in row.items()}


def ratings_for(reference: Reference, species_ids: Iterable[str]) -> tuple[Rating, ...]:
    """The printed classes of woods, in the order makers ask for them."""
    ids = list(dict.fromkeys(species_ids))
    if not ids:
        return ()
    rows = reference.store.rows(
        "select species_id, scale, class as rating, share_pct, condition, footnote, "
        "printed_name, for_group, coalesce(edition, source_id) as source, basis from {ratings} "
        f"where species_id in ({marks(ids)}) order by scale, species_id, source_line",
        ids,
    )
    ratings = [Rating(**_without_nulls(row)) for row in rows]
    return tuple(sorted(ratings, key=lambda r: (_place(r.scale), r.scale)))


#: The scale a decay class is told on, where there are several: the newest, of four classes.
_DECAY = "decay resistance of heartwood"


class DecayClass(NamedTuple):
    """The class of the heartwood of a wood on one printed scale, with the table of that scale.

    ``words`` each class once, in lower case, with what it holds for in parentheses.
    """

    words: tuple[str, ...]
    table: str
    unchecked: bool


def decay_class(reference: Reference, wood: Wood) -> DecayClass | None:
    """How the heartwood of a wood resists decay, None where no printed scale names the wood.

    Source: the newest printed scale that names it.
    """
    rated = [r for r in ratings_for(reference, wood.species_ids) if r.scale.startswith(_DECAY)]
    if not rated:
        return None
    newest = [r for r in rated if r.scale == rated[0].scale]
    words = (f"{r.rating.lower()}{f' ({r.condition})' if r.condition else ''}" for r in newest)
    unchecked = any(r.unchecked for r in newest)
    return DecayClass(tuple(dict.fromkeys(words)), newest[0].table, unchecked)


def decay_note(reference: Reference, wood: Wood) -> Note:
    """The decay class of the heartwood of a wood, for one that stands where rain reaches it.

    Source: as decay_class; that it is not known where no scale names the wood.
    """
    known = decay_class(reference, wood)
    if known is None:
        text = f"{wood.common_name}: no decay class is known; take it as not resistant outdoors"
        return Note("decay-class", text)
    text = (
        f"{wood.common_name}: decay resistance of heartwood {' or '.join(known.words)}, "
        f"{known.table}; sapwood of no wood resists"
    )
    return Note("decay-class", text, UNCHECKED if known.unchecked else "")
