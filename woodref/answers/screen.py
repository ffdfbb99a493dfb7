"""The first screen of an answer that has none of its own: the answer, what matters, no method."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from typing import Any, NamedTuple

from woodref.answers.answer import Answer, Column, Heed, Section, WholePage
from woodref.answers.property_text import mark_of
from woodref.answers.render import (
    NOTE_WIDTH,
    SCREEN_HEIGHT,
    SCREEN_WIDTH,
    as_lines,
    narrowest,
    table_block,
)
from woodref.answers.shop_words import legend, shown
from woodref.units import KINDS

#: Sections that say where the figures come from: for the whole page.
_WHOLE_PAGE = ("based_on", "steps")
#: The column that says how a row is known; a screen has a mark at its first figure instead.
_BASIS = "basis"
#: Kinds that count or place a row, and are no figure of print.
_COUNTS = ("count", "percent")
#: A table is told with no fewer rows than these, or not at all.
_FEWEST_ROWS = 2
_RANGES = "In parentheses: where 9 boards in 10 fall."


class _Range(NamedTuple):
    """A figure and the columns of the ends of its range."""

    figure: Column
    low: Column
    high: Column


def brief(
    headline: Iterable[str], sections: Iterable[Section] = (), notes: Iterable[str] = ()
) -> Answer:
    """A first screen of its own; ``first_screen`` closes it.

    Parameters: headline; sections in words or figures; notes to stand above the last lines.
    """
    return Answer(list(headline), sections=list(sections), notes=list(notes), open=True)


def first_screen(
    answer: Answer, units: str, ways: Sequence[str] = (), width: int = SCREEN_WIDTH
) -> Answer:
    """The short form of an answer: its own, or one made of the answer and its first tables.

    Headline first, then the tables in their order as far as they fit: ranges in the column of
    their figure, columns left out from the right, rows from the end. Then what needs attention,
    and what the figures and names of the answer also mean. An answer that loses nothing
    thereby does not say how to see more.

    Parameters: answer; units 'us' or 'si'; ways, other options that tell more of it
    ('--explain'); width of the screen.
    """
    own = answer.screen
    if own and not own.open:
        return own
    told = own or answer
    lead = [line for line in told.headline if not isinstance(line, WholePage)]
    noted = [*told.notes] if own else [note for note in told.notes if isinstance(note, Heed)]
    noted += answer.names
    all_kept = [s for s in told.sections if s.key not in _WHOLE_PAGE and s.rows and s.headed]
    kept = [s for s in all_kept if not s.aside]
    made = [_narrow(s, units, width) for s in kept]
    less = own is not None or any(cut for _, cut in made) or len(kept) < len(told.sections)
    less = less or sum(isinstance(note, Heed) for note in told.notes) < len(told.notes)
    sections = [section for section, _ in made]
    likely = any(c.low.head == "likely from" for s in answer.sections for c in _ranges(s.columns))
    tail = partial(_tail, lead, noted=noted, likely=likely)
    height = _Heights(units, width)
    if not less:
        whole = Answer(lead, sections=sections, notes=tail(sections))
        if height.of(whole) <= SCREEN_HEIGHT:
            return whole
    more = f"More: {', '.join(['--full', *ways])}."
    rows = [min(len(s.rows), SCREEN_HEIGHT) for s in sections]
    while True:
        cut = [_cut(s, n) for s, n in zip(sections, rows, strict=True) if n]
        screen = Answer(lead, sections=cut, notes=tail(cut, more=more))
        if height.of(screen) <= SCREEN_HEIGHT:
            return screen
        if not cut:
            break
        last = max(i for i, n in enumerate(rows) if n)
        rows[last] = rows[last] - 1 if rows[last] > _FEWEST_ROWS else 0
    while len(screen.headline) > 1 and height.of(screen) > SCREEN_HEIGHT:
        screen.headline = screen.headline[:-1]
    return screen


def _cut(section: Section, rows: int) -> Section:
    """A table with so many rows, and how many more there are."""
    return section._replace(rows=section.rows[:rows], rest=len(section.rows) - rows)


class _Heights:
    """How many lines screens of one answer take; each table and each text is laid out once."""

    def __init__(self, units: str, width: int) -> None:
        self._units, self._width = units, width
        self._tables: dict[tuple[int, int, int], int] = {}
        self._texts: dict[tuple[str, ...], int] = {}

    def of(self, screen: Answer) -> int:
        """Lines of a screen, as woodref.answers.render.as_screen lays it out."""
        blocks = [self._text(t) for t in (screen.lead, screen.notes) if t]
        blocks += [self._table(s) for s in screen.sections if s.rows and s.headed]
        return sum(blocks) + max(0, len(blocks) - 1)

    def _text(self, lines: Sequence[str]) -> int:
        key = tuple(lines)
        if key not in self._texts:
            self._texts[key] = len(as_lines(lines, min(self._width, NOTE_WIDTH)))
        return self._texts[key]

    def _table(self, section: Section) -> int:
        # Tables of one answer are told apart by their columns, a table cut short by its rows.
        key = (id(section.columns), len(section.rows), section.rest)
        if key not in self._tables:
            block = table_block(section, self._units, self._width)
            self._tables[key] = len(block.splitlines())
        return self._tables[key]


def _tail(
    lead: Iterable[str],
    sections: Sequence[Section],
    noted: Sequence[str],
    likely: bool,
    more: str = "",
) -> list[str]:
    """What stands under the tables: what needs attention, and last how to read it and see more."""
    cells = (str(v) for s in sections for row in s.rows for v in row.values() if v is not None)
    read = " ".join([*([_RANGES] if likely else []), *legend([*lead, *cells])])
    return [*noted, *filter(None, (read, more))]


def _ranges(columns: Sequence[Column]) -> Iterator[_Range]:
    """The columns that are a figure and the ends of its range."""
    by_key = {c.key: c for c in columns if c.head}
    for c in by_key.values():
        low, high = by_key.get(f"{c.key}_low"), by_key.get(f"{c.key}_high")
        if low and high:
            yield _Range(c, low, high)


def _narrow(section: Section, units: str, width: int) -> tuple[Section, bool]:
    """A table with the range of each figure in its column, as wide as a screen.

    Returns: the table in words, and whether a column was left out.
    """
    ranges = {r.figure.key: r for r in _ranges(section.headed)}
    ends = {c.key for r in ranges.values() for c in (r.low, r.high)}
    columns = [c for c in section.headed if c.key not in ends and not c.aside]
    marked = any(c.key == _BASIS for c in columns)
    columns = [
        c
        for c in columns
        if c.key != _BASIS and any(row.get(c.key) not in (None, "") for row in section.rows)
    ]
    told_first = [c.key for c in columns if c.key in ranges] or [
        c.key for c in columns if c.numeric and c.kind not in _COUNTS
    ]
    first = told_first[0] if told_first else None
    broken = {c.key for c in columns if _is_broken(c, ranges.get(c.key), section.rows, units)}
    rows = []
    for row in section.rows:
        mark = mark_of(str(row.get(_BASIS) or "")) if marked else ""
        rows.append(
            {
                c.key: _cell(
                    c,
                    row,
                    ranges.get(c.key),
                    units,
                    mark if c.key == first else "",
                    c.key in broken,
                )
                for c in columns
            }
        )
    told = Section(section.key, section.title, columns, rows)
    count = len(columns)
    while len(columns) > 1 and narrowest(told, units) > width:
        columns = columns[:-1]
        told = told._replace(columns=columns)
    return told, len(columns) < count or any(c.aside for c in section.headed)


def _is_broken(
    column: Column, ends: _Range | None, rows: Sequence[dict[str, Any]], units: str
) -> bool:
    """True for a column of percent not all of whose figures are whole: they keep a decimal."""
    keys = [c.key for c in (ends or [column])]
    values = [row.get(key) for row in rows for key in keys]
    numbers = [v for v in values if isinstance(v, int | float)]
    return column.kind == "percent" and any(
        not KINDS[column.kind].text(v, units).startswith(f"{v:.0f}.0") for v in numbers
    )


def _cell(
    column: Column,
    row: dict[str, Any],
    ends: _Range | None,
    units: str,
    mark: str,
    decimals: bool,
) -> str:
    """A figure as a shop reads it with its mark, and its range in parentheses.

    ``decimals`` where those of the column keep one, also of a whole number.
    """
    value = row.get(column.key)
    if not column.numeric or isinstance(value, str | bool) or value is None:
        return column.text(value, units)
    text = shown(column.kind, float(value), units, decimals=decimals) + mark
    if ends is None or row.get(ends.low.key) is None:
        return text
    low, high = (
        shown(c.kind, float(row[c.key]), units, with_unit=False, decimals=decimals)
        for c in (ends.low, ends.high)
    )
    return text if low == high else f"{text} ({low} to {high})"
