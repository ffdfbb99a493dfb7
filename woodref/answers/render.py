"""Turn an answer into text, JSON, CSV or Markdown.

An :class:`Answer` holds SI values and says of which kind each column is; the unit
system is applied here, once, so that every command prints the same way.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import isfinite
from typing import Any, NamedTuple

from woodref.units import KINDS

FORMATS = ("table", "json", "csv", "markdown")
#: The key that stands for the single values of an answer where a table is asked for.
FACTS = "facts"
#: Width to which notes, and tables with columns of text, are folded where there is no terminal.
NOTE_WIDTH, TABLE_WIDTH = 100, 120
#: Width and height of one screen: what a short form is folded to, and keeps to.
SCREEN_WIDTH, SCREEN_HEIGHT = 80, 24
#: A column of text is not folded below this.
_NARROWEST = 16


def _plain(value: Any) -> Any:
    """A value that JSON and CSV can hold: text for what is neither number nor truth."""
    if isinstance(value, float):
        return value if isfinite(value) else None
    if value is None or isinstance(value, str | int | list | dict):
        return value
    return str(value)


class Column(NamedTuple):
    """One column: ``key`` without unit, heading, and the kind of quantity ('' for text).

    A column without a heading is for programs alone: it stands in JSON and CSV.
    """

    key: str
    head: str
    kind: str = ""

    def full_key(self, units: str) -> str:
        """The key with its unit: 'width' of kind size is 'width_mm' or 'width_in'."""
        suffix = KINDS[self.kind].suffix(units) if self.kind else ""
        return f"{self.key}_{suffix}" if suffix else self.key

    def raw(self, value: Any, units: str) -> Any:
        """The value for JSON and CSV: a number in the unit of the key, or the text."""
        if self.kind and isinstance(value, int | float):
            value = KINDS[self.kind].number(float(value), units) if isfinite(value) else None
            return int(value) if self.kind == "count" and value is not None else value
        return _plain(value)

    def text(self, value: Any, units: str) -> str:
        """The value for people."""
        if value is None or (isinstance(value, float) and not isfinite(value)):
            return ""
        if isinstance(value, bool):
            return "yes" if value else "no"
        if self.kind and isinstance(value, int | float):
            return KINDS[self.kind].text(float(value), units)
        if isinstance(value, float):
            return f"{value:.6g}"
        return " ".join(str(value).split())

    @property
    def numeric(self) -> bool:
        """True where the column is set flush right."""
        return bool(self.kind)


class Section(NamedTuple):
    """A titled table: ``key`` names it in JSON, '' where it is for people alone."""

    key: str
    title: str
    columns: Sequence[Column]
    rows: Sequence[dict[str, Any]]

    @classmethod
    def of(
        cls, key: str, title: str, columns: Sequence[Column], rows: Iterable[Sequence[Any]]
    ) -> Section:
        """A table of rows of values that stand in the order of the columns."""
        keys = [c.key for c in columns]
        return cls(key, title, columns, [dict(zip(keys, row, strict=True)) for row in rows])

    @property
    def headed(self) -> list[Column]:
        """The columns people see."""
        return [c for c in self.columns if c.head]


@dataclass(eq=False)
class Answer:
    """What a command answers: headline lines first, tables under them, notes last.

    ``facts`` are single values for JSON only, as (column, value); ``main`` is the key of
    the section written as CSV, the first one by default, FACTS for the single values; ``names``
    what a name of the question means beside the wood answered for, said in the first line.
    ``screen`` is the short form of it, for one screen of a terminal; None where there is none.
    """

    headline: list[str] = field(default_factory=list)
    facts: list[tuple[Column, Any]] = field(default_factory=list)
    sections: list[Section] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    main: str = ""
    names: list[str] = field(default_factory=list)
    screen: Answer | None = None

    @property
    def lead(self) -> list[str]:
        """The lines of the headline, the first with what a name also means."""
        if not self.headline:
            return []
        return [" ".join([self.headline[0], *self.names]), *self.headline[1:]]


def _columns_text(section: Section, units: str) -> tuple[list[str], list[list[str]]]:
    heads = [c.head for c in section.headed]
    rows = [[c.text(r.get(c.key), units) for c in section.headed] for r in section.rows]
    return heads, rows


def _fitted_widths(widths: Sequence[int], columns: Sequence[Column], width: int) -> list[int]:
    """Widths that fit the page, taken from the widest columns of text.

    Where there is too much to fit, every column of text is as narrow as it may be.
    """
    fitted = list(widths)
    text = [i for i, c in enumerate(columns) if not c.numeric]
    while sum(fitted) + 2 * len(fitted) > width:
        widest = max(text, key=fitted.__getitem__, default=None)
        if widest is None or fitted[widest] <= _NARROWEST:
            return fitted
        fitted[widest] -= 1
    return fitted


def _table_lines(section: Section, units: str, width: int) -> list[str]:
    columns = section.headed
    heads, rows = _columns_text(section, units)
    widths = [max(len(x) for x in column) for column in zip(heads, *rows, strict=True)]
    fitted = _fitted_widths(widths, columns, width)
    folded = fitted != widths
    lines = []
    for cells in [heads, *rows]:
        parts = (
            [
                textwrap.wrap(cell, w, break_on_hyphens=False)
                for cell, w in zip(cells, fitted, strict=True)
            ]
            if folded
            else [[cell] for cell in cells]
        )
        for i in range(max(1, *map(len, parts))):
            line = [
                text.rjust(w) if c.numeric else text.ljust(w)
                for text, w, c in zip(
                    (p[i] if i < len(p) else "" for p in parts),
                    fitted,
                    columns,
                    strict=True,
                )
            ]
            lines.append(("  " + "  ".join(line)).rstrip())
    return lines


def as_table(
    answer: Answer, units: str, width: int = NOTE_WIDTH, table_width: int = TABLE_WIDTH
) -> str:
    """Plain text: headline, tables with aligned columns, notes.

    Parameters: width of the notes; table_width to which columns of text are folded.
    """
    blocks = ["\n".join(answer.lead)] if answer.headline else []
    for section in answer.sections:
        if section.rows and section.headed:
            title = [section.title] if section.title else []
            blocks.append("\n".join(title + _table_lines(section, units, table_width)))
    if answer.notes:
        blocks.append(
            "\n".join(
                textwrap.fill(n, width, subsequent_indent="  ", break_long_words=False)
                for n in answer.notes
            )
        )
    return "\n\n".join(blocks)


def as_screen(screen: Answer, units: str, width: int = SCREEN_WIDTH) -> str:
    """The short form of an answer as plain text, folded to the width, its tables close together."""

    def folded(text: str, hang: str = "  ") -> str:
        return textwrap.fill(
            text, width, subsequent_indent=hang, break_long_words=False, break_on_hyphens=False
        )

    blocks = ["\n".join(folded(line) for line in screen.lead)] if screen.headline else []
    for section in screen.sections:
        if section.rows and section.headed:
            title = [section.title] if section.title else []
            blocks.append("\n".join([*title, *_table_lines(section, units, width)]))
    if screen.notes:
        blocks.append("\n".join(folded(n) for n in screen.notes))
    return "\n\n".join(blocks)


def as_dict(answer: Answer, units: str) -> dict[str, Any]:
    """The answer as a plain dict with stable keys, units in the key names."""
    out: dict[str, Any] = {"answer": answer.lead, "units": units}
    out.update({c.full_key(units): c.raw(v, units) for c, v in answer.facts})
    for section in answer.sections:
        if section.key:
            out[section.key] = [
                {c.full_key(units): c.raw(r.get(c.key), units) for c in section.columns}
                for r in section.rows
            ]
    out["notes"] = answer.notes
    return out


def as_csv(answer: Answer, units: str) -> str:
    """The main section as CSV, units in the header; the facts where there is no section."""
    import csv
    import io

    sections = [s for s in answer.sections if s.key and answer.main != FACTS]
    section = next((s for s in sections if s.key == answer.main), None)
    section = section or next(iter(sections), None)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    if section is None:
        writer.writerow([c.full_key(units) for c, _ in answer.facts])
        writer.writerow([c.raw(v, units) for c, v in answer.facts])
    else:
        writer.writerow([c.full_key(units) for c in section.columns])
        for r in section.rows:
            writer.writerow([c.raw(r.get(c.key), units) for c in section.columns])
    return out.getvalue().rstrip("\n")


#: Characters that would mark up a text, or end a cell.
_MARKUP = re.compile(r"([\\|*`<])")


def _escaped(text: str) -> str:
    return _MARKUP.sub(r"\\\1", " ".join(text.split()))


def as_markdown(answer: Answer, units: str) -> str:
    """Markdown: headline in bold, pipe tables, notes as a list."""
    lead = [f"**{_escaped(line)}**" for line in answer.lead]
    blocks = ["  \n".join(lead)] if lead else []
    for section in answer.sections:
        heads, rows = _columns_text(section, units)
        if not rows or not heads:
            continue
        rule = ["---:" if c.numeric else "---" for c in section.headed]
        lines = [f"### {_escaped(section.title)}\n"] if section.title else []
        lines += [
            "| " + " | ".join(cells) + " |"
            for cells in [
                [_escaped(h) for h in heads],
                rule,
                *([_escaped(c) for c in cells] for cells in rows),
            ]
        ]
        blocks.append("\n".join(lines))
    if answer.notes:
        blocks.append("\n".join(f"- {_escaped(n)}" for n in answer.notes))
    return "\n\n".join(blocks)


def render(
    answer: Answer, units: str, style: str, terminal: int | None = None, full: bool = True
) -> str:
    """The answer in one of FORMATS, without a final newline.

    Parameters: units 'us' or 'si'; style one of FORMATS; terminal its width in characters,
    None where the text goes elsewhere; full false for the short form in a table, where there is
    one.
    """
    if style == "json":
        import json

        return json.dumps(
            as_dict(answer, units), indent=2, ensure_ascii=False, allow_nan=False, default=str
        )
    if style == "csv":
        return as_csv(answer, units)
    if style == "markdown":
        return as_markdown(answer, units)
    if answer.screen and not full:
        return as_screen(answer.screen, units, min(terminal or SCREEN_WIDTH, NOTE_WIDTH))
    if terminal is None:
        return as_table(answer, units)
    return as_table(answer, units, min(terminal, NOTE_WIDTH), terminal)
