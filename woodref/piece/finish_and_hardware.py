"""What a piece needs beside wood: its finish and its hardware, weighed and priced."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.quantity import Range, total

if TYPE_CHECKING:
    from woodref.drying.lag import Finish
    from woodref.piece.piece import Piece
    from woodref.reference.library import Reference
    from woodref.shipping.load import Item


@dataclass(frozen=True)
class FinishLine:
    """The finish of a piece: what it is, the area it covers, liters, cost and dry mass.

    ``liters`` and ``cost`` None where the file gives no coverage or no price.
    """

    finish: Finish
    area_m2: float
    measured: bool
    liters: float | None
    cost: Range | None
    mass_kg: float


def faces_m2(piece: Piece) -> float:
    """All faces of the parts of solid wood, edges and ends too, each part a box [m2]."""
    area = 0.0
    for p in piece.parts:
        if p.sheet is None:
            a, b, c = p.length_mm, p.width_mm, p.thickness_mm
            area += 2.0 * (a * b + b * c + a * c) * 1e-6 * p.quantity
    return area


def item_cost(item: Item) -> Range | None:
    """Cost of an item, all of its pieces, None without a price."""
    if item.price is None:
        return None
    return hardware_cost([(item.quantity, item.price)])


def finish_line(reference: Reference, piece: Piece) -> FinishLine | None:
    """What the finish of a piece amounts to, None where it has none.

    Raises: InputError naming file and table, for a finish or a number of coats that is not in
    the table of finishes.
    """
    spec = piece.finish
    if spec is None:
        return None
    from woodref.drying.lag import finish_on
    from woodref.reference.finishes import finish_rows

    try:
        finish = finish_on(finish_rows(reference), spec.name, spec.coats, spec.one_face)
    except InputError as error:
        raise InputError(f"{piece.file}: {spec.place}: {error}") from None
    area = faces_m2(piece) if spec.area_m2 is None else spec.area_m2
    liters, cost = None, None
    if spec.coverage_m2_per_l:
        nothing = Range(0.0, 0.0, 0.0)
        coat = FinishCoat(area, spec.coats, spec.coverage_m2_per_l, spec.price_per_l or nothing)
        liters, price = finish_need(coat)
        cost = price if spec.price_per_l else None
    mass = area * spec.coats * spec.dry_g_m2 * 1e-3
    return FinishLine(finish, area, spec.area_m2 is not None, liters, cost, mass)


@dataclass(frozen=True)
class FinishCoat:
    """A finish: area of the piece, coats, what a liter covers in one coat, price of a liter."""

    area_m2: float
    coats: int
    coverage_m2_per_l: float
    price_per_l: Range


def finish_need(finish: FinishCoat) -> tuple[float, Range]:
    """Liters of a finish, and its cost; nothing is added for what stays in the can.

    Raises: InputError for a figure that is not above 0.
    Source: area times coats over coverage; coverage is on the label of the can.
    """
    for words, value in (
        ("area", finish.area_m2),
        ("number of coats", float(finish.coats)),
        ("coverage", finish.coverage_m2_per_l),
    ):
        if not (isfinite(value) and value > 0.0):
            raise InputError(f"the {words} of a finish must be above 0, not {value:g}")
    liters = finish.area_m2 * finish.coats / finish.coverage_m2_per_l
    p = finish.price_per_l
    return liters, Range(liters * p.expected, liters * p.low, liters * p.high)


def hardware_cost(items: Sequence[tuple[int, Range]]) -> Range:
    """Cost of hardware: how many of each, and the price of one."""
    return total([Range(n * p.expected, n * p.low, n * p.high) for n, p in items])
