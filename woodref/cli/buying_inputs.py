"""What the command buy reads: parts, boards, yard, allowances, prices."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from woodref.board.shapes import LENGTH_LIMIT_MM, WIDTH_LIMIT_MM
from woodref.cli.options import reference
from woodref.climate.rooms import room_of
from woodref.errors import InputError, WoodrefError
from woodref.lumber.buying import Yard
from woodref.lumber.cut_list import CutPart, read_cut_list
from woodref.lumber.nominal import parse_nominal
from woodref.lumber.rough import (
    Waste,
    YardStock,
    sawn_thicknesses,
    softwood_thicknesses,
    softwood_width,
    usual,
    waste_of_grade,
)
from woodref.lumber.tally import Board, Reject, parse_board, read_pile, write_rejects
from woodref.piece.cutting_plan import allowances_of, cut_parts_of
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import Piece, read_piece
from woodref.quantity import Range
from woodref.reference.trade import (
    Practice,
    dressed_thicknesses,
    grades,
    softwood_sizes,
)
from woodref.reference.woods import Wood
from woodref.units import parse_length, parse_percent

#: Flags by the field of the allowances they give.
_FLAGS = {
    "length_mm": "--trimming",
    "width_mm": "--jointing",
    "end_trim_mm": "--end-trim",
    "kerf_mm": "--kerf",
    "planing_mm": "--planing",
}


def _lengths(text: str, unit: str, option: str, limit_mm: float) -> tuple[float, ...]:
    """Sizes between commas [mm], each once, the least first.

    Raises: InputError naming the option.
    """
    found = {_length(part, unit, option) for part in text.split(",")}
    for size in found:
        if not 0.0 < size <= limit_mm:
            raise InputError(f"{option}: a size must be above 0 and at most {limit_mm:g} mm")
    return tuple(sorted(found))


def _length(text: str, unit: str, option: str) -> float:
    try:
        return parse_length(text, unit)
    except InputError as error:
        raise InputError(f"{option}: {error}") from None


def piece_of(file: Path) -> Piece:
    """The piece in a TOML file."""
    return read_piece(file, Rooms(partial(room_of, reference())))


def _kept_rejects(file: Path, header: Sequence[str], rejects: list[Reject], good: int) -> list[str]:
    """Keep rows that were not read; what to say of them."""
    if not rejects:
        return []
    kept = write_rejects(file, tuple(header), rejects)
    first = rejects[0]
    sys.stderr.write(
        f"woodref: {len(rejects)} of {len(rejects) + good} rows of {file} not counted, kept in "
        f"{kept}; the first, line {first.line}: {first.reason}\n"
    )
    rows = "1 row" if len(rejects) == 1 else f"{len(rejects)} rows"
    return [f"Not counted: {rows} of {file}, kept with the reasons in {kept}."]


def parts_of(file: Path, piece: Piece | None, units: str) -> tuple[Sequence[CutPart], list[str]]:
    """The parts of a cut list, or of a piece, and what to say of rows that are none.

    Raises: WoodrefError where there is no part.
    """
    if piece:
        parts = cut_parts_of(piece)
        if not parts:
            raise WoodrefError(f"{file}: no part is of solid wood")
        sheets = sum(1 for p in piece.parts if p.sheet)
        aside = f"Sheet goods are not in the plan ({sheets} of {len(piece.parts)} parts)."
        return parts, [aside] if sheets else []
    read = read_cut_list(file, units)
    said = _kept_rejects(file, read.header, read.rejects, len(read.parts))
    if not read.parts:
        raise WoodrefError(f"{file}: no row is a part")
    return read.parts, said


def boards_of(
    file: Path | None, written: Sequence[str], piece: Piece | None, units: str
) -> tuple[list[tuple[Board, str]], list[str]]:
    """Boards in hand with where they are written, and what to say of rows that are none."""
    found = [(parse_board(text, units), "--board") for text in written]
    if file is None and not written and piece and piece.buying and piece.buying.boards:
        file = Path(piece.file).parent / Path(piece.buying.boards).expanduser()
    if file is None:
        return found, []
    pile = read_pile(file, units)
    said = _kept_rejects(file, pile.header, pile.rejects, len(pile.boards))
    return [*found, *((board, str(file)) for board in pile.boards)], said


def woods_of(parts: Sequence[CutPart], file: Path) -> dict[str, Wood]:
    """The woods of parts by the names they have there.

    Raises: InputError naming file and part.
    """
    found: dict[str, Wood] = {}
    for part in parts:
        if part.species not in found:
            try:
                found[part.species] = reference().wood(part.species)
            except InputError as error:
                raise InputError(f"{file}: {part.name}: {error}") from None
    return found


def in_hand(
    boards: Sequence[tuple[Board, str]], woods: Mapping[str, Wood]
) -> list[tuple[Wood, Board]]:
    """Boards with their woods; one that names none is of the wood of all parts.

    Raises: InputError where that is not one wood, or a wood is not known.
    """
    of_parts = {w.species_id: w for w in woods.values()}
    known = dict(woods)
    found = []
    for board, where in boards:
        if not board.species:
            if len(of_parts) > 1:
                raise InputError(f"{where}: a board names no wood, and the parts are of several")
            found.append((next(iter(of_parts.values())), board))
            continue
        if board.species not in known:
            try:
                known[board.species] = reference().wood(board.species)
            except InputError as error:
                raise InputError(f"{where}: {error}") from None
        found.append((known[board.species], board))
    return found


def stock_of(
    thicknesses: str,
    softwood: bool,
    allowances: Mapping[str, str],
    piece: Piece | None,
    units: str,
) -> YardStock:
    """The thicknesses a yard sells, and the allowances: flags, else the piece, else practice.

    Raises: InputError for what cannot be read, and thicknesses beside softwood sizes.
    """
    unit = "in" if units == "us" else "mm"
    practice = usual(reference())
    base = allowances_of(reference(), piece) if piece else practice.allowances
    given = {
        field: _length(text, unit, _FLAGS[field]) for field, text in allowances.items() if text
    }
    chosen = replace(base, **given)
    sizes = dressed_thicknesses(reference())
    if softwood:
        if thicknesses:
            raise InputError("give either --softwood, which has its thicknesses, or thicknesses")
        sizes = softwood_thicknesses(softwood_sizes(reference()))
    elif thicknesses:
        try:
            nominals = [parse_nominal(t, unit) for t in thicknesses.split(",")]
        except InputError as error:
            raise InputError(f"--yard-thicknesses: {error}") from None
        sizes = sawn_thicknesses(nominals, sizes, chosen.planing_mm)
    return YardStock(sizes, chosen, practice.waste)


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
    if not softwood:
        return Yard(wide, long)
    listed = softwood_sizes(reference())
    return Yard(wide, long, tuple(softwood_width(w, listed) for w in wide))


def waste_of(text: str, grade: str, piece: Piece | None, practice: Practice) -> Waste:
    """The waste where no yard is given: the flag, else the piece, the grade, practice.

    Raises: InputError for what is no percentage.
    """
    if text:
        pct = parse_percent(text, "waste")
        if pct > 300.0:
            raise InputError(f"--waste: at most 300 %, not {pct:g}")
        return Waste(Range(pct, pct, pct), "as given")
    if piece and piece.waste_given:
        return Waste(piece.waste, "as the piece has it")
    of_grade = waste_of_grade(grade, grades(reference())) if grade else None
    if of_grade:
        found, waste = of_grade
        return Waste(
            waste,
            f"{found.name} has at least {found.clear_face_pct:.1f} % of its face clear "
            f"[{found.basis}] ({found.source})",
        )
    low, high = practice.low, practice.high
    return Waste(Range((low + high) / 2.0, low, high), f"{practice.basis}, no source")
