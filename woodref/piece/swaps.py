"""Which wood of a piece gives way to which, from the names a person types."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.files import closest
from woodref.piece.replaced import parts_of_wood
from woodref.piece.resolve import find_woods
from woodref.record import record
from woodref.reference.names import fold

if TYPE_CHECKING:
    from woodref.piece.piece import Piece
    from woodref.reference.library import Reference
    from woodref.reference.woods import Wood


@record
class Swap:
    """A wood of a piece, the wood that takes its place, and in which parts.

    ``species`` the name by which the other wood is looked up.
    """

    first: Wood
    other: Wood
    parts: tuple[str, ...]
    species: str


def species_by_part(swaps: Sequence[Swap]) -> dict[str, str]:
    """The new wood of each part that changes, by its name."""
    return {part: swap.species for swap in swaps for part in swap.parts}


def swaps_of(
    reference: Reference, piece: Piece, pairs: Sequence[tuple[str, str]], part: str = ""
) -> tuple[Swap, ...]:
    """The parts of a piece that change wood, by pairs of names: the wood it has, the other.

    The first name may be any name of a wood of the piece, or a word of one that no other wood of
    the piece has ('oak' where white oak is its one oak).

    Parameters: reference library; piece; pairs; part the one part that changes, '' for all that
    are of the wood.
    Raises: InputError for a wood that no part has, two woods for one part, and the same wood on
    both sides; as Reference.wood for the other name.
    """
    swaps: list[Swap] = []
    for name, species in pairs:
        named = _named(reference, piece, name)
        parts = parts_of_wood(piece, reference.wood, named, part)
        first, other = _first(reference, piece, parts), reference.wood(species)
        if set(first.species_ids) == set(other.species_ids):
            raise InputError(f"'{name}' and '{species}' are the same wood: {other.common_name}")
        taken = next((p for s in swaps for p in s.parts if p in parts), None)
        if taken:
            raise InputError(f"{piece.file}: two woods are named for the part '{taken}'")
        swaps.append(Swap(first, other, tuple(parts), species))
    return tuple(swaps)


def _named(reference: Reference, piece: Piece, name: str) -> Wood:
    """The wood of a piece that goes by a name, or the group that some of its woods are of.

    Raises: InputError, with the woods the piece has, where no part is of it.
    """
    woods = find_woods(piece, reference.wood)
    try:
        meant = reference.wood(name)
    except InputError:
        meant = None
    if meant and any({*meant.species_ids} & {*wood.species_ids} for wood in woods.values()):
        return meant
    words = set(fold(name).split())
    worded = {w.species_id: w for key, w in woods.items() if words and words <= _words(key, w)}
    if len(worded) > 1:
        told = " or ".join(sorted(w.common_name for w in worded.values()))
        raise InputError(f"{piece.file}: '{name}' may be its {told}; name the one")
    if worded:
        return next(iter(worded.values()))
    used = list(dict.fromkeys(w.common_name for w in woods.values()))
    near = None if meant else closest(name, used)
    hint = f"; did you mean '{near}'?" if near else ""
    asked = meant.common_name if meant else f"'{name}'"
    raise InputError(
        f"{piece.file}: no part is of {asked}; it has {', '.join(used) or 'no wood'}{hint}"
    )


def _words(key: str, wood: Wood) -> set[str]:
    """The words of the names a piece has for a wood."""
    return {*fold(key).split(), *fold(wood.common_name).split()}


def _first(reference: Reference, piece: Piece, parts: Sequence[str]) -> Wood:
    """The wood that parts have; of several that go by one name the first."""
    return reference.wood(next(p.species for p in piece.parts if p.name in parts))
