"""A quantity with its range, and the sums of such quantities."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from woodref.errors import InputError
from woodref.record import record

#: Boards of one kind at the most: of a pile, of a catalog, glued to a width.
MOST_BOARDS = 100_000


def whole_number(text: str, most: int) -> int | None:
    """The whole number from 1 to ``most`` that a text is, 007 being 7; None for anything else."""
    digits = text.lstrip("0") if text.isascii() and text.isdigit() else ""
    number = int(digits) if 0 < len(digits) <= len(str(most)) else 0
    return number if 1 <= number <= most else None


def check_glued(boards: int) -> None:
    """Refuse a number of boards that no width is glued from.

    Raises: InputError.
    """
    if not 1 <= boards <= MOST_BOARDS:
        raise InputError(f"a width is glued from 1 to {MOST_BOARDS} boards, not {boards}")


@record
class Range:
    """An expected value with a low and a high end; all three are equal for a plain number."""

    expected: float
    low: float
    high: float

    @property
    def is_range(self) -> bool:
        """True where low and high differ."""
        return self.low != self.high

    @property
    def unsigned(self) -> Range:
        """How large it is either way, of a figure that goes one way: the smaller end low."""
        return Range(abs(self.expected), *sorted((abs(self.low), abs(self.high))))

    def __iter__(self) -> Iterator[float]:
        """Expected, low, high, in this order."""
        return iter((self.expected, self.low, self.high))

    def plus(self, other: Range) -> Range:
        """The sum, low with low and high with high."""
        return Range(self.expected + other.expected, self.low + other.low, self.high + other.high)

    def scaled(self, factor: float) -> Range:
        """A multiple, by a factor that is not negative."""
        return Range(factor * self.expected, factor * self.low, factor * self.high)


def exactly(value: float) -> Range:
    """A plain number as a range."""
    return Range(value, value, value)


def with_waste(net: float, waste: Range) -> Range:
    """What to buy for a net amount and an allowance for offcuts [%] added to it."""
    return Range(
        net * (1.0 + waste.expected / 100.0),
        net * (1.0 + waste.low / 100.0),
        net * (1.0 + waste.high / 100.0),
    )


def times(a: Range, b: Range) -> Range:
    """Product of two figures that are not negative, low with low and high with high."""
    return Range(a.expected * b.expected, a.low * b.low, a.high * b.high)


def total(figures: Sequence[Range]) -> Range:
    """Sum of figures, low with low and high with high."""
    return Range(
        sum(f.expected for f in figures),
        sum(f.low for f in figures),
        sum(f.high for f in figures),
    )
