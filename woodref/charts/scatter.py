"""Hardness against weight: the chosen woods named among all the others."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.property_text import marks
from woodref.answers.provenance import sentence
from woodref.charts.figure import COLORS, new_figure, point_style, style, thousands
from woodref.charts.labels import label_points
from woodref.charts.legend import with_legend
from woodref.choose.compare import ComparedValue, Comparison
from woodref.choose.overview import AIR_DRY_PCT
from woodref.errors import NoDataError
from woodref.units import KINDS, Kind

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

#: The two figures as rows of a comparison, and how they print.
DENSITY, HARDNESS = "density", "side_hardness"
_DENSITY, _HARDNESS = KINDS["density"], KINDS["force"]
#: Longest line of a wood's name [letters].
_NAME = 26


def _range(cell: ComparedValue, kind: Kind, units: str) -> tuple[float, float] | None:
    if cell.likely is None:
        return None
    return kind.convert(cell.likely.low, units), kind.convert(cell.likely.high, units)


def hardness_density(
    comparison: Comparison,
    others: Sequence[tuple[float, float]] = (),
    units: str = "us",
) -> Figure:
    """Side hardness (Janka) at 12 % against density at 12 %, single boards likely as thin lines.

    Parameters: comparison that holds both figures; others, (density [kg/m3], side
    hardness [N]) of woods drawn faint behind; units 'us' or 'si', hardness as print gives it
    in these.
    Returns: a figure of 800 px; woods that lack a figure are named below it.
    Raises: NoDataError where no wood has both.
    """
    density, hardness = comparison.row(DENSITY), comparison.row(HARDNESS)
    names, points, ranges, lacking, sure = [], [], [], [], []
    for i, wood in enumerate(comparison.woods):
        d = density.cells[i] if density else None
        h = hardness.cells_in(units)[i] if hardness else None
        if d is None or h is None:
            missing = [w for w, c in (("density", d), ("side hardness", h)) if c is None]
            lacking.append(f"{wood.common_name} ({' and '.join(missing)} in no table)")
            continue
        names.append(wood.common_name)
        sure.append(marks(*d.values, *h.values))
        points.append((_DENSITY.convert(d.value, units), _HARDNESS.convert(h.value, units)))
        ranges.append((_range(d, _DENSITY, units), _range(h, _HARDNESS, units)))
    if not names:
        raise NoDataError(
            "no wood named has both a density and a side hardness (Janka) in the tables, so there "
            f"is nothing to draw: {'; '.join(lacking)}"
        )
    note = f"Not in the chart: {'; '.join(lacking)}." if lacking else ""
    with style():
        figure, axes = new_figure(
            finding(names, points),
            "Thin lines: where 9 boards in 10 fall."
            + (" Small dots: the other woods." if others else ""),
            height_px=560,
            note=with_legend(note, sure),
        )
        axes.set_xlabel(f"density at {AIR_DRY_PCT:g} % ({_DENSITY.label(units)})")
        axes.set_ylabel(f"side hardness, Janka, at 12 % ({_HARDNESS.label(units)})")
        thousands(axes.xaxis)
        thousands(axes.yaxis)
        lines = _points(axes, points, ranges)
        _frame(axes, points, ranges)
        if others:
            axes.plot(
                [_DENSITY.convert(d, units) for d, _ in others],
                [_HARDNESS.convert(h, units) for _, h in others],
                linestyle="none",
                marker=".",
                markersize=4.0,
                color="#c4c4c4",
                zorder=1.0,
                scalex=False,
                scaley=False,
            )
        told = [
            textwrap.fill(f"{name}{mark}", _NAME) for name, mark in zip(names, sure, strict=True)
        ]
        label_points(axes, told, points, [_color(i) for i in range(len(names))], lines)
    return figure


def finding(names: Sequence[str], points: Sequence[tuple[float, float]]) -> str:
    """'On average sugar maple is the hardest of 5 woods, white oak the heaviest'.

    Parameters: names; points, weight and hardness of each.
    """
    if len(names) == 1:
        return f"{sentence(names[0])} among the other woods, by hardness and weight"
    places = range(len(names))
    hard = names[max(places, key=lambda i: points[i][1])]
    heavy = names[max(places, key=lambda i: points[i][0])]
    of = "the two" if len(names) == 2 else f"{len(names)} woods"
    if hard == heavy:
        return f"On average {hard} is the hardest and the heaviest of {of}"
    return f"On average {hard} is the hardest of {of}, {heavy} the heaviest"


def _color(i: int) -> str:
    return COLORS[i % len(COLORS)]


_Ranges = Sequence[tuple[tuple[float, float] | None, tuple[float, float] | None]]


def _points(
    axes: Axes, points: Sequence[tuple[float, float]], ranges: _Ranges
) -> list[list[tuple[float, float]]]:
    """Draw the points with their ranges; the lines drawn, as pairs of points."""
    lines = []
    for i, ((x, y), (across, up)) in enumerate(zip(points, ranges, strict=True)):
        drawn = []
        if across:
            drawn.append([(across[0], y), (across[1], y)])
        if up:
            drawn.append([(x, up[0]), (x, up[1])])
        for start, end in drawn:
            axes.plot(
                [start[0], end[0]],
                [start[1], end[1]],
                color=_color(i),
                linewidth=1.0,
                alpha=0.55,
                zorder=2.0,
            )
        lines += drawn
        axes.plot([x], [y], **point_style(i), zorder=3.0)
    return lines


def _frame(axes: Axes, points: Sequence[tuple[float, float]], ranges: _Ranges) -> None:
    """Limits that hold every point and range, with room for the names; none below zero."""
    for i, limit in ((0, axes.set_xlim), (1, axes.set_ylim)):
        ends = [v for r in ranges for v in (r[i] or ())] + [p[i] for p in points]
        room = 0.12 * (max(ends) - min(ends)) or 0.2 * max(ends)
        limit(max(0.0, min(ends) - room), max(ends) + room)
