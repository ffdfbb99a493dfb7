"""What a room answers, whole and in words, kept in a file beside its tests.

A file ``told.txt`` holds questions, each a line of Python after ``>>>``, and below each what comes
of it: every field and property of the result, or the error. The file is read when it changes, as
a page of answers; ``python tests/kit/told.py tests/climate`` renews the answers in it.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from enum import Enum
from importlib import util
from pathlib import Path
from typing import Any, NamedTuple

import numpy
import pandas

from woodref.board.movement_basis import MovementBasis
from woodref.display import Shown
from woodref.errors import InputError, UnitsError, WoodrefError
from woodref.note import Note
from woodref.quantity import Range
from woodref.reference.places import Place
from woodref.reference.woods import Value, Wood

#: Of a longer tuple of numbers some are told.
_MANY = 40
#: The longest line a record is told in.
_LONG = 400


class Asked(NamedTuple):
    """A question and its answer, as they stand in the file."""

    question: str
    answer: str

    @property
    def about(self) -> str:
        """What the question is about: its first name."""
        return re.findall(r"[A-Za-z_]+", self.question)[0]


def asked(file: Path) -> list[Asked]:
    """The questions of a file, in its order."""
    parts = re.split(r"^>>> (.*)$", file.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return [Asked(q, a.strip("\n")) for q, a in zip(parts[1::2], parts[2::2], strict=True)]


def by_name(file: Path) -> dict[str, list[Asked]]:
    """The questions of a file by what they are about, for a test of each."""
    groups: dict[str, list[Asked]] = {}
    for one in asked(file):
        groups.setdefault(one.about, []).append(one)
    return groups


def answer(question: str, names: Mapping[str, Any]) -> str:
    """What comes of a question: the result or the error, a line for each field."""
    try:
        result = eval(question, dict(names))
    except WoodrefError as error:
        return f"{type(error).__name__}: {error}"
    return "\n".join(_lines(result))


def _plain(value: Any) -> str | None:
    """A value of one line, None for another."""
    if isinstance(value, bool | None | str):
        return str(value)
    if isinstance(value, complex):
        return f"{value.real:.6g}{value.imag:+.6g}j"
    if isinstance(value, int | float | numpy.number):
        return f"{value:.6g}"
    for kind, words in _WORDS.items():
        if isinstance(value, kind):
            return words(value)
    return None


_WORDS: dict[type, Callable[[Any], str]] = {
    Enum: lambda v: str(v.value),
    Range: lambda v: f"{v.expected:.6g} ({v.low:.6g} to {v.high:.6g})",
    Note: lambda v: (
        f"[{v.code}{', ' + v.basis if v.basis else ''}] {v.text}"
        + (f" | {v.text_us}" if v.text_us else "")
    ),
    Wood: lambda v: v.common_name,
    Value: lambda v: f"{v.property_id} {v.value:.6g} {v.unit}",
    Place: lambda v: v.label,
    MovementBasis: lambda v: f"by {v.method}",
}


def _entries(value: Any) -> dict[str, Any] | None:
    """What a value is made of, by name; None for what has no names."""
    kind = type(value)
    if is_dataclass(value):
        names = [f.name for f in fields(value)]
    elif isinstance(value, tuple) and hasattr(value, "_fields"):
        names = list(value._fields)
    elif isinstance(value, Mapping):
        return {str(_plain(k) or k): v for k, v in value.items()}
    else:
        return None
    names += sorted(
        name
        for base in kind.__mro__
        for name, held in vars(base).items()
        if isinstance(held, property) and not name.startswith("_")
    )
    entries = {name: getattr(value, name) for name in dict.fromkeys(names)}
    # What is not there is not told, or most lines would say so.
    entries = {name: one for name, one in entries.items() if not _nothing(one)}
    if isinstance(value, Shown):
        entries["shown"] = repr(value)
        entries |= {"grid": grid} if (grid := grid_of(value)) else {}
    return entries


def _nothing(value: Any) -> bool:
    return value is None or (isinstance(value, str | tuple) and not value)


def grid_of(value: Shown) -> Any:
    """The table an answer shows itself as, '' for one that has none."""
    grid = value._grid()
    return "" if grid is None else [*grid[:1], *(tuple(row) for row in grid[1])]


def _lines(value: Any, depth: int = 0) -> list[str]:
    pad = "  " * depth
    plain = _plain(value)
    if plain is not None:
        return [f"{pad}{plain}"]
    if isinstance(value, numpy.ndarray | pandas.Series):
        if value.dtype == object:
            return [f"{pad}- {_row(one)}" for one in numpy.ravel(value)]
        return [f"{pad}{line}" for line in str(numpy.round(value, 6)).splitlines()]
    entries = _entries(value)
    if entries is None:
        out = []
        for one in value:
            row = _row(one)
            out += [f"{pad}- {row}"] if row is not None else [f"{pad}-", *_lines(one, depth + 1)]
        return out or [f"{pad}nothing"]
    out = []
    for name, one in entries.items():
        row = _row(one)
        out += [f"{pad}{name}: {row}"] if row is not None else [f"{pad}{name}:"]
        if row is None:
            out += _lines(one, depth + 1)
    return out or [f"{pad}nothing"]


def _row(value: Any) -> str | None:
    """A value of one line: a plain one, a list of them, or a record of them that is short."""
    plain = _plain(value)
    if plain is not None or isinstance(value, numpy.ndarray | pandas.Series):
        return plain
    entries = _entries(value)
    if isinstance(value, tuple) and len(value) > _MANY:
        some = [_plain(value[n]) for n in (0, len(value) // 3, len(value) // 2, -1)]
        return f"{len(value)}, among them {some[0]}; {some[1]}; {some[2]}; {some[3]}"
    if entries is None:
        each = [None if isinstance(v, Note) else _plain(v) for v in value]
        return "; ".join(str(e) for e in each) if None not in each else None
    parts = {name: _plain(one) for name, one in entries.items() if not isinstance(one, Note)}
    if len(parts) < len(entries) or None in parts.values():
        return None
    line = ", ".join(f"{name} {part}" for name, part in parts.items())
    return line if len(line) <= _LONG else None


def said(ask: Callable[..., Any], *args: Any, **more: Any) -> Any:
    """What is answered; what is refused, in both systems of units and in US units alone."""
    try:
        return ask(*args, **more)
    except InputError as error:
        return str(error), error.told("us") if isinstance(error, UnitsError) else ""


def assert_held(held: Sequence[Asked], names: Mapping[str, Any], room: str) -> None:
    """Compare the answers of today with those that are held of a room."""
    for one in held:
        today = answer(one.question, names)
        assert today == one.answer, f"{one.question}; python tests/kit/told.py tests/{room}"


def renew(file: Path, names: Mapping[str, Any]) -> None:
    """Write the answers of today below the questions of a file."""
    text = file.read_text(encoding="utf-8")
    first = text.index(">>> ")
    parts = [f">>> {a.question}\n{answer(a.question, names)}\n" for a in asked(file)]
    file.write_text(text[:first] + "\n".join(parts), encoding="utf-8")


def main() -> None:
    """Renew the files of the folders that are named."""
    for folder in map(Path, sys.argv[1:]):
        spec = util.spec_from_file_location("told_here", folder / "test_told.py")
        assert spec
        assert spec.loader
        module = util.module_from_spec(spec)
        spec.loader.exec_module(module)
        renew(folder / "told.txt", module.NAMES)


if __name__ == "__main__":
    main()
