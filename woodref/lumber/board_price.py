"""What a board amounts to and costs."""

from __future__ import annotations

from woodref.formulas.lumber import board_feet
from woodref.lumber.nominal import Nominal
from woodref.lumber.price_rows import Price
from woodref.quantity import Range
from woodref.units import MM_PER_INCH

#: A foot as twelve inches, so that a length of whole inches comes to whole feet.
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
    return price.price.scaled(amount)
