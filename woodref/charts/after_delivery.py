"""A piece built in one place that lives in another: its first year, and those after."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from woodref.answers.delivery import width_marks
from woodref.answers.property_text import UNCHECKED_MARK
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import change_text, is_seen
from woodref.answers.words import likely_text, percent_text
from woodref.charts.figure import COLORS, QUIET, SMALL_PT, new_figure, style, thousands
from woodref.charts.held import flat_words
from woodref.charts.labels import label_points
from woodref.charts.legend import with_legend
from woodref.charts.offset_year import zones
from woodref.charts.scale import size_axis, size_words
from woodref.charts.year import band, level_line, year_line
from woodref.climate.seasons import MONTH_NAMES, MONTHS
from woodref.drying.delivery import extremes

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.climate.rooms import Room
    from woodref.drying.delivery import Delivery, DeliveryMonth
    from woodref.reference.woods import Wood

_HEIGHT_PX = 620
#: Months from this one on stand at the right of the chart.
_LATE = 7


def moved_words(change_mm: float, units: str, marked: str) -> str:
    """'13/32 in* wider', 'hardly changed'."""
    if not is_seen(change_mm, units):
        return "hardly changed"
    word = "wider" if change_mm > 0.0 else "narrower"
    return f"{change_text(change_mm, units)}{marked} {word}"


def _finding(wood: Wood, d: Delivery, units: str) -> str:
    """How far it goes in the first year, and what to allow for after."""
    most = max(extremes(d.months), key=lambda m: abs(m.change_mm.expected))
    marked = width_marks(d)
    allow = likely_text(d.swing_mm.unsigned, "change", units, marked)
    return (
        f"{sentence(wood.common_name)} {size_words(d.size_mm, units)} wide is "
        f"{moved_words(most.change_mm.expected, units, marked)} by the end of "
        f"{MONTH_NAMES[most.month - 1]}; in the years after allow {allow}"
    )


def delivered(wood: Wood, d: Delivery, lives: Room, units: str = "us") -> Figure:
    """Moisture content and width of a piece from its delivery through its first year.

    Parameters: wood; d; lives, the room; units 'us' or 'si'.
    Returns: a figure of 800 px whose title says how far the piece goes.
    """
    flat = flat_words(lives.season, "The line of the air")
    with style():
        figure, first = new_figure(
            _finding(wood, d, units),
            "",
            height_px=_HEIGHT_PX,
            note=with_legend(
                f"{size_words(d.board.thickness_mm, units)} thick, {d.finish.label}; "
                f"{lives.label}. Bands: what boards differ by, and as far as the lag is known. "
                f"Dashed below: the range of the years after. {flat}".strip(),
                width_marks(d),
            ),
        )
        first.remove()
        air, width = figure.subplots(2, 1, height_ratios=[1.0, 1.25])
        _moisture(air, d)
        _width(width, d, units)
        months = [f"end of\n{MONTHS[m.month - 1]}" for m in d.months]
        for axes in (air, width):
            axes.set_xticks(range(13), ["built", *months], size=SMALL_PT)
            axes.set_xlim(-0.4, 12.4)
        air.tick_params(labelbottom=False)
        air.set_xlabel(f"arrives at the beginning of {MONTH_NAMES[d.months[0].month - 1]}")
        width.set_xlabel("the first year")
        _names(air, width, d, units)
    return figure


def _moisture(axes: Axes, d: Delivery) -> None:
    """The moisture content of the air and of the board."""
    means = [m.mean_pct for m in d.months]
    band(axes, [d.built_pct, *(m.low for m in means)], [d.built_pct, *(m.high for m in means)])
    year_line(axes, 0, [d.built_pct, *(m.expected for m in means)])
    axes.plot(
        range(1, 13), [m.emc_pct for m in d.months], color=QUIET, linewidth=1.4,
        linestyle=(0, (6, 3)), zorder=2.0,
    )  # fmt: skip
    axes.margins(y=0.2)
    axes.grid(visible=False, axis="x")
    axes.set_ylabel("moisture content (%)")
    thousands(axes.yaxis, 5)


def _width(axes: Axes, d: Delivery, units: str) -> None:
    """How much wider or narrower than built."""
    changes = [m.change_mm for m in d.months]
    low, high = [0.0, *(c.low for c in changes)], [0.0, *(c.high for c in changes)]
    band(axes, low, high)
    year_line(axes, 0, [0.0, *(c.expected for c in changes)])
    later = (d.narrowest_mm.expected, d.widest_mm.expected)
    narrow, wide = (d.months.index(m) for m in extremes(d.months))
    # The name of a zone keeps clear of the month it goes farthest in.
    sides = wide >= _LATE, narrow >= _LATE
    zones(axes, "wider than built", "narrower than built", [*low, *high, *later], sides)
    for change in later:
        level_line(axes, change)
    size_axis(axes.yaxis, units, 6)
    axes.grid(visible=False, axis="x")
    axes.set_ylabel(f"change of width ({'in' if units == 'us' else 'mm'})")


def _names(air: Axes, width: Axes, d: Delivery, units: str) -> None:
    """Names of the lines above, and the extremes of the first year below."""
    emc = [m.emc_pct for m in d.months]
    means = [m.mean_pct.expected for m in d.months]
    top = max(range(12), key=emc.__getitem__)
    board = max(range(12), key=means.__getitem__)
    courses = [
        *pairwise([(k + 1.0, x) for k, x in enumerate(emc)]),
        *pairwise([(k + 1.0, x) for k, x in enumerate(means)]),
    ]
    label_points(
        air,
        [
            "the air",
            f"the board, {percent_text(means[board])}{UNCHECKED_MARK}",
            f"built at {percent_text(d.built_pct)}",
        ],
        [(top + 1.0, emc[top]), (board + 1.0, means[board]), (0.0, d.built_pct)],
        [QUIET, COLORS[0], COLORS[0]],
        courses,
        grounded=False,
    )
    told: list[DeliveryMonth] = [
        m for m in extremes(d.months) if is_seen(m.change_mm.expected, units)
    ]
    at = [(d.months.index(m) + 1.0, m.change_mm.expected) for m in told]
    later = (d.narrowest_mm, d.widest_mm)
    line = [(k + 1.0, m.change_mm.expected) for k, m in enumerate(d.months)]
    strokes = [*pairwise(line), *(((-0.4, x.expected), (12.4, x.expected)) for x in later)]
    label_points(
        width,
        [moved_words(m.change_mm.expected, units, width_marks(d)) for m in told],
        at,
        [COLORS[0]] * len(told),
        strokes,
        grounded=False,
    )
