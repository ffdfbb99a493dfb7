"""Parts cut from the boards in hand: the thinnest boards that do, then thicker ones."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from woodref.errors import InputError
from woodref.lumber.cut_list import CutPart
from woodref.lumber.lots import GLUE_UP, Left, LotPlan, Shop, Size, why_left
from woodref.lumber.nominal import SAME_MM, Nominal
from woodref.lumber.tally import Board
from woodref.record import record
from woodref.reference.woods import Wood


class WrittenBoard(NamedTuple):
    """Boards on hand of one size, and where they are written: a file, or an option."""

    board: Board
    place: str


def with_woods(
    boards: Sequence[WrittenBoard], woods: Mapping[str, Wood], find: Callable[[str], Wood]
) -> list[tuple[Wood, Board]]:
    """Boards on hand with their woods; one that names none is of the wood of all parts.

    Parameters: boards; woods of the parts by the names used for them; find, the wood of
    another name.
    Raises: InputError, with the place of the board, where it names no wood and the parts are
    not of one, or its wood is not known.
    """
    of_parts = {w.species_id: w for w in woods.values()}
    known = dict(woods)
    joined = []
    for board, place in boards:
        if not board.species:
            if len(of_parts) != 1:
                of = "the parts are of several" if of_parts else "no part is of solid wood"
                raise InputError(f"{place}: a board names no wood, and {of}")
            joined.append((next(iter(of_parts.values())), board))
            continue
        if board.species not in known:
            try:
                known[board.species] = find(board.species)
            except InputError as error:
                raise InputError(f"{place}: {error}") from None
        joined.append((known[board.species], board))
    return joined


@record
class Uncut:
    """Blanks of a part that no board was there for, and why."""

    part: CutPart
    quantity: int
    reason: str

    @property
    def parts_short(self) -> int:
        """Whole parts that miss at least one stave."""
        return -(-self.quantity // self.part.staves)


class StockOnHand:
    """Parts of one wood cut from the boards in hand of it, the thinnest boards first."""

    def __init__(self, shop: Shop, wood: Wood, parts: Sequence[CutPart], boards: Sequence[Board]):
        self.shop, self.wood, self.parts = shop, wood, parts
        self.boards = boards
        self.used: Counter[int] = Counter()
        self.lots: list[LotPlan] = []
        self.left = {p.name: p.pieces for p in parts}
        self.why: dict[str, Left] = {}
        self.thicknesses: list[list[int]] = []
        trims = 2.0 * shop.allowances.end_trim_mm
        for k in sorted(range(len(boards)), key=lambda k: boards[k].thickness_mm):
            if boards[k].length_mm <= trims:
                continue
            last = self.thicknesses[-1] if self.thicknesses else []
            if last and boards[k].thickness_mm - boards[last[0]].thickness_mm < SAME_MM:
                last.append(k)
            else:
                self.thicknesses.append([k])

    def cut(self) -> None:
        """Make the plans; what a thickness does not give is tried in the next one."""
        for group in self.thicknesses:
            first = self.boards[group[0]]
            nominal = Nominal(first.thickness, first.thickness_mm)
            fresh: list[CutPart] = []
            again: list[CutPart] = []
            for part in self.parts:
                if self.left[part.name] and self._suits(part, nominal):
                    (again if part.name in self.why else fresh).append(part)
            if fresh:
                self._cut(nominal, group, fresh, again)
            elif again:
                self._take(self._plan(nominal, group, again), group)

    def _suits(self, part: CutPart, nominal: Nominal) -> bool:
        if part.stock:
            return abs(part.stock.size_mm - nominal.size_mm) < SAME_MM
        return not (self.shop.too_thin(part, nominal) or self.shop.too_thick(part, nominal))

    def _cut(
        self, nominal: Nominal, group: list[int], fresh: list[CutPart], again: list[CutPart]
    ) -> None:
        """Parts that no thinner boards suit come first, those left from thinner ones second."""
        alone = self._plan(nominal, group, fresh)
        if again:
            both = self._plan(nominal, group, [*fresh, *again])
            if all(both.left[name] <= left for name, left in alone.left.items()):
                self._take(both, group)
                return
        self._take(alone, group)
        if again:
            self._take(self._plan(nominal, group, again), group)

    def _plan(self, nominal: Nominal, group: list[int], parts: list[CutPart]) -> LotPlan:
        offered = [
            Size(b.width_mm, b.length_mm, b.width_mm, b.quantity - self.used[k])
            for k in group
            for b in [self.boards[k]]
        ]
        return self.shop.plan(self.wood, nominal, parts, self.left, offered, bought=False)

    def _take(self, lot: LotPlan, group: list[int]) -> None:
        """Take a plan over: its boards are used, what it leaves is left."""
        if lot.plan.boards:
            self.lots.append(lot)
        self.used.update(group[b.stock] for b in lot.plan.boards)
        self.left.update(lot.left)
        for i, part in enumerate(lot.parts):
            if lot.plan.left[i]:
                self.why[part.name] = why_left(lot, i)

    def uncut(self) -> list[Uncut]:
        """What stays uncut, and why."""
        return [
            Uncut(p, self.left[p.name], self._reason(p)) for p in self.parts if self.left[p.name]
        ]

    def _reason(self, part: CutPart) -> str:
        """Why blanks of a part stay uncut, in words."""
        left = self.why.get(part.name)
        if left is None:
            return self._no_boards(part)
        words = left.words(self.shop.units)
        return f"{words}; {GLUE_UP}" if left.glue_up else words

    def _no_boards(self, part: CutPart) -> str:
        """Why no board in hand was even tried for a part."""
        wood = self.wood.common_name
        known = [self.boards[group[0]] for group in self.thicknesses]
        if not known:
            return f"no {wood} in hand"
        if part.stock:
            return f"no {part.stock.label} {wood} in hand"
        thickest = Nominal(known[-1].thickness, known[-1].thickness_mm)
        short = self.shop.too_thin(part, thickest)
        if short is None:
            return f"only thicker {wood} in hand, which is better resawn than planed so far"
        return f"{short.words(self.shop.units)}, and no {wood} in hand is thicker"

    def left_over(self) -> list[tuple[Wood, Board]]:
        """Boards that stay whole."""
        return [
            (self.wood, b._replace(quantity=b.quantity - self.used[k]))
            for k, b in enumerate(self.boards)
            if b.quantity > self.used[k]
        ]
