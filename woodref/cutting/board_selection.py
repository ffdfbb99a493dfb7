"""The best set of boards among many that were filled: a small program in whole numbers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from woodref.cutting.model import StockBoard


class FilledBoard(NamedTuple):
    """A board filled with copies of blanks, by kind, in bands; ``area`` of the blanks [m2]."""

    stock: int
    rip_first: bool
    strips: tuple[tuple[int, ...], ...]
    area: float

    @property
    def kinds(self) -> list[int]:
        """Every blank of the board, by kind."""
        return [i for strip in self.strips for i in strip]


def best_set(
    pool: Sequence[FilledBoard],
    wanted: Counter[int],
    stock: Sequence[StockBoard],
    areas_m2: Sequence[float],
    aim: str,
    seconds: float,
) -> tuple[list[FilledBoard], Counter[int]] | None:
    """Boards of the pool that give all blanks with the fewest boards, or the least wood.

    Parameters: pool; wanted blanks by kind; stock, whose quantities are kept to; areas_m2 of a
    blank of each kind [m2]; aim as woodref.cutting.pack.pack; seconds the solver may take.
    Returns: the boards and the blanks they leave; None where the solver finds none in time.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import lil_array

    kinds = sorted(wanted)
    row = {i: k for k, i in enumerate(kinds)}
    covered = lil_array((len(kinds), len(pool) + len(kinds)))
    for j, board in enumerate(pool):
        for i, n in Counter(board.kinds).items():
            covered[row[i], j] = n
    for k in range(len(kinds)):
        covered[k, len(pool) + k] = 1.0
    rules = [LinearConstraint(covered.tocsr(), lb=np.array([wanted[i] for i in kinds]))]
    finite = [s for s, x in enumerate(stock) if x.quantity is not None]
    if finite:
        available = lil_array((len(finite), len(pool) + len(kinds)))
        for j, board in enumerate(pool):
            if board.stock in finite:
                available[finite.index(board.stock), j] = 1.0
        limits = np.array([stock[s].quantity for s in finite])
        rules.append(LinearConstraint(available.tocsr(), ub=limits))
    areas = np.array([stock[b.stock].area_m2 for b in pool])
    cost = 1.0 + 1e-4 * areas / areas.max() if aim == "boards" else areas + 1e-6
    # A blank left costs more than all the boards that could hold it.
    missing = np.array([areas_m2[i] for i in kinds])
    penalty = 10.0 * float(cost.sum()) * missing / missing.min()
    solved = milp(
        np.concatenate([cost, penalty]),
        constraints=rules,
        integrality=np.ones(len(pool) + len(kinds)),
        bounds=Bounds(0.0, np.array([*[np.inf] * len(pool), *(wanted[i] for i in kinds)])),
        options={"time_limit": seconds},
    )
    if solved.x is None:
        return None
    times = np.rint(solved.x[: len(pool)]).astype(int)
    left, boards = Counter(wanted), []
    for j in np.flatnonzero(times).tolist():
        for _ in range(times[j]):
            board = _without_extra(pool[j], left, areas_m2)
            if board.area > 0.0:
                boards.append(board)
                left.subtract(board.kinds)
    return boards, +left


def _without_extra(
    board: FilledBoard, left: Counter[int], areas_m2: Sequence[float]
) -> FilledBoard:
    """The board without blanks that no one needs any more."""
    still, strips = Counter(left), []
    for strip in board.strips:
        kept = []
        for i in strip:
            if still[i] > 0:
                still[i] -= 1
                kept.append(i)
        if kept:
            strips.append(tuple(kept))
    area = sum(areas_m2[i] for strip in strips for i in strip)
    return board._replace(strips=tuple(strips), area=area)
