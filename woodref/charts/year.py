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
from woodref.charts.labels import label_points
from woodref.charts.legend import with_legend
from woodref.climate.seasons import MONTHS, Season
from woodref.climate.sizes_by_month import MonthSize
from woodref.units import KINDS, Kind

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_SIZE = KINDS["size"]
_Stroke = tuple[tuple[float, float], tuple[float, float]]


class YearLine(NamedTuple):
    """A part through the year: what to call it, and its sizes by month."""

    name: str
    months: Sequence[MonthSize]


class Built(NamedTuple):
    """The size of a part when it was made [mm], at a moisture content [%]."""

    size_mm: float
    moisture_pct: float


class Allowance(NamedTuple):
    """What a fixing or groove allows for: the smallest and the largest size [mm], and its name.

    None where nothing bounds that side.
    """

    low_mm: float | None
    high_mm: float | None
    name: str

    def ends(self, units: str) -> list[float]:
        """The bounds there are, from below, in the system of units."""
        return [_SIZE.convert(v, units) for v in (self.low_mm, self.high_mm) if v is not None]


def _months(axes: Axes, season: Season, below: Sequence[float]) -> None:
    """Months along the bottom, each with the moisture content of wood under it."""
    count = range(len(season.months))
    labels = [
        f"{MONTHS[m.month - 1]}\n{pct:.1f} %" for m, pct in zip(season.months, below, strict=True)
    ]
    axes.set_xticks(count, labels, size=SMALL_PT)
    axes.set_xlim(-0.5, len(season.months) - 0.5)
    axes.grid(visible=False, axis="x")


def _line(axes: Axes, i: int, values: Sequence[float]) -> None:
    """A line of the year with its own shape, stroke and color."""
    axes.plot(
        range(len(values)),
        values,
        linestyle=LINES[i % len(LINES)],
        **{**point_style(i), "markersize": 6.0},
        zorder=3.0,
    )


def _ends(values: Sequence[float]) -> tuple[int, int]:
    """Where the smallest and the largest value stand."""
    places = range(len(values))
    return min(places, key=values.__getitem__), max(places, key=values.__getitem__)


def seasonal_width(
    title: str,
    subtitle: str,
    lines: Sequence[YearLine],
    season: Season,
    units: str = "us",
    built: Built | None = None,
    allowance: Allowance | None = None,
    what: str = "width",
    mark: str = "",
    kind: Kind = _SIZE,
) -> Figure:
    """The size of a part through the year, with the likely band of the first line.

    Parameters: title, subtitle; lines, one for each cut, the first with its band; season of
    the room; units 'us' or 'si'; built, the size when made, as a dashed line; allowance of a
    fixing, bounded on one side at least, as a hatched band; what is measured, such as 'width';
    mark of the sizes (woodref.charts.legend), '' where their figures were read in print; kind of
    what is drawn, a size, or a change above and below nothing.
    Returns: a figure of 800 px, the smallest and largest size of each line written on it.
    """
    lead = lines[0]
    with style():
        figure, axes = new_figure(
            title,
            f"{subtitle}. Band: likely range (central 90 %), {lead.name}",
            note=with_legend(
                "The expected course of thin bare wood; the range to design for is wider. Thick "
                "or finished wood lags behind by weeks and swings less.",
                mark,
            ),
        )
        low, high = ([kind.convert(v, units) for v in ends] for ends in _band(lead))
        axes.fill_between(
            range(len(low)), low, high, color=COLORS[0], alpha=0.16, linewidth=0, zorder=1.0
        )
        names, colors = [], []
        points: list[tuple[float, float]] = []
        strokes: list[_Stroke] = []
        for i, line in enumerate(lines):
            values = [kind.convert(m.size_mm.expected, units) for m in line.months]
            _line(axes, i, values)
            steps = list(enumerate(values))
            strokes += pairwise(steps)
            for k, at in enumerate(_ends(values)):
                # Where lines share their smallest size one label says it.
                if k == 0 and any(abs(p[1] - values[at]) < 1e-9 for p in points):
                    continue
                size = kind.text(line.months[at].size_mm.expected, units) + mark
                names.append(f"{line.name} {size}" if k or len(lines) == 1 else size)
                points.append((float(at), values[at]))
                colors.append(COLORS[i % len(COLORS)])
        if built:
            _level(axes, _SIZE.convert(built.size_mm, units))
            names.append(
                f"built {_SIZE.text(built.size_mm, units)} at {percent_text(built.moisture_pct)}"
            )
            points.append((5.5, _SIZE.convert(built.size_mm, units)))
            colors.append(QUIET)
            strokes.append(_across(points[-1][1]))
        thousands(axes.yaxis)
        axes.margins(y=0.14)
        if allowance:
            _allowed(axes, allowance, units)
            ends = allowance.ends(units)
            names.append(allowance.name)
            points.append((1.0, ends[-1]))
            colors.append(QUIET)
            strokes += [_across(v) for v in ends]
        axes.set_ylabel(f"{what} ({kind.label(units)})")
        axes.set_xlabel("month, and moisture content of wood in the room")
        _months(axes, season, [m.emc_pct for m in season.months])
        label_points(axes, names, points, colors, strokes, grounded=False)
    return figure


