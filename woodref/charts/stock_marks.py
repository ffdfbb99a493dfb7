"""How well woods are stocked, as a shape: the same in every picture."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from woodref.choose.buyable import SPECIALTY, Buyable
from woodref.reference.look_words import COMMONLY_STOCKED


class StockMark(NamedTuple):
    """The shape of a point, the same as a letter, and what it says."""

    marker: str
    letter: str
    words: str


_COMMON = StockMark("o", "\N{BLACK CIRCLE}", "commonly stocked")
_DEALERS = StockMark("^", "\N{BLACK UP-POINTING TRIANGLE}", "from dealers")
_RARE = StockMark("X", "\N{MULTIPLICATION X}", "seldom, not in trade or not known")
_AT_HAND = StockMark("o", "\N{BLACK CIRCLE}", "")
_MARKS = {COMMONLY_STOCKED: _COMMON, SPECIALTY: _DEALERS}


def stock_mark(stock: str, buyable: Buyable | None) -> StockMark:
    """The mark of a wood.

    Parameters: stock, its class, '' where no table tells it; buyable, where woods come from,
    None for any: of a price list and of a yard every wood is at hand.
    """
    if buyable is not None and not buyable.by_class:
        return _AT_HAND
    return _MARKS.get(stock, _RARE)


def stock_legend(used: Iterable[StockMark]) -> str:
    """The marks used and their meaning, '' where they say nothing.

    '● commonly stocked, ▲ from dealers.', or of one alone 'All of them commonly stocked.'
    """
    seen = set(used)
    told = [m for m in (_COMMON, _DEALERS, _RARE) if m in seen]
    if len(told) == 1:
        return f"All of them {told[0].words}."
    return f"{', '.join(f'{m.letter} {m.words}' for m in told)}." if told else ""
