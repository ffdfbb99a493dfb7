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

from woodref.cutting.grid import Steps, lengths_and_widths
from woodref.cutting.model import Blank, StockBoard

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
    chosen: dict[int, int] = {}
    position = most
    for i, n, take in reversed(takes):
        step = n * sizes[i]
        if position >= step and take[position - step]:
            chosen[i] = chosen.get(i, 0) + n
            position -= step
    return float(best[most]), chosen


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
    penalty = 1000.0 * float(per_step.max())
    columns: list[tuple[int, dict[int, int]]] = [
        (s, {i: 1}) for i in range(n) for s in range(sizes) if fits[s, i]
    ]
    known = {(s, tuple(c.items())) for s, c in columns}
    # To begin with: the faces of the blanks at the cheapest face of a board.
    cheapest = min(float(c) / w for c, w in zip(per_step, across.boards, strict=True))
    bound = cheapest * float(demand @ np.array(across.blanks))
    for _ in range(_ROUNDS):
        if out_of_time():
            return bound
        # Rows: each blank covered (at a penalty, where boards run short), boards in hand.
        matrix = np.zeros((n + len(finite), len(columns) + n))
        for j, (s, crossing) in enumerate(columns):
            for i, times in crossing.items():
                matrix[i, j] = -times
            if s in finite:
                matrix[n + finite.index(s), j] = 1.0
        matrix[range(n), range(len(columns), len(columns) + n)] = -1.0
        cost = np.concatenate([[per_step[s] for s, _ in columns], np.full(n, penalty)])
        solved = linprog(
            cost, A_ub=matrix, b_ub=np.concatenate([-demand, room[finite]]), method="highs"
        )
        if solved.status != 0:
            return bound
        worth = np.clip(-solved.ineqlin.marginals[:n], 0.0, penalty)
        fresh = False
        crossings: list[float] = []
        for s in range(sizes):
            value, crossing = _crossing(across.blanks, counts, worth, across.boards[s], fits[s])
            crossings.append(value)
            key = (s, tuple(crossing.items()))
            if crossing and key not in known:
                known.add(key)
                columns.append((s, crossing))
                fresh = True
        bound = max(bound, _fair(crossings, per_step, room, float(worth @ demand)))
        # The program so far is above what it comes to; for whole boards only its ceiling counts.
        near = ceil(bound - 1e-6) if whole_boards else bound * (1.0 + _SLACK)
        if not fresh or solved.fun <= near:
            return bound
    return bound


def _fair(crossings: Sequence[float], price: Any, room: Any, whole: float) -> float:
    """The bound that worths give: no crossing may be worth more than it costs.

    Parameters: crossings the most valuable crossing of each size of board, price what it costs,
    room how many there are; whole the worth of all blanks. All worths are scaled down until
    they are fair to boards without a limit; what boards in hand fall short of is taken off.
    """
    ratios = [value / p for value, p in zip(crossings, price, strict=True)]
    limited = [r < inf for r in room]
    free = max([1.0, *(x for x, less in zip(ratios, limited, strict=True) if not less)])
    taken = sum(
        float(r) * min(0.0, float(p) - value / free)
        for value, p, r, less in zip(crossings, price, room, limited, strict=True)
        if less
    )
    return float(max(whole / free + taken, whole / max(1.0, *ratios)))


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
    (2018), chapter on two-dimensional bounds (unchecked); Gilmore and Gomory (1961).
    """
    lengths, widths = lengths_and_widths(blanks, stock, kerf_mm, loose=True)
    counts = [b.quantity for b in blanks]
    whole = all(cost == 1.0 for cost in costs)
    available = [inf if s.quantity is None else float(s.quantity) for s in stock]
    return max(
        _bar_bound(across, along, counts, costs, available, whole, out_of_time)
        for across, along in ((widths, lengths), (lengths, widths))
    )
