"""The search for a cutting plan: fill, empty and fill again, choose among all boards filled."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Callable, Sequence
from math import ceil
from time import monotonic
from typing import Any

import numpy as np

from woodref.cutting.board_selection import FilledBoard, best_set
from woodref.cutting.fill import fill
from woodref.cutting.grid import lengths_and_widths
from woodref.cutting.lower_bound import bound_of
from woodref.cutting.model import Blank, CutBoard, CutPlan, Progress, StockBoard, Strip

#: Board sizes tried for one board of a plan, of those in stock.
_SIZES_TRIED = 5
#: Rounds of emptying and filling between two choices by the solver, and without a better plan
#: for each blank, at most: a short list is done long before its time is up.
_ROUNDS_PER_CHOICE = 60
_STALE_ROUNDS_PER_BLANK, _STALE_ROUNDS = 15, 480
#: Fresh starts, of which the best is improved.
_STARTS = 6
#: Tries for one board, and how much more than by its face a large blank may count.
_TRIES = 3
_BIAS = (0.0, 0.05, 0.2)
#: Blanks offered to one board: more of them take long and fill it no better.
_OFFERED = 120
#: Share of the time after which the first plan is made greedily, and blanks offered then.
_FIRST_SHARE, _OFFERED_WHEN_GREEDY = 0.25, 40
#: Boards kept for the solver to choose among, and its time for one choice [s].
_POOL = 6000
_CHOICE_SECONDS = 2.0
_EPS = 1e-9


_Plan = tuple[list[FilledBoard], Counter[int]]


class Search:
    """One search; run() makes the plan. Parameters as woodref.cutting.pack.pack."""

    def __init__(
        self,
        blanks: Sequence[Blank],
        stock: Sequence[StockBoard],
        kerf_mm: float,
        aim: str,
        seed: int,
        deadline: float,
        report: Callable[[Progress], None] | None,
    ) -> None:
        self.blanks, self.stock = tuple(blanks), tuple(stock)
        self.kerf_mm, self.aim, self.report = kerf_mm, aim, report
        self.begin, self.deadline = monotonic(), deadline
        #: From then on the first plan is made greedily.
        self.greedy_from = self.begin + _FIRST_SHARE * (deadline - self.begin)
        self.rng: Any = np.random.default_rng(seed)
        self.weights = np.ones(len(blanks))
        self.areas = [b.area_m2 for b in blanks]
        self.pool: dict[tuple[int, bool, tuple[int, ...]], FilledBoard] = {}
        self.bound_boards, self.bound_m2 = 0, 0.0
        self.short = self.interrupted = False
        self.best: _Plan | None = None
        if not stock:
            self.too_large = tuple(range(len(blanks)))
            return
        self.lengths, self.widths = lengths_and_widths(blanks, stock, kerf_mm)
        self.too_large = tuple(
            i for i in range(len(blanks)) if not any(self._fits(i, s) for s in range(len(stock)))
        )

    def _fits(self, blank: int, stock: int) -> bool:
        return (
            self.lengths.blanks[blank] <= self.lengths.boards[stock]
            and self.widths.blanks[blank] <= self.widths.boards[stock]
        )

    def run(self) -> CutPlan:
        """The best plan within the time, or until it is proven or the search is interrupted."""
        wanted = Counter(
            {i: b.quantity for i, b in enumerate(self.blanks) if i not in self.too_large}
        )
        try:
            if wanted:
                self._search(wanted)
        except KeyboardInterrupt:
            self.interrupted = True
            if self.best is None:
                self._keep(self._fill_boards(wanted, [s.quantity for s in self.stock], 0.0))
        return self._result(wanted)

    def _search(self, wanted: Counter[int]) -> None:
        free = [s.quantity for s in self.stock]
        self._keep(self._fill_boards(wanted, free, 0.0))
        self._find_bound(wanted)
        for _ in range(_STARTS):
            if self._over():
                return
            self._keep(self._fill_boards(wanted, free, 0.06))
        current, seen, fresh = self.best, self.best, 0
        patience = min(_STALE_ROUNDS, _STALE_ROUNDS_PER_BLANK * sum(wanted.values()))
        for count in itertools.count():
            if self.best is not seen:
                seen, fresh = self.best, count
            stale = count - fresh >= patience
            if stale or self._over() or current is None or not current[0]:
                return
            changed = self._refilled(current)
            self._keep(changed)
            if self._measure(changed) <= self._measure(current):
                current = changed
            if count % _ROUNDS_PER_CHOICE == _ROUNDS_PER_CHOICE - 1:
                chosen = self._choose(wanted)
                if chosen is not None:
                    self._keep(chosen)
                    current = chosen if self._measure(chosen) < self._measure(current) else current

    def _over(self) -> bool:
        """True where time is up or the plan is proven; tells the progress."""
        plan, left = self.best or ([], Counter())
        if self.report:
            gone = monotonic() - self.begin
            self.report(Progress(gone, len(plan), self.bound_boards, sum(left.values())))
        if monotonic() >= self.deadline:
            return True
        if sum(left.values()) or self.best is None:
            return False
        if self.aim == "boards":
            return len(plan) <= self.bound_boards
        wood = sum(self.stock[b.stock].area_m2 for b in plan)
        return wood <= self.bound_m2 * (1.0 + 1e-6)

    def _find_bound(self, wanted: Counter[int]) -> None:
        kept = sorted(wanted)
        blanks = [self.blanks[i] for i in kept]
        # A part of the time at most; the faces alone give a bound as well.
        until = monotonic() + (self.deadline - monotonic()) / 6.0

        def late() -> bool:
            return monotonic() >= until

        ones = [1.0] * len(self.stock)
        boards = bound_of(blanks, self.stock, self.kerf_mm, ones, late)
        quantities = [s.quantity for s in self.stock]
        whole = None if None in quantities else sum(q or 0 for q in quantities)
        self.short = whole is not None and boards > whole + 1e-6
        if self.short:
            return
        self.bound_boards = ceil(boards - 1e-6)
        if len({s.area_m2 for s in self.stock}) == 1:
            self.bound_m2 = self.bound_boards * self.stock[0].area_m2
        else:
            areas = [s.area_m2 for s in self.stock]
            self.bound_m2 = bound_of(blanks, self.stock, self.kerf_mm, areas, late)

    def _measure(self, plan: _Plan) -> tuple[float, float, float]:
        """What a plan costs, smaller is better: blanks left, boards or wood, then evenness.

        Of two equal plans the one is better whose boards are filled less evenly: its worst
        board is nearer to being spared.
        """
        boards, left = plan
        missing = sum(n * self.areas[i] for i, n in left.items())
        wood = sum(self.stock[b.stock].area_m2 for b in boards)
        cost = float(len(boards)) if self.aim == "boards" else wood
        return round(missing, 9), round(cost, 9), -sum(b.area**2 for b in boards)

    def _keep(self, plan: _Plan) -> None:
        boards, left = self._smaller_boards(plan)
        for board in boards:
            key = (board.stock, board.rip_first, tuple(sorted(board.kinds)))
            if len(self.pool) < _POOL:
                self.pool.setdefault(key, board)
            fullness = board.area / self.stock[board.stock].area_m2
            for i in set(board.kinds):
                # Blanks that end in badly filled boards are worth more in the next filling.
                self.weights[i] += 0.15 * (min(2.0, 1.0 / max(fullness, 0.5)) - self.weights[i])
        fresh = (boards, left)
        if self.best is None or self._rank(fresh) < self._rank(self.best):
            self.best = fresh

    def _rank(self, plan: _Plan) -> tuple[float, float, float]:
        missing, cost, _ = self._measure(plan)
        wood = sum(self.stock[b.stock].area_m2 for b in plan[0])
        return missing, cost, wood if self.aim == "boards" else float(len(plan[0]))

    def _fill_boards(self, wanted: Counter[int], free: Sequence[int | None], noise: float) -> _Plan:
        """Boards filled one after the other, each the best of several tries."""
        left, boards, available = Counter(wanted), [], list(free)
        while +left:
            if self.best is not None and monotonic() >= self.deadline:
                break  # unfinished, and so no better than the plan there is
            board = self._next_board(+left, available, noise)
            if board is None:
                break
            boards.append(board)
            left.subtract(board.kinds)
            count = available[board.stock]
            if count is not None:
                available[board.stock] = count - 1
        return boards, +left

    def _next_board(
        self, left: Counter[int], available: Sequence[int | None], noise: float
    ) -> FilledBoard | None:
        sizes = [s for s, n in enumerate(available) if n is None or n > 0]
        if not sizes:
            return None
        if len(sizes) > _SIZES_TRIED:
            by_area = sorted(sizes, key=lambda s: -self.stock[s].area_m2)
            first = by_area[:2] if self.aim == "boards" else []
            others = [s for s in sizes if s not in first]
            more = self.rng.choice(others, _SIZES_TRIED - len(first), replace=False)
            sizes = [*first, *(int(s) for s in more)]
        fullest: FilledBoard | None = None
        best = 0.0
        items = self._offered(left)
        bias = float(self.rng.choice(_BIAS)) if noise else 0.0
        plain = np.array([self.areas[i] ** (1.0 + bias) * self.weights[i] for i in items])
        for _ in range(_TRIES if noise else 1):
            values = (plain * (1.0 + noise * (self.rng.random(len(items)) - 0.5))).tolist()
            for s in sizes[:1] if self._greedy() else sizes:
                for rip_first in (False, True):
                    board, taken = self._filled(items, values, s, rip_first, noise)
                    score = float(plain[taken].sum())
                    if self.aim == "wood":
                        score /= self.stock[s].area_m2
                    if board.area > 0.0 and score > best + _EPS:
                        fullest, best = board, score
        return fullest

    def _greedy(self) -> bool:
        return self.best is None and monotonic() >= self.greedy_from

    def _offered(self, left: Counter[int]) -> list[int]:
        """Blanks to choose from for one board: all, or of very many a sample, large ones first."""
        items = list(left.elements())
        most = _OFFERED_WHEN_GREEDY if self._greedy() else _OFFERED
        if len(items) <= most:
            return items
        share = np.array([self.areas[i] * self.weights[i] for i in items])
        kept = self.rng.choice(len(items), most, replace=False, p=share / share.sum())
        return [items[k] for k in sorted(kept.tolist())]

    def _filled(
        self, items: list[int], values: list[float], stock: int, rip_first: bool, noise: float
    ) -> tuple[FilledBoard, list[int]]:
        lengths = [self.lengths.blanks[i] for i in items]
        widths = [self.widths.blanks[i] for i in items]
        length, width = self.lengths.boards[stock], self.widths.boards[stock]
        sides = (widths, lengths) if rip_first else (lengths, widths)
        room = (width, length) if rip_first else (length, width)
        filled = fill(*sides, values, *room, self.rng, noise)
        strips = tuple(tuple(sorted(items[k] for k in strip)) for strip in filled)
        area = sum(self.areas[i] for strip in strips for i in strip)
        return FilledBoard(stock, rip_first, strips, area), [k for strip in filled for k in strip]

    def _refilled(self, plan: _Plan) -> _Plan:
        """The plan with a few boards emptied, the worst filled most likely, and filled again."""
        boards, left = plan
        emptied = min(len(boards), int(self.rng.integers(2, 6)))
        waste = np.array([1.02 - b.area / self.stock[b.stock].area_m2 for b in boards])
        gone = set(
            self.rng.choice(len(boards), emptied, replace=False, p=waste / waste.sum()).tolist()
        )
        kept = [b for k, b in enumerate(boards) if k not in gone]
        loose = Counter(left)
        for k in gone:
            loose.update(boards[k].kinds)
        used = Counter(b.stock for b in kept)
        available = [
            None if s.quantity is None else s.quantity - used[j] for j, s in enumerate(self.stock)
        ]
        again, still = self._fill_boards(loose, available, float(self.rng.choice((0.02, 0.1, 0.3))))
        return [*kept, *again], still

    def _smaller_boards(self, plan: _Plan) -> _Plan:
        """The plan with each board exchanged for the smallest free one that holds the same."""
        boards, left = plan
        used = Counter(b.stock for b in boards)
        exchanged = []
        for board in boards:
            if monotonic() >= self.deadline:
                exchanged.append(board)
                continue
            kept = board
            area = self.stock[board.stock].area_m2
            smaller = sorted(
                (
                    s
                    for s, x in enumerate(self.stock)
                    if board.area <= x.area_m2 < area - _EPS
                    and (x.quantity is None or used[s] < x.quantity)
                ),
                key=lambda s: self.stock[s].area_m2,
            )
            for s in smaller[:8]:
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
        for rip_first in (board.rip_first, not board.rip_first):
            again = self._cut_again(board, stock, rip_first)
            if again:
                return again
        return None

    def _cut_again(self, board: FilledBoard, stock: int, rip_first: bool) -> FilledBoard | None:
        items = board.kinds
        again, _ = self._filled(items, [self.areas[i] for i in items], stock, rip_first, 0.0)
        return again if len(again.kinds) == len(items) else None

    def _choose(self, wanted: Counter[int]) -> _Plan | None:
        """The best set of boards among all ever filled, by the solver; None without one."""
        seconds = min(_CHOICE_SECONDS, self.deadline - monotonic())
        if seconds <= 0.05:
            return None
        pool = list(self.pool.values())
        return best_set(pool, wanted, self.stock, self.areas, self.aim, seconds)

    def _result(self, wanted: Counter[int]) -> CutPlan:
        boards, left = self.best or ([], wanted)
        left = Counter(left)
        for i in self.too_large:
            left[i] = self.blanks[i].quantity
        # Crosscutting first is the easier way in a shop; ripping first is kept where it wins.
        plain = [self._cut_again(b, b.stock, False) or b if b.rip_first else b for b in boards]
        cut = [self._laid_out(b) for b in sorted(plain, key=self._order)]
        return CutPlan(
            self.blanks,
            self.stock,
            self.kerf_mm,
            tuple(cut),
            tuple(left[i] for i in range(len(self.blanks))),
            self.too_large,
            self.bound_boards,
            self.bound_m2,
            self.aim,
            self.short,
            self.interrupted,
        )

    def _order(self, board: FilledBoard) -> tuple[int, float]:
        return board.stock, -board.area

    def _laid_out(self, board: FilledBoard) -> CutBoard:
        """The bands with their places, the largest first, the longest blank first."""
        size = {
            True: [b.width_mm for b in self.blanks],
            False: [b.length_mm for b in self.blanks],
        }
        across, along = size[board.rip_first], size[not board.rip_first]
        strips, start = [], 0.0
        for strip in sorted(board.strips, key=lambda b: -max(across[i] for i in b)):
            most = max(across[i] for i in strip)
            order = tuple(sorted(strip, key=lambda i: (-along[i], i)))
            strips.append(Strip(start, most, order))
            start += most + self.kerf_mm
        return CutBoard(board.stock, board.rip_first, tuple(strips))
