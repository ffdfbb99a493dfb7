"""What a board amounts to and costs, and the waste that a grade leaves."""

from __future__ import annotations

from woodref.errors import InputError
from woodref.formulas.lumber import board_feet
from woodref.lumber.nominal import Nominal
from woodref.lumber.prices import Price
from woodref.quantity import Range
from woodref.units import MM_PER_INCH

_MM_PER_FOOT = 12.0 * MM_PER_INCH


def amounts_of(nominal: Nominal, width_mm: float, length_mm: float) -> tuple[float, float]:
    """Board feet and volume [m3] of a board."""
    feet = board_feet(
        nominal.size_mm / MM_PER_INCH, width_mm / MM_PER_INCH, length_mm / _MM_PER_FOOT
    )
    return float(feet), nominal.size_mm * width_mm * length_mm * 1e-9


def board_price(price: Price, nominal: Nominal, width_mm: float, length_mm: float) -> Range:
    """What one board costs by a price, however it is given."""
    feet, volume = amounts_of(nominal, width_mm, length_mm)
    amount = {
        "board foot": feet,
        "m3": volume,
        "linear foot": length_mm / _MM_PER_FOOT,
        "board": 1.0,
    }[price.per]
    p = price.price
    return Range(amount * p.expected, amount * p.low, amount * p.high)


def graded_waste(clear_face_pct: float) -> float:
    """Waste [%] to add where a grade promises only a share of clear face and no plan was made.

    ``100 (100 / yield - 1)``: a yield of 66.7 % asks for half as much again.

    Raises: InputError outside 0 to 100 %.
    Source: the yields of the grading rules are of the best face in clear cuttings, so a plan
    for particular parts may do better or worse.
    """
    if not 0.0 < clear_face_pct <= 100.0:
        raise InputError(f"a yield is above 0 and at most 100 %, not {clear_face_pct:g}")
    return 100.0 * (100.0 / clear_face_pct - 1.0)
