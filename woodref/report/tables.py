"""Tables of a page, from the sections that the commands print."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from woodref.answers.answer import Column, Section
from woodref.answers.shop_words import size_text
from woodref.answers.words import likely_text
from woodref.quantity import Range
from woodref.report.markup import Markup, element, joined


class Cell(NamedTuple):
    """What stands in a cell: text or Markup, and whether it is set flush right."""

    text: str
    numeric: bool = False


class Grid(NamedTuple):
    """A table: headings and rows of cells, the first cell of a row its name."""

    heads: Sequence[Cell]
    rows: Sequence[Sequence[Cell]]


def _ends(key: str, columns: Sequence[Column]) -> tuple[Column, Column] | None:
    """The columns of the low and the high end of a figure, where people see them."""
    by_key = {c.key: c for c in columns if c.kind}
    low, high = by_key.get(f"{key}_low"), by_key.get(f"{key}_high")
    return (low, high) if low and high else None


def _cell_text(
    column: Column, ends: tuple[Column, Column] | None, row: dict[str, Any], units: str
) -> str:
    """A value as a shop reads it, its likely range in parentheses behind it."""
    value = row.get(column.key)
    if not ends or not isinstance(value, int | float) or row.get(ends[0].key) is None:
        if column.kind == "size" and units == "si" and isinstance(value, int | float):
            return size_text(float(value), units)
        return column.text(value, units)
    told = Range(float(value), *(float(row[c.key]) for c in ends))
    return likely_text(told, column.kind, units)


def grid_of(section: Section, units: str) -> Grid:
    """The table of a section: a range in the column of its figure, columns that say nothing out."""
    columns = list(section.columns)
    ends = {id(c) for x in columns for c in _ends(x.key, columns) or ()}
    heads: list[Cell] = []
    filled: list[list[Cell]] = []
    for column in (c for c in columns if c.head and id(c) not in ends):
        pair = _ends(column.key, columns)
        texts = [_cell_text(column, pair, r, units) for r in section.rows]
        if any(texts):
            heads.append(Cell(column.head, column.numeric))
            filled.append([Cell(t, column.numeric) for t in texts])
    return Grid(heads, [list(cells) for cells in zip(*filled, strict=True)])


def table(grid: Grid, caption: str = "", class_: str = "") -> Markup:
    """A table as HTML; nothing where it has no rows.

    Parameters: grid; caption, which names it; class_ of the style sheet.
    """
    if not grid.rows:
        return Markup()

    def kind(cell: Cell) -> str:
        return "n" if cell.numeric else ""

    head = [element("th", h.text, scope="col", class_=kind(h)) for h in grid.heads]
    body = []
    for first, *rest in grid.rows:
        cells = [element("th", first.text, scope="row", class_=kind(first), dir="auto")]
        cells += [
            element("td", c.text, class_=kind(c), dir="" if c.numeric else "auto") for c in rest
        ]
        body.append(element("tr", joined(cells, "")))
    parts = [
        element("caption", caption) if caption else Markup(),
        element("thead", element("tr", joined(head, ""))),
        element("tbody", joined(body)),
    ]
    named = caption or f"Table: {', '.join(h.text for h in grid.heads[:2])}"
    return region(element("table", joined(parts), class_=class_), named)


def region(inside: Markup, named: str) -> Markup:
    """What may be wider than a screen, in a box of its own that scrolls, by the keyboard too.

    Parameters: inside; named, what the box is called where it is read aloud.
    """
    return element("div", inside, class_="wide", role="region", aria_label=named, tabindex="0")


def section_table(section: Section, units: str, caption: str | None = None) -> Markup:
    """The table of a section under its own title, or another."""
    return table(grid_of(section, units), section.title if caption is None else caption)


def facts(pairs: Sequence[tuple[str, str]]) -> Markup:
    """What is known of something, as terms and what they come to; empty ones left out."""
    items = [
        element("div", element("dt", term), element("dd", said)) for term, said in pairs if said
    ]
    return element("dl", joined(items)) if items else Markup()
