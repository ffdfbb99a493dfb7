"""The heading of a cut list: the columns it may have, by the words that shops write over them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

#: Other words for a column; capitals, dots and a unit behind them do not matter.
HEADINGS: dict[str, tuple[str, ...]] = {
    "name": ("part", "part name", "parts", "description", "component", "piece", "item", "label"),
    "quantity": ("qty", "count", "no", "number", "pcs", "pieces", "how many"),
    "length": ("l", "len", "long"),
    "width": ("w", "wide"),
    "thickness": ("t", "th", "thk", "thick"),
    "species": ("wood", "material", "mat", "timber", "lumber"),
    "note": ("notes", "remark", "remarks", "comment", "comments"),
}
_COLUMN_OF = {word: column for column, words in HEADINGS.items() for word in words}
#: A unit behind a heading: "Length (in)", "L [mm]", "width in".
_UNIT = re.compile(r"(?P<word>.*?)(?:\s+|\s*[(\[]\s*)(?P<unit>mm|cm|m|in|inch|inches)\s*[)\]]?")
_BARE = re.compile(r"[0-9][0-9\s./-]*|\.[0-9]+")
_SIZES = ("length", "width", "thickness", "end", "inner")


class Heading(NamedTuple):
    """The columns of a cut list in order, and the unit that a heading names for bare sizes."""

    columns: list[str]
    units: dict[str, str]

    def with_units(self, cells: Mapping[str, str]) -> dict[str, str]:
        """The cells of a row, a bare size with the unit of its heading."""
        return {
            column: f"{text} {self.units[column]}"
            if column in self.units and _BARE.fullmatch(text)
            else text
            for column, text in cells.items()
        }


def heading_of(cells: Sequence[str]) -> Heading:
    """The columns that a heading means; a word that is not known stays as it is.

    Parameters: cells of the heading as written.
    """
    columns: list[str] = []
    units: dict[str, str] = {}
    for cell in cells:
        word = " ".join(cell.split()).lower()
        match = _UNIT.fullmatch(word)
        column = _column(match["word"]) if match else ""
        if match and column in _SIZES:
            units[column] = match["unit"]
        else:
            column = _column(word)
        columns.append(column)
    return Heading(columns, units)


def _column(word: str) -> str:
    """The column of a word, the word itself where no column goes by it."""
    plain = word.rstrip(".: ")
    return _COLUMN_OF.get(plain, plain)
