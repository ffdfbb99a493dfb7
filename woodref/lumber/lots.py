"""Parts of one wood cut from boards of one thickness: a plan, and why blanks stay uncut."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from woodref.cutting.model import Blank, CutPlan, Progress, StockBoard
from woodref.errors import InputError
from woodref.lumber.cut_list import CutPart
from woodref.lumber.multiples import Multiple, multiples_of
from woodref.lumber.nominal import SAME_MM, Nominal
from woodref.lumber.rough import Allowances, Shortfall, dressed_thickness, shortfall, size_words
from woodref.lumber.tally import Board
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.record import record
from woodref.reference.woods import Wood

#: Most that is planed off surfaced stock for a thinner part: 5/8 in (our assumption) [mm].
PLANED_AWAY_MM = 16.0


@record
class Size:
    """Boards of one size as sold [mm], the width that can be used of it, and how many."""

    width_mm: float
    length_mm: float
    used_width_mm: float
    quantity: int | None


@record
class LotPlan:
    """Parts of one wood cut from boards of one rough thickness, in hand or ``bought``.

    ``parts`` are those of the blanks of the plan, in their order: a part whose blanks are not
    all alike stands there more than once. ``sizes`` are width and length of the boards as sold
    [mm], in the order of the plan.
    """

    wood: Wood
    nominal: Nominal
    parts: tuple[CutPart, ...]
    plan: CutPlan
    sizes: tuple[tuple[float, float], ...]
    bought: bool

    @property
    def pieces_cut(self) -> int:
        """Pieces that its boards give."""
        return sum(self.plan.blanks[i].pieces for b in self.plan.boards for i in b.blanks)

    @property
    def pieces_left(self) -> int:
        """Pieces that its boards do not give."""
        return sum(self.left.values())

    @property
    def left(self) -> dict[str, int]:
        """Pieces of each part, by its name, that its boards do not give."""
        left = dict.fromkeys((p.name for p in self.parts), 0)
        for part, blank, count in zip(self.parts, self.plan.blanks, self.plan.left, strict=True):
            left[part.name] += count * blank.pieces
        return left


GLUE_UP = "glue it up: give it staves"


class Left(NamedTuple):
    """Why blanks of a kind stay uncut in a plan: their rough size, and what boards there are.

    ``too_large`` for every board, else too few boards are left; ``glue_up`` where it is too
    wide for every board and not glued up yet.
    """

    length_mm: float
    width_mm: float
    too_large: bool
    glue_up: bool

    def words(self, units: str) -> str:
        """'24 in x 8 in rough is larger than every board'."""
        size = f"{size_words(self.length_mm, units)} x {size_words(self.width_mm, units)} rough"
        if self.too_large:
            return f"{size} is larger than every board"
        return f"no board is left for it ({size})"


def why_left(lot: LotPlan, blank: int) -> Left:
    """Why blanks of a kind stay uncut in a plan."""
    b, part = lot.plan.blanks[blank], lot.parts[blank]
    too_large = blank in lot.plan.too_large
    wide = b.width_mm > max(s.width_mm for s in lot.plan.stock)
    return Left(b.length_mm, b.width_mm, too_large, too_large and wide and part.staves == 1)


def larger_than_sold(part: CutPart, left: Left, units: str) -> InputError:
    """The error for a part that no board of the yard gives."""
    return InputError(
        f"{part.name}: {left.words(units)} that the yard sells; offer larger boards"
        f"{f', or {GLUE_UP}' if left.glue_up else ''}"
    )


@dataclass
class Shop:
    """What every plan is made with."""

    allowances: Allowances
    sold: ThicknessesSold
    surfaced: bool
    effort: str
    seed: int
    report: Callable[[str, Progress], None] | None
    units: str
    third_cut: bool = False

    def plan(
        self,
        wood: Wood,
        nominal: Nominal,
        parts: Sequence[CutPart],
        needed: Mapping[str, int],
        offered: Sequence[Size],
        bought: bool,
    ) -> LotPlan:
        """``needed`` blanks of parts cut from boards."""
        a = self.allowances
        words = f"{nominal.label} {wood.common_name}"
        stock = [
            StockBoard(
                f"{words} {self.words(s.width_mm)} x {self.words(s.length_mm)}",
                s.length_mm - 2.0 * a.end_trim_mm,
                s.used_width_mm,
                s.quantity,
            )
            for s in offered
        ]

        def tell(progress: Progress) -> None:
            if self.report:
                self.report(words, progress)

        kinds = self._kinds(parts, needed, offered)
        blanks = [Blank(m.part.name, m.length_mm, m.width_mm, m.blanks, m.pieces) for m in kinds]
        aim = "wood" if bought else "boards"
        # Most estimates plan no boards, and need not load what hashes and keeps plans.
        from woodref.cutting.kept import kept_or_packed

        plan = kept_or_packed(
            blanks, stock, a.kerf_mm, aim, self.effort, self.seed, tell, self.third_cut
        )
        if plan.interrupted:
            self.effort = "quick"  # so are the plans to come
        sizes = tuple((s.width_mm, s.length_mm) for s in offered)
        return LotPlan(wood, nominal, tuple(m.part for m in kinds), plan, sizes, bought)

    def _kinds(
        self, parts: Sequence[CutPart], needed: Mapping[str, int], offered: Sequence[Size]
    ) -> list[Multiple]:
        """The kinds of blanks that parts are cut in, from boards of some sizes."""
        a = self.allowances
        longest = max((s.length_mm - 2.0 * a.end_trim_mm for s in offered), default=0.0)
        return [m for p in parts for m in multiples_of(p, a, needed[p.name], longest)]

    def refuse_too_large(
        self, parts: Sequence[CutPart], needed: Mapping[str, int], yard: Sequence[Size],
        in_hand: Sequence[Board] = (),
    ) -> None:  # fmt: skip
        """Refuse a part that fits no board, before boards are searched for the others.

        Parameters: parts; needed blanks of each, by its name; yard, the sizes it sells; in_hand,
        boards of the wood of the parts that it may be cut from instead.
        Raises: InputError for the first that fits none.
        """
        trims = 2.0 * self.allowances.end_trim_mm
        boards = [(s.length_mm - trims, s.used_width_mm) for s in yard if s.length_mm > trims]
        if not boards:
            return
        boards += [(b.length_mm - trims, b.width_mm) for b in in_hand]
        widest = max(width for _, width in boards)
        for m in self._kinds(parts, needed, yard):
            length, width = m.length_mm - SAME_MM, m.width_mm - SAME_MM
            if not any(length <= long and width <= wide for long, wide in boards):
                glue_up = m.width_mm > widest and m.part.staves == 1
                left = Left(m.length_mm, m.width_mm, True, glue_up)
                raise larger_than_sold(m.part, left, self.units)

    def nominal_for(self, wood: Wood, thickness_mm: float) -> Nominal:
        """The least thickness sold of a wood that dresses to a finished one.

        Raises: InputError where none reaches.
        """
        chosen = self.sold.choose(wood, thickness_mm)
        if chosen is None:
            raise InputError(
                f"no standard stock dresses to {self.words(thickness_mm)}, the thickest to "
                f"{self.words(self.sold.most_mm(wood))}; enter its layers as parts of their own"
            )
        return Nominal(chosen.nominal, chosen.rough_mm)

    def words(self, mm: float) -> str:
        """A size in words."""
        return size_words(mm, self.units)

    def too_thick(self, part: CutPart, nominal: Nominal) -> bool:
        """True where more would be planed away than a shop planes: it would resaw instead."""
        sizes, planing = (
            ((), 0.0) if self.surfaced else (self.sold.dressed, self.allowances.planing_mm)
        )
        spare = dressed_thickness(nominal, sizes, planing) - part.blank_thickness_mm
        return spare > PLANED_AWAY_MM

    def too_thin(self, part: CutPart, nominal: Nominal) -> Shortfall | None:
        """How boards in hand of a thickness are too thin for a part, None where they are not."""
        sizes, planing = (
            ((), 0.0) if self.surfaced else (self.sold.dressed, self.allowances.planing_mm)
        )
        return shortfall(part.blank_thickness_mm, nominal, sizes, planing)
