"""Woods ranked for a part of a real piece, by what happens to that piece."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.choose.rank import RankedWood, Ranking
from woodref.choose.replacement import for_replacement
from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.piece.estimate import estimate_piece
from woodref.piece.replaced import Replacement, replaced
from woodref.record import record

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList
    from woodref.piece.estimate import Estimate
    from woodref.piece.piece import Piece
    from woodref.reference.library import Reference

#: Woods a piece is estimated with: the first of the ranking.
MOST_TRIED = 12


@record
class TriedWood:
    """A wood of a ranking in the piece.

    ``swing_mm`` the largest swing through the year of the parts that change, None where no year
    is known of them; ``mass_kg`` of the whole piece and ``cost`` of its materials, waste
    included, None where not known; ``broken`` the fixings and spans that do not hold.
    """

    wood: RankedWood
    replacement: Replacement
    swing_mm: float | None
    mass_kg: float | None
    cost: float | None
    broken: tuple[str, ...]


@record
class RankedPiece:
    """The first woods of a ranking tried in a piece, those that hold first."""

    ranking: Ranking
    piece: Piece
    parts: tuple[str, ...]
    before: Estimate
    woods: tuple[TriedWood, ...]


def parts_ranked(piece: Piece, part: str) -> tuple[str, ...]:
    """The parts a wood is sought for: the one named, else all of a piece of one wood.

    Raises: InputError for a part the piece does not have, one of sheet goods, or a piece of
    several woods where none is named.
    """
    solid = [p for p in piece.parts if p.species]
    if part:
        named = next((p for p in piece.parts if p.name == part), None)
        if named is None:
            near = did_you_mean(part, [p.name for p in piece.parts])
            raise InputError(f"{piece.file}: no part is called '{part}'{near}")
        if not named.species:
            raise InputError(f"{piece.file}: the part '{part}' is of sheet goods, not of a wood")
        return (part,)
    woods = dict.fromkeys(p.species for p in solid)
    if len(woods) > 1:
        raise InputError(
            f"{piece.file}: has {len(woods)} woods; say which part: --part '{solid[0].name}'"
        )
    return tuple(p.name for p in solid)


def rank_in_piece(
    reference: Reference,
    ranking: Ranking,
    piece: Piece,
    parts: Sequence[str],
    prices: PriceList | None = None,
) -> RankedPiece:
    """The first woods of a ranking, each in some parts of a piece.

    What keeps every fixing and span in order comes first; of those the order of the ranking
    holds.

    Parameters: reference library; ranking; piece; parts by name; prices, None where there is no
    list.
    Raises: as woodref.piece.replaced.replaced.
    """
    before = estimate_piece(reference, for_replacement(piece), prices)
    tried = [
        _tried(w, replaced(reference, before, dict.fromkeys(parts, w.species_id), prices), parts)
        for w in ranking.woods[:MOST_TRIED]
    ]
    tried.sort(key=lambda t: (len(t.broken), t.wood.position))
    return RankedPiece(ranking, piece, tuple(parts), before, tuple(tried))


def _tried(wood: RankedWood, there: Replacement, parts: Sequence[str]) -> TriedWood:
    moves = [
        abs(p.movements[-1].change_mm)
        for p in there.after.parts
        if p.part.name in parts and p.movements
    ]
    return TriedWood(
        wood,
        there,
        max(moves, default=None),
        there.mass_kg[1],
        there.cost[1],
        tuple(x.name for x in there.sized if not x.holds),
    )
