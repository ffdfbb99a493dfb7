"""A cut list as a CSV file: the parts of a piece by finished size."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from woodref.board.shapes import (
    LENGTH_LIMIT_MM,
    THICKNESS_LIMIT_MM,
    WIDTH_LIMIT_MM,
    Shape,
    parse_volume,
    volume_of,
)
from woodref.errors import InputError
from woodref.files import read_text
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.reference.woods import Wood
from woodref.rows import RejectedRow, by_column, open_rows, sort_rows
from woodref.units import parse_length, parse_thickness, size_told

REQUIRED = ("name", "length", "width", "thickness", "species")
OPTIONAL = ("quantity", "staves", "stock", "shape", "end", "inner", "removed", "lift", "note")
COLUMNS = (*REQUIRED, *OPTIONAL)
_QUANTITY_LIMIT = 1000


@dataclass(frozen=True)
class CutPart:
    """A part, ``quantity`` times, finished sizes [mm]; a panel of ``staves`` side by side.

    ``stock`` the rough thickness it must come from, None where any may do. ``shape`` is what it
    is when it is finished, a box where None; its blank is the box around it.
    """

    name: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    species: str
    quantity: int = 1
    staves: int = 1
    shape: Shape | None = None
    lift: str = ""
    stock: Nominal | None = None


class CutList(NamedTuple):
    """A cut list as read: the header, the parts, and the rows that were no parts."""

    header: tuple[str, ...]
    parts: list[CutPart]
    rejects: list[RejectedRow]


def _count(cell: Mapping[str, str], column: str) -> int:
    text = cell.get(column, "") or "1"
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= _QUANTITY_LIMIT):
        raise InputError(f"{column} '{text}' is not a whole number from 1 to {_QUANTITY_LIMIT}")
    return int(text)


def _length(cell: Mapping[str, str], column: str, unit: str, limit_mm: float) -> float:
    text = cell[column]
    if not text:
        raise InputError(f"{column} is missing")
    read = parse_thickness if column == "thickness" else parse_length
    size = read(text, unit)
    if not 0.0 < size <= limit_mm:
        most = size_told(limit_mm, "us" if unit == "in" else "si")
        raise InputError(f"{column} '{text}' must be above 0 and at most {most}")
    return size


def part_of(cell: Mapping[str, str], units: str) -> CutPart:
    """A part from the cells of a row by column; bare numbers are inches, or mm in 'si'.

    Raises: InputError naming the column and what is wrong with it.
    """
    unit = "in" if units == "us" else "mm"
    for column in ("name", "species"):
        if not cell[column]:
            raise InputError(f"{column} is missing")
    length = _length(cell, "length", unit, LENGTH_LIMIT_MM)
    width = _length(cell, "width", unit, WIDTH_LIMIT_MM)
    thickness = _length(cell, "thickness", unit, THICKNESS_LIMIT_MM)
    kind = cell.get("shape", "").lower() or "box"
    if thickness > width:
        raise InputError(
            f"thickness {cell['thickness']} is more than width {cell['width']}; the width is the "
            "larger"
        )

    def optional(column: str) -> float | None:
        return parse_length(cell[column], unit) if cell.get(column) else None

    shape = Shape(
        kind,
        length,
        width,
        thickness,
        end_width_mm=optional("end"),
        inner_mm=optional("inner"),
        removed_mm3=parse_volume(cell["removed"]) if cell.get("removed") else 0.0,
    )
    if kind == "volume":
        raise InputError("shape 'volume' has no place in a cut list; give the box and 'removed'")
    volume_of(shape)
    return CutPart(
        cell["name"],
        length,
        width,
        thickness,
        cell["species"],
        _count(cell, "quantity"),
        _count(cell, "staves"),
        shape,
        cell.get("lift", ""),
        parse_nominal(cell["stock"], unit) if cell.get("stock") else None,
    )


def woods_of(parts: Sequence[CutPart], file: str, find: Callable[[str], Wood]) -> dict[str, Wood]:
    """The woods of parts by the names they have there.

    Parameters: parts; file they stand in, for messages; find, the wood of a name.
    Raises: InputError naming file and part.
    """
    woods: dict[str, Wood] = {}
    for part in parts:
        if part.species not in woods:
            try:
                woods[part.species] = find(part.species)
            except InputError as error:
                raise InputError(f"{file}: {part.name}: {error}") from None
    return woods


def read_cut_list(path: Path, units: str = "us") -> CutList:
    """The parts of a CSV file with the columns of COLUMNS.

    Returns: CutList; a row that is no part, or names one a second time, is in ``rejects``
    with its reason; blank rows and remarks, which begin with #, are skipped.
    Raises: InputError for a file that cannot be read, is empty or lacks a column.
    """
    header, rows = open_rows(read_text(path, "cut list"), str(path), REQUIRED, OPTIONAL)
    names: set[str] = set()

    def use(_line: int, cells: Sequence[str]) -> CutPart:
        part = part_of(by_column(header, cells), units)
        if part.name in names:
            raise InputError(f"name '{part.name}' is there twice; raise its quantity")
        names.add(part.name)
        return part

    return CutList(tuple(header), *sort_rows(rows, use))
