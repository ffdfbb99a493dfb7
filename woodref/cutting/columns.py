"""Boards worth cutting, made as a linear program prices the blanks (Gilmore and Gomory).

The program covers all blanks with fractions of filled boards at the least cost. It has too many
fillings to list; in every round the prices it gives the blanks are what the next boards are filled
for. What the boards cost in the end is a lower bound for plans of these cuts; the bound of each
round holds whether or not the rounds come to an end.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from math import ceil, inf
from typing import Any

import numpy as np

from woodref.cutting.problem import FilledBoard, Problem
from woodref.cutting.work import Work
from woodref.record import record

_ROUNDS = 400
#: An improvement of the program smaller than this share is none.
_NEAR = 1e-6
#: New boards that are enough for a round with more kinds of blanks than this.
_FRESH, _FEW = 3, 40
#: Steps that one solution of the program counts, and for each of its entries.
_SOLVE, _ENTRY = 3_000_000, 1_000


@record
class Relaxed:
    """The program solved: ``bound`` of all plans, boards and how many of each it takes.

    ``boards`` are all that were priced, ``times`` of each, ``spare`` how much more each costs
    than it is worth.
    """

    bound: float
    cost: float
    boards: tuple[FilledBoard, ...]
    times: tuple[float, ...]
    spare: tuple[float, ...]
    settled: bool


def fair(
    values: Sequence[float], costs: Sequence[float], many: Sequence[float], whole: float
) -> float:
    """The bound that prices of blanks give: no board may be worth more than it costs.

    Parameters: values, the most that a board of each size can be worth, costs of the sizes,
    many how many there are; whole the worth of all blanks. All prices are scaled down until
    they are fair to boards without a limit; what boards in hand fall short of is taken off.
    """
    ratios = [value / cost for value, cost in zip(values, costs, strict=True)]
    free = max([1.0, *(r for r, n in zip(ratios, many, strict=True) if n == inf)])
    taken = sum(
        n * min(0.0, cost - value / free)
        for value, cost, n in zip(values, costs, many, strict=True)
        if 0.0 < n < inf
    )
    everywhere = max([1.0, *(r for r, n in zip(ratios, many, strict=True) if n > 0)])
    return max(whole / free + taken, whole / everywhere)


class _Program:
    """The linear program over the boards so far."""

    def __init__(
        self, problem: Problem, wanted: Mapping[int, int], available: Sequence[float], work: Work
    ) -> None:
        self.problem, self.work = problem, work
        self.kinds = sorted(wanted)
        self.row = {i: k for k, i in enumerate(self.kinds)}
        self.demand = np.array([float(wanted[i]) for i in self.kinds])
        self.available = available
        self.finite = [s for s, n in enumerate(available) if n < inf]
        self.boards: list[FilledBoard] = []
        self.known: set[Any] = set()
        areas = np.array([problem.areas[i] for i in self.kinds])
        # A blank left out costs more than any board.
        self.penalty = 1000.0 * max(problem.costs) * areas / areas.min()
        self.entries: tuple[list[int], list[int], list[float]] = ([], [], [])

    def add(self, board: FilledBoard) -> bool:
        """True where the board is new, and holds something wanted."""
        counts = {i: n for i, n in board.counts.items() if i in self.row}
        key = (board.stock, tuple(sorted(counts.items())))
        if not counts or key in self.known or self.available[board.stock] <= 0:
            return False
        self.known.add(key)
        column = len(self.boards)
        self.boards.append(board)
        rows, columns, numbers = self.entries
        for i, n in counts.items():
            rows.append(self.row[i])
            columns.append(column)
            numbers.append(-float(n))
        if board.stock in self.finite:
            rows.append(len(self.kinds) + self.finite.index(board.stock))
            columns.append(column)
            numbers.append(1.0)
        return True

    def solve(self) -> tuple[float, Any, Any, Any] | None:
        """Cost, times of the boards, prices of the blanks and of the boards in hand."""
        from scipy.optimize import linprog
        from scipy.sparse import csc_array

        n, many = len(self.kinds), len(self.boards)
        rows, columns, numbers = self.entries
        matrix = csc_array(
            (
                [*numbers, *[-1.0] * n],
                ([*rows, *range(n)], [*columns, *range(many, many + n)]),
            ),
            shape=(n + len(self.finite), many + n),
        )
        cost = np.concatenate([[self.problem.costs[b.stock] for b in self.boards], self.penalty])
        hand = np.array([self.available[s] for s in self.finite])
        self.work.spend(_SOLVE + _ENTRY * (len(numbers) + n))
        solved = linprog(
            cost, A_ub=matrix, b_ub=np.concatenate([-self.demand, hand]), method="highs-ds"
        )
        if solved.status != 0:
            return None
        prices = np.clip(-solved.ineqlin.marginals, 0.0, None)
        return float(solved.fun), solved.x[:many], prices[:n], prices[n:]


def relaxed(
    problem: Problem,
    wanted: Mapping[int, int],
    available: Sequence[float],
    start: Sequence[FilledBoard],
    work: Work,
    rounds: int = _ROUNDS,
) -> Relaxed:
    """The linear program of a problem, with the boards it asks for.

    Parameters: problem; wanted blanks by kind; available boards of each size; start, boards to
    begin with; work that is counted; rounds at most.
    Returns: Relaxed, ``settled`` where no other board would lower its cost, or the cost comes to
    the bound in whole boards; its bound is 0 where the cuts allowed give none.
    Source: Gilmore and Gomory (1961, 1965); the bound of a round after Farley (1990), from
    memory.
    """
    program = _Program(problem, wanted, available, work)
    rng = np.random.default_rng(0)
    for board in start:
        program.add(board)
    bound, best_prices = 0.0, None
    answer: tuple[float, Any, Any, Any] | None = None
    settled = False
    value: dict[int, float] = {}
    solved_boards = 0
    for turn in range(rounds):
        answer = program.solve() or answer
        if answer is None:
            break
        cost, _, prices, hand = answer
        solved_boards = len(program.boards)
        work.tell()
        value = dict(zip(program.kinds, prices.tolist(), strict=True))
        tops, fresh = _priced(program, value, wanted, hand, rng, turn * _FRESH)
        if tops and inf not in tops:
            now = fair(tops, problem.costs, available, float(prices @ program.demand))
            if now > bound or best_prices is None:
                bound, best_prices = max(bound, now), value
        near = ceil(bound - 1e-6) if problem.aim == "boards" else bound * (1.0 + _NEAR)
        settled = not fresh or cost <= near
        if settled or work.over:
            break
    if answer is None:
        return Relaxed(0.0, 0.0, (), (), (), settled=False)
    if not problem.exact or not best_prices:
        bound = _of_prices(problem, best_prices or value, wanted, available, work)
    cost, times, prices, hand = answer
    value = dict(zip(program.kinds, prices.tolist(), strict=True))
    boards = program.boards[:solved_boards]
    spare = [_spare(program, b, value, hand) for b in boards]
    return Relaxed(bound, cost, tuple(boards), tuple(times.tolist()), tuple(spare), settled)


def _spare(program: _Program, board: FilledBoard, value: Mapping[int, float], hand: Any) -> float:
    """How much more a board costs than what is in it is worth."""
    worth = sum(n * value.get(i, 0.0) for i, n in board.counts.items())
    price = program.problem.costs[board.stock]
    if board.stock in program.finite:
        price += float(hand[program.finite.index(board.stock)])
    return price - worth


def _priced(
    program: _Program,
    value: Mapping[int, float],
    wanted: Mapping[int, int],
    hand: Any,
    rng: Any,
    first: int,
) -> tuple[list[float] | None, bool]:
    """What boards of each size can be worth at most, and whether some are worth their cost.

    Of a long list not all sizes and first cuts are looked at where a few are worth their cost;
    then what boards can be worth is not known. ``first`` is the one to begin with.
    """
    problem, work = program.problem, program.work
    sizes = [s for s in range(len(problem.stock)) if program.available[s] > 0]
    ways = [(s, rip_first) for s in sizes for rip_first in problem.first_cuts]
    start = first % len(ways)
    tops = [0.0] * len(problem.stock)
    fresh = 0
    for s, rip_first in [*ways[start:], *ways[:start]]:
        if fresh >= _FRESH and len(wanted) > _FEW:
            return None, True
        worth, board = problem.best(s, rip_first, value, wanted, work)
        tops[s] = max(tops[s], worth)
        made_of = [board]
        if any(n > wanted[i] for i, n in board.counts.items()):
            made_of.append(problem.filled(s, rip_first, value, wanted, rng, 0.0, work))
        for made in made_of:
            if _spare(program, made, value, hand) < -_NEAR * problem.costs[s]:
                fresh += program.add(made)
    return tops, fresh > 0


def _of_prices(
    problem: Problem,
    value: Mapping[int, float],
    wanted: Mapping[int, int],
    available: Sequence[float],
    work: Work,
) -> float:
    """The bound that prices give where blanks are rounded down and boards up."""
    tops = [
        max(problem.best(s, way, value, wanted, work, loose=True)[0] for way in problem.first_cuts)
        for s in range(len(problem.stock))
    ]
    if inf in tops:
        return 0.0
    whole = sum(value[i] * n for i, n in wanted.items())
    return fair(tops, problem.costs, available, whole)


def rounded(
    problem: Problem,
    wanted: Counter[int],
    first: Relaxed,
    work: Work,
) -> tuple[list[FilledBoard], Counter[int], list[FilledBoard]]:
    """Whole boards out of fractions: some are taken, and the program solved for what is left.

    Returns: the boards, the blanks they leave, and all boards that came up.
    """
    left, taken, made = Counter(wanted), [], list(first.boards)
    available = list(problem.available)
    now = first
    while True:
        took = _take(problem, now, left, available)
        taken += took
        left = +left
        if not left or not took or work.over or max(available) <= 0:
            return taken, left, made
        near = [
            problem.without_extra(b, left)
            for b, spare in zip(now.boards, now.spare, strict=True)
            if spare < 0.25 * problem.costs[b.stock]
        ]
        now = relaxed(problem, left, available, near, work, rounds=8)
        made += now.boards


def _take(
    problem: Problem, now: Relaxed, left: Counter[int], available: list[float]
) -> list[FilledBoard]:
    """Boards that the program takes wholly, else the one it takes most of; off what is left."""
    took: list[FilledBoard] = []
    order = sorted(range(len(now.boards)), key=lambda j: -now.times[j])
    for j in order:
        times = int(now.times[j] + 1e-6)
        if not times and ((took and now.times[j] < 0.7) or now.times[j] < 1e-6):
            break
        for _ in range(max(1, times)):
            board = problem.without_extra(now.boards[j], left)
            whole = len(board.kinds) == len(now.boards[j].kinds)
            if not board.bands or available[board.stock] <= 0 or (took and not whole):
                break
            took.append(board)
            available[board.stock] -= 1
            left.subtract(board.kinds)
    return took
