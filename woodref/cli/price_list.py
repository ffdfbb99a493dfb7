"""Which price list serves a command."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from woodref.cli.options import reference

if TYPE_CHECKING:
    from woodref.lumber.prices import PriceList
    from woodref.piece.piece import Piece


def price_list(given: str, by_flag: bool = True, piece: Piece | None = None) -> PriceList | None:
    """The price list: the flag, else the one the piece names beside itself, the default, the own.

    Parameters: given a file, '' for none; by_flag, whether a flag and no default gave it; piece.
    Raises: as woodref.lumber.prices.read_prices and woodref.own.prices.own_prices.
    """
    from woodref.lumber.prices import read_prices, resolver
    from woodref.own.prices import own_prices

    file = Path(given) if given else None
    if piece and piece.prices and not by_flag:
        file = Path(piece.file).parent / Path(piece.prices).expanduser()
    resolve = resolver(reference())
    return read_prices(file, resolve) if file else own_prices(resolve)
