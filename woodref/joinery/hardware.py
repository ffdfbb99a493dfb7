"""Screws, bits and the sizes a shop can make: what is drilled rounds up, never down."""

from __future__ import annotations

import re
from math import ceil

from woodref.errors import InputError, UnitsError
from woodref.units import MM_PER_INCH, either_unit
from woodref.written import parse_length

#: Numbers of wood screws whose shanks are printed (FPL-GTR-282 (2021), Table 8-9, p. 8-12).
SCREW_NUMBERS = (*range(4, 13), 14, 16, 18, 20, 24)
#: Bits of an inch set: 64ths to 1/2 in, 16ths to 1 in, 8ths to 2 in (common practice, no
#: source) [in].
INCH_BITS = (
    *(n / 64.0 for n in range(1, 33)),
    *(n / 16.0 for n in range(9, 17)),
    *(n / 8.0 for n in range(9, 17)),
)
#: Bits of a metric set: 1 to 13 mm by halves, to 30 mm by whole ones, then 35, 40, 45 and 50
#: (common practice, no source) [mm].
METRIC_BITS_MM = (
    *(n / 2.0 for n in range(2, 27)),
    *(float(n) for n in range(14, 31)),
    *(35.0, 40.0, 45.0, 50.0),
)
_NUMBERED = re.compile(r"\s*(?:#|no\.?\s*)\s*([0-9]{1,2})\s*", re.IGNORECASE)
BITS = (
    "bits of an inch set by 64ths to 1/2 in, by 16ths to 1 in, by 8ths to 2 in; of a metric one by "
    "0.5 to 13 mm, by 1 to 30 mm, by 5 to 50 mm (common practice, no source)"
)
#: So much over a step still counts as that step: the noise of inches turned to millimeters.
_NOISE = 1e-6


def screw_shank(number: int) -> float:
    """Diameter of the shank of a wood screw by its number [mm].

    ``0.060 + 0.013 N`` inches: a #8 is 0.164 in.

    Raises: InputError for a number that no table prints.
    Source: FPL-GTR-282 (2021), Table 8-9, p. 8-12.
    """
    if number not in SCREW_NUMBERS:
        near = min(SCREW_NUMBERS, key=lambda n: abs(n - number))
        raise UnitsError(
            lambda u: (
                f"a #{number} screw is in no table; nearest: #{near} (or give the "
                f"shank, {either_unit(u, '3/16in', '4mm')})"
            )
        )
    return (0.060 + 0.013 * number) * MM_PER_INCH


def screw_gauge(shank_mm: float) -> float:
    """The gauge of a shank, between numbers too: the inverse of screw_shank."""
    return (shank_mm / MM_PER_INCH - 0.060) / 0.013


def screw_number(shank_mm: float) -> int | None:
    """The number of the wood screw of that very shank, None where there is none."""
    return next((n for n in SCREW_NUMBERS if abs(screw_shank(n) - shank_mm) < _NOISE), None)


def parse_screw(text: str, default_unit: str = "in") -> float:
    """Diameter of a shank [mm]: ``#8``, ``no. 8``, or a length, ``4mm``, ``3/16in``.

    A bare whole number from 4 to 24 is that of a screw where bare lengths are inches.

    Raises: InputError for anything else, and for a shank of nothing or over 25 mm.
    """
    bare = text.strip()
    numbered = _NUMBERED.fullmatch(bare)
    if numbered:
        return screw_shank(int(numbered[1]))
    if default_unit == "in" and re.fullmatch(r"[0-9]{1,2}", bare) and 4 <= int(bare) <= 24:
        return screw_shank(int(bare))
    problem = UnitsError(
        lambda u: (
            f"'{bare}' is not a screw; write #8, or its shank as " + either_unit(u, "3/16in", "4mm")
        )
    )
    try:
        shank = parse_length(text, default_unit)
    except InputError:
        raise problem from None
    if not 0.0 < shank <= 25.0:
        raise problem
    return shank


def next_bit(diameter_mm: float, units: str) -> float | None:
    """The next common bit up [mm] of the inch set or the metric one; None above the largest.

    Parameters: diameter_mm the hole needed [mm]; units 'us' or 'si'.
    """
    bits = METRIC_BITS_MM if units == "si" else tuple(b * MM_PER_INCH for b in INCH_BITS)
    return next((b for b in bits if b >= diameter_mm - _NOISE), None)


def nearest_bit(diameter_mm: float, units: str) -> float:
    """The common bit nearest to a hole that may be a little larger or smaller [mm].

    Parameters: diameter_mm the hole [mm]; units 'us' or 'si'.
    """
    bits = METRIC_BITS_MM if units == "si" else tuple(b * MM_PER_INCH for b in INCH_BITS)
    return min(bits, key=lambda b: abs(b - diameter_mm))


def _up(size_mm: float, step: float) -> float:
    return ceil(size_mm / step - _NOISE) * step


def size_up(size_mm: float, units: str) -> float:
    """A size to cut, rounded up to 1/32 in or 0.5 mm [mm]."""
    return _up(size_mm, MM_PER_INCH / 32.0 if units == "us" else 0.5)


def least_gap(units: str) -> float:
    """The clearance a maker leaves where wood needs none: 1/32 in or 0.8 mm [mm].

    Common practice, no source.
    """
    return MM_PER_INCH / 32.0 if units == "us" else 0.8


def gap_up(size_mm: float, units: str) -> float:
    """A gap to leave, rounded up to 1/64 in or 0.1 mm, and at least least_gap [mm]."""
    gap = _up(size_mm, MM_PER_INCH / 64.0 if units == "us" else 0.1)
    return max(gap, least_gap(units))
