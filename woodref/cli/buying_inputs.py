"""What the command buy reads: parts, boards, yard, allowances, prices."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from woodref.board.shapes import LENGTH_LIMIT_MM, WIDTH_LIMIT_MM
from woodref.cli.boards_file import boards_in, keep_rejects
from woodref.cli.options import reference
from woodref.errors import InputError, UnitsError, WoodrefError
from woodref.lumber.cut_list import CutPart, read_cut_list
from woodref.lumber.nominal import parse_nominal
from woodref.lumber.prices import PriceList
from woodref.lumber.rough import usual
from woodref.lumber.stock_on_hand import WrittenBoard
from woodref.lumber.tally import parse_board
from woodref.lumber.thicknesses import YardStock
from woodref.lumber.waste import Waste, waste_for
from woodref.lumber.yard import Yard, softwood_yard, thicknesses_sold
from woodref.piece.buy import cut_parts_of
from woodref.piece.piece import Piece
from woodref.piece.resolve import allowances_of
from woodref.quantity import exactly
from woodref.reference.panel_names import panel_of
from woodref.reference.trade import grades, softwood_sizes
from woodref.reference.woods import Wood
from woodref.units import sizes_told
from woodref.written import parse_length, parse_percent

#: Flags by the field of the allowances they give.
_FLAGS = {
    "length_mm": "--length-allowance",
    "width_mm": "--width-allowance",
    "end_trim_mm": "--end-trim",
    "kerf_mm": "--kerf",
    "planing_mm": "--planing",
    "safe_length_mm": "--safe-length",
}


def _lengths(text: str, unit: str, option: str, limit_mm: float) -> tuple[float, ...]:
    """Sizes between commas [mm], each once, the least first.

    Raises: InputError naming the option.
    """
    sizes = {_length(part, unit, option) for part in text.split(",")}
    for size in sizes:
        if not 0.0 < size <= limit_mm:
            raise UnitsError(
                sizes_told(f"{option}: a size must be above 0 and at most {{}}", limit_mm)
            )
    return tuple(sorted(sizes))


def _length(text: str, unit: str, option: str) -> float:
    try:
        return parse_length(text, unit)
    except InputError as error:
        raise error.headed(f"{option}: ") from None


def parts_of(
    file: Path, wood: str, piece: Piece | None, units: str, force: bool
) -> tuple[Sequence[CutPart], list[str]]:
    """The parts of a cut list, or of a piece, and what to say of rows that are none.

    ``wood`` is that of the rows of a cut list that name none.

    Raises: WoodrefError where there is no part.
    """
    if piece:
        parts = cut_parts_of(piece)
        if not parts:
            raise WoodrefError(f"{file}: no part is of solid wood")
        return parts, _sheets_aside(sum(1 for p in piece.parts if p.sheet), len(piece.parts))
    listed = read_cut_list(file, units, wood)
    said = keep_rejects(file, listed.header, listed.rejects, len(listed.parts), force)
    if not listed.parts:
        raise WoodrefError(f"{file}: no row is a part")
    solid = [part for part in listed.parts if not panel_of(part.species)]
    if not solid:
        raise WoodrefError(f"{file}: no part is of solid wood")
    every = len(listed.parts)
    return solid, [*said, *_sheets_aside(every - len(solid), every)]


def _sheets_aside(sheets: int, parts: int) -> list[str]:
    """What to say of parts of sheet goods, nothing where there are none."""
    return [f"Sheet goods are not in the plan ({sheets} of {parts} parts)."] if sheets else []


def boards_of(
    file: Path | None, written: Sequence[str], piece: Piece | None, units: str, force: bool
) -> tuple[list[WrittenBoard], list[str]]:
    """Boards in hand, of the options or else of the piece; what to say of rows that are none."""
    boards = [WrittenBoard(parse_board(text, units), "--board") for text in written]
    if file is None and not written and piece:
        file = piece.boards_file
    if file is None:
        return boards, []
    listed, said = boards_in(file, units, force)
    return [*boards, *listed], said


def stock_of(
    thicknesses: str,
    softwood: bool,
    allowances: Mapping[str, str],
    piece: Piece | None,
    units: str,
    woods: Iterable[Wood],
    prices: PriceList | None,
) -> YardStock:
    """The thicknesses a yard sells, and the allowances: flags, else the piece, else practice.

    Raises: InputError for what cannot be read, and thicknesses beside softwood sizes.
    """
    unit = "in" if units == "us" else "mm"
    practice = usual(reference(), units)
    base = allowances_of(reference(), piece) if piece else practice.allowances
    given = {
        field: _length(text, unit, _FLAGS[field]) for field, text in allowances.items() if text
    }
    chosen = replace(base, **given)
    if softwood and thicknesses:
        raise InputError("give either --softwood, which has its thicknesses, or thicknesses")
    try:
        nominals = [parse_nominal(t, unit) for t in thicknesses.split(",")] if thicknesses else []
    except InputError as error:
        raise error.headed("--yard-thicknesses: ") from None
    if not (nominals or softwood) and piece and piece.buying:
        nominals = list(piece.buying.yard_thicknesses)
    sold = thicknesses_sold(
        reference(), woods, prices, units, chosen.planing_mm, nominals, softwood
    )
    return YardStock(sold, chosen, practice.waste)


def yard_of(
    widths: str, lengths: str, softwood: bool, piece: Piece | None, units: str
) -> Yard | None:
    """What the yard sells: flags, else the piece; None where neither says.

    Raises: InputError for one of widths and lengths alone, or what cannot be read.
    """
    us = units == "us"
    if widths or lengths:
        if not (widths and lengths):
            missing = "--yard-lengths" if widths else "--yard-widths"
            raise InputError(f"{missing} is missing; a yard sells widths in lengths")
        wide = _lengths(widths, "in" if us else "mm", "--yard-widths", WIDTH_LIMIT_MM)
        long = _lengths(lengths, "ft" if us else "mm", "--yard-lengths", LENGTH_LIMIT_MM)
    elif piece and piece.buying and piece.buying.yard_widths_mm:
        wide, long = piece.buying.yard_widths_mm, piece.buying.yard_lengths_mm
    else:
        return None
    if softwood:
        return softwood_yard(wide, long, softwood_sizes(reference()))
    return Yard(wide, long)


def waste_of(text: str, grade: str, piece: Piece | None, practice: Waste) -> Waste:
    """The waste where no yard is given: the flag, else the piece, the grade, practice.

    Raises: InputError for what is no percentage.
    """
    given = None
    if text:
        pct = parse_percent(text, "waste")
        if pct > 300.0:
            raise InputError(f"--waste: at most 300 %, not {pct:g}")
        given = exactly(pct)
    return waste_for(
        given, piece.waste if piece else None, grade, grades(reference()) if grade else (), practice
    )
