"""A cutting plan for the shop wall: each board in words."""

from __future__ import annotations

from woodref.estimate.packing import CutBoard, CutPlan
from woodref.estimate.rough import size_words


def cut_words(plan: CutPlan, board: CutBoard, units: str) -> str:
    """The cuts of a board in order: 'crosscut 24 in: rail 3 in, rail 3 in; crosscut ...'.

    Sizes are rough sizes; a blank that is smaller than its section or strip is trimmed.
    """
    verb = "rip" if board.rip_first else "crosscut"
    bands = []
    for band in board.bands:
        inside = []
        for i in band.blanks:
            blank = plan.blanks[i]
            size = blank.length_mm if board.rip_first else blank.width_mm
            other = blank.width_mm if board.rip_first else blank.length_mm
            trim = f" (trim to {size_words(other, units)})" if band.size_mm - other > 0.05 else ""
            inside.append(f"{blank.name} {size_words(size, units)}{trim}")
        bands.append(f"{verb} {size_words(band.size_mm, units)}: {', '.join(inside)}")
    return "; ".join(bands)


def used_pct(plan: CutPlan, board: CutBoard) -> float:
    """Share of the usable face of a board that becomes blanks [%]."""
    return (
        100.0 * sum(plan.blanks[i].area_m2 for i in board.blanks) / plan.stock[board.stock].area_m2
    )


def rest_of(plan: CutPlan, board: CutBoard) -> tuple[float, float] | None:
    """Length and width [mm] of what the first cuts leave of a board in one piece, if anything.

    Offcuts inside its sections or strips come on top of it.
    """
    stock, last = plan.stock[board.stock], board.bands[-1]
    end = last.start_mm + last.size_mm + plan.kerf_mm
    length = stock.length_mm if board.rip_first else stock.length_mm - end
    width = stock.width_mm - end if board.rip_first else stock.width_mm
    return (length, width) if min(length, width) > 0.05 else None
