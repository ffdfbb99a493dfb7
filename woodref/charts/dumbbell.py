"""Woods side by side: one strip for each figure, the first wood's value joined to the others'."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.choice_words import listed_and
from woodref.answers.property_text import converted, figure_label, marks, unit_of, with_unit
from woodref.answers.shop_words import shown
from woodref.charts.figure import (
    INK,
    QUIET,
    SMALL_PT,
    TEXT_PT,
    new_figure,
    point_style,
    style,
    thousands,
)
from woodref.charts.legend import with_legend
from woodref.charts.scale import size_axis
from woodref.choose.compare import ComparedValue, Comparison, Row
from woodref.errors import NoDataError
from woodref.formulas.spread import Difference
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

#: Figures drawn where none is asked for, in their order, and the most that fit one picture.
USUAL = ("side_hardness", "board_mass", "movement_flat", "modulus_of_elasticity")
MOST = 6
#: How the line from the first wood's value is drawn, by what single boards show of it.
_JOINED = {Difference.CLEAR: "-", Difference.SLIGHT: "--", Difference.WITHIN_SPREAD: ":", None: ":"}
_LINE_PX, _LETTERS_PX, _STRIP_PX, _TOP_PX = 27, 14, 66, 84
#: Longest line of a wood's name [letters].
_NAME = 26


#: What the wood with the most of a figure is called, or with the least where that counts.
_MOST_WORDS = {
    "side_hardness": "the hardest",
    "board_mass": "the heaviest",
    "density": "the densest",
    "modulus_of_elasticity": "the stiffest",
    "modulus_of_rupture": "the strongest in bending",
}
_LEAST_WORDS = {"movement_flat": "moves least", "movement_quarter": "moves least quartered"}
#: Kinds of figures that are sizes, drawn in millimeters and numbered as a shop reads them.
_SIZES = ("size", "change", "change_end")


def finding(comparison: Comparison, rows: Sequence[Row], units: str) -> str:
    """'On average true hickory is the hardest and the heaviest; American basswood moves least'.

    Parameters: comparison; rows that are drawn; units 'us' or 'si'.
    """
    names = [w.common_name for w in comparison.woods]
    ranked: dict[str, list[str]] = {}
    least: dict[str, list[str]] = {}
    for row in rows:
        cells = [(c.value, n) for c, n in zip(row.cells_in(units), names, strict=True) if c]
        key = row.property_id or row.key
        if len(cells) < 2:
            continue
        if key in _MOST_WORDS:
            ranked.setdefault(max(cells)[1], []).append(_MOST_WORDS[key])
        elif key in _LEAST_WORDS:
            least.setdefault(min(cells)[1], []).append(_LEAST_WORDS[key])
        else:
            ranked.setdefault(max(cells)[1], []).append(f"highest in {_label(row)}")
    told = []
    for name in dict.fromkeys((*ranked, *least)):
        most = f"is {listed_and(ranked[name])}" if name in ranked else ""
        less = listed_and(least[name]) if name in least else ""
        told.append(f"{name} {', and '.join(words for words in (most, less) if words)}")
    if not told:
        return "Side by side: " + ", ".join(names)
    return f"On average {'; '.join(told)}"


def chosen_rows(comparison: Comparison, keys: Sequence[str] | None = None) -> list[Row]:
    """The figures to draw: those asked for, or the usual ones; where they have none, any.

    Parameters: comparison; keys of rows.
    """
    if keys is None:
        rows = [r for r in map(comparison.row, USUAL) if r] or list(comparison.rows)
    else:
        rows = [r for r in comparison.rows if r.key in keys or r.property_id in keys]
    return rows[:MOST]


def dumbbells(
    comparison: Comparison,
    keys: Sequence[str] | None = None,
    units: str = "us",
    title: str = "",
    note: str = "",
) -> Figure:
    """Woods side by side, a strip for each figure, with the likely range of single boards.

    Parameters: comparison; keys of the rows wanted, at most MOST of them are drawn; units 'us' or
    'si', printed figures as print gives them in these; title, by default what
    is found; note, told first of those below.
    Returns: a figure of 800 px, as high as it takes.
    Raises: NoDataError where no wood has a figure asked for.
    """
    rows = chosen_rows(comparison, keys)
    if not rows:
        raise NoDataError("no table holds a figure asked for of these woods; nothing to draw")
    names = [textwrap.fill(w.common_name, _NAME) for w in comparison.woods]
    longest = max(name.count("\n") + 1 for name in names)
    line_px = max(_LINE_PX, 6 + _LETTERS_PX * longest)
    height = _TOP_PX + 40 + len(rows) * (_STRIP_PX + line_px * len(names))
    with style():
        figure, axes = new_figure(
            title or finding(comparison, rows, units),
            height_px=height,
            note=with_legend(
                f"{note} Gray bars: where 9 boards in 10 fall. The line from the first wood's "
                "value is solid where boards show the difference clearly, dashed where it is "
                "slight, dotted where it is within natural spread. Scales need not begin at zero.",
                [marks(*cell.values) for row in rows for cell in row.cells_in(units) if cell],
            ),
        )
        axes.remove()
        strips = figure.subplots(len(rows), 1, squeeze=False)[:, 0]
        for strip, row in zip(strips, rows, strict=True):
            _strip(strip, row, names, units)
        figure.align_ylabels()
    return figure


def _number(row: Row, value: float, units: str) -> float:
    if row.kind in _SIZES:
        return value
    if row.kind:
        return KINDS[row.kind].convert(value, units)
    return converted(row.property_id, value, units)


def _text(row: Row, value: float, units: str) -> str:
    if row.kind:
        return shown(row.kind, value, units)
    return with_unit(row.property_id, value, units)


def _label(row: Row) -> str:
    return row.label if row.kind else figure_label(row.property_id, row.condition)


def _unit(row: Row, units: str) -> str:
    return KINDS[row.kind].label(units) if row.kind else unit_of(row.property_id, units)


def _strip(axes: Axes, row: Row, names: Sequence[str], units: str) -> None:
    """One figure: a line for each wood, the first on top, its value in a column at the right."""
    cells = row.cells_in(units)
    ends: list[float] = []
    for i, cell in enumerate(cells):
        if cell is None:
            _write(axes, i, "in no table", style="italic", color=QUIET)
            continue
        ends += _bar(axes, i, _range(row, cell, units))
        x = _number(row, cell.value, units)
        ends.append(x)
        contrast = row.contrasts[i - 1] if i else None
        if contrast is not None and cells[0] is not None:
            start = _number(row, cells[0].value, units)
            joined = _JOINED[contrast.verdict]
            axes.plot([start, x], [i, i], color=INK, linewidth=1.6, linestyle=joined, zorder=2.0)
            axes.plot([start], [i], marker="|", markersize=11, color=INK, zorder=2.5)
        axes.plot([x], [i], **point_style(i), zorder=3.0)
        _write(axes, i, _text(row, cell.value, units) + marks(*cell.values))
    _finish(axes, row, names, units, ends)


def _write(axes: Axes, line: int, text: str, **looks: Any) -> None:
    """Text in the column at the right of a strip."""
    across = axes.get_yaxis_transform()
    axes.text(1.015, line, text, transform=across, va="center", size=SMALL_PT, **looks)


def _bar(axes: Axes, line: int, likely: tuple[float, float] | None) -> tuple[float, ...]:
    """The likely range as a gray bar; its ends."""
    if likely is None:
        return ()
    axes.plot(
        likely, [line, line], color="#d2d2d2", linewidth=7.0, solid_capstyle="butt", zorder=1.0
    )
    return likely


def _range(row: Row, cell: ComparedValue, units: str) -> tuple[float, float] | None:
    if cell.likely is None:
        return None
    return _number(row, cell.likely.low, units), _number(row, cell.likely.high, units)


def _finish(axes: Axes, row: Row, names: Sequence[str], units: str, ends: Sequence[float]) -> None:
    """Limits, names and labels of a strip."""
    count, low, high = len(names), min(ends), max(ends)
    room = 0.04 * ((high - low) or abs(high) or 1.0)
    axes.set_xlim(max(0.0, low - room) if low >= 0.0 else low - room, high + room)
    axes.set_ylim(count - 0.4, -0.6)
    small = count > 5 or any("\n" in name for name in names)
    axes.set_yticks(range(count), names, size=SMALL_PT if small else TEXT_PT)
    axes.tick_params(axis="y", length=0)
    axes.grid(visible=False, axis="y")
    axes.spines["left"].set_visible(False)
    axes.set_title(_label(row), loc="left", size=TEXT_PT, weight="bold", color=INK)
    if row.kind in _SIZES:
        size_axis(axes.xaxis, units)
    else:
        thousands(axes.xaxis)
    axes.set_xlabel(_unit(row, units) or "ratio", size=SMALL_PT)
