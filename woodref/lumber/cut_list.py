"""A cut list as a CSV file: the parts of a piece by finished size."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from woodref.board.movement import ring_angle
from woodref.board.shapes import (
    LENGTH_LIMIT_MM,
    THICKNESS_LIMIT_MM,
    WIDTH_LIMIT_MM,
    Shape,
    parse_volume,
    volume_of,
)
from woodref.errors import InputError
from woodref.files import csv_delimiter, csv_header, csv_rows, read_text
from woodref.lumber.cut_list_heading import heading_of
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.lumber.turning import GluedTurning
from woodref.quantity import whole_number
from woodref.record import record
from woodref.reference.woods import Wood
from woodref.rows import RejectedRow, by_column, sort_rows
from woodref.units import size_told
from woodref.written import parse_length, parse_thickness

REQUIRED = ("name", "length", "width", "thickness", "species")
_SHAPE = ("shape", "end", "inner", "removed")
OPTIONAL = ("quantity", "staves", "cut", "stock", *_SHAPE, "lift", "note")
COLUMNS = (*REQUIRED, *OPTIONAL)
_QUANTITY_LIMIT = 1000
#: Rows of a cut list; more are a wrong file.
MOST_LINES = 20_000


@record
class CutPart:
    """A part, ``quantity`` times, finished sizes [mm]; a panel of ``staves`` side by side.

    ``stock`` the rough thickness it must come from, None where any may do. ``shape`` is what it
    is when it is finished, a box where None; its blank is the box around it. The staves of a
    turned part lie face to face, as ``glued`` has them once its stock is known.
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
    glued: GluedTurning | None = None

    @property
    def pieces(self) -> int:
        """Boards it is cut from: one for each stave of each."""
        return self.quantity * self.staves

    @property
    def blank_width_mm(self) -> float:
        """Width of one of them without allowance: of a turning its diameter [mm]."""
        return self.width_mm if self.glued else self.width_mm / self.staves

    @property
    def blank_thickness_mm(self) -> float:
        """Thickness that its stock must dress to [mm]."""
        return self.glued.stave_mm if self.glued else self.thickness_mm


class CutList(NamedTuple):
    """A cut list as read: the heading as written, the parts, and the rows that were no parts.

    ``cells`` are those of each part by column of COLUMNS, as written, with the unit of the
    heading and with the wood that is meant where none is written.
    """

    header: tuple[str, ...]
    parts: list[CutPart]
    rejects: list[RejectedRow]
    cells: list[dict[str, str]]


def _count(cell: Mapping[str, str], column: str) -> int:
    text = cell.get(column, "") or "1"
    count = whole_number(text, _QUANTITY_LIMIT)
    if count is None:
        raise InputError(f"{column} '{text}' is not a whole number from 1 to {_QUANTITY_LIMIT}")
    return count


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
    if cell.get("cut"):
        ring_angle(cell["cut"])
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


#: Endings of the files that hold a cut list; any other is a piece file.
SUFFIXES = (".csv", ".tsv", ".txt")


def is_cut_list(path: Path) -> bool:
    """True for a file that holds a cut list, by the ending of its name."""
    return path.suffix.lower() in SUFFIXES


def read_cut_list(
    path: Path,
    units: str = "us",
    wood: str = "",
    check: Callable[[Mapping[str, str]], object] | None = None,
) -> CutList:
    """The parts of a CSV file with the columns of COLUMNS, or other words for them.

    Parameters: path of the file, UTF-8, comma, semicolon or tab between cells; units of bare
    sizes; wood of parts that name none; check of the cells of a part, which raises InputError
    where more is asked of them than a cut list does.
    Returns: CutList; a row that is no part, or names one a second time, is in ``rejects``
    with its reason; blank rows and remarks, which begin with #, are skipped.
    Raises: InputError for a file that cannot be read, is empty or lacks a column.
    """
    text = read_text(path, "cut list", most_lines=MOST_LINES)
    rows = csv_rows(text, str(path), csv_delimiter(text))
    first = next(rows, None)
    if first is None:
        raise InputError(f"{path}: holds remarks only; the first line is {','.join(REQUIRED)}")
    line, written = first
    heading = heading_of(written)
    where = f"{path}: line {line}"
    sizes = [c for c in REQUIRED if c != "species"]
    header = csv_header(heading.columns, where, sizes, ["species", *OPTIONAL])
    if "species" not in header and not wood:
        raise InputError(
            f"{where}: the column 'species' is missing; add it, or name one wood for all parts "
            "with --wood"
        )
    names: set[str] = set()

    def use(_line: int, row: Sequence[str]) -> tuple[CutPart, dict[str, str]]:
        cells = heading.with_units(by_column(header, row))
        cells["species"] = cells.get("species") or wood
        part = part_of(cells, units)
        if part.name in names:
            raise InputError(f"name '{part.name}' is there twice; raise its quantity")
        if check:
            check(cells)
        names.add(part.name)
        return part, cells

    read, rejects = sort_rows(rows, use, units)
    as_written = tuple(" ".join(cell.split()) for cell in written)
    return CutList(as_written, [p for p, _ in read], rejects, [c for _, c in read])
