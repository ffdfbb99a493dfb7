"""Sizes, changes, weights and sums as a shop reads them: short, with one form of range."""

from __future__ import annotations

from collections.abc import Iterable

from woodref.answers.property_text import ROUGH_MARK, UNCHECKED_MARK
from woodref.quantity import Range
from woodref.units import KINDS, MM_PER_INCH, fixed, fraction_of_inch

#: Changes below these are told as under them: 1/64 in, 0.3 mm.
_LEAST = {"us": (MM_PER_INCH / 64.0, "1/64"), "si": (0.3, "0.3")}
#: A change below this is none at all [mm].
_NOTHING_MM = 1e-9
_UNIT = {"us": "in", "si": "mm"}


def bare_size(size_mm: float, units: str) -> str:
    """'15/32', '11.5', '12': a size without its unit."""
    if units == "us":
        return fraction_of_inch(size_mm / MM_PER_INCH, 64)
    return fixed(size_mm, 1).removesuffix(".0")


def size_text(size_mm: float, units: str) -> str:
    """'15/32 in', '11.5 mm', '12 mm'."""
    return f"{bare_size(size_mm, units)} {_UNIT[units]}"


def is_seen(change_mm: float, units: str) -> bool:
    """True for a change that can be measured: 1/64 in, 0.3 mm or more."""
    return abs(change_mm) >= _LEAST[units][0]


def change_text(change_mm: float, units: str) -> str:
    """As size_text, with 'under 1/64 in' for a change that nobody measures."""
    if not is_seen(change_mm, units):
        return f"under {_LEAST[units][1]} {_UNIT[units]}"
    return size_text(abs(change_mm), units)


def change_range(change: Range, units: str) -> str:
    """'15/64 in (11/64 to 19/64)'."""
    ends = " to ".join(bare_size(abs(x), units) for x in sorted((change.low, change.high), key=abs))
    return f"{change_text(change.expected, units)} ({ends})"


def shown(kind: str, value: float, units: str, with_unit: bool = True) -> str:
    """A quantity of a kind of woodref.units.KINDS as a shop reads it in a table.

    Changes in 64ths of an inch, and as under that where nobody measures them; no decimals in
    whole numbers. Without its unit it is the end of a range.
    """
    if kind in ("change", "change_end"):
        if abs(value) < _NOTHING_MM:
            return "0" if not with_unit else f"0 {_UNIT[units]}"
        sign = "-" if value < 0.0 and is_seen(value, units) else ""
        if not with_unit:
            return sign + bare_size(abs(value), units)
        return sign + change_text(value, units)
    if kind == "mass":
        return mass_text(value, units) if with_unit else _mass_end(value, units)
    text = KINDS[kind].text(value, units)
    label = KINDS[kind].label(units)
    number = text.removesuffix(label).rstrip() if label else text
    if kind in ("size", "size_up", "percent") and "/" not in number:
        number = number.removesuffix(".0")
    return f"{number} {label}".rstrip() if with_unit else number


def _mass(mass_kg: float, units: str) -> str:
    x = KINDS["mass"].convert(mass_kg, units)
    return fixed(x, 1 if abs(x) < 99.95 else 0).removesuffix(".0")


def _mass_end(mass_kg: float, units: str) -> str:
    x = KINDS["mass"].convert(mass_kg, units)
    return fixed(x, 0) if x >= 9.5 else _mass(mass_kg, units)


def mass_text(mass_kg: float, units: str) -> str:
    """'38.5 lb', '115 lb'."""
    return f"{_mass(mass_kg, units)} {KINDS['mass'].label(units)}"


def mass_range(mass: Range, units: str) -> str:
    """'38.5 lb (32 to 45)'."""
    if not mass.is_range:
        return mass_text(mass.expected, units)
    low, high = (_mass_end(kg, units) for kg in (mass.low, mass.high))
    return f"{mass_text(mass.expected, units)} ({low} to {high})"


def money_range(sum_: Range, currency: str) -> str:
    """'575.99 USD (541 to 620)'."""
    unit = f" {currency}" if currency else ""
    ends = f" ({fixed(sum_.low, 0)} to {fixed(sum_.high, 0)})" if sum_.is_range else ""
    return f"{fixed(sum_.expected, 2)}{unit}{ends}"


def people_text(n: int) -> str:
    """'1 person', '3 people'."""
    return "1 person" if n == 1 else f"{n} people"


#: The marks in a few words, for the one line that a screen has for them.
_LEGEND = {UNCHECKED_MARK: "* unchecked, from memory", ROUGH_MARK: "~ estimated or second-hand"}


def legend(used: Iterable[str]) -> list[str]:
    """'~ estimated or second-hand; * unchecked, from memory.': the marks used, in one line."""
    seen = "".join(used)
    told = "; ".join(text for mark, text in _LEGEND.items() if mark in seen)
    return [f"{told}."] if told else []
