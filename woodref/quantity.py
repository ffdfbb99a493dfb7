"""A quantity with its range, and the sums of such quantities."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """An expected value with a low and a high end; all three are equal for a plain number."""

    expected: float
    low: float
    high: float

    @property
    def is_range(self) -> bool:
        """True where low and high differ."""
        return self.low != self.high


def with_waste(net: float, waste: Figure) -> Figure:
    """What to buy for a net amount and an allowance for offcuts [%] added to it."""
    return Figure(
        net * (1.0 + waste.expected / 100.0),
        net * (1.0 + waste.low / 100.0),
        net * (1.0 + waste.high / 100.0),
    )


def times(a: Figure, b: Figure) -> Figure:
    """Product of two figures that are not negative, low with low and high with high."""
    return Figure(a.expected * b.expected, a.low * b.low, a.high * b.high)


def total(figures: Sequence[Figure]) -> Figure:
    """Sum of figures, low with low and high with high."""
    return Figure(
        sum(f.expected for f in figures),
        sum(f.low for f in figures),
        sum(f.high for f in figures),
    )
