"""The table [buying] of a piece: boards in hand, what the yard sells, how boards are cut up."""

from __future__ import annotations

from functools import partial

from woodref.board.shapes import LENGTH_LIMIT_MM, WIDTH_LIMIT_MM
from woodref.cutting.pack import MOST_KERF_MM, USUAL
from woodref.cutting.work import EFFORTS
from woodref.lumber.nominal import Nominal, parse_nominal
from woodref.record import record
from woodref.toml_reader import TomlTable
from woodref.written import length_unit

_ALLOWANCES = ("kerf", "end_trim", "length_allowance", "width_allowance", "planing")
#: Keys of the table [buying].
BUYING = (
    *("boards", "yard_thicknesses", "yard_widths", "yard_lengths"),
    *(*_ALLOWANCES, "safe_length", "effort", "third_cut"),
)
_MOST_MM, _MOST_SAFE_MM = 500.0, 1_000.0


@record
class PieceBuying:
    """How the boards of a piece are found.

    ``boards`` a file of boards in hand, its path seen from the piece file; ``yard_thicknesses``,
    ``yard_widths_mm`` and ``yard_lengths_mm`` what the yard sells; ``allowances`` given, by key
    [mm]; ``effort`` of the search; ``third_cut``, whether what the second cut leaves may be parted
    once more. ``place`` is where it stands in the file.
    """

    place: str
    boards: str = ""
    yard_thicknesses: tuple[Nominal, ...] = ()
    yard_widths_mm: tuple[float, ...] = ()
    yard_lengths_mm: tuple[float, ...] = ()
    allowances: tuple[tuple[str, float], ...] = ()
    effort: str = USUAL
    third_cut: bool = False


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
    if not any(yard) and not ("boards" in table or "yard_thicknesses" in table):
        raise table.error(
            "boards",
            "is missing; name a file of boards in hand, yard_thicknesses, or yard_widths and "
            "yard_lengths",
        )
    return PieceBuying(
        place=table.place,
        boards=table.text("boards") if "boards" in table else "",
        yard_thicknesses=_thicknesses(table, unit),
        yard_widths_mm=table.lengths("yard_widths", unit, WIDTH_LIMIT_MM) if yard[0] else (),
        yard_lengths_mm=table.lengths("yard_lengths", unit, LENGTH_LIMIT_MM) if yard[1] else (),
        allowances=(
            *(
                (key, table.length(key, unit, MOST_KERF_MM if key == "kerf" else _MOST_MM))
                for key in _ALLOWANCES
                if key in table
            ),
            *_safe_length(table, unit),
        ),
        effort=table.choice("effort", EFFORTS) if "effort" in table else USUAL,
        third_cut="third_cut" in table and table.truth("third_cut"),
    )


def _safe_length(table: TomlTable, unit: str) -> tuple[tuple[str, float], ...]:
    """The length below which blanks are cut in multiples, 0 for none; empty where not given."""
    key = "safe_length"
    if key not in table:
        return ()
    off = table.data[key] in (0, "0") and not isinstance(table.data[key], bool)
    return ((key, 0.0 if off else table.length(key, unit, _MOST_SAFE_MM)),)


def _thicknesses(table: TomlTable, unit: str) -> tuple[Nominal, ...]:
    """What the yard sells in thickness, as boards are written: '4/4', '27 mm'."""
    key = "yard_thicknesses"
    if key not in table:
        return ()
    values = table.data[key]
    if not isinstance(values, list) or not values:
        table.tell(table.error(key, 'must be a list, for example ["4/4", "8/4"]'))
        return ()
    return tuple(table.parsed(key, partial(parse_nominal, value, unit)) for value in values)
