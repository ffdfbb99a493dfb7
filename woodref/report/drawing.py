"""A piece or its largest part in outline, to scale, with its sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.shop_words import size_text
from woodref.report.markup import Markup, element, joined
from woodref.units import MM_PER_INCH

if TYPE_CHECKING:
    from woodref.piece.parts_table import Part
    from woodref.report.view import View

#: Width of a drawing and most height of an outline, in its own units: about mm on paper.
_WIDE, _HIGH = 92.0, 44.0
#: Room for sizes left of an outline, between two, at the right, and below them.
_LEFT, _BETWEEN, _RIGHT, _BELOW = 26.0, 9.0, 1.0, 16.0
#: Lengths a scale bar may have [mm], by system of units.
_BARS = {
    "us": tuple(n * MM_PER_INCH for n in (1, 2, 6, 12, 24, 36, 60)),
    "si": (20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0),
}
#: No outline is thinner than this, and no scale bar longer.
_THIN, _BAR = 0.8, 26.0


class _Box(NamedTuple):
    """An outline: where it stands, how large it is drawn, what it is, and its width in words."""

    x: float
    y: float
    wide: float
    high: float
    name: str
    size: str


def _text(x: float, y: float, words: str, anchor: str = "middle") -> Markup:
    return element("text", words, x=f"{x:.2f}", y=f"{y:.2f}", text_anchor=anchor)


def _line(path: str) -> Markup:
    return element("path", d=path, class_="measure")


def _across(box: _Box) -> list[Markup]:
    """The size under an outline, with its line and the name of the view."""
    y, x, end = box.y + box.high + 2.4, box.x, box.x + box.wide
    middle = x + box.wide / 2.0
    return [
        _line(f"M{x:.2f} {y:.2f}H{end:.2f}M{x:.2f} {y - 1:.2f}v2M{end:.2f} {y - 1:.2f}v2"),
        _text(middle, y + 4.0, box.size),
        _text(middle, y + 8.0, box.name),
    ]


def _up(box: _Box, words: str) -> list[Markup]:
    """The height left of an outline."""
    x, y, end = box.x - 2.4, box.y, box.y + box.high
    return [
        _line(f"M{x:.2f} {y:.2f}V{end:.2f}M{x - 1:.2f} {y:.2f}h2M{x - 1:.2f} {end:.2f}h2"),
        _text(x - 1.4, (y + end) / 2.0 + 1.2, words, "end"),
    ]


def _outline(box: _Box) -> Markup:
    return element(
        "rect",
        class_="wood",
        x=f"{box.x:.2f}",
        y=f"{box.y:.2f}",
        width=f"{box.wide:.2f}",
        height=f"{box.high:.2f}",
    )


def _scale_bar(scale: float, units: str, y: float) -> list[Markup]:
    """A bar of a round length, at the right below."""
    fitting = [mm for mm in _BARS[units] if mm * scale <= _BAR]
    length_mm = max(fitting, default=_BARS[units][0])
    x = _WIDE - length_mm * scale - 1.0
    return [
        element(
            "rect",
            class_="bar-of-scale",
            x=f"{x:.2f}",
            y=f"{y:.2f}",
            width=f"{length_mm * scale:.2f}",
            height="0.9",
        ),
        _text(_WIDE - 1.0, y + 4.2, size_text(length_mm, units), "end"),
    ]


def _drawn(parts: list[Markup], high: float, said: str, caption: str) -> Markup:
    return element(
        "figure",
        element(
            "svg",
            joined(parts, ""),
            viewBox=f"0 0 {_WIDE:g} {high:.2f}",
            role="img",
            aria_label=said,
        ),
        element("figcaption", caption),
        class_="drawing",
    )


def _of_piece(size_mm: tuple[float, float, float], units: str) -> Markup:
    length, depth, height = size_mm
    scale = min((_WIDE - _LEFT - _BETWEEN - _RIGHT) / (length + depth), _HIGH / height)
    wide, deep, high = (max(_THIN, mm * scale) for mm in size_mm)
    front = _Box(_LEFT, 1.0, wide, high, "front", size_text(length, units))
    side = _Box(_LEFT + wide + _BETWEEN, 1.0, deep, high, "side", size_text(depth, units))
    low = 1.0 + high + _BELOW
    parts = [
        *(_outline(box) for box in (front, side)),
        *_across(front),
        *_across(side),
        *_up(front, size_text(height, units)),
        *_scale_bar(scale, units, low - 3.0),
    ]
    said = (
        f"Outside to scale: {size_text(length, units)} long, {size_text(depth, units)} deep, "
        f"{size_text(height, units)} high"
    )
    return _drawn(parts, low + 2.5, said, "Outside of the piece, to scale")


def _of_part(part: Part, units: str) -> Markup:
    scale = min((_WIDE - _LEFT - _RIGHT) / part.length_mm, _HIGH / part.width_mm)
    wide, high = (max(_THIN, mm * scale) for mm in (part.length_mm, part.width_mm))
    box = _Box(_LEFT, 1.0, wide, high, part.name, size_text(part.length_mm, units))
    staves = part.staves if part.sheet is None else 1
    edges = "".join(
        f"M{box.x:.2f} {box.y + high * k / staves:.2f}h{wide:.2f}" for k in range(1, staves)
    )
    low = 1.0 + high + _BELOW
    parts = [
        _outline(box),
        _line(edges) if edges and not part.panel else Markup(),
        *_across(box),
        *_up(box, size_text(part.width_mm, units)),
        *_scale_bar(scale, units, low - 3.0),
    ]
    said = (
        f"{part.name} to scale: {size_text(part.length_mm, units)} long, "
        f"{size_text(part.width_mm, units)} wide"
    )
    return _drawn(parts, low + 2.5, said, f"Largest part, to scale: {part.name}")


def drawing(view: View) -> Markup:
    """The piece from the front and the side where its size is known, else its largest part.

    A part of solid wood goes before one of sheet goods, which is seldom what is seen.
    """
    piece = view.estimate.piece
    if piece.size_mm:
        return _of_piece(piece.size_mm, view.units)
    largest = max(piece.parts, key=lambda p: (p.sheet is None, p.length_mm * p.width_mm))
    return _of_part(largest, view.units)
