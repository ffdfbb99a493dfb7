"""Boards in hand and to buy."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from woodref.api.shared import reference, wood_of
from woodref.lumber.buying import BuyingPlan, buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.prices import read_prices, resolver
from woodref.lumber.rough import Allowances, usual
from woodref.lumber.tally import parse_board
from woodref.lumber.yard import Yard
from woodref.reference.trade import dressed_thicknesses


def buy(
    parts: Sequence[CutPart],
    boards: Sequence[str] = (),
    yard: Yard | None = None,
    prices: str | Path | None = None,
    grade: str = "",
    allowances: Allowances | None = None,
    seconds: float = 10.0,
    units: str = "si",
) -> BuyingPlan:
    """Cut parts from boards in hand; what to buy for the rest, and its cost.

    Parameters
    ----------
    parts : sequence of CutPart
        Parts of finished sizes [mm].
    boards : sequence of str, optional
        Boards in hand as a yard writes them: '4/4 x 6 x 8ft x 2 cherry', or in 'si'
        '27 x 160 x 2400 x 2 beech'.
    yard : Yard, optional
        The sizes to buy, without which only an amount is told.
    prices : str or Path, optional
        The file of a price list.
    grade : str, optional
        Grade to buy, as the price list has it.
    allowances : Allowances, optional
        By default those of common practice.
    seconds : float, optional
        Most time for the search [s].
    units : str, optional
        'us' or 'si', of bare numbers and of messages.

    Returns
    -------
    BuyingPlan
        ``lots``, ``uncut``, ``purchases`` and ``cost``.

    Raises
    ------
    InputError
        For boards, prices or sizes that cannot be.
    UnknownNameError, AmbiguousNameError
        As :func:`woodref.wood`.
    """
    practice = usual(reference())
    hand = [parse_board(text, units) for text in boards]
    return buying_plan(
        parts,
        {p.species: wood_of(p.species) for p in parts},
        dressed_thicknesses(reference()),
        allowances or practice.allowances,
        practice.waste.pct,
        [(wood_of(board.species), board) for board in hand],
        yard,
        read_prices(Path(prices), resolver(reference())) if prices else None,
        grade,
        seconds,
        units=units,
    )
