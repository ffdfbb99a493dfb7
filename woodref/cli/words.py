"""The command about terms: words."""

from __future__ import annotations

from typing import Annotated

import typer

from woodref.cli.options import Format, Style, Units, UnitSystem, example
from woodref.cli.output import emit


def words_command(
    term: Annotated[
        list[str] | None, typer.Argument(help="A term; the list of all without.")
    ] = None,
    units: Units = UnitSystem.us,
    style: Format = Style.table,
) -> None:
    """What a term means, in two lines of plain words.

    Abbreviations are understood too: MC, EMC, FSP, MOE, MOR, SG, bf. In another format than
    table all terms come with their meaning.
    """
    from woodref.answers.glossary import glossary_answer, word_answer
    from woodref.reference.glossary import glossary, word_of

    people = style is Style.table
    answer = (
        word_answer(word_of(" ".join(term)), people)
        if term
        else glossary_answer(glossary(), people)
    )
    emit(answer, units, style)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "words", epilog=example("woodref words", "woodref words MC", "woodref words flat sawn")
    )(words_command)
