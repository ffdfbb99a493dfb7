"""The gap left beside a floating panel through the year, and the corner it stands in, to scale."""

from __future__ import annotations

from functools import partial
from math import ceil
from typing import TYPE_CHECKING, Any

from woodref.answers.fixing_words import VERDICTS
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import size_text
from woodref.board.movement import movement
from woodref.charts.figure import COLORS, INK, QUIET, SMALL_PT, TEXT_PT, new_figure, style
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.climate.seasons import MONTHS
from woodref.climate.sizes_by_month import MonthSize, sizes_through_year
from woodref.units import MM_PER_INCH, fraction_of_inch

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.climate.rooms import Room
    from woodref.joinery.clearance import Fixing

#: Steps of the axis of gaps: 1/32 in, 1 mm.
_STEPS_MM = {"us": MM_PER_INCH / 32.0, "si": 1.0}
#: Most steps with a label.
_MOST = 8
#: Widths of the stile, thickness of the frame and of the tongue that are drawn, as shares of the
#: groove's depth: a usual frame, so that the gap is seen beside it.
_STILE, _FRAME, _TONGUE = 3.0, 1.8, 0.6


def _gaps(fixing: Fixing, room: Room, gap_mm: float) -> tuple[list[MonthSize], list[float]]:
    """The distance of the edge month by month, and the gap left then [mm]."""
    spec = fixing.spec
    moved = partial(
        movement,
        fixing.wood,
        spec.distance_mm,
        fixing.moisture.build_pct,
        ring_angle_deg=spec.ring_angle_deg,
        boards=spec.boards,
    )
    months = list(sizes_through_year(room.season, moved))
    return months, [gap_mm - (m.size_mm.expected - spec.distance_mm) for m in months]


def gap_year(fixing: Fixing, room: Room, units: str) -> Figure:
    """The gap each side of a floating panel, month by month, with the zone where it binds.

    Beside it the corner of frame and panel to scale, at the month in which the gap is least.

    Parameters: fixing, a floating panel with a gap, fitted in the room; room; units 'us' or 'si'.
    Returns: a figure whose title says what becomes of the gap.
    """
    gap_mm = fixing.gap_mm or 0.0
    months, gaps = _gaps(fixing, room, gap_mm)
    least = min(range(len(gaps)), key=gaps.__getitem__)
    worst_mm = gap_mm - fixing.travel.away.high
    title = _title(fixing, gap_mm, gaps[least], room.season.months[least].name)
    mark = mark_of_movement(fixing.wood)
    with style():
        figure, first = new_figure(
            title,
            note=with_legend(
                f"{sentence(fixing.wood.common_name)}, {room.label}. Line: the expected course of "
                "thin bare wood; dashed: what is left at the wettest to design for, of a board "
                "that moves more than most. Frame and panel drawn to scale; the sizes of the frame "
                "are usual ones.",
                mark,
            ),
        )
        first.remove()
        corner, year = figure.subplots(1, 2, width_ratios=[1.0, 2.3])
        _corner(corner, gap_mm, gaps[least], units)
        _year(year, months, gaps, worst_mm, gap_mm, units, mark)
    return figure


def _title(fixing: Fixing, gap_mm: float, least_mm: float, month: str) -> str:
    """What becomes of the gap: the finding."""
    units = fixing.spec.units
    gap = size_text(gap_mm, units)
    if least_mm <= 0.0:
        return f"A gap of {gap} is used up by {month}: the panel binds"
    title = f"A gap of {gap} closes to {size_text(least_mm, units)} by {month}"
    return f"{title}: it {VERDICTS[fixing.verdict]}" if fixing.verdict else title


def _left(gap_mm: float, units: str) -> str:
    """A gap in words, without a negative size."""
    return size_text(gap_mm, units) if gap_mm > 0.0 else f"{size_text(-gap_mm, units)} too little"


