"""The end of a board, a round or a panel before and after, the change drawn larger."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot
from typing import TYPE_CHECKING, Any

from woodref.answers.provenance import sentence
from woodref.answers.section import PANEL_SHAPES
from woodref.answers.words import percent_text
from woodref.board.cross_section import CrossSection, Round
from woodref.board.outline import FACES, Pith, Points, circle, rectangle
from woodref.board.panel_section import PanelSection
from woodref.charts.figure import COLORS, GRID, INK, QUIET, SMALL_PT, new_figure, style, thousands
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.reference.woods import Wood

_SIZE, _CHANGE = KINDS["size"], KINDS["change"]
#: How much larger a change may be drawn, and the most share of half the size it comes to.
_LARGER, _SHARE = (1, 2, 5, 10, 20, 50, 100), 0.12
#: Room around the outline as a share of the larger size, and the lowest chart [px].
_ROOM, _LOWEST_PX, _HIGHEST_PX = 0.06, 300, 640
#: Less than this is nothing [mm].
_FLAT_MM = 0.01
#: Rings drawn over the height of a board.
_RINGS = 6


def enlarged(before: Points, after: Points) -> int:
    """How many times as large a change is drawn, so that it is seen beside the piece.

    Parameters: before, after, the same points of an outline.
    """
    size = max(abs(z) for z in before)
    most = max(abs(b - a) for a, b in zip(before, after, strict=True))
    return max((n for n in _LARGER if n * most <= _SHARE * size), default=1)


def end_before_and_after(piece: CrossSection | Round | PanelSection, units: str = "us") -> Figure:
    """The end of a board, a round or a panel. Parameters, returns: as board_before_and_after."""
    if isinstance(piece, Round):
        return round_before_and_after(piece, units)
    if isinstance(piece, PanelSection):
        return panel_before_and_after(piece, units)
    return board_before_and_after(piece, units)


def board_before_and_after(s: CrossSection, units: str = "us") -> Figure:
    """The end of a board or squared leg, with its sizes and its cup.

    Parameters: s; units 'us' or 'si'.
    Returns: a figure of 800 px; the change is drawn larger by the factor it states.
    """
    before = rectangle(s.width_mm, s.thickness_mm)
    return _figure(
        f"{sentence(s.wood.common_name)}, {_SIZE.text(s.width_mm, units)} x "
        f"{_SIZE.text(s.thickness_mm, units)}, from {percent_text(s.from_moisture_pct)} to "
        f"{percent_text(s.to_moisture_pct)}",
        _around(before),
        _around(s.outline),
        [(s.pith, before)],
        s.wood,
        f": {_SIZE.text(s.faces['top'].after_mm, units)} wide above, "
        f"{_SIZE.text(s.faces['bottom'].after_mm, units)} below, "
        f"{_SIZE.text(s.middle_mm, units)} thick in the middle{_bent(s, units)}.",
        units,
    )


def _bent(s: CrossSection, units: str) -> str:
    """The cup, and how far the diagonals are apart, where they are more than nothing."""
    face, apart = s.cupped, abs(s.diagonal_difference_mm.expected)
    hollow = "above" if face.name == "top" else "below"
    cup = _CHANGE.text(face.cup_mm.expected, units)
    return (f"; cup {cup}, hollow {hollow}" if face.cup_mm.expected >= _FLAT_MM else "") + (
        f"; diagonals {_CHANGE.text(apart, units)} apart" if apart >= _FLAT_MM else ""
    )


def round_before_and_after(r: Round, units: str = "us") -> Figure:
    """The end of a dowel or turned leg. Parameters, returns: as board_before_and_after."""
    before = circle(r.diameter_mm)
    return _figure(
        f"{sentence(r.wood.common_name)}, a round of {_SIZE.text(r.diameter_mm, units)}, from "
        f"{percent_text(r.from_moisture_pct)} to {percent_text(r.to_moisture_pct)}",
        before,
        r.outline,
        [(r.pith, {"round": before})],
        r.wood,
        f": {_SIZE.text(r.widest_mm, units)} at its widest, "
        f"{_SIZE.text(r.narrowest_mm, units)} at its narrowest.",
        units,
    )


def panel_before_and_after(p: PanelSection, units: str = "us") -> Figure:
    """The end of a panel of boards. Parameters, returns: as board_before_and_after."""
    first = p.boards[0]
    faces, left = [], -p.width_mm / 2.0
    for board in p.boards:
        middle = left + board.width_mm / 2.0
        own = rectangle(board.width_mm, board.thickness_mm)
        faces.append({n: tuple(z + middle for z in own[n]) for n in FACES})
        left += board.width_mm
    whole = {
        "bottom": sum((f["bottom"] for f in faces), ()),
        "right": faces[-1]["right"],
        "top": sum((f["top"] for f in reversed(faces)), ()),
        "left": faces[0]["left"],
    }
    return _figure(
        f"A panel of {len(p.boards)} boards of {p.wood.common_name}, "
        f"{_SIZE.text(p.width_mm, units)} x {_SIZE.text(first.thickness_mm, units)}, from "
        f"{percent_text(first.from_moisture_pct)} to {percent_text(first.to_moisture_pct)}",
        _around(whole),
        _around(p.outline),
        [(b.pith, f) for b, f in zip(p.boards, faces, strict=True)],
        p.wood,
        f": {_SIZE.text(p.top_mm, units)} wide above, {_SIZE.text(p.bottom_mm, units)} below; "
        f"{_CHANGE.text(p.out_of_flat_mm.expected, units)} out of flat, "
        f"{PANEL_SHAPES[p.shape]}.",
        units,
    )


def _around(faces: Any) -> Points:
    """The faces as one line around the piece."""
    return sum((tuple(faces[n]) for n in FACES), ())


def _figure(
    title: str,
    before: Points,
    after: Points,
    boards: Sequence[tuple[Pith, Any]],
    wood: Wood,
    sizes: str,
    units: str,
) -> Figure:
    """The outline before, dashed over its rings, and after, solid; the sizes after below it."""
    mark = mark_of_movement(wood)
    times = enlarged(before, after)
    drawn = [a + times * (b - a) for a, b in zip(before, after, strict=True)]
    both = [*before, *drawn]
    width = max(z.real for z in both) - min(z.real for z in both)
    height = max(z.imag for z in both) - min(z.imag for z in both)
    room = _ROOM * max(width, height)
    px = (height + 2.0 * room) / (width + 2.0 * room) * 700.0 + 170.0
    with style():
        figure, axes = new_figure(
            title,
            "Dashed: before, with its rings. Solid: after"
            + (f", the change {times} times as large." if times > 1 else "."),
            height_px=round(min(max(px, _LOWEST_PX), _HIGHEST_PX)),
            note=with_legend(f"After{mark}{sizes}", mark),
        )
        for pith, faces in boards:
            _rings(axes, pith, faces, units)
        _closed(axes, drawn, units, COLORS[0], "-", 2.0)
        _closed(axes, before, units, INK, (0, (5, 3)), 1.1)
        axes.set_aspect("equal")
        for limit, ends in (
            (axes.set_xlim, [z.real for z in both]),
            (axes.set_ylim, [z.imag for z in both]),
        ):
            limit(_SIZE.convert(min(ends) - room, units), _SIZE.convert(max(ends) + room, units))
        axes.grid(visible=False)
        thousands(axes.xaxis)
        thousands(axes.yaxis, 4 if height < 0.5 * width else 8)
        axes.set_xlabel(f"across, from the middle ({_SIZE.label(units)})")
        axes.set_ylabel(f"up ({_SIZE.label(units)})")
        axes.tick_params(labelsize=SMALL_PT)
    return figure


def _closed(
    axes: Axes, points: Sequence[complex], units: str, color: str, stroke: Any, width: float
) -> None:
    ring = [*points, points[0]]
    axes.plot(
        [_SIZE.convert(z.real, units) for z in ring],
        [_SIZE.convert(z.imag, units) for z in ring],
        color=color,
        linestyle=stroke,
        linewidth=width,
        zorder=3.0,
    )


def _rings(axes: Axes, pith: Pith, faces: Any, units: str) -> None:
    """Rings of a piece before, faint, clipped to it; they are not counted, only their run is told.

    Parameters: pith as seen from the middle of the piece; faces of the piece where it is drawn.
    """
    from matplotlib.patches import Circle, Polygon

    points = [z for face in faces.values() for z in face]
    middle = sum(points) / len(points)
    low = min(z.imag for z in points)
    step = 2.0 * abs(middle.imag - low) / _RINGS
    reach = max(abs(z - middle) for z in points)
    place = Polygon(
        [(_SIZE.convert(z.real, units), _SIZE.convert(z.imag, units)) for z in points],
        closed=True,
        facecolor="white",
        edgecolor=QUIET,
        linewidth=0.6,
    )
    axes.add_patch(place)
    if pith.far:
        for k in range(-int(reach / step), int(reach / step) + 1):
            away = middle + k * step * pith.toward
            ends = [away + sign * 2.0 * reach * pith.toward * 1j for sign in (-1.0, 1.0)]
            (line,) = axes.plot(
                [_SIZE.convert(z.real, units) for z in ends],
                [_SIZE.convert(z.imag, units) for z in ends],
                color=GRID,
                linewidth=1.0,
            )
            line.set_clip_path(place)
        return
    center = middle + pith.point
    nearest = max(0.0, hypot(center.real - middle.real, center.imag - middle.imag) - reach)
    for k in range(int(nearest / step), int((nearest + 2.0 * reach) / step) + 2):
        ring = Circle(
            (_SIZE.convert(center.real, units), _SIZE.convert(center.imag, units)),
            _SIZE.convert(k * step, units),
            fill=False,
            edgecolor=GRID,
            linewidth=1.0,
        )
        # Rings are clipped to the piece: they widen neither the axes nor the margins.
        ring.set_in_layout(False)
        axes.add_artist(ring)
        ring.set_clip_path(place)
