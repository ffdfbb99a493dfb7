"""Which price list serves a command."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from woodref.cli.options import reference
from woodref.reference.overlay import present

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList
    from woodref.piece.piece import Piece


def price_list(given: str, by_flag: bool = True, piece: Piece | None = None) -> PriceList | None:
    """The price list: the flag, else the one the piece names beside itself, the default, the own.

    Parameters: given a file, '' for none; by_flag, whether a flag and no default gave it; piece.
    Raises: as woodref.own.prices.price_list.
    """
    file = Path(given) if given else None
    of_piece = piece.price_file if piece else None
    if not file and not of_piece and not present("prices"):
        return None
    from woodref.own.prices import price_list as first_of

    return first_of(reference(), file if by_flag else None, of_piece, file)
