"""The search for a cutting plan: fill, price and fill, choose among all boards, fill again."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import ceil
from time import monotonic
from typing import Any, TypeVar

import numpy as np

from woodref.cutting.board_selection import best_set
from woodref.cutting.columns import relaxed, rounded
from woodref.cutting.exchange import Exchange
from woodref.cutting.layout import laid_out
from woodref.cutting.lower_bound import bound_of, face_bound, next_sum
from woodref.cutting.model import CutPlan, Progress
from woodref.cutting.problem import FilledBoard, Plan, Problem
from woodref.cutting.work import Effort, Work

#: Board sizes tried for one board of a plan, of those in stock.
_SIZES_TRIED = 5
#: Rounds of emptying and filling between two choices by the solver, and without a better plan
#: for each blank, at most: a short list is done long before its steps are.
_ROUNDS_PER_CHOICE = 60
_STALE_ROUNDS_PER_BLANK = 15
#: Fresh starts, of which the best is improved.
_STARTS = 6
#: Share of the steps that fresh starts may take.
_FOR_STARTS = 0.1
#: Tries for one board, and how much more than by its face a large blank may count.
_TRIES = 3
_BIAS = (0.0, 0.05, 0.2)
#: Kinds of blanks offered to one board: more of them take long and fill it no better.
_OFFERED, _OFFERED_OF_MANY = 120, 40
#: Of a list of more kinds than this not all sizes and first cuts are tried for each board.
_FEW, _WAYS = 30, 3
#: Kinds of which so many are there that a first plan offers fewer of them, and the linear
#: program is left out.
_MANY = 400
#: A filling that can be repeated more often than this is.
_REPEATED = 3
#: Boards kept for the solver to choose among.
_POOL = 4000
#: Wood above the bound that is not worth a longer search, as a share.
_NEAR = 1e-3
#: Steps that a board of a plan counts where the plan is looked over.
_LOOK = 20_000
_EPS = 1e-9
_Done = TypeVar("_Done")


def _order(board: FilledBoard) -> tuple[int, float]:
    return board.stock, -board.area


class Search:
    """One search; run() makes the plan."""

    def __init__(
        self,
        problem: Problem,
        seed: int,
        effort: Effort,
        report: Callable[[Progress], None] | None,
    ) -> None:
        self.problem, self.effort, self.report = problem, effort, report
        self.blanks, self.stock, self.areas = problem.blanks, problem.stock, problem.areas
        self.begin = monotonic()
        self.work = Work(effort.steps, self._tell)
        self.rng: Any = np.random.default_rng(seed)
        self.weights = np.ones(len(self.blanks))
        self.pool: dict[Any, FilledBoard] = {}
        self.exchange = Exchange(problem, self.rng, self.work)
        self.bound_boards, self.bound_m2 = 0, 0.0
        self.short = self.interrupted = False
        self.best: Plan | None = None

    def run(self) -> CutPlan:
        """The best plan within the steps, or until it is proven or the search is interrupted."""
        wanted = self.problem.wanted
        try:
            if wanted:
                self._search(wanted)
        except KeyboardInterrupt:
            self.interrupted = True
            if self.best is None:
                free = [s.quantity for s in self.stock]
                self._keep(self._fill_boards(wanted, free, 0.0))
        return self._result(wanted)

    def _search(self, wanted: Counter[int]) -> None:
        free = [s.quantity for s in self.stock]
        self._keep(self._fill_boards(wanted, free, 0.0))
        if not self.pool:  # no board that is there holds a blank
            return
        self._raise_bound(face_bound(self.problem, wanted))
        one = _TRIES * (self.work.steps - self.work.left)
        for _ in range(min(_STARTS, int(_FOR_STARTS * self.work.steps / one))):
            if self._over():
                return
            self._keep(self._fill_boards(wanted, free, 0.06))
        if self._over():
            return
        self._price(wanted)
        if not self._over():
            self._choose(wanted)
        self._refill(wanted)

    def _price(self, wanted: Counter[int]) -> None:
        """Bounds, and the plans that the linear program leads to."""
        problem = self.problem
        if len(wanted) > _MANY:
            return
        pool = list(self.pool.values())
        if problem.third_cut:
            # The program of three cuts is a long one; the bound of any layout is soon there.
            self._raise_bound(self._shared(4, partial(bound_of, problem, wanted)))
            if self._over():
                return
        first = self._shared(3, partial(relaxed, problem, wanted, problem.available, pool))
        self._raise_bound(first.bound)
        if not first.settled and not problem.third_cut and not self._over():
            self._raise_bound(self._shared(4, partial(bound_of, problem, wanted)))
        if self._over() or not first.boards:
            return
        boards, left, made = self._shared(2, partial(rounded, problem, wanted, first))
        for board in made:
            self._pool(board)
        if left:
            used = Counter(b.stock for b in boards)
            more, left = self._fill_boards(left, self._free_beside(used), 0.0)
            boards = [*boards, *more]
        self._keep((boards, left))

    def _shared(self, part: int, done: Callable[[Work], _Done]) -> _Done:
        """What is done with a part of the steps that are left, of so many parts."""
        share = Work(self.work.left // part, self._tell)
        answer = done(share)
        self.work.spend(share.steps - share.left)
        return answer

    def _refill(self, wanted: Counter[int]) -> None:
        """Empty a few boards and fill them again, while that leads to better plans."""
        current, seen, fresh = self.best, self.best, 0
        patience = min(self.effort.stale_rounds, _STALE_ROUNDS_PER_BLANK * sum(wanted.values()))
        for count in itertools.count():
            if self.best is not seen:
                seen, fresh = self.best, count
            if current is None or not current[0] or count - fresh >= patience or self._over():
                return
            changed = self._refilled(current)
            self._keep(changed)
            if self._measure(changed) <= self._measure(current):
                current = changed
            if count % _ROUNDS_PER_CHOICE == _ROUNDS_PER_CHOICE - 1:
                chosen = self._choose(wanted)
                if chosen is not None:
                    current = chosen if self._measure(chosen) < self._measure(current) else current

    def _tell(self) -> None:
        if self.report:
            plan, left = self.best or ([], Counter())
            gone = monotonic() - self.begin
            self.report(Progress(gone, len(plan), self.bound_boards, sum(left.values())))

    def _over(self) -> bool:
        """True where no steps are left or no better plan is worth it; tells the progress."""
        self._tell()
        if self.work.over:
            return True
        plan, left = self.best or ([], Counter())
        if sum(left.values()) or self.best is None:
            return False
        if self.problem.aim == "boards":
            return len(plan) <= self.bound_boards
        wood = sum(self.stock[b.stock].area_m2 for b in plan)
        return wood <= self.bound_m2 * (1.0 + _NEAR)

    def _raise_bound(self, cost: float) -> None:
        """Take over a bound of the costs where it is a better one."""
        areas = [s.area_m2 for s in self.stock if s.quantity != 0]
        if not areas:
            return
        if cost > self.problem.all_boards + 1e-6:
            self.short = True
            return
        if self.problem.aim == "boards":
            self.bound_boards = max(self.bound_boards, ceil(cost - 1e-6))
            self.bound_m2 = max(self.bound_m2, self.bound_boards * min(areas))
            return
        cost = next_sum(areas, cost)
        self.bound_m2 = max(self.bound_m2, cost)
        self.bound_boards = max(self.bound_boards, ceil(cost / max(areas) - 1e-6))

    def _measure(self, plan: Plan) -> tuple[float, float, float]:
        """What a plan costs, smaller is better: blanks left, boards or wood, then evenness.

        Of two equal plans the one is better whose boards are filled less evenly: its worst
        board is nearer to being spared.
        """
        boards, left = plan
        missing = sum(n * self.areas[i] for i, n in left.items())
        wood = sum(self.stock[b.stock].area_m2 for b in boards)
        cost = float(len(boards)) if self.problem.aim == "boards" else wood
        return round(missing, 9), round(cost, 9), -sum(b.area**2 for b in boards)

    def _pool(self, board: FilledBoard) -> None:
        if len(self.pool) < _POOL:
            self.pool.setdefault(board.key, board)

    def _keep(self, plan: Plan) -> None:
        self.work.spend(_LOOK * len(plan[0]))
        boards, left = self.exchange.smaller(plan)
        for board in boards:
            self._pool(board)
            fullness = board.area / self.stock[board.stock].area_m2
            for i in set(board.kinds):
                # Blanks that end in badly filled boards are worth more in the next filling.
                self.weights[i] += 0.15 * (min(2.0, 1.0 / max(fullness, 0.5)) - self.weights[i])
        fresh = (boards, left)
        if self.best is None or self._rank(fresh) < self._rank(self.best):
            self.best = fresh

    def _rank(self, plan: Plan) -> tuple[float, float, float]:
        missing, cost, _ = self._measure(plan)
        wood = sum(self.stock[b.stock].area_m2 for b in plan[0])
        return missing, cost, wood if self.problem.aim == "boards" else float(len(plan[0]))

    def _fill_boards(self, wanted: Counter[int], free: Sequence[int | None], noise: float) -> Plan:
        """Boards filled one after the other, each the best of several tries."""
        left, boards, available = Counter(wanted), [], list(free)
        scores: dict[tuple[int, bool], float] = {}
        while +left:
            if self.best is not None and self.work.over:
                break  # unfinished, and so no better than the plan there is
            board = self._next_board(+left, available, noise, scores)
            if board is None:
                break
            times = min(left[i] // n for i, n in board.counts.items())
            times = times if times > _REPEATED or not noise else 1
            count = available[board.stock]
            if count is not None:
                times = min(times, count)
                available[board.stock] = count - times
            boards += [board] * times
            left.subtract({i: n * times for i, n in board.counts.items()})
        return boards, +left

    def _next_board(
        self,
        left: Counter[int],
        available: Sequence[int | None],
        noise: float,
        scores: dict[tuple[int, bool], float],
    ) -> FilledBoard | None:
        """The best of several fillings; ``scores`` of the ways to cut, kept from board to board."""
        sizes = [s for s, n in enumerate(available) if n is None or n > 0]
        if not sizes:
            return None
        if len(sizes) > _SIZES_TRIED:
            by_area = sorted(sizes, key=lambda s: -self.stock[s].area_m2)
            first = by_area[:2] if self.problem.aim == "boards" else []
            others = [s for s in sizes if s not in first]
            more = self.rng.choice(others, _SIZES_TRIED - len(first), replace=False)
            sizes = [*first, *(int(s) for s in more)]
        fullest: FilledBoard | None = None
        best = 0.0
        kinds = self._offered(left)
        bias = float(self.rng.choice(_BIAS)) if noise else 0.0
        plain = {i: self.areas[i] ** (1.0 + bias) * float(self.weights[i]) for i in kinds}
        counts = {i: left[i] for i in kinds}
        for _ in range(_TRIES if noise else 1):
            shaken = 1.0 + noise * (self.rng.random(len(kinds)) - 0.5)
            value = {i: plain[i] * x for i, x in zip(kinds, shaken.tolist(), strict=True)}
            for s, rip_first in self._ways(sizes, scores, len(kinds)):
                board = self.problem.filled(s, rip_first, value, counts, self.rng, noise, self.work)
                score = sum(plain[i] for i in board.kinds)
                if self.problem.aim == "wood":
                    score /= self.stock[s].area_m2
                scores[s, rip_first] = score
                if board.area > 0.0 and score > best + _EPS:
                    fullest, best = board, score
        return fullest

    def _ways(
        self, sizes: Sequence[int], scores: Mapping[tuple[int, bool], float], kinds: int
    ) -> list[tuple[int, bool]]:
        """Sizes and first cuts to try: all, or of a long list the best of late and another."""
        ways = [(s, rip_first) for s in sizes for rip_first in self.problem.first_cuts]
        if kinds <= _FEW or len(ways) <= _WAYS or any(way not in scores for way in ways):
            return ways
        ranked = sorted(ways, key=lambda way: -scores[way])
        other = ranked[int(self.rng.integers(_WAYS - 1, len(ranked)))]
        return [*ranked[: _WAYS - 1], other]

    def _offered(self, left: Counter[int]) -> list[int]:
        """Kinds to choose from for one board: all, or of very many a sample, large ones first."""
        kinds = sorted(left)
        most = _OFFERED_OF_MANY if len(kinds) > _MANY else _OFFERED
        if len(kinds) <= most:
            return kinds
        share = np.array([self.areas[i] * self.weights[i] for i in kinds])
        kept = self.rng.choice(len(kinds), most, replace=False, p=share / share.sum())
        return [kinds[k] for k in sorted(kept.tolist())]

    def _free_beside(self, used: Counter[int]) -> list[int | None]:
        """Boards of each size that are free where some are used."""
        return [
            None if s.quantity is None else s.quantity - used[j] for j, s in enumerate(self.stock)
        ]

    def _refilled(self, plan: Plan) -> Plan:
        """The plan with a few boards emptied, the worst filled most likely, and filled again."""
        boards, left = plan
        emptied = min(len(boards), int(self.rng.integers(2, 6)))
        waste = np.array([1.02 - b.area / self.stock[b.stock].area_m2 for b in boards])
        waste = np.clip(waste, 0.02, None)
        gone = set(
            self.rng.choice(len(boards), emptied, replace=False, p=waste / waste.sum()).tolist()
        )
        kept = [b for k, b in enumerate(boards) if k not in gone]
        loose = Counter(left)
        for k in gone:
            loose.update(boards[k].kinds)
        used = Counter(b.stock for b in kept)
        noise = float(self.rng.choice((0.02, 0.1, 0.3)))
        again, still = self._fill_boards(loose, self._free_beside(used), noise)
        return [*kept, *again], still

    def _choose(self, wanted: Counter[int]) -> Plan | None:
        """The best set of boards among all ever filled, by the solver; None without one."""
        if len(wanted) > _MANY or self.work.over:
            return None
        known = len(self.best[0]) if self.best else 1
        chosen = best_set(self.problem, list(self.pool.values()), wanted, known, self.work)
        if chosen is not None:
            self._keep(chosen)
        return chosen

    def _result(self, wanted: Counter[int]) -> CutPlan:
        boards, left = self.best or ([], wanted)
        left = Counter(left)
        for i in self.problem.too_large:
            left[i] = self.blanks[i].quantity
        # Crosscutting first is the easier way in a shop; ripping first is kept where it wins.
        plain = {b.key: self.exchange.cut_again(b, b.stock, False) for b in boards if b.rip_first}
        shown = [plain.get(b.key) or b for b in boards]
        cut = [laid_out(self.problem, b) for b in sorted(shown, key=_order)]
        return CutPlan(
            self.blanks,
            self.stock,
            self.problem.kerf_mm,
            tuple(cut),
            tuple(left[i] for i in range(len(self.blanks))),
            self.problem.too_large,
            self.bound_boards,
            self.bound_m2,
            self.problem.aim,
            self.short,
            self.interrupted,
        )
