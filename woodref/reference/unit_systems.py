"""One cell printed in metric and in inch-pound: which of the two a system of units shows.

A table printed in both systems rounds each for itself: 6,000 N and 1,360 lbf are one cell.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from woodref.record import replace
from woodref.reference.woods import Value, value_from_row

#: Units of the US customary tables, as printed.
_US_PRINTED = frozenset({"lbf", "lbf/in2", "10^3 lbf/in2", "10^6 lbf/in2", "in", "in-lbf/in3"})


def agree(a: float, rounding_a: float, b: float, rounding_b: float) -> bool:
    """True where two printed values are one within their printed rounding."""
    return abs(a - b) <= (rounding_a + rounding_b) / 2.0 + 1e-9 * max(abs(a), abs(b))


def system_of(printed_unit: str) -> str:
    """The system of units, 'us' or 'si', of a unit as printed."""
    return "us" if printed_unit in _US_PRINTED else "si"


def _stands_for(other: Mapping[str, Any], used: Mapping[str, Any]) -> bool:
    """True where a cell of the other system is the same figure, and plausible."""
    return (
        system_of(other["printed_unit"]) != system_of(used["printed_unit"])
        and not other["plausibility_flag"]
        and agree(used["value"], used["rounding"] or 0.0, other["value"], other["rounding"] or 0.0)
    )


def values_of(rows: Iterable[Mapping[str, Any]]) -> dict[str, Value]:
    """Values of rows of measurements by measurement_id, each with its counterpart.

    Parameters: rows with VALUE_COLUMNS, the ``short`` of the source and COUNTERPART_COLUMNS;
    the counterpart of a row among them where there is one.
    Returns: values that know how print gives them in the other system of units
    (``Value.in_units``), where the counterpart agrees within printed rounding and is plausible.
    """
    cells = {row["measurement_id"]: row for row in rows}
    alone = {i: value_from_row(row) for i, row in cells.items()}
    values = dict(alone)
    for i, row in cells.items():
        counterpart = row["unit_counterpart_id"]
        other = cells.get(counterpart)
        if other is not None and _stands_for(other, row):
            system = system_of(other["printed_unit"])
            values[i] = replace(alone[i], in_other_units={system: alone[counterpart]})
    return values
