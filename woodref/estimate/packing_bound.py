"""How many boards, or how much wood, no plan can do with less of.

Every layout, however it is cut, crosses each line over the face of a board with blanks whose
widths and kerfs add up to no more than the width of the board. So the blanks must be covered
by lengths of such crossings; the least they need, a linear program, is a lower bound (the bar
relaxation of two-dimensional packing, after Scheithauer). The same holds along the board. The
program has too many crossings to list; they are made as the solver prices them (Gilmore and
Gomory 1961), and the bound of each round holds whether or not the rounds come to an end.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, inf
from typing import Any

import numpy as np

from woodref.estimate.packing import Blank, StockBoard
from woodref.estimate.packing_grid import Steps, lengths_and_widths

_SLACK = 1e-7
_ROUNDS = 400


def _crossing(
    sizes: Sequence[int], counts: Sequence[int], values: Any, most: int, fits: Any
) -> tuple[float, dict[int, int]]:
    """The most valuable blanks, each at most ``counts`` times, whose sizes reach ``most``."""
    best = np.zeros(most + 1)
    takes: list[tuple[int, int, Any]] = []
    for i, size in enumerate(sizes):
        if values[i] <= 1e-12 or not fits[i] or size > most:
            continue
        left, lot = counts[i], 1
        while left > 0:
            n = min(lot, left)
            left, lot = left - n, lot * 2
            if n * size > most:
                break
            added = best[: most + 1 - n * size] + n * values[i]
            take = added > best[n * size :]
            takes.append((i, n, take))
            best[n * size :] = np.where(take, added, best[n * size :])
    found: dict[int, int] = {}
    position = most
    for i, n, take in reversed(takes):
        step = n * sizes[i]
        if position >= step and take[position - step]:
            found[i] = found.get(i, 0) + n
            position -= step
    return float(best[most]), found


def _bar_bound(
    across: Steps,
    along: Steps,
    counts: Sequence[int],
    costs: Sequence[float],
    available: Sequence[float],
    whole_boards: bool,
    out_of_time: Callable[[], bool],
) -> float:
    """The bound for crossings across; costs and numbers of boards by their size."""
    from scipy.optimize import linprog

    n, sizes = len(counts), len(costs)
    demand = np.array([c * s for c, s in zip(counts, along.blanks, strict=True)], dtype=float)
    per_step = np.array([c / s for c, s in zip(costs, along.boards, strict=True)])
    room = np.array([a * s for a, s in zip(available, along.boards, strict=True)])
    finite = [s for s in range(sizes) if room[s] < inf]
    fits = np.array(
        [
            [
                across.blanks[i] <= across.boards[s] and along.blanks[i] <= along.boards[s]
                for i in range(n)
            ]
            for s in range(sizes)
        ]
    )
    dear = 1000.0 * float(per_step.max())
    columns: list[tuple[int, dict[int, int]]] = [
        (s, {i: 1}) for i in range(n) for s in range(sizes) if fits[s, i]
    ]
    known = {(s, tuple(c.items())) for s, c in columns}
    # To begin with: the faces of the blanks at the cheapest face of a board.
    cheapest = min(float(c) / w for c, w in zip(per_step, across.boards, strict=True))
    bound = cheapest * float(demand @ np.array(across.blanks))
    for _ in range(_ROUNDS):
        # Rows: each blank covered (with a dear way out, where boards run short), boards in hand.
        matrix = np.zeros((n + len(finite), len(columns) + n))
        for j, (s, crossing) in enumerate(columns):
            for i, times in crossing.items():
                matrix[i, j] = -times
            if s in finite:
                matrix[n + finite.index(s), j] = 1.0
        matrix[range(n), range(len(columns), len(columns) + n)] = -1.0
        cost = np.concatenate([[per_step[s] for s, _ in columns], np.full(n, dear)])
        solved = linprog(
            cost, A_ub=matrix, b_ub=np.concatenate([-demand, room[finite]]), method="highs"
        )
        if solved.status != 0:
            return bound
        worth = np.clip(-solved.ineqlin.marginals[:n], 0.0, dear)
        scale, penalty, fresh = 1.0, 0.0, False
        for s in range(sizes):
            value, crossing = _crossing(across.blanks, counts, worth, across.boards[s], fits[s])
            price = float(per_step[s])
            scale = max(scale, value / price)
            if room[s] < inf:
                penalty += float(room[s]) * min(0.0, price - value)
            elif value > price * (1.0 + _SLACK):
                penalty = -inf
            key = (s, tuple(crossing.items()))
            if crossing and key not in known:
                known.add(key)
                columns.append((s, crossing))
                fresh = True
        whole = float(worth @ demand)
        # Two bounds that hold for any worths: within the boards in hand, and scaled to be fair.
        bound = max(bound, whole + penalty, whole / scale)
        # The program so far is above what it comes to; for whole boards only its ceiling counts.
        near = ceil(bound - 1e-6) if whole_boards else bound * (1.0 + _SLACK)
        if not fresh or solved.fun <= near or out_of_time():
            return bound
    return bound


def bound_of(
    blanks: Sequence[Blank],
    stock: Sequence[StockBoard],
    kerf_mm: float,
    costs: Sequence[float],
    out_of_time: Callable[[], bool] = lambda: False,
) -> float:
    """The least total cost of boards that any layout of all blanks needs.

    Parameters: blanks and stock, of which each blank fits some board; kerf_mm [mm]; costs of
    a board of each size: all 1 for a number of boards, their faces for wood; out_of_time
    tells when to stop early.
    Returns: the bound in the unit of the costs; what is beyond the boards in hand shows as
    far more than all of them cost.
    Source: bar relaxation, Scheithauer, Introduction to Cutting and Packing Optimization
    (2018), chapter on two-dimensional bounds (from memory); Gilmore and Gomory (1961).
    """
    lengths, widths = lengths_and_widths(blanks, stock, kerf_mm, loose=True)
    counts = [b.quantity for b in blanks]
    whole = all(cost == 1.0 for cost in costs)
    available = [inf if s.quantity is None else float(s.quantity) for s in stock]
    return max(
        _bar_bound(across, along, counts, costs, available, whole, out_of_time)
        for across, along in ((widths, lengths), (lengths, widths))
    )
