"""A fixing drawn to scale beside its year, in the month in which it has the least room."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.shop_words import size_text
from woodref.charts.figure import COLORS, INK, QUIET, SMALL_PT, TEXT_PT
from woodref.joinery.fit import CheckKey

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from woodref.joinery.clearance import Fixing

#: Widths of the stile, thickness of the frame and of the tongue that are drawn, as shares of the
#: groove's depth: a usual frame, so that the gap is seen beside it.
_STILE, _FRAME, _TONGUE = 3.0, 1.8, 0.6
#: Fill of what holds still and of what moves.
_STILL, _MOVES = "#efe3d0", "#dcc3a0"
#: A shank where none was given, as a share of the room around it.
_SHANK = 1.2
#: Rooms around a shank, seen from above.
_SHANKS = (CheckKey.SHANK_IN_HOLE, CheckKey.SLOT_CENTERED, CheckKey.SLOT_OFFSET)
#: What holds still and what moves, of the kinds that have a gap.
_PARTS = {
    "button": ("apron", "button"),
    "drawer-bottom": ("back", "bottom"),
    "drawer-front": ("opening", "front"),
}


def has_sketch(key: CheckKey) -> bool:
    """True for the rooms that are drawn: gaps, and what is around a shank."""
    return key is CheckKey.GAP or key in _SHANKS


def sketch(
    axes: Axes,
    fixing: Fixing,
    key: CheckKey,
    to: str,
    start_mm: float,
    least_mm: float,
    units: str,
) -> None:
    """The fixing to scale where it has the least room.

    Parameters: axes; fixing; key of the room that is least, one that has a sketch; to 'swell' or
    'shrink', its side; start_mm, least_mm, the room there at the build and at its least [mm];
    units 'us' or 'si'.
    """
    axes.set_axis_off()
    if key is CheckKey.GAP and fixing.spec.kind == "floating-panel":
        x, top = _groove(axes, start_mm, least_mm)
        told = "to scale at its least;\na usual frame"
    elif key is CheckKey.GAP:
        x, top = _gap(axes, fixing.spec.kind, start_mm, least_mm)
        told = "to scale at its least"
    else:
        x, top = _hole(axes, fixing.spec.sizes.shank, key, to, start_mm, least_mm)
        told = "seen from above, to scale\nwhere its room is least"
    left = size_text(least_mm, units) if least_mm > 0.0 else "none left"
    axes.text(x, top, left, ha="center", va="bottom", size=TEXT_PT, color=COLORS[0], weight="bold")
    axes.plot([x, x], [0.0, top], color=COLORS[0], linewidth=1.0, zorder=5.0)
    across = sum(axes.get_xlim()) / 2.0
    axes.text(across, -top * 1.1, told, ha="center", va="top", size=SMALL_PT, color=QUIET)
    axes.set_ylim(-2.2 * top, 1.6 * top)
    axes.set_aspect("equal", adjustable="box")


def _wood(fill: str) -> dict[str, Any]:
    return {"facecolor": fill, "edgecolor": INK, "linewidth": 1.0}


def _groove(axes: Axes, gap_mm: float, least_mm: float) -> tuple[float, float]:
    """A section of stile and panel: the groove, the tongue, and the gap at its least.

    Returns: where to point at it, and how high above.
    """
    from matplotlib.patches import Rectangle

    depth = max(2.0 * gap_mm, 6.0)
    wide, thick, tongue = _STILE * depth, _FRAME * depth, _TONGUE * depth
    lips = (thick - tongue) / 2.0
    axes.add_patch(Rectangle((-wide, -thick / 2.0), wide - depth, thick, **_wood(_STILL)))
    for y in (-thick / 2.0, thick / 2.0 - lips):
        axes.add_patch(Rectangle((-depth, y), depth, lips, **_wood(_STILL)))
    left = -depth + max(least_mm, 0.0)
    axes.add_patch(Rectangle((left, -tongue / 2.0), wide - left, tongue, **_wood(_MOVES)))
    axes.text(-wide * 0.95, -thick * 0.78, "frame", size=SMALL_PT, color=QUIET)
    axes.text(wide * 0.45, -thick * 0.78, "panel", size=SMALL_PT, color=QUIET)
    axes.set_xlim(-wide * 1.05, wide * 0.95)
    return (-depth + left) / 2.0, thick * 1.1


def _gap(axes: Axes, kind: str, gap_mm: float, least_mm: float) -> tuple[float, float]:
    """What holds still and what moves, and the gap between them. Returns: as _groove."""
    from matplotlib.patches import Rectangle

    still, moves = _PARTS[kind]
    long = max(6.0 * gap_mm, 12.0)
    high, gap = 0.5 * long, max(least_mm, 0.0)
    axes.add_patch(Rectangle((-long, -high / 2.0), long, high, **_wood(_STILL)))
    axes.add_patch(Rectangle((gap, -high / 2.0), long, high, **_wood(_MOVES)))
    for x, word in ((-long * 0.9, still), (gap + long * 0.3, moves)):
        axes.text(x, 0.0, word, size=SMALL_PT, color=INK, va="center")
    axes.set_xlim(-long * 1.05, gap + long * 1.05)
    return gap / 2.0, high * 1.1


def _hole(
    axes: Axes, shank_mm: float | None, key: CheckKey, to: str, start_mm: float, least_mm: float
) -> tuple[float, float]:
    """A hole or slot from above, its shank as near to the end as it comes. Returns: as _groove."""
    from matplotlib.patches import Circle, FancyBboxPatch

    room = max(start_mm, 0.5)
    shank = shank_mm or _SHANK * room
    half = shank / 2.0 + room
    if key is CheckKey.SHANK_IN_HOLE:
        high = 2.0 * half
        axes.add_patch(Circle((0.0, 0.0), half, **_wood("white")))
    else:
        high = shank * 1.06
        round_ends = f"round,pad=0,rounding_size={high / 2.0 - 1e-6}"
        place = (-half, -high / 2.0), 2.0 * half, high
        axes.add_patch(FancyBboxPatch(*place, boxstyle=round_ends, **_wood("white")))
    way = 1.0 if to == "swell" else -1.0
    x = way * (room - max(least_mm, 0.0))
    axes.add_patch(Circle((x, 0.0), shank / 2.0, **_wood("#b9bec4")))
    edge = x + way * (shank / 2.0 + max(least_mm, 0.0) / 2.0)
    axes.set_xlim(-1.25 * half, 1.25 * half)
    return edge, high * 0.5 + 0.35 * half
