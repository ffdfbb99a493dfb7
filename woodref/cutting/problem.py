"""What a search works on: blanks and boards in whole steps, and boards filled with blanks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property
from math import inf
from typing import Any, NamedTuple

from woodref.cutting.fill import Band, Room, best_bands, fill
from woodref.cutting.grid import lengths_and_widths
from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.third_cut import best_bands_thrice, fill_thrice
from woodref.cutting.work import Work


class FilledBoard(NamedTuple):
    """A board filled with copies of blanks, by kind, in bands; ``area`` of the blanks [m2]."""

    stock: int
    rip_first: bool
    bands: tuple[Band, ...]
    area: float

    @property
    def kinds(self) -> list[int]:
        """Every blank of the board, by kind."""
        return [i for band in self.bands for piece in band for i in piece]

    @property
    def counts(self) -> Counter[int]:
        """How many blanks of each kind it holds."""
        return Counter(self.kinds)

    @property
    def key(self) -> tuple[int, bool, tuple[int, ...]]:
        """The same for boards that hold the same, however it lies."""
        return self.stock, self.rip_first, tuple(sorted(self.kinds))


#: Boards, and the blanks they leave.
Plan = tuple[list[FilledBoard], Counter[int]]


class Problem:
    """Blanks to cut from boards. Parameters as woodref.cutting.pack.pack."""

    def __init__(
        self,
        blanks: Sequence[Blank],
        stock: Sequence[StockBoard],
        kerf_mm: float,
        aim: str,
        third_cut: bool,
    ) -> None:
        self.blanks, self.stock, self.kerf_mm = tuple(blanks), tuple(stock), kerf_mm
        self.aim, self.third_cut = aim, third_cut
        self.areas = [b.area_m2 for b in blanks]
        self.too_large: tuple[int, ...] = tuple(range(len(blanks)))
        if stock:
            self.lengths, self.widths = lengths_and_widths(blanks, stock, kerf_mm)
            self.too_large = tuple(
                i
                for i in range(len(blanks))
                if not any(self._fits(i, s) for s in range(len(stock)))
            )

    def _fits(self, blank: int, stock: int) -> bool:
        return (
            self.lengths.blanks[blank] <= self.lengths.boards[stock]
            and self.widths.blanks[blank] <= self.widths.boards[stock]
        )

    @property
    def wanted(self) -> Counter[int]:
        """Blanks to cut by kind, those left out that fit no board."""
        return Counter(
            {
                i: b.quantity
                for i, b in enumerate(self.blanks)
                if b.quantity and i not in self.too_large
            }
        )

    @cached_property
    def costs(self) -> list[float]:
        """What a board of each size costs by the aim: 1, or its face [m2]."""
        return [1.0 if self.aim == "boards" else s.area_m2 for s in self.stock]

    @cached_property
    def available(self) -> list[float]:
        """How many boards of each size there are."""
        return [inf if s.quantity is None else float(s.quantity) for s in self.stock]

    @cached_property
    def all_boards(self) -> float:
        """What all the boards together cost by the aim."""
        pairs = zip(self.available, self.costs, strict=True)
        return sum(n * cost for n, cost in pairs if n)

    @cached_property
    def first_cuts(self) -> tuple[bool, ...]:
        """The first cuts that differ: not across bands that hold a single blank each."""
        kept = [i for i in range(len(self.blanks)) if i not in self.too_large]
        if kept and not self.third_cut:
            if 2 * min(self.widths.blanks[i] for i in kept) > max(self.widths.boards):
                return (True,)
            if 2 * min(self.lengths.blanks[i] for i in kept) > max(self.lengths.boards):
                return (False,)
        return (False, True)

    def room(self, stock: int, rip_first: bool, loose: bool = False) -> Room:
        """A board seen along its bands; loose for a bound, where steps are not exact."""
        lengths, widths = self._loose if loose else (self.lengths, self.widths)
        across, along = (widths, lengths) if rip_first else (lengths, widths)
        return Room(across.blanks, along.blanks, across.boards[stock], along.boards[stock])

    @cached_property
    def _loose(self) -> Any:
        return lengths_and_widths(self.blanks, self.stock, self.kerf_mm, loose=True)

    @property
    def exact(self) -> bool:
        """True where the steps are exact in both directions."""
        return self.lengths.exact and self.widths.exact

    def board(self, stock: int, rip_first: bool, bands: Sequence[Band]) -> FilledBoard:
        """A board with its bands, what lies in them sorted."""
        kept = tuple(tuple(sorted(tuple(sorted(piece)) for piece in band)) for band in bands)
        area = sum(self.areas[i] for band in kept for piece in band for i in piece)
        return FilledBoard(stock, rip_first, kept, area)

    def filled(
        self,
        stock: int,
        rip_first: bool,
        value: Mapping[int, float],
        counts: Mapping[int, int],
        rng: Any,
        noise: float,
        work: Work,
    ) -> FilledBoard:
        """A board filled with the most valuable blanks, none more often than there are."""
        cut = fill_thrice if self.third_cut else fill
        bands = cut(self.room(stock, rip_first), value, counts, rng, noise, work)
        return self.board(stock, rip_first, bands)

    def best(
        self,
        stock: int,
        rip_first: bool,
        value: Mapping[int, float],
        counts: Mapping[int, int],
        work: Work,
        loose: bool = False,
    ) -> tuple[float, FilledBoard]:
        """What no filling is worth more than, inf where that is not known; and a good filling."""
        room = self.room(stock, rip_first, loose)
        cut = best_bands_thrice if self.third_cut else best_bands
        worth, bands = cut(room, value, counts, work)
        return worth, self.board(stock, rip_first, bands)

    def without_extra(self, board: FilledBoard, left: Mapping[int, int]) -> FilledBoard:
        """The board without blanks that no one needs any more."""
        still = Counter(left)
        bands = []
        for band in board.bands:
            pieces = []
            for piece in band:
                kept = []
                for i in piece:
                    if still[i] > 0:
                        still[i] -= 1
                        kept.append(i)
                if kept:
                    pieces.append(tuple(kept))
            if pieces:
                bands.append(tuple(pieces))
        return self.board(board.stock, board.rip_first, bands)
