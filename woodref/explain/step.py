"""One step of an explanation.

The numbers are SI (mm, kg, N, MPa), rounded for reading; written as arithmetic, they can be
worked out again by hand, or by a test.
"""

from __future__ import annotations

from typing import NamedTuple

HANDBOOK = "FPL-GTR-282 (2021)"


class Step(NamedTuple):
    """One step: what of which thing, the formula, its numbers, the result with its unit."""

    of: str
    what: str
    formula: str
    numbers: str
    result: float
    unit: str
    source: str


def n(value: float) -> str:
    """A number as it is written into a step: six digits, a negative one in brackets."""
    text = f"{value:.6g}"
    return f"({text})" if text.startswith("-") else text
