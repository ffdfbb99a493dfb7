"""The tables [[fixing]] of a piece file: a fixing on one of its parts."""

from __future__ import annotations

from collections.abc import Mapping

from woodref.joinery.fixing_types import (
    FIXINGS,
    SIZE_KEYS,
    FixingError,
    FixingSpec,
    Sizes,
    fixing_spec,
    known_kind,
)
from woodref.joinery.hardware import parse_screw
from woodref.piece.parts_table import Part
from woodref.toml_reader import TomlTable
from woodref.units import either_unit
from woodref.written import parse_length

#: Keys of [[fixing]].
FIXING_KEYS = ("name", "note", "part", "kind", "fixed", "at", "distance", *SIZE_KEYS)
_FARTHEST_MM = 5_000.0
_LARGEST_MM = 500.0


def _text_or_number(table: TomlTable, key: str, example: str) -> str:
    value = table.data[key]
    if isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:.12g}"
    return table.text(key, example)


def _size(table: TomlTable, key: str, unit: str) -> float:
    if key == "screw":
        text = _text_or_number(table, key, '"#8"')
        return table.parsed(key, lambda: parse_screw(text, unit))
    if key in ("gap", "engage", "spare"):  # these may be nothing
        text = _text_or_number(table, key, either_unit(table.units, '"1/8 in"', '"3 mm"'))
        return table.parsed(key, lambda: parse_length(text, unit))
    return table.length(key, unit, _LARGEST_MM)


def read_fixing(table: TomlTable, units: str, parts: Mapping[str, Part]) -> FixingSpec:
    """The fixing in one table, on one of the parts of the piece.

    Parameters: table with FIXING_KEYS; units 'us' or 'si' of bare lengths and of the sizes to
    make; parts of the piece by name, whose width, rings and staves are used.
    Raises: InputError naming file, table, key and problem.
    """
    unit = "in" if units == "us" else "mm"
    part = parts[table.choice("part", parts)]
    if not part.species:
        raise table.error("part", f"'{part.name}' is of sheet goods, which hardly move")
    kind_text = table.text("kind", '"floating-panel"')
    kind = table.parsed("kind", lambda: known_kind(kind_text))
    sizes = Sizes(**{key: _size(table, key, unit) for key in SIZE_KEYS if key in table})
    try:
        return fixing_spec(
            kind,
            width_mm=part.width_mm,
            distance_mm=table.length("distance", unit, _FARTHEST_MM)
            if "distance" in table
            else None,
            fixed=_text_or_number(table, "fixed", '"center"') if "fixed" in table else "",
            at_mm=table.length("at", unit, _FARTHEST_MM) if "at" in table else None,
            sizes=sizes,
            ring_angle_deg=part.ring_angle_deg,
            staves=part.staves,
            units=units,
            name=table.text("name") if "name" in table else FIXINGS[kind].words,
            part=part.name,
            note=table.text("note") if "note" in table else "",
        )
    except FixingError as error:
        raise table.error(error.key, error.told(units)) from None
