"""What is bought for a piece: boards by a plan or lumber with a waste, and sheet goods."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from woodref.cutting.model import Progress
from woodref.errors import InputError
from woodref.lumber.buying import BuyingPlan, buying_plan
from woodref.lumber.cut_list import CutPart
from woodref.lumber.multiples import Multiple, multiples_of
from woodref.lumber.thicknesses import ThickerListed
from woodref.lumber.yard import Yard
from woodref.piece.cost import LumberLine, PartStock, SheetLine, lumber_line, sheet_line, stock_for
from woodref.piece.parts_table import Part
from woodref.piece.piece import Piece
from woodref.piece.resolve import ResolvedPiece
from woodref.record import record


@record
class Bought:
    """What is bought for a piece.

    ``plan`` of boards, None where an amount with a waste is bought; ``stocks`` the rough stock
    and ``lumber`` the lumber of each part of solid wood, by its name; parts of one wood and
    stock share a line. ``sheets`` the sheet goods by their name;
    ``multiples`` the blanks that hold several short parts; ``thicker_listed`` the parts, by name,
    that are bought in thicker stock than yards usually have for them.
    """

    plan: BuyingPlan | None
    stocks: Mapping[str, PartStock]
    lumber: Mapping[str, LumberLine]
    sheets: Mapping[str, SheetLine]
    multiples: tuple[Multiple, ...] = ()
    thicker_listed: tuple[tuple[str, ThickerListed], ...] = ()

    @property
    def lumber_lines(self) -> tuple[LumberLine, ...]:
        """Every line of lumber once, in the order of the parts."""
        return tuple(dict.fromkeys(self.lumber.values()))

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What has no price, and why."""
        lines: list[LumberLine | SheetLine] = [*self.lumber_lines, *self.sheets.values()]
        return (
            *(line.unpriced for line in lines if line.unpriced),
            *(self.plan.unpriced if self.plan else ()),
        )


def buy(resolved: ResolvedPiece, report: Callable[[str, Progress], None] | None = None) -> Bought:
    """What is bought for a piece, priced where the list has it.

    Parameters: resolved; report as woodref.lumber.buying.buying_plan.
    Raises: InputError, naming the file and the part, for one that no stock reaches.
    """
    plan = _plan(resolved, report)
    solid = [part for part in resolved.piece.parts if part.sheet is None]
    stocks = {part.name: _stock(resolved, part) for part in solid}
    lumber = _lumber(resolved, solid, stocks, planned=plan is not None)
    return Bought(
        plan,
        stocks,
        lumber,
        _sheets(resolved),
        plan.multiples if plan else _multiples(resolved),
        plan.thicker_listed if plan else _thicker_listed(resolved, solid),
    )


def cut_parts_of(piece: Piece) -> tuple[CutPart, ...]:
    """The parts of solid wood of a piece, without sheet goods.

    A panel whose staves have widths of their own is one part for each of them.
    """
    parts: list[CutPart] = []
    for p in piece.parts:
        if p.sheet:
            continue
        whole = CutPart(
            p.name,
            p.length_mm,
            p.width_mm,
            p.thickness_mm,
            p.species,
            p.quantity,
            p.staves,
            p.shape,
            p.lift,
            p.stock,
            p.glued,
        )
        if len({round(s.width_mm, 3) for s in p.panel}) <= 1:
            parts.append(whole)
            continue
        parts += [
            replace(whole, name=f"{p.name}, stave {k}", width_mm=s.width_mm, staves=1, shape=None)
            for k, s in enumerate(p.panel, 1)
        ]
    return tuple(parts)


def _plan(
    resolved: ResolvedPiece, report: Callable[[str, Progress], None] | None
) -> BuyingPlan | None:
    """The plan that cuts the parts of a piece from boards, None where it asks for none."""
    piece, spec = resolved.piece, resolved.piece.buying
    parts = cut_parts_of(piece)
    if spec is None or not parts:
        return None
    try:
        yard = Yard(spec.yard_widths_mm, spec.yard_lengths_mm) if spec.yard_widths_mm else None
        return buying_plan(
            parts,
            resolved.woods,
            resolved.sold,
            resolved.allowances,
            resolved.waste.pct,
            resolved.boards,
            yard,
            resolved.prices,
            piece.grade,
            spec.effort,
            report=report,
            units=piece.units,
            third_cut=spec.third_cut,
        )
    except InputError as error:
        raise InputError(f"{piece.file}: {error.told(piece.units)}") from None


def _multiples(resolved: ResolvedPiece) -> tuple[Multiple, ...]:
    """The blanks that hold several short parts, where no plan of boards has them."""
    parts = cut_parts_of(resolved.piece)
    blanks = (m for part in parts for m in multiples_of(part, resolved.allowances))
    return tuple(m for m in blanks if m.pieces > 1)


def _thicker_listed(
    resolved: ResolvedPiece, solid: Sequence[Part]
) -> tuple[tuple[str, ThickerListed], ...]:
    """The parts that are bought in thicker stock than yards usually have for them."""
    sold, a = resolved.sold, resolved.allowances
    listed = (
        (
            p.name,
            sold.thicker_listed(resolved.woods[p.species], p.stock_mm, a.planing_mm, a.kerf_mm),
        )
        for p in solid
        if p.stock is None
    )
    return tuple((name, thicker) for name, thicker in listed if thicker)


def _stock(resolved: ResolvedPiece, part: Part) -> PartStock:
    piece = resolved.piece
    try:
        return stock_for(part, resolved.woods[part.species], resolved.sold)
    except InputError as error:
        raise InputError(f"{piece.file}: {part.place}: {error.told(piece.units)}") from None


def _lumber(
    resolved: ResolvedPiece,
    solid: Sequence[Part],
    stocks: Mapping[str, PartStock],
    planned: bool,
) -> dict[str, LumberLine]:
    """The lumber bought for each part, by its name; ``planned`` where a plan says its cost."""
    groups: dict[tuple[str, float], list[Part]] = defaultdict(list)
    for part in solid:
        size = round(stocks[part.name].nominal.size_mm, 1)
        groups[resolved.woods[part.species].species_id, size].append(part)
    lumber: dict[str, LumberLine] = {}
    for group in groups.values():
        wood, nominal = resolved.woods[group[0].species], stocks[group[0].name].nominal
        line = lumber_line(
            wood.common_name,
            frozenset(wood.species_ids),
            nominal,
            group,
            resolved.waste.pct,
            resolved.prices,
            resolved.piece.grade,
            planned,
        )
        lumber |= {part.name: line for part in group}
    return lumber


def _sheets(resolved: ResolvedPiece) -> dict[str, SheetLine]:
    """The sheet goods bought, by name."""
    parts, waste = resolved.piece.parts, resolved.sheet_waste.pct
    used = {part.sheet.name: part.sheet for part in parts if part.sheet}
    return {
        name: sheet_line(sheet, [p for p in parts if p.sheet == sheet], waste)
        for name, sheet in used.items()
    }
