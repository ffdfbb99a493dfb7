"""Read lengths, temperatures and masses as a shop writes them; print SI or US customary.

Stored and computed values are SI (mm, kg, N, MPa, degC). A :class:`Kind` says how a
quantity of that kind is printed in either system and which unit its JSON key carries.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, isfinite

from woodref.errors import InputError

MM_PER_INCH = 25.4
LB_TO_KG = 0.45359237
BOARD_FOOT_M3 = 0.002359737216

_LENGTH_MM = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "ft": 304.8,
    "foot": 304.8,
    "feet": 304.8,
    "'": 304.8,
}
_MASS_KG = {
    "kg": 1.0,
    "g": 0.001,
    "lb": LB_TO_KG,
    "lbs": LB_TO_KG,
    "oz": LB_TO_KG / 16.0,
}
#: A mixed number, fraction or decimal, then an optional unit.
_PART = re.compile(
    r"""\s*(?P<number>\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+\.\d*|\.\d+|\d+)
        \s*(?P<unit>[A-Za-z]+|"|')?""",
    re.VERBOSE,
)
_QUOTES = str.maketrans(
    {
        "”": '"',
        "“": '"',
        "″": '"',
        "’": "'",
        "′": "'",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)


def _number(text: str) -> float:
    """'47-1/4', '11 1/4', '7/8' or '1.25' as a float."""
    whole, _, fraction = re.sub(r"\s*/\s*", "/", text.replace("-", " ")).strip().rpartition(" ")
    total = float(whole) if whole else 0.0
    return total + float(Fraction(fraction))


def _parse(text: str, units: dict[str, float], default: str, what: str, example: str) -> float:
    """The sum of number-and-unit parts in the base unit of ``units``."""
    clean = text.translate(_QUOTES).strip()
    problem = f"'{text}' is not a {what}; write for example {example}"
    total, position, parts = 0.0, 0, 0
    while position < len(clean):
        match = _PART.match(clean, position)
        if not match:
            raise InputError(problem)
        unit = (match["unit"] or default).lower()
        if unit not in units:
            raise InputError(
                f"'{match['unit']}' in '{text}' is not a unit of {what}; use one of "
                f"{', '.join(u for u in units if u.isalpha())}"
            )
        if parts and not match["unit"]:
            raise InputError(problem)
        try:
            total += _number(match["number"]) * units[unit]
        except ZeroDivisionError:
            raise InputError(problem) from None
        position, parts = match.end(), parts + 1
    if not parts or not isfinite(total):
        raise InputError(problem)
    return total


def parse_length(text: str | float, default_unit: str = "mm") -> float:
    """A length in mm from what a shop writes.

    ``1200 mm``, ``1.2m``, ``47-1/4"``, ``3 ft 11 1/4 in``, ``5'6"``, ``7/8``; a bare number
    is in ``default_unit``.

    Raises: InputError for anything else, and for a negative length.
    """
    if isinstance(text, int | float):
        if not isfinite(text) or text < 0:
            raise InputError(f"a length cannot be {text}")
        return float(text) * _LENGTH_MM[default_unit]
    return _parse(text, _LENGTH_MM, default_unit, "length", '1200 mm, 47-1/4" or 3 ft 11 1/4 in')


def parse_mass(text: str | float, default_unit: str = "kg") -> float:
    """A mass in kg: ``412 g``, ``3.1 kg``, ``2 lb 4 oz``; a bare number is in ``default_unit``.

    Raises: InputError for anything else.
    """
    if isinstance(text, int | float):
        if not isfinite(text) or text < 0:
            raise InputError(f"a mass cannot be {text}")
        return float(text) * _MASS_KG[default_unit]
    return _parse(text, _MASS_KG, default_unit, "mass", "412 g, 3.1 kg or 2 lb 4 oz")


_TEMPERATURE = re.compile(r"^\s*(-?\d+(?:\.\d+)?)\s*(?:°|deg)?\s*([cf]?)\s*$", re.IGNORECASE)


def parse_temperature(text: str | float, default_unit: str = "C") -> float:
    """A temperature in degC: ``68 F``, ``20C``, ``-5``; a bare number is in ``default_unit``.

    Raises: InputError for anything else, and below absolute zero.
    """
    match = _TEMPERATURE.match(str(text))
    if not match:
        raise InputError(f"'{text}' is not a temperature; write for example 68F or 20C")
    value = float(match[1])
    celsius = (value - 32.0) / 1.8 if (match[2] or default_unit).upper() == "F" else value
    if celsius < -273.15:
        raise InputError(f"{text} is below absolute zero")
    return celsius


def fraction_of_inch(inches: float, denominator: int = 32, up: bool = False) -> str:
    """Inches to the nearest fraction: 38.53 is '38-17/32'; ``up`` rounds up (sizes to drill)."""
    units = abs(inches) * denominator
    whole, rest = divmod(ceil(units - 1e-9) if up else round(units), denominator)
    sign = "-" if inches < 0 and (whole or rest) else ""
    if not rest:
        return f"{sign}{whole}"
    part = Fraction(rest, denominator)
    text = f"{part.numerator}/{part.denominator}"
    return f"{sign}{whole}-{text}" if whole else f"{sign}{text}"


def _fixed(decimals: int) -> Callable[[float], str]:
    def show(x: float) -> str:
        text = f"{x:,.{decimals}f}"
        return text.lstrip("-") if not float(text.replace(",", "")) else text

    return show


def _size_in(x: float) -> str:
    return f"{fraction_of_inch(x)} in"


def _change_in(x: float) -> str:
    near = fraction_of_inch(x, 64)
    return f"{_fixed(3)(x)} in" + (f" (about {near})" if near != "0" else "")


@dataclass(frozen=True)
class Kind:
    """How one kind of quantity is printed.

    ``si`` and ``us`` are the unit suffixes of keys, ``labels`` the units as printed,
    ``per_si`` turns an SI value into the US one, ``digits`` the decimals kept in JSON.
    """

    si: str
    us: str
    labels: tuple[str, str]
    per_si: float
    digits: tuple[int, int]
    shows: tuple[Callable[[float], str] | None, Callable[[float], str] | None] = (None, None)
    offset: float = 0.0

    def suffix(self, units: str) -> str:
        """The unit suffix of a key in a system of units, 'us' or 'si'."""
        return self.us if units == "us" else self.si

    def label(self, units: str) -> str:
        """The unit as printed."""
        return self.labels[1 if units == "us" else 0]

    def number(self, value: float, units: str) -> float:
        """The value in the system of units, rounded for JSON."""
        if units == "us":
            return round(value * self.per_si + self.offset, self.digits[1])
        return round(value, self.digits[0])

    def text(self, value: float, units: str) -> str:
        """The value as people read it, with its unit."""
        us = units == "us"
        x = value * self.per_si + self.offset if us else value
        show = self.shows[1 if us else 0]
        if show:
            return show(x)
        unit = self.label(units)
        return f"{_fixed(self.digits[1 if us else 0])(x)}{' ' + unit if unit else ''}"


KINDS: dict[str, Kind] = {
    "size": Kind("mm", "in", ("mm", "in"), 1 / MM_PER_INCH, (1, 4), (None, _size_in)),
    "change": Kind("mm", "in", ("mm", "in"), 1 / MM_PER_INCH, (2, 4), (None, _change_in)),
    "area": Kind("m2", "ft2", ("m2", "ft2"), 10.763910416709722, (3, 2)),
    "volume": Kind("m3", "board_feet", ("m3", "board feet"), 1 / BOARD_FOOT_M3, (4, 2)),
    "mass": Kind("kg", "lb", ("kg", "lb"), 1 / LB_TO_KG, (2, 2), (_fixed(1), _fixed(1))),
    "density": Kind("kg_m3", "lb_ft3", ("kg/m3", "lb/ft3"), 0.06242796057614461, (0, 1)),
    "force": Kind("n", "lbf", ("N", "lbf"), 0.22480894309971047, (0, 0)),
    "stress": Kind("mpa", "psi", ("MPa", "psi"), 145.03773773020923, (1, 0)),
    "modulus": Kind("mpa", "million_psi", ("MPa", "million psi"), 1.4503773773020923e-4, (0, 2)),
    "work": Kind("kj_m3", "in_lbf_in3", ("kJ/m3", "in-lbf/in3"), 0.14503773773020923, (0, 1)),
    "temperature": Kind("c", "f", ("C", "F"), 1.8, (1, 1), offset=32.0),
    "percent": Kind("pct", "pct", ("%", "%"), 1.0, (2, 2), (None, None)),
    "ratio": Kind("", "", ("", ""), 1.0, (3, 3)),
}
KINDS["mass"] = Kind(
    "kg",
    "lb",
    ("kg", "lb"),
    1 / LB_TO_KG,
    (2, 2),
    (lambda x: f"{_fixed(1)(x)} kg", lambda x: f"{_fixed(1)(x)} lb"),
)
KINDS["percent"] = Kind(
    "pct",
    "pct",
    ("%", "%"),
    1.0,
    (2, 2),
    (lambda x: f"{_fixed(1)(x)} %", lambda x: f"{_fixed(1)(x)} %"),
)
