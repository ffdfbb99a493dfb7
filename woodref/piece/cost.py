"""What the lumber and sheet goods of a piece measure and cost.

Board feet of a part are its finished face times its nominal thickness, under 4/4 counted as
4/4, for each stave of a glued turning; what to buy is that and an allowance for offcuts. A cost
has a low and a high where the allowance or the price has; it never comes from a coefficient of
variation.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from woodref.errors import UnitsError
from woodref.lumber.board_price import amounts_of
from woodref.lumber.nominal import SAME_MM, SLACK_MM, Nominal
from woodref.lumber.price_rows import Price
from woodref.lumber.prices import PriceList
from woodref.lumber.thicknesses import ThicknessesSold
from woodref.piece.parts_table import Part, Sheet
from woodref.quantity import Range, times, with_waste
from woodref.record import record
from woodref.reference.bases import UNCHECKED
from woodref.reference.woods import Wood
from woodref.units import M2_PER_FT2, sizes_told

BOARD_FEET_RULE = (
    "board feet: finished face times nominal thickness, under 4/4 counted as 4/4 (grading rules, "
    "unchecked)"
)
STOCK_RULE = (
    "nominal thickness, where the file gives none, is the least sold of that "
    "wood (by the yard or the price list, else as yards usually sell it) whose thickness "
    "surfaced two sides reaches the finished one"
)


@record
class PartStock:
    """The rough stock a part is made from; ``unchecked`` where its dressed size is unchecked."""

    nominal: Nominal
    unchecked: bool = False


@record
class LumberLine:
    """What to buy of one wood in one nominal thickness.

    ``net_board_feet`` and ``net_volume_m3`` without waste; ``buy_board_feet`` and
    ``buy_volume_m3`` with it; ``cost`` None, with the reason, where the list has no price.
    """

    wood: str
    species_ids: frozenset[str]
    nominal: Nominal
    net_board_feet: float
    net_volume_m3: float
    buy_board_feet: Range
    buy_volume_m3: Range
    price: Price | None
    cost: Range | None
    unpriced: str = ""


@record
class SheetLine:
    """What to buy of one kind of sheet goods; ``sheets`` where it is sold whole."""

    sheet: Sheet
    net_area_m2: float
    buy_area_m2: Range
    sheets: Range | None
    cost: Range | None
    unpriced: str = ""


def stock_for(part: Part, wood: Wood, sold: ThicknessesSold) -> PartStock:
    """The rough stock of a part: as given, or the least that is sold of its wood.

    Raises: InputError, without the place in the file, where no nominal thickness reaches, or
    the stock that is given dresses to less than the part.
    """
    if part.stock is None:
        chosen = sold.choose(wood, part.stock_mm)
        if chosen is None:
            most = sold.most_mm(wood)
            raise UnitsError(
                sizes_told(
                    "thickness: no standard stock dresses to {} (the thickest to {}); write "
                    'stock = "..." or enter its layers as staves or parts',
                    part.stock_mm,
                    most,
                )
            )
        return PartStock(Nominal(chosen.nominal, chosen.rough_mm), chosen.basis == UNCHECKED)
    dressed = next(
        (s for s in sold.dressed if abs(s.rough_mm - part.stock.size_mm) < SAME_MM), None
    )
    if dressed and dressed.dressed_mm + SLACK_MM < part.stock_mm:
        better = sold.choose(wood, part.stock_mm)
        hint = f"; {better.nominal} reaches it" if better else ""
        raise UnitsError(
            sizes_told(
                f"stock: {part.stock.label} dresses to {{}}: too thin for {{}}{hint}",
                dressed.dressed_mm,
                part.stock_mm,
            )
        )
    return PartStock(part.stock)


def part_board_feet(part: Part, nominal: Nominal) -> float:
    """Board feet of all pieces of a part, without waste.

    Source: woodref.formulas.lumber.board_feet.
    """
    boards = part.quantity * part.layers
    return boards * amounts_of(nominal, part.width_mm, part.length_mm)[0]


def lumber_line(
    wood: str,
    species_ids: frozenset[str],
    nominal: Nominal,
    parts: Sequence[Part],
    waste: Range,
    prices: PriceList | None,
    grade: str = "",
    planned: bool = False,
) -> LumberLine:
    """What to buy for all parts of one wood in one nominal thickness, priced where possible.

    ``planned``, whether a plan of boards says what is bought and what that costs: then the
    amount has no price of its own.
    """
    feet = sum(part_board_feet(p, nominal) for p in parts)
    volume = sum(p.face_m2 * p.layers for p in parts) * nominal.size_mm * 1e-3
    buy_feet, buy_volume = with_waste(feet, waste), with_waste(volume, waste)
    price = prices.find(species_ids, nominal, grade) if prices and not planned else None
    cost, unpriced = None, ""
    if price:
        cost = times(buy_volume if price.per == "m3" else buy_feet, price.price)
    elif planned:
        pass
    elif prices is None:
        unpriced = "no price list"
    else:
        others = prices.thicknesses(species_ids)
        has = f", only {', '.join(others)}" if others else ""
        unpriced = f"{prices.file} has no {wood} {nominal.label}{has}"
    return LumberLine(
        wood, species_ids, nominal, feet, volume, buy_feet, buy_volume, price, cost, unpriced
    )


def sheet_line(sheet: Sheet, parts: Sequence[Part], waste: Range) -> SheetLine:
    """What to buy of one kind of sheet goods: by area, or in whole sheets."""
    area = sum(p.face_m2 for p in parts)
    buy = with_waste(area, waste)
    sheets, cost, unpriced = None, None, ""
    if sheet.area_m2:
        sheets = Range(*(float(ceil(a / sheet.area_m2 - 1e-9)) for a in buy))
    if sheet.price is None:
        unpriced = f"no price for {sheet.name}"
    elif sheet.price_per == "sheet" and sheets:
        cost = times(sheets, sheet.price)
    else:
        per_m2 = M2_PER_FT2 if sheet.price_per == "ft2" else 1.0
        cost = times(Range(*(a / per_m2 for a in buy)), sheet.price)
    return SheetLine(sheet, area, buy, sheets, cost, unpriced)


def share(figure: Range | None, part: float, whole: float) -> Range | None:
    """The share of a cost that falls on a part of the amount."""
    if figure is None:
        return None
    return Range(*(x * part / whole for x in figure))
