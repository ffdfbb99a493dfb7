"""What a piece needs beside wood: its finish and its hardware, weighed and priced."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.piece.parts_table import Coated
from woodref.quantity import Range
from woodref.record import record

if TYPE_CHECKING:
    from woodref.drying.finish import Finish
    from woodref.piece.piece import Piece
    from woodref.shipping.load import Item


@record
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
    """The coated faces of the parts of solid wood, edges and ends too, each part a box [m2].

    A part coated on one face has its other wide face left out.
    """
    area = 0.0
    for p in piece.parts:
        if p.sheet is None and p.coated is not Coated.NONE:
            a, b, c = p.length_mm, p.width_mm, p.thickness_mm
            wide = a * b if p.coated is Coated.ONE else 2.0 * a * b
            area += (wide + 2.0 * (b * c + a * c)) * 1e-6 * p.quantity
    return area


def item_cost(item: Item) -> Range | None:
    """Cost of an item, all of its pieces, None without a price."""
    return item.price.scaled(item.quantity) if item.price else None


def finish_line(piece: Piece, finish: Finish | None) -> FinishLine | None:
    """What the finish of a piece amounts to, None where it has none.

    Nothing is added for what stays in the can.

    Parameters: piece; finish as the table of finishes has it.
    Raises: InputError where there is nothing to coat.
    Source: area times coats over coverage; coverage is on the label of the can.
    """
    spec = piece.finish
    if spec is None or finish is None:
        return None
    area = faces_m2(piece) if spec.area_m2 is None else spec.area_m2
    liters, cost = None, None
    if spec.coverage_m2_per_l:
        for words, value in (("area", area), ("coverage", spec.coverage_m2_per_l)):
            if not (isfinite(value) and value > 0.0):
                raise InputError(f"the {words} of a finish must be above 0, not {value:g}")
        liters = area * spec.coats / spec.coverage_m2_per_l
        cost = spec.price_per_l.scaled(liters) if spec.price_per_l else None
    mass = area * spec.coats * spec.dry_g_m2 * 1e-3
    return FinishLine(finish, area, spec.area_m2 is not None, liters, cost, mass)
