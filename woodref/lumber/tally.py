"""Board feet of a pile, from boards written as a yard writes them or from a CSV file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from woodref.errors import InputError, WoodrefError
from woodref.files import csv_delimiter, csv_rows, nearest, read_text
from woodref.formulas.lumber import (
    board_feet,
    board_feet_of_surface,
    surface_measure,
)
from woodref.lumber.board_moisture import MOISTURE_COLUMNS, board_moisture
from woodref.quantity import MOST_BOARDS, whole_number
from woodref.reference.names import fold
from woodref.rows import RejectedRow, sort_rows, write_rejects
from woodref.units import MM_PER_FOOT, MM_PER_INCH, fraction_of_inch, size_told
from woodref.written import parse_length, parse_thickness, quarters

_SIZES = ("thickness", "width", "length", "quantity", "species")
#: Columns of a pile file; the first three are needed.
COLUMNS = (*_SIZES, *MOISTURE_COLUMNS)
_NEEDED = COLUMNS[:3]
#: No board is larger: a guard against slips such as inches typed for feet.
THICKNESS_LIMIT_MM, WIDTH_LIMIT_MM, LENGTH_LIMIT_MM = 500.0, 2_000.0, 20_000.0
QUANTITY_LIMIT = MOST_BOARDS
#: Rows of a list of boards; more are a wrong file.
MOST_LINES = 100_000
_BY = re.compile(r"\s*[x×X]\s+|\s+[x×X]\s*")
_COUNT = re.compile(r"(?P<count>[0-9]+)(?:\s+(?P<species>\D.*))?", re.DOTALL)


class Board(NamedTuple):
    """Boards of one size: sizes [mm], the thickness as sold ('4/4' or '27 mm'), how many.

    ``moisture_pct`` None where nothing says how wet they are [%].
    """

    thickness: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    quantity: int
    species: str
    moisture_pct: float | None = None


class Lot(NamedTuple):
    """Boards of one species and thickness together.

    ``surface_measure_ft2`` is the sum of the whole square feet of each board,
    ``board_feet`` that times the thickness in inches, under 4/4 counted as 4/4;
    ``unrounded_board_feet`` the same from the sizes as they are; ``volume_m3`` the true volume.
    """

    species: str
    thickness: str
    boards: int
    surface_measure_ft2: float
    board_feet: float
    unrounded_board_feet: float
    volume_m3: float


class PileFile(NamedTuple):
    """A pile file as read: the header, the boards, and the rows that were no boards."""

    header: tuple[str, ...]
    boards: list[Board]
    rejects: list[RejectedRow]


def _limited(name: str, size_mm: float, limit_mm: float, written: str, units: str) -> float:
    if not 0.0 < size_mm <= limit_mm:
        most = size_told(limit_mm, units)
        raise InputError(f"{name} '{written}' must be above 0 and at most {most}")
    return size_mm


def _label(written: str, thickness_mm: float, units: str) -> str:
    """The thickness as sold: '4/4' for whole quarters of an inch up, else its size."""
    count = quarters(written)
    if count is None and units == "us":
        in_quarters = thickness_mm / MM_PER_INCH * 4.0
        count = round(in_quarters) if abs(in_quarters - round(in_quarters)) < 1e-6 else None
    if count and count >= 4:
        return f"{count}/4"
    if units == "us":
        return f"{fraction_of_inch(thickness_mm / MM_PER_INCH)} in"
    return f"{thickness_mm:g} mm"


def board_of(
    thickness: str,
    width: str,
    length: str,
    quantity: str = "1",
    species: str = "",
    units: str = "us",
) -> Board:
    """A board from its sizes as written.

    Bare numbers are inches, and feet for the length, in the 'us' system, else mm; a
    thickness may be rough quarters, ``4/4``.

    Raises: InputError naming the size and what is wrong with it.
    """
    us = units == "us"
    thick = parse_thickness(thickness, "in" if us else "mm")
    _limited("thickness", thick, THICKNESS_LIMIT_MM, thickness, units)
    wide = parse_length(width, "in" if us else "mm")
    _limited("width", wide, WIDTH_LIMIT_MM, width, units)
    long = parse_length(length, "ft" if us else "mm")
    _limited("length", long, LENGTH_LIMIT_MM, length, units)
    count = whole_number(quantity.strip() or "1", QUANTITY_LIMIT)
    if count is None:
        raise InputError(f"quantity '{quantity}' is not a whole number from 1 to {QUANTITY_LIMIT}")
    name = " ".join(species.split())
    return Board(_label(thickness, thick, units), thick, wide, long, count, name)


def parse_board(text: str, units: str = "us") -> Board:
    """A board written in one line: ``4/4 x 7-1/2 x 10ft x 3 red oak``.

    Thickness by width by length, then how many where more than one, then the wood.

    Raises: InputError for anything else.
    """
    parts = _BY.split(text.strip())
    problem = f"'{text}' is not a board; write for example 4/4 x 7-1/2 x 10ft x 3 red oak"
    if not 3 <= len(parts) <= 4:
        raise InputError(problem)
    quantity, species = "1", ""
    if len(parts) == 4:
        match = _COUNT.fullmatch(parts[3].strip())
        if not match:
            raise InputError(problem)
        quantity, species = match["count"], match["species"] or ""
        length = parts[2]
    else:
        length, species = _length_and_species(parts[2])
    return board_of(parts[0], parts[1], length, quantity, species, units)


_LENGTH_END = re.compile(
    r"(?P<length>[0-9][0-9\s./-]*(?:(?:mm|cm|m|in|inch|inches|ft|foot|feet)\b|[\"'])?"
    r"(?:\s*[0-9][0-9\s./-]*(?:(?:in|inch|inches)\b|\"))?)\s*(?P<species>.*)",
    re.IGNORECASE | re.DOTALL,
)


def _length_and_species(text: str) -> tuple[str, str]:
    """'10ft red oak' as ('10ft', 'red oak')."""
    match = _LENGTH_END.fullmatch(text.strip())
    return (match["length"], match["species"]) if match else (text, "")


def _header(cells: Iterable[str], path: Path) -> dict[str, int]:
    """Where each column of COLUMNS stands.

    Raises: InputError for a missing or unknown column.
    """
    names = [c.strip().lower() for c in cells]
    for name in names:
        if name and name not in COLUMNS:
            hint = nearest(name, COLUMNS, f"use {', '.join(COLUMNS)}")
            raise InputError(f"{path}, line 1: unknown column '{name}'; {hint}")
    missing = [name for name in _NEEDED if name not in names]
    if missing:
        raise InputError(
            f"{path}, line 1: no column {missing[0]}; the first line names the columns: "
            f"{','.join(COLUMNS)}"
        )
    return {name: names.index(name) for name in COLUMNS if name in names}


def read_pile(path: Path, units: str = "us") -> PileFile:
    """The boards of a CSV file with the columns of COLUMNS, a row a kind of board.

    Parameters: path of the file, UTF-8, comma, semicolon or tab between cells; units of
    bare numbers as in board_of.
    Returns: PileFile; a row that is no board is in ``rejects`` with its reason; blank rows
    and remarks, which begin with #, are skipped.
    Raises: InputError for a file that cannot be read, is empty or lacks a column.
    """
    text = read_text(path, "list of boards", may_be_empty=True, most_lines=MOST_LINES)
    rows = csv_rows(text, str(path), csv_delimiter(text), strict=False)
    first = next(rows, None)
    if first is None:
        raise InputError(f"{path}: is empty; the first line names the columns: {','.join(COLUMNS)}")
    header = tuple(first[1])
    where = _header(header, path)

    def use(_line: int, cells: Sequence[str]) -> Board:
        if len(cells) > len(header):
            raise InputError(f"{len(cells)} cells under {len(header)} columns")
        given = {n: cells[i] if i < len(cells) else "" for n, i in where.items()}
        board = board_of(**{n: given[n] for n in _SIZES if n in given}, units=units)
        return board._replace(moisture_pct=board_moisture(given, units))

    return PileFile(header, *sort_rows(rows, use, units))


def rejects_beside(
    path: Path, header: Sequence[str], rejects: Sequence[RejectedRow], overwrite: bool = False
) -> Path:
    """Write the rejected rows of a file beside it, with line and reason; returns the path.

    Raises: as woodref.rows.write_rejects, with the first reasons.
    """
    target = path.with_name(f"{path.name}.rejects.csv")
    try:
        return write_rejects(target, header, rejects, overwrite=overwrite)
    except WoodrefError as error:
        reasons = "; ".join(f"line {r.line}: {r.reason}" for r in rejects[:3])
        rows = "1 row" if len(rejects) == 1 else f"{len(rejects)} rows"
        raise type(error)(f"{error} ({rows} of {path.name} not read: {reasons})") from None


def lot_of(board: Board) -> Lot:
    """The measure of boards of one size."""
    width_in, length_ft = board.width_mm / MM_PER_INCH, board.length_mm / MM_PER_FOOT
    thickness_in, n = board.thickness_mm / MM_PER_INCH, board.quantity
    surface = float(surface_measure(width_in, length_ft)) * n
    volume_m3 = board.thickness_mm * board.width_mm * board.length_mm * 1e-9 * n
    return Lot(
        board.species,
        board.thickness,
        n,
        surface,
        float(board_feet_of_surface(surface, thickness_in)),
        float(board_feet(thickness_in, width_in, length_ft)) * n,
        volume_m3,
    )


def tally(boards: Iterable[Board]) -> list[Lot]:
    """A pile by species, in the order they first appear, and thickness, thin ones first.

    Species are told apart by their folded name, so 'Oak, red' and 'red oaks' are one lot.

    Returns: one Lot per species and thickness.
    Source: woodref.formulas.lumber.
    """
    species: dict[str, int] = {}
    lots: dict[tuple[int, float, str], Lot] = {}
    for board in boards:
        lot = lot_of(board)
        place = species.setdefault(fold(board.species), len(species))
        key = (place, board.thickness_mm, board.thickness)
        lots[key] = _together(lots[key], lot) if key in lots else lot
    return [lots[key] for key in sorted(lots)]


def total(lots: Iterable[Lot]) -> Lot:
    """All lots together; species and thickness are empty."""
    together = Lot("", "", 0, 0.0, 0.0, 0.0, 0.0)
    for lot in lots:
        together = _together(together, lot)
    return together


def _together(a: Lot, b: Lot) -> Lot:
    sums = [x + y for x, y in zip(a[2:], b[2:], strict=True)]
    return Lot(a.species, a.thickness, int(sums[0]), *sums[1:])
