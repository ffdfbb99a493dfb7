"""Turn an answer into text, JSON, CSV or Markdown; the only place that prints.

An :class:`Answer` holds SI values and says of which kind each column is; the unit
system is applied here, once, so that every command prints the same way.
"""

from __future__ import annotations

import csv
import io
import json
import sys
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from woodref.units import KINDS

FORMATS = ("table", "json", "csv", "markdown")


@dataclass(frozen=True)
class Column:
    """One column: ``key`` without unit, heading, and the kind of quantity ('' for text)."""

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
            return KINDS[self.kind].number(float(value), units)
        return value

    def text(self, value: Any, units: str) -> str:
        """The value for people."""
        if value is None:
            return ""
        if self.kind and isinstance(value, int | float):
            return KINDS[self.kind].text(float(value), units)
        if isinstance(value, float):
            return f"{value:g}"
        return str(value)

    @property
    def numeric(self) -> bool:
        """True where the column is set flush right."""
        return bool(self.kind)


@dataclass(frozen=True)
class Section:
    """A titled table: ``key`` names it in JSON."""

    key: str
    title: str
    columns: Sequence[Column]
    rows: Sequence[dict[str, Any]]


@dataclass
class Answer:
    """What a command answers: headline lines first, tables under them, notes last.

    ``facts`` are single values for JSON only, as (column, value); ``main`` is the key of
    the section written as CSV (the first one by default).
    """

    headline: list[str] = field(default_factory=list)
    facts: list[tuple[Column, Any]] = field(default_factory=list)
    sections: list[Section] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    main: str = ""


def _columns_text(section: Section, units: str) -> tuple[list[str], list[list[str]]]:
    heads = [c.head for c in section.columns]
    rows = [[c.text(r.get(c.key), units) for c in section.columns] for r in section.rows]
    return heads, rows


def as_table(answer: Answer, units: str, width: int = 100) -> str:
    """Plain text: headline, tables with aligned columns, notes."""
    blocks = ["\n".join(answer.headline)] if answer.headline else []
    for section in answer.sections:
        heads, rows = _columns_text(section, units)
        if not rows:
            continue
        widths = [max(len(x) for x in column) for column in zip(heads, *rows, strict=True)]
        lines = [section.title] if section.title else []
        for cells in [heads, *rows]:
            parts = [
                cell.rjust(w) if c.numeric else cell.ljust(w)
                for cell, w, c in zip(cells, widths, section.columns, strict=True)
            ]
            lines.append(("  " + "  ".join(parts)).rstrip())
        blocks.append("\n".join(lines))
    if answer.notes:
        blocks.append(
            "\n".join(
                textwrap.fill(n, width, subsequent_indent="  ", break_long_words=False)
                for n in answer.notes
            )
        )
    return "\n\n".join(blocks)


def as_dict(answer: Answer, units: str) -> dict[str, Any]:
    """The answer as a plain dict with stable keys, units in the key names."""
    out: dict[str, Any] = {"answer": answer.headline, "units": units}
    out.update({c.full_key(units): c.raw(v, units) for c, v in answer.facts})
    for section in answer.sections:
        out[section.key] = [
            {c.full_key(units): c.raw(r.get(c.key), units) for c in section.columns}
            for r in section.rows
        ]
    out["notes"] = answer.notes
    return out


def as_csv(answer: Answer, units: str) -> str:
    """The main section as CSV, units in the header."""
    section = next((s for s in answer.sections if s.key == answer.main), None)
    section = section or (answer.sections[0] if answer.sections else None)
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


def as_markdown(answer: Answer, units: str) -> str:
    """Markdown: headline in bold, pipe tables, notes as a list."""

    def escape(text: str) -> str:
        return text.replace("|", "\\|").replace("\n", " ")

    blocks = ["  \n".join(f"**{line}**" for line in answer.headline)] if answer.headline else []
    for section in answer.sections:
        heads, rows = _columns_text(section, units)
        if not rows:
            continue
        rule = ["---:" if c.numeric else "---" for c in section.columns]
        lines = [f"### {section.title}\n"] if section.title else []
        lines += [
            "| " + " | ".join(escape(c) for c in cells) + " |" for cells in [heads, rule, *rows]
        ]
        blocks.append("\n".join(lines))
    if answer.notes:
        blocks.append("\n".join(f"- {escape(n)}" for n in answer.notes))
    return "\n\n".join(blocks)


def render(answer: Answer, units: str, style: str) -> str:
    """The answer in one of FORMATS, without a final newline."""
    if style == "json":
        return json.dumps(as_dict(answer, units), indent=2, ensure_ascii=False)
    if style == "csv":
        return as_csv(answer, units)
    if style == "markdown":
        return as_markdown(answer, units)
    return as_table(answer, units)


def emit(answer: Answer, units: str, style: str) -> None:
    """Print the answer on stdout."""
    sys.stdout.write(render(answer, units, style) + "\n")
