"""A drawing in pixels under its title, with dimensions and the rings on the ends of boards."""

from __future__ import annotations

from cmath import phase, rect
from collections.abc import Sequence
from itertools import pairwise
from math import acos, ceil, cos, floor, radians, sin, sqrt
from typing import TYPE_CHECKING, Any

from woodref.charts.figure import (
    INK,
    PIXELS_PER_INCH,
    QUIET,
    SMALL_PT,
    TEXT_PT,
    TITLE_PT,
    WIDTH_PX,
    new_figure,
    wrapped,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.patches import Patch

#: Free margin of a sheet, and the height of a line of letters as a share of their size [px].
MARGIN_PX = 12.0
_LINE, _AIR_PX = 1.25, 8.0
#: Fill of wood, and the color of its rings.
WOOD, RING = "#f6ead2", "#cdb78d"
#: A dimension shorter than this has its arrows outside [px].
_SHORT_PX = 26.0


def letters_px(points: float) -> float:
    """The size of letters on the screen [px], of one given in points."""
    return points * PIXELS_PER_INCH / 72.0


def _lines_px(text: str, width_px: float, points: float) -> float:
    """Height of a text in lines that fit a width [px], with the air below it."""
    lines = wrapped(text, width_px, points).count("\n") + 1
    return lines * letters_px(points) * _LINE + _AIR_PX if text else 0.0


def sheet(
    title: str, subtitle: str, height_px: float, note: str, width_px: int = WIDTH_PX
) -> tuple[Figure, Axes]:
    """A figure with a drawing that is measured in pixels, y upward; call it inside ``style()``.

    Parameters: title, subtitle, note as woodref.charts.figure.new_figure; height_px of the
    drawing alone [px]; width_px of the whole [px].
    Returns: the figure, and its axes from 0 to the width and the height of the drawing.
    """
    room_px = width_px - 2.0 * MARGIN_PX
    subtitle = wrapped(subtitle, room_px, TEXT_PT) if subtitle else ""
    below = _lines_px(note, room_px, SMALL_PT) + MARGIN_PX / 2.0
    above = MARGIN_PX + _lines_px(title, room_px, TITLE_PT) + _lines_px(subtitle, room_px, TEXT_PT)
    whole = ceil(height_px + below + above)
    figure, axes = new_figure(title, "", width_px, whole, note)
    figure.set_layout_engine("none")
    left = MARGIN_PX / width_px
    figure.suptitle(
        figure.get_suptitle(), x=left, y=1.0 - MARGIN_PX / whole, ha="left", va="top",
        size=TITLE_PT, weight="bold",
    )  # fmt: skip
    if note:
        figure.supxlabel(
            figure.get_supxlabel(), x=left, y=MARGIN_PX / 2.0 / whole, ha="left", va="bottom",
            size=SMALL_PT, color=QUIET,
        )  # fmt: skip
    axes.set_position((MARGIN_PX / width_px, below / whole, room_px / width_px, height_px / whole))
    axes.set_xlim(0.0, room_px)
    axes.set_ylim(0.0, height_px)
    axes.set_axis_off()
    if subtitle:
        axes.set_title(subtitle, loc="left", size=TEXT_PT, color=QUIET, pad=_AIR_PX * 0.75)
    return figure, axes


def room_of(axes: Axes) -> tuple[float, float]:
    """Width and height of the drawing of a sheet [px]."""
    return float(axes.get_xlim()[1]), float(axes.get_ylim()[1])


def dimension(
    axes: Axes,
    start: complex,
    end: complex,
    text: str,
    color: str = INK,
    side: complex = 0j,
    **looks: Any,
) -> None:
    """A dimension from point to point, with its text on it or beside it.

    Parameters: axes of a sheet; start, end [px]; text; color; side, where the text stands from
    the middle of the line [px], by default on the line; looks of the letters.
    """
    length = abs(end - start)
    along = (end - start) / length if length else 1.0 + 0.0j
    arrow = {"arrowstyle": "-|>", "color": color, "linewidth": 1.0, "shrinkA": 0, "shrinkB": 0}
    arrow["mutation_scale"] = 9.0
    if length >= _SHORT_PX:
        axes.annotate(
            "",
            (end.real, end.imag),
            (start.real, start.imag),
            arrowprops={**arrow, "arrowstyle": "<|-|>"},
        )
    else:
        for point, way in ((start, -along), (end, along)):
            tail = point + 14.0 * way
            axes.annotate("", (point.real, point.imag), (tail.real, tail.imag), arrowprops=arrow)
    middle = (start + end) / 2.0 + side
    axes.text(
        middle.real,
        middle.imag,
        text,
        **{
            "ha": "center" if not side.real else ("left" if side.real > 0.0 else "right"),
            "va": "center",
            "size": TEXT_PT,
            "color": color,
            "zorder": 5.0,
            "bbox": {"boxstyle": "square,pad=0.15", "facecolor": "white", "edgecolor": "none"},
            **looks,
        },
    )


def extension(axes: Axes, start: complex, end: complex, color: str = INK) -> None:
    """A thin line from an edge of a piece to its dimension [px]."""
    axes.plot([start.real, end.real], [start.imag, end.imag], color=color, linewidth=0.6)


def rings(
    axes: Axes, place: Patch, corners: Sequence[complex], center: complex | None, angle_deg: float,
    step_px: float,
) -> None:  # fmt: skip
    """Rings on the end of a board, clipped to it: only their run is told, not their number.

    Parameters: axes of a sheet; place, the shape of the end, on the axes already; corners of it
    [px]; center of the rings [px], None for straight ones; angle_deg of straight rings to the
    face, counterclockwise; step_px between rings.
    """
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    middle = sum(corners) / len(corners)
    reach = max(abs(z - middle) for z in corners)
    if center is None:
        along = complex(cos(radians(angle_deg)), sin(radians(angle_deg)))
        count = int(reach / step_px)
        runs = [
            [middle + along * (sign * reach + 1j * k * step_px) for sign in (-1.0, 1.0)]
            for k in range(-count, count + 1)
        ]
    else:
        runs = _arcs(center, middle, reach, step_px)
    runs = [part for run in runs for part in _inside(run, corners)]
    points = [(z.real, z.imag) for run in runs for z in run]
    codes = [Path.MOVETO if not n else Path.LINETO for run in runs for n in range(len(run))]
    drawn = PathPatch(Path(points, codes), fill=False, edgecolor=RING, linewidth=0.9, zorder=1.5)
    axes.add_patch(drawn)
    # What is clipped widens neither the axes nor the margins.
    drawn.set_in_layout(False)
    drawn.set_clip_path(place)


def _inside(run: Sequence[complex], corners: Sequence[complex]) -> list[list[complex]]:
    """The pieces of a line that may lie in the box around some corners [px]."""
    left, right = min(z.real for z in corners), max(z.real for z in corners)
    low, high = min(z.imag for z in corners), max(z.imag for z in corners)
    parts: list[list[complex]] = [[]]
    for a, b in pairwise(run):
        if (
            max(a.real, b.real) < left
            or min(a.real, b.real) > right
            or max(a.imag, b.imag) < low
            or min(a.imag, b.imag) > high
        ):
            parts.append([])
            continue
        parts[-1] += [b] if parts[-1] else [a, b]
    return [part for part in parts if part]


def _arcs(center: complex, middle: complex, reach: float, step_px: float) -> list[list[complex]]:
    """Circles around the pith, each only as far around as it may run through a piece [px]."""
    away, toward = abs(middle - center), phase(middle - center)
    first, last = floor((away - reach) / step_px), ceil((away + reach) / step_px)
    arcs = []
    for radius in (k * step_px for k in range(max(1, first), last + 1)):
        # By the cosine rule; the pieces of an arc lie within 1/4 px of it.
        share = (away**2 + radius**2 - reach**2) / (2.0 * away * radius) if away else -1.0
        half = acos(min(1.0, max(-1.0, share)))
        count = max(2, ceil(half * sqrt(radius / 2.0)))
        arcs.append(
            [center + rect(radius, toward + half * n / count) for n in range(-count, count + 1)]
        )
    return arcs


def ring_center(middle: complex, size: float, angle_deg: float, up: bool = False) -> complex:
    """Where the pith lies of a board whose rings stand at an angle in the middle of its end.

    Parameters: middle of the end [px]; size, how far the pith is from it [px]; angle_deg of the
    rings to the face, 0 flat, 90 quarter; up, true where the heart side looks up.
    """
    turn = radians(angle_deg)
    toward = complex(-sin(turn), cos(turn) if up else -cos(turn))
    return middle + size * toward
