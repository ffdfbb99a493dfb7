"""Nominal thicknesses: how they are written, and the one that dresses to a finished thickness."""

from __future__ import annotations

import re
from collections.abc import Sequence

from woodref.errors import InputError, UnitsError
from woodref.record import record
from woodref.reference.trade import DressedSize
from woodref.units import MM_PER_INCH, either_unit
from woodref.written import parse_length, quarters

#: Nominal sizes nearer than this are one size [mm].
SAME_MM = 0.3
#: Finished and dressed thickness may differ by this and still be equal [mm].
SLACK_MM = 0.05


@record
class Nominal:
    """A nominal (rough) thickness: label as sold, '5/4' or '27 mm', and size [mm]."""

    label: str
    size_mm: float


def parse_nominal(text: str | float, default_unit: str = "") -> Nominal:
    """A nominal thickness from '5/4' (quarters of an inch), '27 mm' or '1-1/2 in'.

    Parameters: text; default_unit of a bare number, '' where a unit is required.
    Raises: InputError for anything else, and outside 3 to 300 mm.
    """
    clean = str(text).strip()
    problem = UnitsError(
        lambda u: (
            f"'{text}' is not a nominal thickness; write for example "
            + either_unit(u, "4/4, 8/4", "27 mm")
        )
    )
    count = quarters(clean)
    if count:
        nominal = Nominal(f"{count}/4", count * MM_PER_INCH / 4.0)
    elif not default_unit and not re.search(r"[A-Za-z\"'”″]", clean):
        raise problem
    else:
        try:
            mm = parse_length(
                text if isinstance(text, float | int) else clean, default_unit or "mm"
            )
        except InputError:
            raise problem from None
        metric = "mm" in clean or "cm" in clean or (default_unit == "mm" and clean[-1:].isdigit())
        nominal = Nominal(f"{mm:g} mm" if metric else f"{mm / MM_PER_INCH:g} in", mm)
    if not 3.0 <= nominal.size_mm <= 300.0:
        raise problem
    return nominal


def choose_nominal(thickness_mm: float, sizes: Sequence[DressedSize]) -> DressedSize | None:
    """The least nominal thickness whose dressed thickness reaches a finished thickness.

    Parameters: thickness_mm finished [mm]; sizes in any order.
    Returns: the size, None where none reaches.
    """
    reach = [s for s in sizes if s.dressed_mm + SLACK_MM >= thickness_mm]
    return min(reach, key=lambda s: s.rough_mm, default=None)
