"""The table [buying] of a piece: boards in hand, what the yard sells, how boards are cut up."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.board.shapes import LENGTH_LIMIT_MM, WIDTH_LIMIT_MM
from woodref.cutting.pack import SECONDS
from woodref.toml_reader import TomlTable
from woodref.units import length_unit

_ALLOWANCES = ("kerf", "end_trim", "length_allowance", "width_allowance", "planing")
#: Keys of the table [buying].
BUYING = ("boards", "yard_widths", "yard_lengths", *_ALLOWANCES, "seconds")
_MOST_MM = 500.0


@dataclass(frozen=True)
class PieceBuying:
    """How the boards of a piece are found.

    ``boards`` a file of boards in hand, its path seen from the piece file; ``yard_widths_mm``
    and ``yard_lengths_mm`` what the yard sells; ``allowances`` given, by key [mm]; ``seconds``
    the search may take. ``place`` is where it stands in the file.
    """

    place: str
    boards: str = ""
    yard_widths_mm: tuple[float, ...] = ()
    yard_lengths_mm: tuple[float, ...] = ()
    allowances: tuple[tuple[str, float], ...] = ()
    seconds: float = SECONDS


def read_buying(table: TomlTable, units: str) -> PieceBuying:
    """Boards and yard from the table [buying].

    Raises: InputError naming file, table, key and problem.
    """
    unit = length_unit(units)
    yard = ("yard_widths" in table, "yard_lengths" in table)
    if yard == (True, False):
        raise table.error("yard_lengths", "is missing; a yard sells widths in lengths")
    if yard == (False, True):
        raise table.error("yard_widths", "is missing; a yard sells widths in lengths")
    if not any(yard) and "boards" not in table:
        raise table.error(
            "boards", "is missing; name a file of boards in hand, or yard_widths and yard_lengths"
        )
    return PieceBuying(
        place=table.place,
        boards=table.text("boards") if "boards" in table else "",
        yard_widths_mm=table.lengths("yard_widths", unit, WIDTH_LIMIT_MM) if yard[0] else (),
        yard_lengths_mm=table.lengths("yard_lengths", unit, LENGTH_LIMIT_MM) if yard[1] else (),
        allowances=tuple(
            (key, table.length(key, unit, _MOST_MM)) for key in _ALLOWANCES if key in table
        ),
        seconds=table.number("seconds", 0.1, 600.0, "s") if "seconds" in table else SECONDS,
    )
