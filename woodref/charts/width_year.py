"""How much a width moves through the usual year indoors, in a small picture on one scale."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.words import likely_text
from woodref.charts.figure import INK, LINES, SMALL_PT, new_figure, point_style, style
from woodref.charts.legend import with_legend
from woodref.charts.scale import size_axis
from woodref.charts.year import band, ends_of
from woodref.climate.seasons import MONTHS
from woodref.climate.sizes_by_month import MonthSize
from woodref.quantity import Range
from woodref.units import MM_PER_INCH

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

#: Size of the picture, read on a phone as well [px]; in both systems of units it has more words.
_WIDTH_PX, _HEIGHT_PX, _HEIGHT_OF_BOTH_PX = 440, 340, 390
#: The scale ends here, so that pictures of woods can be set side by side, or where there is this
#: much room above the highest band for what the lines are [mm; 1].
_TOP_MM, _ROOM, _ROOM_OF_BOTH = 0.375 * MM_PER_INCH, 1.3, 1.45


class CutThroughYear(NamedTuple):
    """A cut: what to call it, its size by month, and its change through the year [mm]."""

    name: str
    months: Sequence[MonthSize]
    change_mm: Range


def usual_year(
    title: str, subtitle: str, cuts: Sequence[CutThroughYear], units: str = "us", mark: str = ""
) -> Figure:
    """How much wider a board is in each month than in its narrowest, a line for each cut.

    The scale is the same for every wood, unless one moves beyond it.

    Parameters: title, subtitle; cuts, the one that moves most first, whose likely band is drawn;
    units 'us', 'si' or 'both', inches on the left and millimeters on the right; mark of the
    figures (woodref.charts.legend).
    Returns: a figure of 440 px.
    """
    both = units == "both"
    systems = ("us", "si") if both else (units,)
    with style():
        note = with_legend(f"Band: where 9 boards in 10 fall, {cuts[0].name}.", mark)
        height_px = _HEIGHT_OF_BOTH_PX if both else _HEIGHT_PX
        figure, axes = new_figure(title, subtitle, _WIDTH_PX, height_px, note)
        lead = cuts[0].months
        base = lead[ends_of([m.size_mm.expected for m in lead])[0]].size_mm
        high = [m.size_mm.high - base.high for m in lead]
        band(axes, [m.size_mm.low - base.low for m in lead], high)
        for i, cut in enumerate(cuts):
            sizes = [m.size_mm.expected for m in cut.months]
            axes.plot(
                range(len(sizes)),
                [s - min(sizes) for s in sizes],
                label=_label(cut, systems, mark),
                linestyle=LINES[i],
                **{**point_style(i), "markersize": 5.0},
            )
        axes.legend(
            loc="upper left",
            fontsize=SMALL_PT + 0.5,
            labelcolor=INK,
            borderpad=0.0,
            frameon=True,
            framealpha=1.0,
            edgecolor="none",
        )
        top_mm = max(_TOP_MM, (_ROOM_OF_BOTH if both else _ROOM) * max(high))
        axes.set_ylim(0.0, top_mm)
        axes.set_xlim(-0.3, len(lead) - 0.7)
        size_axis(axes.yaxis, systems[0], 6)
        axes.set_ylabel(f"wider than in winter ({'in' if systems[0] == 'us' else 'mm'})")
        if both:
            _scale_on_the_right(axes, top_mm)
        axes.set_xticks(range(len(lead)), [MONTHS[m.month - 1][:1] for m in lead], size=SMALL_PT)
        axes.grid(visible=False, axis="x")
    return figure


def _label(cut: CutThroughYear, systems: Sequence[str], mark: str) -> str:
    """A cut and how much it moves, a line for each system of units."""
    return f"{cut.name} " + "\n".join(
        likely_text(cut.change_mm, "change", u, mark) for u in systems
    )


def _scale_on_the_right(axes: Axes, top_mm: float) -> None:
    """The same scale in millimeters at the right side."""
    right = axes.twinx()
    right.set_ylim(0.0, top_mm)
    size_axis(right.yaxis, "si", 6)
    right.set_ylabel("the same (mm)")
    right.spines["right"].set_visible(True)
    right.grid(visible=False)
