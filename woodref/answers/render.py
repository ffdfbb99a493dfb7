"""Turn an answer into text, JSON, CSV or Markdown.

An answer holds SI values and says of which kind each column is; the unit system is applied here,
once, so that every command prints the same way.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from typing import Any

from woodref.answers.answer import FACTS, Answer, Column, Heed, Section
from woodref.printable import printable, printable_json
from woodref.spreadsheet import as_cell, csv_text

FORMATS = ("table", "json", "csv", "markdown")
#: Width to which notes, and tables with columns of text, are folded where there is no terminal.
NOTE_WIDTH, TABLE_WIDTH = 100, 120
#: Width and height of one screen: what a short form is folded to, and keeps to.
SCREEN_WIDTH, SCREEN_HEIGHT = 80, 24
#: What a terminal is told to print in bold, and no longer.
_BOLD, _NORMAL = "\x1b[1m", "\x1b[0m"
#: Between a number and its unit no line ends.
_NUMBER_AND_UNIT = re.compile(r"(?<=[0-9*~]) (?=(?:in|ft|mm|m|lb|lbf|psi|kg|N|C|F|%)(?![\w/]))")
_UNBROKEN = "\N{NO-BREAK SPACE}"
#: A column of text is not folded below this.
_NARROWEST = 16


def _cell(value: Any) -> Any:
    """A value of Column.raw as CSV has it: lists as JSON, text that is safe in a spreadsheet."""
    if isinstance(value, list | dict):
        import json

        value = json.dumps(value, ensure_ascii=False)
    return as_cell(value) if isinstance(value, str) else value


def _fitted_widths(
    widths: Sequence[int], words: Sequence[int], columns: Sequence[Column], width: int
) -> list[int]:
    """Widths that fit the page, taken from the widest columns of text, no word of which is cut.

    Where there is too much to fit, every column of text is as narrow as it may be.
    """
    fitted = list(widths)
    text = [i for i, c in enumerate(columns) if not c.numeric]
    while sum(fitted) + 2 * len(fitted) > width:
        wide = [i for i in text if fitted[i] > max(_NARROWEST, words[i])]
        if not wide:
            return fitted
        fitted[max(wide, key=fitted.__getitem__)] -= 1
    return fitted


def narrowest(section: Section, units: str) -> int:
    """Width of a table whose columns of text are as narrow as they may be."""
    heads, rows = section.texts(units)
    widths = []
    for cells, column in zip(zip(heads, *rows, strict=True), section.headed, strict=True):
        natural = max(map(len, cells))
        word = max((len(w) for cell in cells for w in cell.split()), default=0)
        widths.append(natural if column.numeric else min(natural, max(_NARROWEST, word)))
    return sum(widths) + 2 * len(widths)


def _table_lines(section: Section, units: str, width: int) -> list[str]:
    columns = section.headed
    heads, rows = section.texts(units)
    widths = [max(len(x) for x in column) for column in zip(heads, *rows, strict=True)]
    words = [
        max((len(w) for x in column for w in x.split()), default=0)
        for column in zip(heads, *rows, strict=True)
    ]
    fitted = _fitted_widths(widths, words, columns, width)
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
    return [*lines, f"  and {section.rest} more: --full"] if section.rest else lines


def _folded(text: str, width: int) -> str:
    bound = _NUMBER_AND_UNIT.sub(_UNBROKEN, text)
    filled = textwrap.fill(
        bound, width, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False
    )
    return filled.replace(_UNBROKEN, " ")


def _prose(lines: Sequence[str], width: int | None, styled: bool, bold_first: bool = False) -> str:
    """Lines folded to a width, None for as they are; on a terminal with what matters marked."""
    told = []
    for n, line in enumerate(lines):
        mark = "! " if styled and isinstance(line, Heed) else ""
        plain = mark + printable(line)
        text = _folded(plain, width) if width else plain
        loud = styled and (mark or (bold_first and n == 0))
        told.append(f"{_BOLD}{text}{_NORMAL}" if loud else text)
    return "\n".join(told)


def as_table(
    answer: Answer,
    units: str,
    width: int = NOTE_WIDTH,
    table_width: int = TABLE_WIDTH,
    terminal: bool = False,
    styled: bool = False,
) -> str:
    """Plain text: headline, tables with aligned columns, notes.

    Parameters: width of the notes; table_width to which columns of text are folded; terminal,
    whether the headline is folded too; styled with what matters marked.
    """
    fold = width if terminal else None
    blocks = [_prose(answer.lead, fold, styled, bold_first=True)] if answer.headline else []
    for section in answer.sections:
        if section.rows and section.headed:
            blocks.append(table_block(section, units, table_width))
    if answer.notes:
        blocks.append(_prose(answer.notes, width, styled))
    return "\n\n".join(blocks)


def as_lines(lines: Sequence[str], width: int) -> list[str]:
    """Lines of a headline folded to a width."""
    return _prose(lines, width, styled=False).splitlines()


def table_block(section: Section, units: str, width: int) -> str:
    """A table under its title, as it stands on a screen."""
    title = [printable(section.title)] if section.title else []
    return "\n".join([*title, *_table_lines(section, units, width)])


def as_screen(screen: Answer, units: str, width: int = SCREEN_WIDTH, styled: bool = False) -> str:
    """The short form of an answer as plain text, folded to the width, its tables close together.

    Parameters: screen; units; width of its tables, to which prose is folded as far as it reads
    well; styled with what matters marked, for a terminal.
    """
    prose = min(width, NOTE_WIDTH)
    blocks = [_prose(screen.lead, prose, styled, bold_first=True)] if screen.headline else []
    blocks += [table_block(s, units, width) for s in screen.sections if s.rows and s.headed]
    if screen.notes:
        blocks.append(_prose(screen.notes, prose, styled))
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
    """The main section as CSV, units in the header; the facts where there is no section.

    A text that a spreadsheet would compute has an apostrophe before it (woodref.spreadsheet).
    """
    sections = [s for s in answer.sections if s.key and answer.main != FACTS]
    section = next((s for s in sections if s.key == answer.main), None)
    section = section or next(iter(sections), None)
    if section is None:
        rows = [[c.full_key(units) for c, _ in answer.facts]]
        rows.append([c.raw(v, units) for c, v in answer.facts])
    else:
        rows = [[c.full_key(units) for c in section.columns]]
        rows += ([c.raw(r.get(c.key), units) for c in section.columns] for r in section.rows)
    return csv_text([_cell(value) for value in row] for row in rows).rstrip("\n")


def render(
    answer: Answer,
    units: str,
    style: str,
    terminal: int | None = None,
    full: bool = True,
    styled: bool = False,
) -> str:
    """The answer in one of FORMATS, without a final newline.

    Parameters: units 'us' or 'si'; style one of FORMATS; terminal its width in characters,
    None where the text goes elsewhere; full false for the short form in a table, where there is
    one; styled with what matters marked, for a terminal.
    """
    if style == "json":
        import json

        return printable_json(
            json.dumps(
                as_dict(answer, units), indent=2, ensure_ascii=False, allow_nan=False, default=str
            )
        )
    if style == "csv":
        return printable(as_csv(answer, units))
    if style == "markdown":
        from woodref.answers.markdown import as_markdown

        return printable(as_markdown(answer, units))
    if answer.screen and not full:
        return as_screen(answer.screen, units, screen_width(terminal), styled)
    if terminal is None:
        return as_table(answer, units)
    return as_table(answer, units, min(terminal, NOTE_WIDTH), terminal, True, styled)


def screen_width(terminal: int | None) -> int:
    """Width of a short form on a terminal of so many characters, None for none."""
    return min(terminal or SCREEN_WIDTH, TABLE_WIDTH)
