"""A cutting plan for the shop wall: each board in words, and as a drawing."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from woodref.estimate.packing import CutBoard, CutPlan, places
from woodref.estimate.rough import size_words

_PAGE, _MARGIN, _GAP = 1000.0, 10.0, 46.0
#: Fill of blanks, and of what is cut off; told apart in black and white as well.
_BLANK, _OFFCUT = "#f2e3c6", "#d9d9d9"


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


def _text(x: float, y: float, size: float, words: str) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:.1f}">{escape(words)}</text>'


def _drawn(
    plan: CutPlan, board: CutBoard, number: int, scale: float, top: float, units: str
) -> list[str]:
    stock = plan.stock[board.stock]
    first = "rip first" if board.rip_first else "crosscut first"
    title = f"Board {number}: {stock.name}, {first}, {used_pct(plan, board):.0f} % used"
    found = [
        _text(_MARGIN, top - 6.0, 14.0, title),
        f'<rect x="{_MARGIN}" y="{top:.1f}" width="{stock.length_mm * scale:.1f}" '
        f'height="{stock.width_mm * scale:.1f}" fill="{_OFFCUT}" stroke="black"/>',
    ]
    for place in places(plan, board):
        blank = plan.blanks[place.blank]
        words = (
            f"{blank.name} {size_words(blank.length_mm, units)} x "
            f"{size_words(blank.width_mm, units)}"
        )
        x, y = _MARGIN + place.along_mm * scale, top + place.across_mm * scale
        wide, high = blank.length_mm * scale, blank.width_mm * scale
        # The label shrinks to its blank; the whole of it is in the title, which a click shows.
        size = min(12.0, high * 0.8, 1.7 * wide / max(1, len(words)))
        found.append(
            f'<g><title>{escape(words)}</title><rect x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" '
            f'height="{high:.1f}" fill="{_BLANK}" stroke="black"/>'
            + _text(x + 2.0, y + high / 2.0 + size / 3.0, size, words)
            + "</g>"
        )
    return found


def layout_svg(plans: Sequence[tuple[str, CutPlan]], units: str = "us") -> str:
    """A drawing of every board of some plans, each with its heading; self-contained SVG.

    Parameters: plans as (heading, plan); units of the sizes written in it.
    Returns: the text of an SVG file. Names are escaped; nothing is loaded from elsewhere.
    """
    longest = max((p.stock[b.stock].length_mm for _, p in plans for b in p.boards), default=1000.0)
    scale = (_PAGE - 2.0 * _MARGIN) / longest
    body: list[str] = []
    y = _MARGIN
    for heading, plan in plans:
        y += 20.0
        body.append(_text(_MARGIN, y, 18.0, heading))
        y += _GAP - 16.0
        for number, board in enumerate(plan.boards, 1):
            body += _drawn(plan, board, number, scale, y, units)
            y += plan.stock[board.stock].width_mm * scale + _GAP
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_PAGE:g} {y:.0f}" '
            f'width="{_PAGE:g}" height="{y:.0f}" font-family="sans-serif" role="img">',
            "<title>Cutting plan</title>",
            "<desc>Rough blanks on the usable face of each board, grain from left to right; "
            "gray is offcut.</desc>",
            '<rect width="100%" height="100%" fill="white"/>',
            *body,
            "</svg>",
            "",
        ]
    )
