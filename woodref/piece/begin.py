"""A new piece file by questions: name, wood, room, parts, finish, fixing and prices.

What is asked is the same at a terminal and for a file of answers; where the answers come from is
the matter of an Answers.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple, Protocol, TypeVar

from woodref.climate.rooms import room_of
from woodref.climate.settings import SETTINGS, setting_of
from woodref.errors import InputError
from woodref.files import did_you_mean, path_beside
from woodref.formulas.shrinkage import FIBER_SATURATION_PCT
from woodref.joinery.fixing_types import FIXINGS, known_kind
from woodref.lumber.cut_list import part_of
from woodref.lumber.prices import read_prices, resolver
from woodref.piece.cut_list_piece import check_row
from woodref.piece.start_file import USUAL_PLACE, Start
from woodref.reference.finishes import checked_coats, finish_of, finish_rows, usual_coats
from woodref.reference.library import Reference
from woodref.reference.panel_names import panel_of
from woodref.units import either_unit
from woodref.written import parse_percent

T = TypeVar("T")
Row = dict[str, str]
#: What is written of a part, in order; the first five are needed.
PART_COLUMNS = ("name", "quantity", "length", "width", "thickness", "species", "staves")
_NEEDED = 5
#: The keys of a file of answers, in the order of the questions.
KEYS = (
    *("name", "units", "wood", "moisture", "place", "setting", "part"),
    *("finish", "coats", "fixing", "prices"),
)
NONE = "none"
_USUAL_WOOD = {"us": "white oak", "si": "European oak"}


class Question(NamedTuple):
    """What is asked: its key in a file of answers, the words, the answer where none is given."""

    key: str
    words: str
    usual: str


class Answers(Protocol):
    """Where answers come from."""

    def one(self, question: Question, read: Callable[[str], T]) -> T:
        """The answer to a question, read; the usual one where none is given."""

    def many(self, question: Question, read: Callable[[str], T]) -> list[T]:
        """The answers to a question that is asked until none is given, at least one."""


class Begun(NamedTuple):
    """What the answers come to: the system of units, and what a piece file is started with."""

    units: str
    start: Start


class Defaults(NamedTuple):
    """What the user has set: units and place, '' for none; where the piece file will lie."""

    units: str = "us"
    place: str = ""
    folder: Path = Path()


def begin(answers: Answers, reference: Reference, defaults: Defaults = Defaults()) -> Begun:
    """A new piece, by the answers to some ten questions.

    Raises: InputError as the answers do.
    """
    name = answers.one(Question("name", "What is the piece called?", "My piece"), _text)
    units = answers.one(
        Question("units", "Inches (us) or millimeters (si)?", defaults.units), _units
    )
    wood = answers.one(
        Question("wood", "Which wood is it of?", _USUAL_WOOD[units]), partial(_wood, reference)
    )
    moisture = answers.one(
        Question("moisture", "At what moisture content do you build, in percent?", "8"), _moisture
    )
    place = answers.one(
        Question("place", "In which town will it stand?", defaults.place or USUAL_PLACE[units]),
        partial(_place, reference),
    )
    rooms = ", ".join(s.slug for s in SETTINGS.values())
    setting = answers.one(
        Question("setting", f"In which room? {rooms}; usual: by the climate.", "usual"), _setting
    )
    rows = _parts(answers, reference, units, wood)
    return Begun(
        units,
        Start(
            name=name,
            place=place,
            setting=setting,
            moisture_pct=moisture,
            rows=rows,
            finish=_finish(answers, reference),
            fixing=_fixing(answers, rows, units),
            prices=_prices(answers, reference, defaults.folder),
        ),
    )


def _text(text: str) -> str:
    return text


def _units(text: str) -> str:
    if text.lower() not in USUAL_PLACE:
        raise InputError(f"units cannot be '{text}'; use us or si")
    return text.lower()


def _wood(reference: Reference, text: str) -> str:
    reference.wood(text)
    return text


def _moisture(text: str) -> float:
    percent = parse_percent(text, "moisture content")
    if percent > FIBER_SATURATION_PCT:
        raise InputError(f"'{text}' is above fiber saturation, {FIBER_SATURATION_PCT:g} %")
    return percent


def _place(reference: Reference, text: str) -> str:
    room_of(reference, text)
    return text


def _setting(text: str) -> str:
    return "" if text == "usual" else setting_of(text).slug


def _parts(answers: Answers, reference: Reference, units: str, wood: str) -> list[Row]:
    """The parts by column of a cut list; at least one."""
    names: set[str] = set()

    def read(text: str) -> Row:
        try:
            return checked(_row(text, wood, units))
        except InputError as error:
            raise InputError(error.told(units)) from None

    def checked(row: Row) -> Row:
        part = part_of(row, units)
        if not panel_of(part.species):
            reference.wood(part.species)
        check_row(row, units)
        if part.name in names:
            raise InputError(f"name '{part.name}' is there twice; raise its quantity")
        names.add(part.name)
        return row

    words = (
        "The parts, one a line: name, how many, length, width, thickness; where needed the wood "
        "and the boards glued to the width. An empty line ends them."
    )
    return answers.many(Question("part", words, ""), read)


def _row(text: str, wood: str, units: str) -> Row:
    """A part as written, by column; ``wood`` where it names none."""
    cells = [" ".join(c.split()) for c in next(csv.reader([text], skipinitialspace=True), [])]
    if not _NEEDED <= len(cells) <= len(PART_COLUMNS):
        raise InputError(
            f"'{text}' is no part: write name, how many, length, width, thickness, for example: "
            f"top, 1, {either_unit(units, '48, 14, 7/8', '1200, 350, 22')}"
        )
    row = dict(zip(PART_COLUMNS, cells, strict=False))
    return row | {"species": row.get("species") or wood}


def _finish(answers: Answers, reference: Reference) -> tuple[str, int] | None:
    """The finish, as the answer names it, and its coats; None for none."""
    tested = finish_rows(reference)

    def finish(text: str) -> tuple[str, str]:
        return text, finish_of(tested, text)

    words = "Which finish? As woodref finishes lists them, shellac for example."
    named, printed = answers.one(Question("finish", words, NONE), finish)
    if not printed:
        return None

    def coats(text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) < 4):
            raise InputError(f"coats '{text}' is not a whole number")
        return checked_coats(tested, printed, int(text))

    usual = str(usual_coats(tested, printed))
    return named, answers.one(Question("coats", "How many coats of it?", usual), coats)


def _fixing(answers: Answers, rows: list[Row], units: str) -> tuple[str, str] | None:
    """What holds the widest part of solid wood, and its kind; None for none."""
    solid = [part_of(row, units) for row in rows if not panel_of(row["species"])]
    if not solid:
        return None
    widest = max(solid, key=lambda part: part.width_mm).name

    def kind(text: str) -> str:
        return "" if text.lower() == NONE else known_kind(text)

    words = f"What holds the widest part, {widest}, and lets it move? {', '.join(FIXINGS)}."
    chosen = answers.one(Question("fixing", words, NONE), kind)
    return (widest, chosen) if chosen else None


def _prices(answers: Answers, reference: Reference, folder: Path) -> str:
    """The price list, its path seen from the piece file; '' for none."""

    def listed(text: str) -> str:
        if text.lower() == NONE:
            return ""
        read_prices(path_beside(folder / "piece.toml", text), resolver(reference))
        return text

    words = "Which price list, a CSV file? woodref template prices starts one."
    return answers.one(Question("prices", words, NONE), listed)


class WrittenAnswers:
    """Answers out of a file: a line each, ``key: answer``, remarks begin with #.

    A key that is left out takes its usual answer; ``part`` may stand in many lines.

    Parameters: text; file, its name in messages.
    Raises: InputError naming file and line, for a line that is no answer and an unknown key.
    """

    _LINE = re.compile(r"(?P<key>[A-Za-z]+)\s*:\s*(?P<answer>.*)")

    def __init__(self, text: str, file: str) -> None:
        self.file = file
        self.given: dict[str, list[tuple[int, str]]] = {}
        for number, line in enumerate(text.splitlines(), 1):
            written = line.strip()
            if not written or written.startswith("#"):
                continue
            match = self._LINE.fullmatch(written)
            if match is None:
                raise self._error(number, f"'{written}' is no answer; write for example wood: ash")
            key = match["key"].lower()
            if key not in KEYS:
                raise self._error(number, f"unknown key '{key}'{did_you_mean(key, KEYS)}")
            if key in self.given and key != "part":
                raise self._error(number, f"'{key}' is there twice")
            if match["answer"]:
                self.given.setdefault(key, []).append((number, match["answer"].strip()))

    def _error(self, line: int, problem: str) -> InputError:
        return InputError(f"{self.file}: line {line}: {problem}")

    def _read(self, line: int, text: str, read: Callable[[str], T]) -> T:
        try:
            return read(text)
        except InputError as error:
            raise self._error(line, str(error)) from None

    def one(self, question: Question, read: Callable[[str], T]) -> T:
        """The answer of the file; the usual one where it gives none."""
        given = self.given.get(question.key)
        return self._read(*given[0], read) if given else read(question.usual)

    def many(self, question: Question, read: Callable[[str], T]) -> list[T]:
        """All answers of the file, at least one."""
        if question.key not in self.given:
            raise InputError(
                f"{self.file}: a piece has one part or more; write for example part: top, 1, 48, "
                "14, 7/8"
            )
        return [self._read(*given, read) for given in self.given[question.key]]
