"""What compare says of two woods in words, and its first screen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.property_text import (
    boards_likely,
    figure_label,
    marks,
    unit_of,
    value_text,
)
from woodref.answers.provenance import sentence
from woodref.answers.screen import brief
from woodref.answers.shop_words import shown
from woodref.answers.words import likely_text
from woodref.quantity import Range, exactly
from woodref.reference.densities import DENSITIES
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.choose.compare import ComparedValue, Comparison, Contrast, Row

#: What a wood is, and what one with more of it is.
_ADJECTIVES: dict[str, tuple[str, str]] = {
    "side_hardness": ("hard", "harder"),
    "brinell_hardness": ("hard", "harder"),
    "board_mass": ("heavy", "heavier"),
    "density": ("heavy", "heavier"),
    **dict.fromkeys(DENSITIES, ("heavy", "heavier")),
    "modulus_of_elasticity": ("stiff", "stiffer"),
    "modulus_of_rupture": ("strong", "stronger"),
}
_OF_MOVEMENT = ("movement_flat", "movement_quarter")
#: Conditions that a first screen does not name at each figure.
_USUAL = ("12pct", "unstated")
#: A chance that is no odds either way, of 100.
_EVEN = 50
_PAIR = 2
#: What is told of on a first screen in place of these, where both are asked for.
_TOLD_BY = {"movement_quarter": "movement_flat", "brinell_hardness": "side_hardness"}
#: Ratios told as alike, as half again, and from which they are told as times.
_ALIKE, _HALF_AGAIN, _TIMES = 1.03, (1.45, 1.55), 1.9


def label_of(row: Row) -> str:
    """The name of a row, with its condition where that adds."""
    return row.label if row.kind else figure_label(row.property_id, row.condition)


def value_of(row: Row, cell: ComparedValue, units: str) -> str:
    """The value with its unit and its marks."""
    if row.kind:
        return KINDS[row.kind].text(cell.value, units) + marks(*cell.values)
    return value_text(cell.values[0], units) + marks(*cell.values)


def range_of(row: Row, cell: ComparedValue, units: str) -> str:
    """'913 to 1,807', without a unit; nothing where no spread is known."""
    if cell.likely is None:
        return ""
    if not row.kind:
        return boards_likely(cell.values[0], units)
    kind = KINDS[row.kind]
    ends = (
        kind.text(end, units).removesuffix(kind.label(units))
        for end in (cell.likely.low, cell.likely.high)
    )
    return " to ".join(end.strip() for end in ends)


def unit_of_row(row: Row, units: str) -> str:
    """The unit of a row as printed."""
    return KINDS[row.kind].label(units) if row.kind else unit_of(row.property_id, units)


def _more_words(row: Row, ratio: float, other: str) -> str:
    """'is 34 % harder than sugar maple': how a wood stands to one with less.

    Parameters: row; ratio of its figure to that of the other, 1 or more; other.
    """
    plain, comparative = _ADJECTIVES.get(row.property_id or row.key, ("", ""))
    verb = "moves" if row.key in _OF_MOVEMENT else "is" if plain else "has"
    if ratio < _ALIKE:
        much = f"as {plain}" if plain else "as much"
        return f"{verb} about {much} as {other}"
    if _HALF_AGAIN[0] <= ratio < _HALF_AGAIN[1] and plain:
        return f"{verb} half again as {plain} as {other}"
    if ratio < _TIMES:
        return f"{verb} {100.0 * (ratio - 1.0):.0f} % {comparative or 'more'} than {other}"
    return f"{verb} {ratio:.1f} times as {plain or 'much'} as {other}"


def _verdict(row: Row, c: Contrast, first: str, other: str) -> str:
    """How two woods stand to each other, and how often single boards show it."""
    more, less = (first, other) if c.ratio >= 1.0 else (other, first)
    told = sentence(f"{more} {_more_words(row, max(c.ratio, 1.0 / c.ratio), less)}")
    if c.chance is None or c.verdict is None:
        return f"{told}; the spread between boards is not known."
    oftener = first if c.chance >= 0.5 else other
    share = round(100.0 * max(c.chance, 1.0 - c.chance))
    comparative = _ADJECTIVES.get(row.property_id or row.key, ("", ""))[1]
    does = "moves more" if row.key in _OF_MOVEMENT else f"is {comparative}"
    does = does if row.key in _OF_MOVEMENT or comparative else "has more"
    if share == _EVEN:
        return f"{told}; of one board each, either {does} as often."
    who = "it" if oftener == more else oftener
    return f"{told}; of one board each, {who} {does} {share} times in 100."


def verdicts(row: Row, names: Sequence[str]) -> list[str]:
    """What the first wood is against each of the others."""
    first, *others = names
    return [
        _verdict(row, c, first, other)
        for other, c in zip(others, row.contrasts, strict=True)
        if c is not None
    ]


def compare_screen(comparison: Comparison, leads: Sequence[Row], units: str) -> Answer:
    """The verdicts in words, and the figures under them."""
    names = [w.common_name for w in comparison.woods]
    asked = {row.property_id or row.key for row in leads}
    told = [
        line
        for row in leads
        if _TOLD_BY.get(row.property_id or row.key) not in asked
        for line in verdicts(row, names)
    ]
    # Of more than two woods no range has room beside its figure.
    cell_text = _screen_cell if len(names) == _PAIR else _bare_cell
    columns = [Column("figure", "figure"), *(Column(f"wood_{i}", n) for i, n in enumerate(names))]
    others = [row for row in comparison.rows if row not in leads]
    shared = sorted(others, key=lambda row: None in row.cells)
    rows = [
        {
            "figure": _short_label(row),
            **{f"wood_{i}": cell_text(row, c, units) for i, c in enumerate(row.cells)},
        }
        for row in (*leads, *shared)
    ]
    dry = any(row.condition in _USUAL for row in comparison.rows)
    at = ["Where nothing else is said, at 12 % moisture content."] if dry else []
    return brief(told, [Section("comparison", "", columns, rows)], at)


def _short_label(row: Row) -> str:
    """The name of a figure, without the condition that is usual."""
    return row.label if row.kind or row.condition in _USUAL else label_of(row)


def _bare_cell(row: Row, cell: ComparedValue | None, units: str) -> str:
    """'1,950 lbf'."""
    if cell is None:
        return "-"
    if row.kind:
        return shown(row.kind, cell.value, units) + marks(*cell.values)
    return value_of(row, cell, units)


def _screen_cell(row: Row, cell: ComparedValue | None, units: str) -> str:
    """'1,950 lbf (1,130 to 2,770)'."""
    if cell is None:
        return "-"
    if row.kind:
        likely = cell.likely or exactly(cell.value)
        told = Range(cell.value, likely.low, likely.high)
        return likely_text(told, row.kind, units, marks(*cell.values))
    ends = range_of(row, cell, units)
    return f"{value_of(row, cell, units)}{f' ({ends})' if ends else ''}"
