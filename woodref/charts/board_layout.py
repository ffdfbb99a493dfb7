"""A drawing of a cutting plan for the shop wall: every board, and the blanks on it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from woodref.charts.figure import HATCHES, INK, PIXELS_PER_INCH, QUIET, SMALL_PT, new_figure, style
from woodref.cutting.model import CutBoard, CutPlan, blank_positions
from woodref.errors import InputError
from woodref.lumber.cutting_instructions import alike, blank_words, used_pct
from woodref.lumber.rough import size_words

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

#: Fill of blanks and of offcuts; offcuts are hatched as well.
_BLANK, _OFFCUT = "#f2e3c6", "#e4e4e4"
_WIDTH_PX, _MARGIN_PX, _TOP_PX, _BOTTOM_PX = 1000, 24.0, 80.0, 60.0
#: Tallest drawing; a picture cannot be much taller [px].
_MOST_PX = 30_000.0
#: Room above a board for its heading, and for that of a lot [px].
_HEADING_PX, _LOT_PX = 26.0, 34.0
#: A letter is about this much of its size wide, and a blank needs this height for words [px].
_LETTER, _LOW_PX = 0.62, 9.0


class _Row(NamedTuple):
    """One kind of cut board: its plan, the board, and its heading with that of its lot."""

    plan: CutPlan
    board: CutBoard
    heading: str
    lot: str


def _rows(plans: Sequence[tuple[str, CutPlan]]) -> list[_Row]:
    rows = []
    for lot, plan in plans:
        number = 1
        for board, count in alike(plan):
            which = f" {number}" if count == 1 else f"s {number} to {number + count - 1}"
            first = "rip first" if board.rip_first else "crosscut first"
            heading = (
                f"Board{which}: {plan.stock[board.stock].name}, {first}, "
                f"{used_pct(plan, board):.0f} % used"
            )
            rows.append(_Row(plan, board, heading, "" if number > 1 else lot))
            number += count
    return rows


def layout(plans: Sequence[tuple[str, CutPlan]], title: str, units: str = "us") -> Figure:
    """A drawing of every board of some plans, boards that are cut alike once.

    Parameters: plans as (heading, plan); title; units of the sizes written in it.
    Returns: a figure 1000 px wide, boards to one scale, the grain from left to right.
    Raises: InputError for more boards than fit a drawing.
    """
    rows = _rows(plans)
    longest = max((r.plan.stock[r.board.stock].length_mm for r in rows), default=1000.0)
    room_px = _WIDTH_PX - 2.0 * _MARGIN_PX
    scale = room_px / longest
    high_px = sum(
        r.plan.stock[r.board.stock].width_mm * scale + _HEADING_PX + (_LOT_PX if r.lot else 0.0)
        for r in rows
    )
    whole_px = high_px + _TOP_PX + _BOTTOM_PX
    if whole_px > _MOST_PX:
        raise InputError(f"{len(rows)} layouts of boards do not fit one drawing; draw fewer parts")
    with style():
        figure, axes = new_figure(
            title,
            "Rough blanks on the usable face of each board, the grain from left to right; "
            "what is hatched is cut off.",
            _WIDTH_PX,
            round(whole_px),
            "Look every board over before the first cut: a plan sees no knots, checks or sapwood.",
        )
        figure.set_layout_engine("none")
        axes.set_position(
            (_MARGIN_PX / _WIDTH_PX, _BOTTOM_PX / whole_px, room_px / _WIDTH_PX, high_px / whole_px)
        )
        axes.set_xlim(-1.0, room_px + 1.0)
        axes.set_ylim(high_px + 1.0, -1.0)
        axes.set_axis_off()
        top = 0.0
        for row in rows:
            if row.lot:
                top += _LOT_PX
                axes.text(0.0, top - 8.0, row.lot, weight="bold", va="bottom")
            top += _HEADING_PX
            axes.text(0.0, top - 4.0, row.heading, size=SMALL_PT, color=QUIET, va="bottom")
            _draw(axes, row, top, scale, units)
            top += row.plan.stock[row.board.stock].width_mm * scale
    return figure


def _draw(axes: Axes, row: _Row, top: float, scale: float, units: str) -> None:
    from matplotlib.patches import Rectangle

    stock = row.plan.stock[row.board.stock]
    axes.add_patch(
        Rectangle(
            (0.0, top),
            stock.length_mm * scale,
            stock.width_mm * scale,
            facecolor=_OFFCUT,
            edgecolor=QUIET,
            hatch=HATCHES[1],
            linewidth=0.8,
        )
    )
    for place in blank_positions(row.plan, row.board):
        blank = row.plan.blanks[place.blank]
        x, y = place.along_mm * scale, top + place.across_mm * scale
        wide, high = blank.length_mm * scale, blank.width_mm * scale
        axes.add_patch(
            Rectangle((x, y), wide, high, facecolor=_BLANK, edgecolor=INK, linewidth=0.8)
        )
        size = f"{size_words(blank.length_mm, units)} x {size_words(blank.width_mm, units)}"
        name = blank_words(blank)
        words = _fitting((f"{name}, {size}", name, size), wide)
        if words and high >= _LOW_PX:
            points = min(SMALL_PT, high * 0.75 * 72.0 / PIXELS_PER_INCH)
            axes.text(x + wide / 2.0, y + high / 2.0, words, size=points, ha="center", va="center")


def _fitting(choices: Sequence[str], wide_px: float) -> str:
    """The first of some texts that fits a width, '' where none does."""
    letter_px = SMALL_PT * PIXELS_PER_INCH / 72.0 * _LETTER
    return next((c for c in choices if len(c) * letter_px <= wide_px - 4.0), "")
