"""An answer as Markdown, in which no text is taken for markup."""

from __future__ import annotations

import re

from woodref.answers.answer import Answer

#: Characters that would mark up a text, link it or end a cell.
_MARKUP = re.compile(r"([\\|*`<\[\]~&]|(?<![^\W_])_|_(?![^\W_]))")
#: Marks that would make a heading, a quotation, a rule or a list of a line that they begin.
_BLOCK = re.compile(r"^(\d{0,9})(#{1,6}(?=\s|$)|>|[-+](?=[\s-]|$)|[.)](?=\s|$))")


def _escaped(text: str) -> str:
    return _MARKUP.sub(r"\\\1", " ".join(text.split()))


def as_markdown(answer: Answer, units: str) -> str:
    """Markdown: headline in bold, pipe tables, notes as a list."""
    lead = [f"**{_escaped(line)}**" for line in answer.lead]
    blocks = ["  \n".join(lead)] if lead else []
    for section in answer.sections:
        heads, rows = section.texts(units)
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
        notes = [_BLOCK.sub(r"\1\\\2", _escaped(n)) for n in answer.notes]
        blocks.append("\n".join(f"- {note}" for note in notes))
    return "\n\n".join(blocks)
