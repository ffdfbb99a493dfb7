"""How many boards, or how much wood, no plan can do with less of.

Every layout, however it is cut, crosses each line over the face of a board with blanks whose
widths and kerfs add up to no more than the width of the board. So the blanks must be covered
by lengths of such crossings; the least they need, a linear program, is a lower bound (the bar
relaxation of two-dimensional packing, after Scheithauer). The same holds along the board. The
program has too many crossings to list; they are made as the solver prices them (Gilmore and
Gomory 1961), and the bound of each round holds whether or not the rounds come to an end.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from math import ceil, gcd, inf
from typing import Any

import numpy as np

from woodref.cutting.columns import fair
from woodref.cutting.fill import reachable
from woodref.cutting.grid import Steps, lengths_and_widths
from woodref.cutting.knapsack import Filling
from woodref.cutting.problem import Problem
from woodref.cutting.work import Work

#: Steps that one solution of the program counts, and for each of its entries.
_SOLVE, _ENTRY = 3_000_000, 10
#: Faces are told apart by a millionth of a square millimeter; sums of up to so many steps.
_PER_M2, _MOST_SUMS = 10**12, 200_000
_SLACK = 1e-7
_ROUNDS = 400


def face_bound(problem: Problem, wanted: Mapping[int, int]) -> float:
    """The least total cost of boards whose faces hold the faces of all blanks."""
    faces = sum(n * problem.areas[i] for i, n in wanted.items())
    priced = zip(problem.costs, problem.stock, problem.available, strict=True)
    return faces * min((cost / s.area_m2 for cost, s, n in priced if n), default=0.0)


def next_sum(areas_m2: Sequence[float], least_m2: float) -> float:
    """The least wood that whole boards can have and that is no less than a bound [m2].

    Parameters: areas_m2 of the boards there are; least_m2 the bound.
    """
    faces = [round(area * _PER_M2) for area in areas_m2]
    step = gcd(*faces)
    least = ceil(least_m2 * _PER_M2 * (1.0 - 1e-9) / step)
    most = least + max(faces) // step
    if most > _MOST_SUMS:
        return least_m2
    sums = reachable([face // step for face in faces], most)
    beyond = sums >> least
    return (least + (beyond & -beyond).bit_length() - 1) * step / _PER_M2


def _crossing(
    sizes: Sequence[int], counts: Sequence[int], values: Any, most: int, fits: Any, work: Work
) -> tuple[float, dict[int, int]]:
    """The most valuable blanks, each at most ``counts`` times, whose sizes reach ``most``."""
    filling = Filling(most, work)
    for i, size in enumerate(sizes):
        if values[i] > 1e-12 and fits[i]:
            filling.offer(i, size, float(values[i]), counts[i])
    chosen: Counter[int] = Counter()
    for i, n in filling.chosen():
        chosen[i] += n
    return filling.worth, dict(chosen)


def _bar_bound(
    across: Steps,
    along: Steps,
    counts: Sequence[int],
    costs: Sequence[float],
    available: Sequence[float],
    whole_boards: bool,
    work: Work,
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
        if work.over:
            return bound
        work.tell()
        work.spend(_SOLVE + _ENTRY * n * (len(columns) + n))
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
            value, crossing = _crossing(
                across.blanks, counts, worth, across.boards[s], fits[s], work
            )
            crossings.append(value)
            key = (s, tuple(crossing.items()))
            if crossing and key not in known:
                known.add(key)
                columns.append((s, crossing))
                fresh = True
        bound = max(bound, fair(crossings, per_step.tolist(), room.tolist(), float(worth @ demand)))
        # The program so far is above what it comes to; for whole boards only its ceiling counts.
        near = ceil(bound - 1e-6) if whole_boards else bound * (1.0 + _SLACK)
        if not fresh or solved.fun <= near:
            return bound
    return bound


def bound_of(problem: Problem, wanted: Mapping[int, int], work: Work) -> float:
    """The least total cost of boards that any layout of all blanks needs, however it is cut.

    Parameters: problem; wanted blanks by kind, of which each fits some board; work that is
    counted.
    Returns: the bound in the unit of the costs of the problem; what is beyond the boards in
    hand shows as far more than all of them cost.
    Source: bar relaxation, Scheithauer, Introduction to Cutting and Packing Optimization
    (2018), chapter on two-dimensional bounds (unchecked); Gilmore and Gomory (1961).
    """
    blanks = [problem.blanks[i] for i in sorted(wanted)]
    counts = [wanted[i] for i in sorted(wanted)]
    lengths, widths = lengths_and_widths(blanks, problem.stock, problem.kerf_mm, loose=True)
    whole = problem.aim == "boards"
    return max(
        _bar_bound(across, along, counts, problem.costs, problem.available, whole, work)
        for across, along in ((widths, lengths), (lengths, widths))
    )
