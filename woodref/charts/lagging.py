"""How thickness and finish slow a board behind the air of its room, through a year."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from woodref.answers.property_text import UNCHECKED_MARK
from woodref.answers.provenance import sentence
from woodref.charts.figure import COLORS, QUIET, new_figure, style, thousands
from woodref.charts.held import flat_words
from woodref.charts.labels import label_points
from woodref.charts.legend import with_legend
from woodref.charts.scale import size_words
from woodref.charts.year import band, ends_of, year_line
from woodref.climate.seasons import MONTHS

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from woodref.climate.rooms import Room
    from woodref.drying.board_lag import BoardLag
    from woodref.drying.lag import LagYear


def share_words(year: LagYear) -> str:
    """'65 %*': the share of the swing of the air that reaches the mean of a board."""
    return f"{100.0 * year.mean_share.expected:.0f} %{UNCHECKED_MARK}"


def _finding(lag: BoardLag, units: str) -> str:
    """How much of the swing of the room reaches the board, bare and best finished."""
    wood = f"{size_words(lag.board.thickness_mm, units)} {lag.wood.common_name}"
    bare, *finished = lag.years
    slowest = min(finished, key=lambda y: y.mean_share.expected, default=None)
    lead = f"Bare {wood} follows {share_words(bare)} of the room's swing"
    if slowest is None:
        return lead
    return f"{lead}; under {slowest.finish.label} it follows {share_words(slowest)}"


def lag_through_year(lag: BoardLag, room: Room | None, units: str = "us") -> Figure:
    """The moisture content of a board month by month beside that of the air, by finish.

    Parameters: lag; room whose year it is, None where two moisture contents were given; units
    'us' or 'si'.
    Returns: a figure of 800 px whose title says what share of the swing reaches the board.
    """
    lead = lag.years[0]
    air = [m.emc_pct for m in lead.months]
    where = room.label if room else "a year between the two moisture contents"
    with style():
        figure, axes = new_figure(
            _finding(lag, units),
            sentence(where),
            note=with_legend(
                "Dashed: where thin bare wood would come to rest in the air, through the whole "
                "range to design for. Lines: the mean of the board in the middle of the month; "
                "band: as far as the lag is known. A finish slows movement; it does not change "
                "where wood comes to rest."
                + (f" {flat_words(room.season, 'The dashed line')}" if room else ""),
                UNCHECKED_MARK,
            ),
        )
        axes.plot(range(12), air, color=QUIET, linewidth=1.4, linestyle=(0, (6, 3)), zorder=2.0)
        at = ends_of(air)[0]
        names, points, colors = ["the air"], [(float(at), air[at])], [QUIET]
        strokes = [*pairwise(list(enumerate(air)))]
        for i, year in enumerate(lag.years):
            color = COLORS[i % len(COLORS)]
            means = [m.mean_pct for m in year.months]
            band(axes, [m.low for m in means], [m.high for m in means], color)
            values = [m.expected for m in means]
            year_line(axes, i, values)
            strokes += pairwise(list(enumerate(values)))
            top = ends_of(values)[1]
            names.append(f"{year.finish.label}: {share_words(year)}")
            points.append((float(top), values[top]))
            colors.append(color)
        axes.margins(y=0.16)
        axes.set_xticks(range(12), [MONTHS[m.month - 1] for m in lead.months])
        axes.set_xlim(-0.5, 11.5)
        axes.grid(visible=False, axis="x")
        axes.set_xlabel("month" if room else "month, from the dry season on")
        axes.set_ylabel("moisture content of the board (%)")
        thousands(axes.yaxis)
        label_points(axes, names, points, colors, strokes, grounded=False)
    return figure
