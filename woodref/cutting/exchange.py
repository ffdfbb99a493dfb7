"""Exchange a board for a smaller one that holds the same blanks."""

from __future__ import annotations

from collections import Counter
from typing import Any

from woodref.cutting.problem import FilledBoard, Plan, Problem
from woodref.cutting.work import Work

_EPS = 1e-9
#: Smaller boards that are tried for one.
_TRIED = 8


class Exchange:
    """What smaller boards hold, remembered from plan to plan."""

    def __init__(self, problem: Problem, rng: Any, work: Work) -> None:
        self.problem, self.rng, self.work = problem, rng, work
        self.moved: dict[Any, FilledBoard | None] = {}

    def smaller(self, plan: Plan) -> Plan:
        """The plan with each board exchanged for the smallest free one that holds the same."""
        boards, left = plan
        used = Counter(b.stock for b in boards)
        exchanged = []
        for board in boards:
            kept = board
            area = self.problem.stock[board.stock].area_m2
            smaller = sorted(
                (
                    s
                    for s, x in enumerate(self.problem.stock)
                    if board.area <= x.area_m2 < area - _EPS
                    and (x.quantity is None or used[s] < x.quantity)
                ),
                key=lambda s: self.problem.stock[s].area_m2,
            )
            for s in smaller[:_TRIED]:
                again = self._all_in(board, s)
                if again:
                    used.subtract([board.stock])
                    used.update([s])
                    kept = again
                    break
            exchanged.append(kept)
        return exchanged, left

    def _all_in(self, board: FilledBoard, stock: int) -> FilledBoard | None:
        """The blanks of a board in one of another size, cut either way; None where they fail."""
        key = (board.key, stock)
        if key not in self.moved:
            ways = (board.rip_first, not board.rip_first)
            tried = (self.cut_again(board, stock, rip_first) for rip_first in ways)
            self.moved[key] = next((again for again in tried if again), None)
        return self.moved[key]

    def cut_again(self, board: FilledBoard, stock: int, rip_first: bool) -> FilledBoard | None:
        """The blanks of a board in one of a size and first cut, None where not all fit."""
        counts = board.counts
        value = {i: self.problem.areas[i] for i in counts}
        again = self.problem.filled(stock, rip_first, value, counts, self.rng, 0.0, self.work)
        return again if len(again.kinds) == len(board.kinds) else None
