"""The year of a room as a picture: what wood comes to, and how wide a part is, month by month."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.words import percent_text
from woodref.charts.figure import (
    COLORS,
    LINES,
    QUIET,
    SMALL_PT,
    new_figure,
    point_style,
    style,
    thousands,
)
from woodref.charts.held import flat_words
from woodref.charts.labels import label_points
from woodref.charts.legend import with_legend
from woodref.charts.scale import size_axis, size_words
from woodref.climate.seasons import MONTHS, Season
from woodref.climate.sizes_by_month import MonthSize

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_Stroke = tuple[tuple[float, float], tuple[float, float]]
#: A level line closer to another than this share of the axis is not named beside it.
_NEAR = 0.02


def course(season: Season) -> str:
    """What the line of a year in a room is, and where it is flat, for the note of its picture."""
    told = (
        "The expected course of thin bare wood; thick or finished wood lags behind by weeks and "
        "swings less."
    )
    return f"{told} {flat_words(season)}".strip()


class YearLine(NamedTuple):
    """A part through the year: what to call it, and its sizes by month."""

    name: str
    months: Sequence[MonthSize]


class Level(NamedTuple):
    """A size that stands as a level line through the year [mm], and what to say of it."""

    size_mm: float
    words: str


def month_axis(axes: Axes, season: Season, with_moisture: bool = True) -> None:
    """Months along the bottom, each with the moisture content of wood under it.

    Parameters: axes; season; with_moisture false for the names of the months alone.
    """
    labels = [
        f"{MONTHS[m.month - 1]}\n{m.emc_pct:.1f} %" if with_moisture else MONTHS[m.month - 1]
        for m in season.months
    ]
    axes.set_xticks(range(len(labels)), labels, size=SMALL_PT)
    axes.set_xlim(-0.5, len(labels) - 0.5)
    axes.grid(visible=False, axis="x")


def year_line(axes: Axes, i: int, values: Sequence[float]) -> None:
    """The i-th line of a year, with its own shape, stroke and color."""
    axes.plot(
        range(len(values)),
        values,
        linestyle=LINES[i % len(LINES)],
        **{**point_style(i), "markersize": 6.0},
        zorder=3.0,
    )


def ends_of(values: Sequence[float]) -> tuple[int, int]:
    """Where the smallest and the largest value stand."""
    places = range(len(values))
    return min(places, key=values.__getitem__), max(places, key=values.__getitem__)


def band(axes: Axes, low: Sequence[float], high: Sequence[float], color: str = COLORS[0]) -> None:
    """The range around a line of the year, in a pale tone."""
    axes.fill_between(range(len(low)), low, high, color=color, alpha=0.16, linewidth=0, zorder=1.0)


def level_line(axes: Axes, value: float) -> None:
    """A dashed level line through the year."""
    axes.axhline(value, color=QUIET, linewidth=1.0, linestyle=(0, (6, 3)), zorder=1.5)


def seasonal_width(
    title: str,
    subtitle: str,
    lines: Sequence[YearLine],
    season: Season,
    units: str = "us",
    levels: Sequence[Level] = (),
    what: str = "width",
    mark: str = "",
    axes: Axes | None = None,
) -> Figure:
    """The size of a part through the year, with the likely band of the first line.

    Parameters: title, subtitle; lines, one for each cut, the first with its band; season of
    the room; units 'us' or 'si'; levels, such as the size when made and what to design for, as
    dashed lines; what is measured, such as 'width'; mark of the sizes (woodref.charts.legend), ''
    where their figures were read in print; axes to draw on, else those of a new figure.
    Returns: a figure of 800 px, the smallest and largest size of each line written on it.
    """
    lead = lines[0]
    with style():
        if axes is None:
            figure, axes = new_figure(
                title,
                subtitle,
                note=with_legend(
                    f"Band: where 9 boards in 10 fall, {lead.name}. {course(season)}",
                    mark,
                ),
            )
        else:
            own = axes.get_figure(root=True)
            assert own is not None
            figure = own
        band(axes, [m.size_mm.low for m in lead.months], [m.size_mm.high for m in lead.months])
        names, colors = [], []
        points: list[tuple[float, float]] = []
        strokes: list[_Stroke] = []
        for i, line in enumerate(lines):
            values = [m.size_mm.expected for m in line.months]
            year_line(axes, i, values)
            strokes += pairwise(list(enumerate(values)))
            for k, at in enumerate(ends_of(values)):
                # Where lines share their smallest size one label says it.
                if k == 0 and any(abs(p[1] - values[at]) < 1e-6 for p in points):
                    continue
                size = size_words(values[at], units) + mark
                month = MONTHS[line.months[at].month - 1]
                named = f"{line.name} {size}" if k and len(lines) > 1 else f"{month} {size}"
                names.append(named)
                points.append((float(at), values[at]))
                colors.append(COLORS[i % len(COLORS)])
        axes.margins(y=0.1)
        for level in levels:
            level_line(axes, level.size_mm)
        axes.autoscale_view()
        bottom, top = axes.get_ylim()
        for n, level in enumerate(levels):
            strokes.append(((-0.5, level.size_mm), (11.5, level.size_mm)))
            if any(abs(o.size_mm - level.size_mm) < _NEAR * (top - bottom) for o in levels[:n]):
                continue
            names.append(level.words)
            points.append((1.0 if level.size_mm > (bottom + top) / 2.0 else 5.5, level.size_mm))
            colors.append(QUIET)
        axes.set_ylim(bottom, top)
        size_axis(axes.yaxis, units)
        axes.set_ylabel(f"{what} ({'in' if units == 'us' else 'mm'})")
        axes.set_xlabel("month, and moisture content of wood in the room")
        month_axis(axes, season)
        label_points(axes, names, points, colors, strokes, grounded=False)
    return figure


def seasonal_moisture(label: str, season: Season, room_only: bool = False) -> Figure:
    """The moisture content wood comes to in a room through the year, and outdoors under cover.

    Parameters: label of the room; season; room_only, true where nothing is known of the air
    outdoors.
    Returns: a figure of 800 px, the driest and the wettest month written on it.
    """
    room = [m.emc_pct for m in season.months]
    told = [("room", room)]
    if not room_only:
        told.append(("outdoors under cover", [m.outdoor_emc_pct for m in season.months]))
    ends = season.design_pct
    with style():
        figure, axes = new_figure(
            moisture_finding(season),
            label,
            note="Line: where thin bare wood comes to rest in the mean air of the month. Band: "
            "what the room may come to. Dashed: the range to design for. " + flat_words(season),
        )
        names, colors = [], []
        points: list[tuple[float, float]] = []
        strokes: list[_Stroke] = []
        band(
            axes,
            [m.emcs_pct.low for m in season.months],
            [m.emcs_pct.high for m in season.months],
        )
        for end, word in ((ends.low, "driest"), (ends.high, "wettest")):
            level_line(axes, end)
            strokes.append(((-0.5, end), (11.5, end)))
            names.append(f"{word} to design for {percent_text(end)}")
            points.append((5.5 if word == "driest" else 1.5, end))
            colors.append(QUIET)
        for i, (name, values) in enumerate(told):
            year_line(axes, i, values)
            strokes += pairwise(list(enumerate(values)))
            for at in ends_of(values):
                names.append(f"{name}, {MONTHS[season.months[at].month - 1]} {values[at]:.1f} %")
                points.append((float(at), values[at]))
                colors.append(COLORS[i % len(COLORS)])
        axes.margins(y=0.16)
        axes.set_ylabel("moisture content of wood (%)")
        thousands(axes.yaxis)
        axes.set_xlabel("month, and moisture content of wood in the room")
        month_axis(axes, season)
        label_points(axes, names, points, colors, strokes, grounded=False)
    return figure


def moisture_finding(season: Season) -> str:
    """'Wood goes from 6 % in January to 12 % in July here: design for 4.2 to 12.1 %'."""
    ends = season.design_pct
    low, high = percent_text(ends.low).removesuffix(" %"), percent_text(ends.high)
    if season.is_still:
        mean = percent_text(season.mean_emc_pct)
        return f"Wood stays near {mean} all year in this room: design for {low} to {high}"
    dry, wet = season.driest, season.wettest
    return (
        f"Wood goes from {percent_text(dry.emc_pct)} in {dry.name} to {percent_text(wet.emc_pct)} "
        f"in {wet.name}: design for {low} to {high}"
    )
