"""Sizes, changes, weights and sums as a shop reads them: short, with one form of range."""

from __future__ import annotations

from collections.abc import Iterable
from math import floor

from woodref.answers.property_text import ROUGH_MARK, UNCHECKED_MARK
from woodref.quantity import Range
from woodref.units import KINDS, MM_PER_INCH, fixed, fraction_of_inch

#: Changes below these are told as under them: 1/64 in, 0.3 mm.
_LEAST = {"us": (MM_PER_INCH / 64.0, "1/64"), "si": (0.3, "0.3")}
#: A change below this is none at all [mm].
_NOTHING_MM = 1e-9
_UNIT = {"us": "in", "si": "mm"}
#: What a size is read to: on a rule, and on a bit or a size that was given [parts of an inch].
_RULE, _BIT = 32, 64
#: Kinds whose ends need fewer decimals than the figure itself, as those of a weight.
_COARSE_ENDS = ("density", "money")
#: An end below this keeps its decimals [SI].
_FINE = 9.5
#: Kinds that lose a decimal of nought where they are whole.
WHOLE_WITHOUT_DECIMALS = ("size", "size_up", "percent", "temperature", "density")


def _is_of_bits(inches: float) -> bool:
    """True for a size that is a 64th as it stands: one that was given, or a bit."""
    return abs(inches * _BIT - round(inches * _BIT)) < 1e-6


def bare_size(size_mm: float, units: str) -> str:
    """'15/32', '11.5', '12': a size without its unit, to a 32nd or the 64th that it is."""
    if units == "us":
        inches = size_mm / MM_PER_INCH
        return fraction_of_inch(inches, _BIT if _is_of_bits(inches) else _RULE)
    return fixed(size_mm, 1).removesuffix(".0")


def size_text(size_mm: float, units: str) -> str:
    """'15/32 in', '11.5 mm', '12 mm'."""
    return f"{bare_size(size_mm, units)} {_UNIT[units]}"


def is_seen(change_mm: float, units: str) -> bool:
    """True for a change that can be measured: 1/64 in, 0.3 mm or more."""
    return abs(change_mm) >= _LEAST[units][0]


def _under(units: str) -> str:
    return f"under {_LEAST[units][1]} {_UNIT[units]}"


def change_text(change_mm: float, units: str) -> str:
    """As size_text, with 'under 1/64 in' for a change that nobody measures."""
    return size_text(abs(change_mm), units) if is_seen(change_mm, units) else _under(units)


def need_text(size_mm: float, units: str) -> str:
    """Room that the wood needs, rounded up: '5/32 in', '3.5 mm'."""
    if not is_seen(size_mm, units):
        return _under(units)
    inches = size_mm / MM_PER_INCH
    if units == "us" and not _is_of_bits(inches):
        return KINDS["size_up"].text(size_mm, "us")
    return size_text(size_mm, "us") if units == "us" else KINDS["size_up"].text(size_mm, "si")


def room_text(size_mm: float, units: str) -> str:
    """Room that there is, rounded down: '1/8 in', '3.4 mm'."""
    if not is_seen(size_mm, units):
        return _under(units)
    if units == "us":
        inches = size_mm / MM_PER_INCH
        whole = inches if _is_of_bits(inches) else floor(inches * _RULE) / _RULE
        return size_text(whole * MM_PER_INCH, units)
    return size_text(floor(size_mm * 10.0 + 1e-6) / 10.0, units)


def _change_end(change_mm: float, units: str) -> str:
    """An end of a range: '1/32', '0' for one that nobody measures."""
    return bare_size(change_mm, units) if is_seen(change_mm, units) else "0"


def change_range(change: Range, units: str, mark: str = "") -> str:
    """'1/4 in* (3/16 to 5/16)', 'under 1/64 in' where no end of it can be measured."""
    low, high = sorted((abs(change.low), abs(change.high)))
    told = change_text(change.expected, units) + mark
    if not is_seen(high, units):
        return told
    return f"{told} ({_change_end(low, units)} to {_change_end(high, units)})"


def shown(
    kind: str, value: float, units: str, with_unit: bool = True, decimals: bool = False
) -> str:
    """A quantity of a kind of woodref.units.KINDS as a shop reads it in a table.

    Changes in 32nds of an inch, and as under a 64th where nobody measures them; no decimals in
    whole numbers, but where all are to have ``decimals``, as in a column. Without its unit it is
    the end of a range.
    """
    if kind in ("change", "change_end"):
        sign = "-" if value < 0.0 and is_seen(value, units) else ""
        if not with_unit:
            return sign + _change_end(abs(value), units)
        none = abs(value) < _NOTHING_MM
        return f"0 {_UNIT[units]}" if none else sign + change_text(value, units)
    if kind == "mass":
        return mass_text(value, units) if with_unit else _mass_end(value, units)
    if kind in _COARSE_ENDS and not with_unit and value >= _FINE:
        return fixed(KINDS[kind].convert(value, units), 0)
    text = KINDS[kind].text(value, units)
    label = KINDS[kind].label(units)
    number = text.removesuffix(label).rstrip() if label else text
    if kind in WHOLE_WITHOUT_DECIMALS and "/" not in number and not decimals:
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


def mass_range(mass: Range, units: str, mark: str = "") -> str:
    """'38.5 lb* (32 to 45)'; ``mark`` of how it is known stands behind the figure."""
    told = mass_text(mass.expected, units) + mark
    if not mass.is_range:
        return told
    low, high = (_mass_end(kg, units) for kg in (mass.low, mass.high))
    return f"{told} ({low} to {high})"


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
