"""The figures of chosen woods as print gives them in a system of units.

Woods are chosen by one value of each figure, the same in either system; a figure that was
printed in both is told as it stands in the units asked for, as in a look-up.
"""

from __future__ import annotations

from woodref.choose.columns import ChoiceColumn
from woodref.reference.woods import Wood


def figure_in_units(
    wood: Wood, column: ChoiceColumn, value: float | None, units: str
) -> float | None:
    """A figure of a wood [SI] as print gives it in a system of units.

    Parameters: wood; column; value it is chosen by; units 'us' or 'si'.
    Returns: the value itself where it is computed, or printed in one system alone.
    """
    if value is None or not column.property_id:
        return value
    key = (column.property_id, column.condition)
    known = wood.values.get(key) or wood.estimates.get(key)
    return known.in_units(units).value if known and known.in_other_units else value
