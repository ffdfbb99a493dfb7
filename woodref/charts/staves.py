"""A panel of staves from its end, before and after, with the change drawn larger."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin
from typing import TYPE_CHECKING

from woodref.answers.words import percent_text
from woodref.board.movement import Movement
from woodref.board.panel import PanelMovement
from woodref.charts.figure import (
    COLORS,
    GRID,
    INK,
    QUIET,
    SMALL_PT,
    ground,
    new_figure,
    style,
    thousands,
)
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.patches import Rectangle

_SIZE, _CHANGE = KINDS["size"], KINDS["change_end"]
#: How much larger a change may be drawn, and the share of the width it should come to.
_LARGER, _SHARE = (1, 2, 5, 10, 20, 50, 100), 0.12
#: Height of a strip of staves beside a chart that is 1 high, and where the two stand.
_HIGH, _BEFORE, _AFTER = 0.26, 0.62, 0.12
#: From this many staves on numbers are left off: they would not fit.
_MOST_NAMED = 12
#: Distance of the rings drawn, and height over width of the chart, which keeps their angle.
_RING_STEP, _PICTURE = 0.045, 0.31


def enlarged(change: float, size: float) -> int:
    """How many times as large a change is drawn, so that it is seen beside a size."""
    wanted = _SHARE * size / abs(change) if change else 1.0
    return max((n for n in _LARGER if n <= wanted), default=1)


def staves_before_and_after(m: PanelMovement, units: str = "us") -> Figure:
    """The staves of a panel before and after, edge to edge, the change of each written on it.

    Parameters: m, the movement of the panel; units 'us' or 'si'.
    Returns: a figure of 800 px; the change is drawn larger by the factor it states.
    """
    lead = m.staves[0]
    mark = mark_of_movement(lead.wood)
    times = enlarged(m.change_mm, m.size_mm)
    drawn = [s.size_mm + times * s.change_mm for s in m.staves]
    numbers = f" ({_CHANGE.label(units)})" if len(drawn) <= _MOST_NAMED else ""
    with style():
        figure, axes = new_figure(
            f"A panel of {lead.wood.common_name}, {_SIZE.text(m.size_mm, units)} wide at "
            f"{percent_text(lead.from_moisture_pct)}, is {_SIZE.text(m.after_mm, units)}{mark} at "
            f"{percent_text(lead.to_moisture_pct)}",
            f"Staves seen on their ends, with their rings; the change{numbers} is drawn "
            f"{times} times as large.",
            height_px=380,
            note=with_legend(
                f"Likely {_SIZE.text(m.likely_mm.low, units)} to "
                f"{_SIZE.text(m.likely_mm.high, units)} after: "
                "central 90 %, a panel being the sum of its staves.",
                mark,
            ),
        )
        before = [_SIZE.convert(s.size_mm, units) for s in m.staves]
        after = [_SIZE.convert(s, units) for s in drawn]
        middle = sum(before) / 2.0
        ends = max(sum(before), sum(after)) / 2.0
        axes.set_xlim(middle - 1.03 * ends, middle + 1.03 * ends)
        axes.set_ylim(0.0, 1.0)
        _strip(axes, before, m.staves, middle, _BEFORE, QUIET, _numbers(m.staves))
        _strip(axes, after, m.staves, middle, _AFTER, COLORS[0], _changes(m.staves, units))
        axes.set_yticks(
            [_BEFORE + _HIGH / 2.0, _AFTER + _HIGH / 2.0],
            [percent_text(pct) for pct in (lead.from_moisture_pct, lead.to_moisture_pct)],
        )
        axes.set_ylabel("moisture content")
        axes.tick_params(axis="y", length=0)
        axes.grid(visible=False)
        axes.spines["left"].set_visible(False)
        thousands(axes.xaxis)
        axes.set_xlabel(f"across the panel before ({_SIZE.label(units)})")
        for x in (middle - sum(before) / 2.0, middle + sum(before) / 2.0):
            axes.axvline(x, color=QUIET, linewidth=0.8, linestyle=(0, (4, 3)), zorder=0.5)
    return figure


def _numbers(staves: Sequence[Movement]) -> list[str]:
    if len(staves) > _MOST_NAMED:
        return [""] * len(staves)
    return [str(i) for i in range(1, len(staves) + 1)]


def _changes(staves: Sequence[Movement], units: str) -> list[str]:
    """The change of each stave with its sign; none where they would not fit."""
    if len(staves) > _MOST_NAMED:
        return [""] * len(staves)
    return [
        f"{_CHANGE.convert(s.change_mm, units):+.{_CHANGE.shown[units == 'us']}f}" for s in staves
    ]


def _strip(
    axes: Axes,
    widths: Sequence[float],
    staves: Sequence[Movement],
    middle: float,
    bottom: float,
    color: str,
    words: Sequence[str],
) -> None:
    """Staves edge to edge around the middle, with their rings and a word in each."""
    from matplotlib import patches

    left = middle - sum(widths) / 2.0
    for width, stave, word in zip(widths, staves, words, strict=True):
        box = patches.Rectangle(
            (left, bottom), width, _HIGH, facecolor="white", edgecolor=color, linewidth=1.4
        )
        axes.add_patch(box)
        _rings(axes, box, stave.ring_angle_deg)
        axes.text(
            left + width / 2.0,
            bottom + _HIGH / 2.0,
            word,
            ha="center",
            va="center",
            size=SMALL_PT,
            color=INK,
            bbox=ground(),
            zorder=4.0,
        )
        left += width


def _rings(axes: Axes, box: Rectangle, angle_deg: float) -> None:
    """Straight rings through a stave at their angle to its face, whatever the scales are."""
    across = _PICTURE * (axes.get_xlim()[1] - axes.get_xlim()[0])
    width = box.get_width() / across
    along = complex(cos(radians(angle_deg)), sin(radians(angle_deg)))
    reach = width + _HIGH
    middle = complex(box.get_x() + box.get_width() / 2.0, box.get_y() + _HIGH / 2.0)
    for k in range(-int(reach / _RING_STEP), int(reach / _RING_STEP) + 1):
        start, end = (along * (sign * reach + 1j * k * _RING_STEP) for sign in (-1.0, 1.0))
        (line,) = axes.plot(
            [middle.real + z.real * across for z in (start, end)],
            [middle.imag + z.imag for z in (start, end)],
            color=GRID,
            linewidth=1.0,
            zorder=1.5,
            scalex=False,
            scaley=False,
        )
        line.set_in_layout(False)
        line.set_clip_path(box)
