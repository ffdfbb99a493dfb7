"""Boards in hand and to buy."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from woodref.api.shared import price_list, reference, refuse_rejects, wood_of
from woodref.errors import InputError
from woodref.lumber.buying import BuyingPlan, buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.rough import Allowances, usual
from woodref.lumber.tally import Board, Lot, parse_board, read_pile, total
from woodref.lumber.tally import tally as lots_of
from woodref.lumber.yard import Yard, thicknesses_sold


class Tally(NamedTuple):
    """Boards counted: by wood and thickness, and all together."""

    lots: tuple[Lot, ...]
    total: Lot


def tally(boards: Sequence[str] | str | Path, units: str = "us") -> Tally:
    """Count the board feet of a pile, by wood and thickness.

    Parameters
    ----------
    boards : sequence of str, or str or Path
        Boards as a yard writes them, '4/4 x 7-1/2 x 10ft x 3 red oak', or the path of a CSV
        file of them.
    units : str, optional
        'us' or 'si', of bare numbers.

    Returns
    -------
    Tally
        Lots with board feet [144 cubic inches], surface measure [ft2] and volume [m3].

    Raises
    ------
    InputError
        For what is no board; of a file, with its line.

    Notes
    -----
    Board feet are surface measure times thickness in inches, under 4/4 counted as 4/4; surface
    measure is width in inches times whole feet of length over 12 for each board (rules of the
    National Hardwood Lumber Association; dropping the part of a foot and rounding halves up
    are common practice, no source).

    Examples
    --------
    >>> import woodref
    >>> woodref.tally(["4/4 x 6 x 8ft x 3 red oak"]).total.board_feet
    12.0
    """
    if isinstance(boards, str | Path):
        read = boards_of_file(Path(boards), units)
    else:
        read = [parse_board(text, units) for text in boards]
    if not read:
        raise InputError("there is no board to count")
    lots = lots_of(read)
    return Tally(tuple(lots), total(lots))


def boards_of_file(path: Path, units: str) -> list[Board]:
    """Read the boards of a CSV file; InputError with the line where a row is none."""
    pile = read_pile(path, units)
    refuse_rejects(path, pile.rejects)
    return pile.boards


def buy(
    parts: Sequence[CutPart],
    boards: Sequence[str] = (),
    yard: Yard | None = None,
    prices: str | Path | None = None,
    grade: str = "",
    allowances: Allowances | None = None,
    effort: str = "usual",
    third_cut: bool = False,
    units: str = "si",
) -> BuyingPlan:
    """Plan how to cut parts from boards in hand, and what to buy for the rest.

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
        A price list, a CSV file; else the shop's own.
    grade : str, optional
        Grade to buy, as the price list has it.
    allowances : Allowances, optional
        By default those of common practice.
    effort : str, optional
        'quick', 'usual' or 'long': how long the search for each plan goes on at most. The same
        effort gives the same plan on any machine.
    third_cut : bool, optional
        Whether what the second cut of a board leaves may be parted once more: less wood for
        more handling.
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
    practice = usual(reference(), units)
    hand = [parse_board(text, units) for text in boards]
    woods = {p.species: wood_of(p.species) for p in parts}
    listed, allowed = price_list(prices), allowances or practice.allowances
    return buying_plan(
        parts,
        woods,
        thicknesses_sold(reference(), woods.values(), listed, units, allowed.planing_mm),
        allowed,
        practice.waste.pct,
        [(wood_of(board.species), board) for board in hand],
        yard,
        listed,
        grade,
        effort,
        units=units,
        third_cut=third_cut,
    )