def _design(axes: Axes, season: Season) -> None:
    """What the room may come to, month by month, and the ends of the range to design for."""
    low, high = ([getattr(m.emcs_pct, end) for m in season.months] for end in ("low", "high"))
    axes.fill_between(
        range(len(low)), low, high, color=COLORS[0], alpha=0.16, linewidth=0, zorder=1.0
    )
    for end in (season.design_pct.low, season.design_pct.high):
        _level(axes, end)


def _band(line: YearLine) -> tuple[list[float], list[float]]:
    return [m.size_mm.low for m in line.months], [m.size_mm.high for m in line.months]


def _level(axes: Axes, value: float) -> None:
    axes.axhline(value, color=QUIET, linewidth=1.0, linestyle=(0, (6, 3)), zorder=1.5)


def _across(value: float) -> _Stroke:
    """A level line through all months, which names had better not lie on."""
    return (-0.5, value), (11.5, value)


def _allowed(axes: Axes, allowance: Allowance, units: str) -> None:
    """The sizes a fixing allows, as a hatched band; to the edge of the chart where unbounded."""
    ends = allowance.ends(units)
    bottom, top = axes.get_ylim()
    room = 0.06 * (max(top, *ends) - min(bottom, *ends))
    bottom, top = min(bottom, *(e - room for e in ends)), max(top, *(e + room for e in ends))
    low = bottom if allowance.low_mm is None else ends[0]
    high = top if allowance.high_mm is None else ends[-1]
    axes.axhspan(
        low, high, facecolor="none", edgecolor="#b5b5b5", hatch="///", linewidth=0, zorder=0.5
    )
    for edge in ends:
        axes.axhline(edge, color=QUIET, linewidth=1.0, zorder=0.6)
    axes.set_ylim(bottom, top)


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
    with style():
        figure, axes = new_figure(
            "What wood comes to through the year",
            label,
            note="Line: where thin bare wood comes to rest in the mean air of the month. Band: "
            "what the room may come to. Dashed: the range to design for.",
        )
        names, colors = [], []
        points: list[tuple[float, float]] = []
        strokes: list[_Stroke] = []
        _design(axes, season)
        for i, (name, values) in enumerate(told):
            _line(axes, i, values)
            steps = list(enumerate(values))
            strokes += pairwise(steps)
            for at in _ends(values):
                names.append(f"{name}, {MONTHS[season.months[at].month - 1]} {values[at]:.1f} %")
                points.append((float(at), values[at]))
                colors.append(COLORS[i % len(COLORS)])
        axes.margins(y=0.16)
        axes.set_ylabel("moisture content of wood (%)")
        axes.set_xlabel("month, and moisture content of wood in the room")
        _months(axes, season, room)
        label_points(axes, names, points, colors, strokes, grounded=False)
    return figure
