"""What parts of a piece do through the year, in a table with a bar in each row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.shop_words import shown
from woodref.answers.words import likely_text, percent_text
from woodref.report.markup import Markup, element
from woodref.report.tables import Cell, Grid, table
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.board.movement import Movement
    from woodref.piece.estimate import Estimate

#: Width and height of a bar, and half the height of its ends.
_WIDE, _HIGH, _HALF = 180.0, 18.0, 4.0


def _x(change_mm: float, most_mm: float) -> str:
    """Where a change stands in a bar."""
    return f"{_WIDE / 2.0 * (1.0 + 0.96 * change_mm / most_mm):.1f}"


def _bar(dry: Movement, wet: Movement, most_mm: float) -> Markup:
    """The change from the driest to the wettest, thin lines to the ends of the likely range."""
    middle = _HIGH / 2.0
    lowest, highest = (
        min(dry.likely_change_mm.low, wet.likely_change_mm.low),
        max(dry.likely_change_mm.high, wet.likely_change_mm.high),
    )
    left, right = sorted((dry.change_mm, wet.change_mm))
    start, end = float(_x(left, most_mm)), float(_x(right, most_mm))
    return element(
        "svg",
        element(
            "path",
            class_="thin",
            d=f"M{_x(lowest, most_mm)} {middle}H{_x(highest, most_mm)}",
        ),
        element(
            "rect",
            class_="swing",
            x=f"{start:.1f}",
            y=f"{middle - _HALF:g}",
            width=f"{max(0.5, end - start):.1f}",
            height=f"{2.0 * _HALF:g}",
        ),
        element("path", class_="built", d=f"M{_WIDE / 2.0:g} 0V{_HIGH:g}"),
        viewBox=f"0 0 {_WIDE:g} {_HIGH:g}",
        class_="bar",
        aria_hidden="true",
    )


def movement_table(estimate: Estimate, units: str) -> Markup:
    """The change of the width of one piece of each part that moves, since the build.

    Parameters: estimate; units 'us' or 'si'.
    """
    moving = [p for p in estimate.parts if p.movements]
    ends = [
        abs(x)
        for p in moving
        for m in p.movements[:2]
        for x in (m.likely_change_mm.low, m.likely_change_mm.high)
    ]
    most = max(ends, default=0.0)
    piece = estimate.piece
    rows = []
    for p in moving:
        dry, wet, swing = p.movements
        through = swing.likely_change_mm.unsigned
        rows.append(
            [
                Cell(p.part.name),
                Cell(KINDS["size"].text(p.part.width_mm, units), True),
                Cell(shown("change", dry.change_mm, units), True),
                Cell(shown("change", wet.change_mm, units), True),
                Cell(_bar(dry, wet, most) if most else ""),
                Cell(likely_text(through, "change", units), True),
            ]
        )
    heads = [
        Cell("part"),
        Cell("width", True),
        Cell(f"at the driest, {percent_text(piece.driest.moisture_pct)}", True),
        Cell(f"at the wettest, {percent_text(piece.wettest.moisture_pct)}", True),
        Cell("narrower | wider"),
        Cell("through the year", True),
    ]
    caption = (
        f"Change of width since the build, at {percent_text(piece.build.moisture_pct)} moisture "
        "content"
    )
    return table(Grid(heads, rows), caption)
