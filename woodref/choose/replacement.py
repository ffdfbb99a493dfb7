"""A piece with each of the woods that may take the place of one of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from woodref.piece.estimate import estimate_piece
from woodref.piece.replaced import Replacement, replaced, without_boards
from woodref.reference.library import Reference

if TYPE_CHECKING:
    from woodref.choose.substitute_result import Substitutes
    from woodref.lumber.prices import PriceList
    from woodref.piece.piece import Piece

#: Woods of its own trade group a piece is estimated with.
_OWN_GROUP = 3


def for_replacement(piece: Piece) -> Piece:
    """The piece without its boards in hand and its months after delivery.

    A wood is chosen by neither.
    """
    return replace(without_boards(piece), room=None)


def replacements(
    reference: Reference,
    piece: Piece,
    parts: Sequence[str],
    substitutes: Substitutes,
    prices: PriceList | None = None,
) -> dict[str, Replacement]:
    """A piece with each substitute in some parts, and with the first of its own trade group.

    Parameters: reference library; piece; parts by name; substitutes; prices, None where there
    is no list.
    Returns: replacements by species_id.
    Raises: as woodref.piece.replaced.replaced.
    """
    before = estimate_piece(reference, for_replacement(piece), prices)
    ids = [s.species_id for s in (*substitutes.woods, *substitutes.own_group[:_OWN_GROUP])]
    return {i: replaced(reference, before, dict.fromkeys(parts, i), prices) for i in ids}
