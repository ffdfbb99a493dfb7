"""The command that asks for a piece and writes its file: begin."""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeVar

import typer

from woodref.cli.options import Force, Units, UnitSystem, example, reference
from woodref.cli.piece_input import Town
from woodref.cli.say import say
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.piece.begin import Question

T = TypeVar("T")


class TypedAnswers:
    """Answers typed at the terminal; one that cannot be used is told, and asked for again."""

    def _line(self, prompt: str) -> str:
        say(prompt, end="")
        sys.stdout.flush()
        line = sys.stdin.readline()
        if not line:
            raise InputError("the answers ended before the last question; nothing was written")
        return line.strip()

    def _read(self, prompt: str, usual: str, read: Callable[[str], T]) -> T:
        while True:
            typed = self._line(prompt) or usual
            try:
                return read(typed)
            except InputError as error:
                told = textwrap.fill(str(error), 78, initial_indent="  ", subsequent_indent="  ")
                say(told)

    def one(self, question: Question, read: Callable[[str], T]) -> T:
        """The answer to a question; the usual one for an empty line."""
        asked = textwrap.fill(f"{question.words} [{question.usual}]", 78)
        return self._read(f"{asked} ", question.usual, read)

    def many(self, question: Question, read: Callable[[str], T]) -> list[T]:
        """The answers up to an empty line; at least one."""
        say(textwrap.fill(question.words, 78))
        rows: list[T] = []
        while True:
            row = self._read(
                f"  {question.key} {len(rows) + 1}: ", "", lambda text: read(text) if text else None
            )
            if row is not None:
                rows.append(row)
            elif rows:
                return rows
            else:
                say("  one part or more, for example: top, 1, 48, 14, 7/8")


def _file_of(name: str) -> Path:
    """The file of a piece that is called so: 'Hall bench' is hall-bench.toml."""
    words = re.findall(r"\w+", name.lower())
    return Path(f"{'-'.join(words) or 'piece'}.toml")


def begin_command(
    answers: Annotated[
        Path | None,
        typer.Option(
            "--answers", metavar="FILE", help="Take the answers from this file, and ask nothing."
        ),
    ] = None,
    place: Town = "",
    units: Units = UnitSystem.us,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output",
            "-o",
            metavar="FILE",
            help="Write the piece file here; - prints it. By default it is called as the piece.",
        ),
    ] = None,
    force: Force = False,
) -> None:
    """Answer some ten questions, and get a piece file for estimate.

    An empty line takes the answer in brackets. A file of answers has a line each, KEY: ANSWER,
    with the keys name, units, wood, moisture, place, setting, part (a line each), finish, coats,
    fixing and prices; what is left out takes the usual answer.
    """
    from functools import partial

    from woodref.cli.output import checked_save
    from woodref.climate.rooms import room_of
    from woodref.files import check_target, read_text, write_text
    from woodref.piece.begin import Defaults, WrittenAnswers, begin
    from woodref.piece.moisture_table import Rooms
    from woodref.piece.piece import parse_piece
    from woodref.piece.start_file import piece_file

    printed = str(output) == "-"
    if output and not printed:
        checked_save(output, force, answers)
    if answers is None and not sys.stdin.isatty():
        raise InputError(
            "begin asks at a terminal, and there is none here; give the answers in a file with "
            "--answers FILE"
        )
    given = (
        WrittenAnswers(read_text(answers, "file of answers", most_lines=2_000), str(answers))
        if answers
        else TypedAnswers()
    )
    folder = output.parent if output and not printed else Path()
    begun = begin(given, reference(), Defaults(units.value, place, folder))
    text = piece_file("", begun.units, begun.start)
    file = output or _file_of(begun.start.name)
    parse_piece(text, str(file), Rooms(partial(room_of, reference())))
    if printed:
        say(text, end="")
        return
    while output is None and answers is None:
        try:
            check_target(file, force)
            break
        except InputError as error:
            say(f"  {error}")
            file = Path(typer.prompt("Write the piece to which file?"))
    write_text(file, text, overwrite=force)
    say(f"{file} written; see what it comes to: woodref estimate {file}")


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "begin",
        epilog=example("woodref begin", "woodref begin --answers ANSWERS.txt -o bench.toml"),
    )(begin_command)
