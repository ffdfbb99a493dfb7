"""What is said of the glossary: one term in two lines, or all of them on a screen."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from woodref.answers.answer import Answer, Column, Section
from woodref.reference.glossary import Word

#: Lines of a terminal are this wide; the list of terms stands in so many columns.
_WIDTH, _COLUMNS = 80, 3
_SHORT = "MC, EMC, FSP, MOE, MOR, SG, bf"
_OWN_WORDS = "The wording is our own."
_KEYS = (
    Column("term", "term"),
    Column("aliases", "also"),
    Column("meaning", "meaning"),
    Column("command", "woodref"),
    Column("source", ""),
)


def _section(words: Sequence[Word]) -> Section:
    """The terms as rows."""
    rows = ((w.term, ", ".join(w.aliases), w.meaning, w.command, w.source or None) for w in words)
    return Section.of("words", "", _KEYS, rows)


def word_answer(word: Word, for_people: bool) -> Answer:
    """A term in two lines, its other names and the command that computes with it.

    Parameters: word; for_people, whether lines are folded for a terminal.
    """
    told = f"{word.headed}: {word.meaning}"
    others = word.aliases[1:]
    more = [f"Also: {', '.join(others)}."] if others else []
    more += [f"Source: {word.source}."] if word.source else []
    more += [f"To compute with it: woodref {word.command} --help"] if word.command else []
    if not for_people:
        return Answer(headline=[told], sections=[_section([word])], notes=[_OWN_WORDS])
    return Answer(headline=textwrap.wrap(told, _WIDTH, break_on_hyphens=False), notes=more)


def glossary_answer(words: Sequence[Word], for_people: bool) -> Answer:
    """All terms: their names on a screen for people, with what they mean for programs."""
    if for_people:
        told = f"{len(words)} terms; woodref words TERM tells one; {_SHORT} do too."
        return Answer(headline=[told, *_in_columns([w.term for w in words])])
    headline = f"{len(words)} terms; woodref words TERM tells what one means."
    return Answer(headline=[headline], sections=[_section(words)], notes=[_OWN_WORDS])


def _in_columns(names: Sequence[str]) -> list[str]:
    """Names in columns, read down."""
    lines = -(-len(names) // _COLUMNS)
    columns = [names[k : k + lines] for k in range(0, len(names), lines)]
    widths = [max(map(len, column)) + 2 for column in columns]
    return [
        "".join(
            column[k].ljust(width)
            for column, width in zip(columns, widths, strict=True)
            if k < len(column)
        ).rstrip()
        for k in range(lines)
    ]
