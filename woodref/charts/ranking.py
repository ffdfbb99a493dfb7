"""A ranking as bars: each score made of the points of its criteria, ties joined to the first."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from math import ceil
from typing import TYPE_CHECKING, Any

from woodref.answers.choice_words import listed_and, woods_words, words_of
from woodref.answers.property_text import marks_of
from woodref.answers.provenance import sentence
from woodref.charts.figure import (
    COLORS,
    INK,
    QUIET,
    SMALL_PT,
    TEXT_PT,
    ground,
    new_figure,
    style,
    tint,
)
from woodref.charts.legend import with_legend
from woodref.charts.stock_marks import stock_legend, stock_mark
from woodref.formulas.spread import Difference

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.patches import Patch

    from woodref.choose.rank import Contribution, RankedWood, Ranking
    from woodref.choose.scoring import Scale

#: Woods drawn at most, ties named in the title at most, heads in a row of the legend.
MOST, _NAMED, _HEADS = 12, 3, 4
#: Height of a bar with its gap, of a row of the legend, of all the rest [px].
_ROW_PX, _HEADS_PX, _REST_PX = 36, 19, 190
_HIGH = 0.62
#: Points from which a number fits into its part of a bar, and a mark alone.
_FITS, _MARK_FITS = 3.5, 1.6
#: End of the axis, beyond a score of 100: room for the score and what ties.
_END = 116.0
#: Fillings of the parts: lines alone, as dots make a file many times as large.
_HATCHES = ("", "///", "---", "\\\\\\", "|||", "xxx", "+++", "//////")
#: Longest line of a wood's name [letters].
_NAME = 22


def finding(ranking: Ranking) -> str:
    """'Sapele comes first; white ash and pecan hickory tie with it': what the picture shows."""
    first, ties = sentence(ranking.woods[0].name), ranking.ties
    if len(ranking.woods) == 1:
        return (
            f"{first} is the only wood that passes"
            if ranking.lines == 1
            else f"{first} comes first"
        )
    if not ties:
        slight = any(
            w.against_best and w.against_best.verdict is Difference.SLIGHT for w in ranking.woods
        )
        return f"{first} comes first, {'slightly' if slight else 'clearly'} ahead of the rest"
    names = [w.name for w in ties[:_NAMED]]
    if len(ties) > _NAMED:
        names = [*names[: _NAMED - 1], f"{len(ties) - _NAMED + 1} more"]
    return f"{first} comes first; {listed_and(names)} {'tie' if len(ties) > 1 else 'ties'} with it"


def rank_bars(ranking: Ranking, kind: str = "") -> Figure:
    """A ranking as bars, one for each of its first MOST woods.

    Parameters: ranking; kind of woods that were looked at, 'hardwood' or 'softwood', '' for both.
    Returns: a figure of 800 px, as high as it takes.
    """
    shown = ranking.woods[:MOST]
    stock = [stock_mark(w.stock, ranking.buyable) for w in shown]
    heads_px = _HEADS_PX * ceil(len(ranking.scales) / _HEADS)
    told = [stock_legend(stock), *_notes(ranking, shown)]
    with style():
        figure, axes = new_figure(
            finding(ranking),
            f"{sentence(ranking.profile.title)}, of {woods_words(ranking.buyable, kind)}",
            height_px=_REST_PX + heads_px + _ROW_PX * len(shown),
            note=with_legend(
                " ".join(x for x in told if x),
                [marks_of(c.marked) for w in shown for c in w.contributions],
            ),
        )
        for line, wood in enumerate(shown):
            _bar(axes, line, wood)
        _ties(axes, shown)
        signs = len(set(stock)) > 1
        names = [
            textwrap.fill(f"{w.name} {s.letter if signs else ''}".strip(), _NAME)
            for w, s in zip(shown, stock, strict=True)
        ]
        _finish(axes, names, ranking.scales, heads_px)
    return figure


def _notes(ranking: Ranking, shown: Sequence[RankedWood]) -> list[str]:
    """What the marks in the bars mean, and what the order does not show."""
    ahead = [w.name for w in shown if w.is_ahead]
    unknown = any(c.value is None for w in shown for c in w.contributions)
    return [
        f"Harder to buy, so they stand lower in spite of their score: {listed_and(ahead)}."
        if ahead
        else "",
        "? not known, counts as middling." if unknown else "",
        f"{ranking.lines - len(shown)} more woods pass." if ranking.lines > len(shown) else "",
    ]


def _looks(n: int) -> dict[str, Any]:
    """How the part of the n-th criterion is filled."""
    color = COLORS[n % len(COLORS)]
    # Beyond the eighth a color comes again, with another hatch.
    hatch = _HATCHES[(n + n // len(COLORS)) % len(_HATCHES)]
    return {"facecolor": tint(color), "edgecolor": color, "hatch": hatch, "linewidth": 0.8}


def _bar(axes: Axes, line: int, wood: RankedWood) -> None:
    """The bar of a wood, a part for each criterion with its points, the score behind it."""
    from matplotlib.patches import Rectangle

    left, left_over = 0.0, ""
    for n, c in enumerate(wood.contributions):
        part = Rectangle((left, line - _HIGH / 2.0), c.points, _HIGH, zorder=2.0, **_looks(n))
        axes.add_patch(part)
        text = _part_text(c)
        if c.points < _MARK_FITS:
            left_over += text
        elif text:
            axes.text(
                left + c.points / 2.0,
                line,
                text,
                ha="center",
                va="center",
                size=SMALL_PT,
                bbox=ground(),
                zorder=3.0,
            )
        left += c.points
    # What finds no room in a part stands behind the score.
    rest = "".join(dict.fromkeys(left_over))
    axes.text(
        left + 1.0,
        line,
        f"{wood.score:.0f}{rest}",
        va="center",
        size=TEXT_PT,
        weight="bold",
        zorder=3.0,
    )


def _part_text(c: Contribution) -> str:
    """The points of a part where they fit, with the marks of its figure."""
    number = f"{c.points:.0f}" if c.points >= _FITS else ""
    if c.value is None:
        return f"{number}?"
    return f"{number}{marks_of(c.marked)}"


def _ties(axes: Axes, shown: Sequence[RankedWood]) -> None:
    """A bracket from the first wood to those that tie with it."""
    lines = [i for i, w in enumerate(shown) if i == 0 or w.is_tie]
    if len(lines) < 2:
        return
    right = max(w.score for w in shown) + 8.0
    axes.plot([right, right], [lines[0], lines[-1]], color=INK, linewidth=1.4, zorder=2.0)
    for line in lines:
        axes.plot([right - 1.6, right], [line, line], color=INK, linewidth=1.4, zorder=2.0)
    axes.text(
        right + 1.0,
        (lines[0] + lines[-1]) / 2.0,
        "a tie on\nsingle boards",
        va="center",
        size=SMALL_PT,
        color=INK,
    )


def _finish(axes: Axes, names: Sequence[str], scales: Sequence[Scale], heads_px: int) -> None:
    """Limits, names and the legend above the bars."""
    axes.set_xlim(0.0, _END)
    axes.set_ylim(len(names) - 0.45, -0.55)
    axes.set_yticks(range(len(names)), names)
    axes.set_xticks(range(0, 101, 20))
    axes.set_xlabel("points of 100", size=SMALL_PT)
    axes.tick_params(axis="y", length=0)
    axes.grid(visible=False, axis="y")
    axes.spines["left"].set_visible(False)
    axes.set_title(
        axes.get_title(loc="left"), loc="left", size=TEXT_PT, color=QUIET, pad=heads_px * 0.75 + 8.0
    )
    axes.legend(
        handles=_heads(scales),
        ncols=_HEADS,
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        borderaxespad=0.2,
        fontsize=SMALL_PT,
        handlelength=1.8,
        handleheight=1.0,
        columnspacing=1.4,
        labelspacing=0.45,
    )


def _heads(scales: Sequence[Scale]) -> list[Patch]:
    """The legend: each criterion with the most it can bring, row by row."""
    from matplotlib.patches import Patch

    heads = [
        Patch(
            label=f"{words_of(s.criterion.column).head} (of {100.0 * s.share:.0f})",
            **_looks(n),
        )
        for n, s in enumerate(scales)
    ]
    # A legend fills its columns one after the other; these are to be read along the rows.
    rows = ceil(len(heads) / _HEADS)
    return [
        heads[k] for c in range(_HEADS) for r in range(rows) if (k := r * _HEADS + c) < len(heads)
    ]
