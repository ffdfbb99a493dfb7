"""What is written on a blank of a cutting plan: its name and where it lies, if they fit."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import NamedTuple

#: Height of letters, of a line, and mean width of a letter, where a board is 1000 wide: on A4 paper
#: inside its margins letters of 18 are 9.4 pt.
LETTERS, LINE, LETTER = 18.0, 20.0, 9.4
#: Room left of the first letter and right of the last one.
_EDGE = 2.0


class Label(NamedTuple):
    """The lines of a label, and whether it is written from below to above."""

    lines: tuple[str, ...]
    upright: bool = False


def _layouts(name: str, width: str, start: str, end: str, room: float) -> Iterator[tuple[str, ...]]:
    """The ways to write a label, the fullest first.

    Parameters: name; width of the blank, start and end along the board in words; room in letters.
    """
    place = f"{start} to {end}"
    yield name, f"{width}, {place}"
    yield f"{name}, {width}", place
    yield name, width, place
    yield (f"{name}, {width}, {place}",)
    for rest in ((f"{width}, {place}",), (width, place), (place,)):
        yield *textwrap.wrap(name, max(1, int(room)), break_long_words=False), *rest
    yield (f"{name}, {place}",)
    yield name, f"{start} to", end
    yield name, f"from {start}"


def _fits(lines: tuple[str, ...], wide: float, high: float) -> bool:
    longest = max(map(len, lines))
    # A single line needs no room above and below it.
    tall = LETTERS if len(lines) == 1 else LINE * len(lines)
    return longest * LETTER + 2.0 * _EDGE <= wide and tall <= high


def label(name: str, width: str, start: str, end: str, wide: float, high: float) -> Label | None:
    """The fullest label that fits a blank, level before upright; None where none does.

    Parameters: name of the blank; width of it, start and end along the board, in words; wide and
    high, how large it is drawn.
    """
    for upright in (False, True):
        along, across = (high, wide) if upright else (wide, high)
        room = (along - 2.0 * _EDGE) / LETTER
        for lines in _layouts(name, width, start, end, room):
            if _fits(lines, along, across):
                return Label(lines, upright)
    return None
