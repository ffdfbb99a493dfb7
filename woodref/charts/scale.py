"""Axes of sizes as a shop reads them: fractions of an inch, or round steps of millimeters.

Sizes are drawn in millimeters in either system of units; only the numbers beside an axis differ.
No number stands below nothing: what lies to either side of nothing is told in words.
"""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

from woodref.answers.shop_words import shown
from woodref.units import MM_PER_INCH, fixed, fraction_of_inch

if TYPE_CHECKING:
    from matplotlib.axis import Axis

#: Steps between the numbers of an axis: fractions of an inch [in], and millimeters [mm].
_STEPS_IN = (*(2.0**k for k in range(-6, 3)), 6.0, 12.0, 24.0, 48.0)
_STEPS_MM = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)


def _step_mm(span_mm: float, units: str, most: int) -> float:
    """The smallest step that numbers a span by at most so many steps [mm]."""
    steps = [s * MM_PER_INCH for s in _STEPS_IN] if units == "us" else list(_STEPS_MM)
    return next((s for s in steps if span_mm / s <= most), steps[-1])


def tick_text(size_mm: float, units: str) -> str:
    """'14-1/32', '355.5': a size beside an axis, never below zero."""
    if units == "us":
        return fraction_of_inch(abs(size_mm) / MM_PER_INCH, 64)
    return fixed(abs(size_mm), 1).removesuffix(".0")


def size_ticks(
    low_mm: float, high_mm: float, units: str, most: int = 8
) -> tuple[list[float], list[str]]:
    """Where an axis of sizes has its numbers [mm], and what they are.

    Parameters: low_mm, high_mm, ends of the axis [mm]; units 'us' or 'si'; most steps it has.
    """
    step = _step_mm(high_mm - low_mm, units, most)
    first, last = ceil(low_mm / step - 1e-9), floor(high_mm / step + 1e-9)
    places = [n * step for n in range(first, last + 1)]
    return places, [tick_text(p, units) for p in places]


def size_axis(axis: Axis, units: str, most: int = 8) -> None:
    """Number an axis of sizes in mm over its present limits; call it once they are final.

    Parameters: axis; units 'us' or 'si' of the numbers; most steps it has.
    """
    low, high = sorted(axis.get_view_interval())
    axis.set_ticks(*size_ticks(float(low), float(high), units, most))


def size_words(size_mm: float, units: str) -> str:
    """'9-27/32 in', '250.4 mm': a size in a picture, to 1/32 in as the answers tell it."""
    return shown("size", size_mm, units)
