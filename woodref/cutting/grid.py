"""Sizes of boards and blanks as whole steps, so that sums are exact."""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

from woodref.cutting.model import Blank, StockBoard
from woodref.record import record

#: Fine enough that any size in 1/128 in or 0.001 mm is a whole number of it.
_PER_MM = 10_000_000
#: More steps than this along a board are not told apart, unless no board holds two blanks across.
MOST_STEPS, MOST_STEPS_ALONE = 12_000, 120_000


@record
class Steps:
    """One direction: sizes of blanks and boards in whole steps, the kerf added to each.

    With the kerf added to blanks and boards alike, blanks fit where their steps add up to
    no more than those of the board.
    """

    blanks: tuple[int, ...]
    boards: tuple[int, ...]
    exact: bool


def steps_of(
    blanks: Sequence[float],
    boards: Sequence[float],
    kerf_mm: float,
    loose: bool = False,
    most: int = MOST_STEPS,
) -> Steps:
    """Sizes [mm] in the largest common step, or in one of 1/most of the largest board.

    Parameters: loose rounds blanks down and boards up, for a bound that holds; else blanks
    are rounded up and boards down, for blanks that fit.
    """
    kerf = round(kerf_mm * _PER_MM)
    own = [round(x * _PER_MM) + kerf for x in blanks]
    whole = [round(x * _PER_MM) + kerf for x in boards]
    step = gcd(*own, *whole)
    exact = max(whole) // step <= most
    if not exact:
        step = max(whole) // most + 1

    def up(x: int) -> int:
        return -(-x // step)

    def down(x: int) -> int:
        return x // step

    small, large = (down, up) if loose else (up, down)
    return Steps(tuple(max(1, small(x)) for x in own), tuple(large(x) for x in whole), exact)


def lengths_and_widths(
    blanks: Sequence[Blank], stock: Sequence[StockBoard], kerf_mm: float, loose: bool = False
) -> tuple[Steps, Steps]:
    """Both directions in steps, each with a step of its own."""
    sides = [
        ([b.length_mm for b in blanks], [s.length_mm for s in stock]),
        ([b.width_mm for b in blanks], [s.width_mm for s in stock]),
    ]
    alone = [max(large) + kerf_mm < 2.0 * (min(small) + kerf_mm) for small, large in sides]
    return tuple(  # type: ignore[return-value]
        steps_of(*side, kerf_mm, loose, MOST_STEPS_ALONE if other else MOST_STEPS)
        for side, other in zip(sides, reversed(alone), strict=True)
    )