def _corner(axes: Axes, gap_mm: float, least_mm: float, units: str) -> None:
    """A section of stile and panel: the groove, the tongue, and the gap at its least."""
    from matplotlib.patches import Rectangle

    depth = max(2.0 * gap_mm, 6.0)
    wide, thick, tongue = _STILE * depth, _FRAME * depth, _TONGUE * depth
    wood: dict[str, Any] = {"facecolor": "#efe3d0", "edgecolor": INK, "linewidth": 1.0}
    lips = (thick - tongue) / 2.0
    axes.add_patch(Rectangle((-wide, -thick / 2.0), wide - depth, thick, **wood))
    for y in (-thick / 2.0, thick / 2.0 - lips):
        axes.add_patch(Rectangle((-depth, y), depth, lips, **wood))
    panel = {**wood, "facecolor": "#dcc3a0"}
    left = -depth + max(least_mm, 0.0)
    axes.add_patch(Rectangle((left, -tongue / 2.0), wide - left, tongue, **panel))
    axes.annotate(
        size_text(least_mm, units) if least_mm > 0.0 else "no gap",
        ((-depth + left) / 2.0, 0.0),
        (-depth, thick * 0.95),
        ha="center",
        size=TEXT_PT,
        color=COLORS[0],
        arrowprops={"arrowstyle": "-", "color": COLORS[0]},
    )
    axes.text(-wide * 0.95, -thick * 0.72, "frame", size=SMALL_PT, color=QUIET)
    axes.text(wide * 0.45, -thick * 0.72, "panel", size=SMALL_PT, color=QUIET)
    axes.set_xlim(-wide * 1.05, wide * 0.95)
    axes.set_ylim(-thick * 1.3, thick * 1.3)
    axes.set_aspect("equal")
    axes.set_axis_off()


def _year(
    axes: Axes,
    months: list[MonthSize],
    gaps: list[float],
    worst_mm: float,
    gap_mm: float,
    units: str,
    mark: str,
) -> None:
    places = range(len(gaps))
    spread = [
        (gap + m.size_mm.expected - m.size_mm.high, gap + m.size_mm.expected - m.size_mm.low)
        for gap, m in zip(gaps, months, strict=True)
    ]
    low, high = (list(ends) for ends in zip(*spread, strict=True))
    top, bottom = max(*high, gap_mm) * 1.12, min(0.0, worst_mm, *low)
    bottom -= 0.12 * top
    axes.axhspan(bottom, 0.0, color=COLORS[1], alpha=0.14, linewidth=0)
    axes.text(0.0, bottom * 0.6, "the panel binds", size=SMALL_PT, color=COLORS[1], va="center")
    axes.fill_between(places, low, high, color=COLORS[0], alpha=0.16, linewidth=0)
    axes.plot(places, gaps, color=COLORS[0], marker="o", markersize=5.0)
    axes.axhline(worst_mm, color=QUIET, linestyle="--", linewidth=1.2)
    axes.text(
        len(gaps) - 0.6,
        worst_mm,
        f"wettest to design for: {_left(worst_mm, units)}{mark}",
        size=SMALL_PT,
        color=QUIET,
        ha="right",
        va="bottom",
    )
    step = _STEPS_MM[units] * max(1, ceil(top / _STEPS_MM[units] / _MOST))
    ticks = [n * step for n in range(int(top / step) + 1)]
    axes.set_yticks(ticks, [_tick(t, units) for t in ticks])
    axes.set_xticks(places, [MONTHS[m.month - 1] for m in months], size=SMALL_PT)
    axes.grid(visible=False, axis="x")
    axes.set_xlim(-0.5, len(gaps) - 0.5)
    axes.set_ylim(bottom, top)
    axes.set_ylabel(f"gap left on each side ({'in' if units == 'us' else 'mm'})")


def _tick(size_mm: float, units: str) -> str:
    if units == "us":
        return fraction_of_inch(size_mm / MM_PER_INCH, 32)
    return f"{size_mm:.0f}"
