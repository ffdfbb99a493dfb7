"""Lengths, masses, temperatures and more as a shop writes them, read into SI."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from math import inf, isfinite

from woodref.errors import InputError, UnitsError
from woodref.units import (
    KGF_TO_N,
    LB_FT3_TO_KG_M3,
    LB_TO_KG,
    LBF_TO_N,
    MM_PER_FOOT,
    MM_PER_INCH,
    PSI_TO_MPA,
    either_unit,
)

_LENGTH_MM = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "ft": MM_PER_FOOT,
    "foot": MM_PER_FOOT,
    "feet": MM_PER_FOOT,
    "'": MM_PER_FOOT,
}
_MASS_KG = {
    "kg": 1.0,
    "g": 0.001,
    "lb": LB_TO_KG,
    "lbs": LB_TO_KG,
    "oz": LB_TO_KG / 16.0,
}
#: Metric units: who writes in them by default hears of no others.
_METRIC = {"mm", "cm", "m", "kg", "g"}
#: What to write for example, in inches and pounds and in metric units.
_EXAMPLES = {
    "length": ('47-1/4" or 3 ft 11 1/4 in', "1200 mm or 1.2 m"),
    "mass": ("8.5 lb or 2 lb 4 oz", "412 g or 3.1 kg"),
}
#: A mixed number ('47-1/4', '11 1/4'), a fraction or a decimal, then an optional unit.
_PART = re.compile(
    r"\s*(?:(?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)"
    r"|(?P<decimal>[0-9]+\.?[0-9]*|\.[0-9]+))\s*(?P<unit>[A-Za-z]+|\"|')?"
)
#: Typographic quotes, primes, minus signs and fraction characters, as plain ones.
_PLAIN = str.maketrans(
    {
        "”": '"',
        "“": '"',
        "″": '"',
        "’": "'",
        "′": "'",
        "\N{MINUS SIGN}": "-",
        "\N{EN DASH}": "-",
        "\N{FRACTION SLASH}": "/",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)
#: No load of furniture is heavier [N]: 100 tonnes.
HEAVIEST_N = 1e6
#: A number of a size or a mass above this is a slip in any unit.
_LARGEST = 1e12
#: What can be told apart in a shop, and what is no length there any more [mm].
FINEST_MM, FARTHEST_MM = 0.01, 1e6
#: The longest text taken for a number with a unit; longer is a slip or a wrong file.
_LONGEST = 80


def _number(part: re.Match[str]) -> float:
    """The number of a part; ZeroDivisionError for a fraction over nothing."""
    if part["decimal"]:
        return float(part["decimal"])
    return float(part["whole"] or 0) + float(part["top"]) / float(part["bottom"])


def _shortened(text: str) -> str:
    """The text for a message: one line, not endless."""
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST else f"{line[:_LONGEST]}..."


def _parse(text: str, units: Mapping[str, float], default: str, what: str) -> float:
    """The sum of number-and-unit parts in the base unit of ``units``."""
    metric = default in _METRIC
    example = _EXAMPLES[what][metric]
    clean = text.translate(_PLAIN).strip()

    def problem() -> InputError:
        return InputError(f"'{_shortened(text)}' is not a {what}; write for example {example}")

    if clean.startswith("-"):
        raise InputError(f"a {what} cannot be negative: '{_shortened(text)}'")
    if len(clean) > _LONGEST:
        raise problem()
    total, position, parts, last = 0.0, 0, 0, inf
    while position < len(clean):
        match = _PART.match(clean, position)
        alone = match is not None and not parts and match.end() == len(clean)
        if not match or not (match["unit"] or alone):
            raise problem()
        unit = (match["unit"] or default).lower()
        if unit not in units:
            known = [u for u in units if u.isalpha() and (u in _METRIC or not metric)]
            raise InputError(
                f"'{match['unit']}' in '{_shortened(text)}' is not a unit of {what}; use one of "
                f"{', '.join(known)}"
            )
        if units[unit] >= last:  # 6in6in is no length, nor is 6 in 2 ft
            raise problem()
        try:
            total += _number(match) * units[unit]
        except ZeroDivisionError:
            raise problem() from None
        position, parts, last = match.end(), parts + 1, units[unit]
    if not parts or not total < _LARGEST:
        raise problem()
    return total


class BeyondShopError(InputError):
    """A length that is none in a shop: finer than wood is measured, or longer than any piece."""


def _sized(mm: float, text: str | float) -> float:
    """A length that a shop can mean: nothing at all, or from FINEST_MM to FARTHEST_MM.

    Raises: BeyondShopError.
    """
    if mm and not FINEST_MM <= mm <= FARTHEST_MM:
        what = "finer than wood is measured" if mm < FINEST_MM else "longer than any piece"
        raise BeyondShopError(f"a length of {_shortened(str(text))} is {what}")
    return mm


def _positive(value: float, what: str) -> float:
    if isinstance(value, bool) or not abs(value) < _LARGEST or value < 0:
        raise InputError(f"a {what} cannot be {_shortened(str(value))}")
    return float(value) + 0.0  # no nothing below nothing


def length_unit(units: str) -> str:
    """Unit of a bare length in a system of units."""
    return "in" if units == "us" else "mm"


def parse_length(text: str | float, default_unit: str = "mm") -> float:
    """A length in mm from what a shop writes.

    ``1200 mm``, ``1.2m``, ``47-1/4"``, ``3 ft 11 1/4 in``, ``5'6"``, ``7/8``; a bare number
    is in ``default_unit``.

    Raises: InputError for anything else, for a negative length, and for one that is finer than
    wood is measured or longer than any piece (FINEST_MM, FARTHEST_MM).
    """
    if isinstance(text, int | float):
        return _sized(_positive(text, "length") * _LENGTH_MM[default_unit], text)
    return _length(text, default_unit)


@lru_cache(maxsize=1024)
def _length(text: str, default_unit: str) -> float:
    return _sized(_parse(text, _LENGTH_MM, default_unit, "length"), text)


_QUARTERS = re.compile(r"\s*([0-9]{1,2})\s*/\s*4\s*")


def quarters(text: str) -> int | None:
    """The quarters of an inch of a rough thickness, 5 for '5/4'; None for anything else."""
    match = _QUARTERS.fullmatch(text)
    return int(match[1]) if match and int(match[1]) > 0 else None


def parse_thickness(text: str | float, default_unit: str = "mm") -> float:
    """A thickness in mm: a length, or rough lumber by quarters of an inch.

    A bare ``4/4``, ``5/4``, ``8/4`` is so many quarters of an inch in either system of
    units: rough 4/4 is 1 in, as it comes from the saw.

    Raises: as parse_length.
    Source: NHLA rules count rough thickness in quarters of an inch.
    """
    count = quarters(text) if isinstance(text, str) else None
    return count * MM_PER_INCH / 4.0 if count else parse_length(text, default_unit)


def parse_mass(text: str | float, default_unit: str = "kg") -> float:
    """A mass in kg: ``412 g``, ``3.1 kg``, ``2 lb 4 oz``; a bare number is in ``default_unit``.

    Raises: InputError for anything else.
    """
    if isinstance(text, int | float):
        return _positive(text, "mass") * _MASS_KG[default_unit]
    return _parse(text, _MASS_KG, default_unit, "mass")


_DENSITY_KG_M3 = {"kg/m3": 1.0, "lb/ft3": LB_FT3_TO_KG_M3, "g/cm3": 1000.0}
_DENSITY = re.compile(r"\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*([a-z]+/[a-z]+[3³])?\s*")


def parse_density(text: str | float, default_unit: str = "") -> float:
    """A density in kg/m3: '36 lb/ft3', '580 kg/m3', '0.58 g/cm3'.

    Parameters: text; default_unit of a bare number, '' where a unit is required in text.
    Raises: InputError for anything else.
    """
    if isinstance(text, int | float):
        return _positive(text, "density") * _DENSITY_KG_M3[default_unit or "kg/m3"]
    match = _DENSITY.fullmatch(text)
    unit = (match[2] or default_unit).replace("³", "3") if match else ""
    if not match or unit not in _DENSITY_KG_M3:
        raise UnitsError(
            lambda u: (
                f"'{_shortened(text)}' is not a density; write for example "
                + either_unit(u, "36 lb/ft3", "580 kg/m3")
            )
        )
    return float(match[1]) * _DENSITY_KG_M3[unit]


_MODULUS_MPA = {"psi": PSI_TO_MPA, "million psi": PSI_TO_MPA * 1e6, "mpa": 1.0, "gpa": 1000.0}
_MODULUS = re.compile(r"\s*([0-9][0-9,]*\.?[0-9]*|\.[0-9]+)\s*([A-Za-z ]+?)\s*")


def parse_modulus(text: str) -> float:
    """A modulus of elasticity in MPa: '1.8 million psi', '950000 psi', '7.5 GPa', '7500 MPa'.

    Raises: InputError for anything else.
    """
    match = _MODULUS.fullmatch(text)
    unit = " ".join(match[2].lower().split()) if match else ""
    if not match or unit not in _MODULUS_MPA:
        raise UnitsError(
            lambda u: (
                f"'{_shortened(text)}' is not a modulus of elasticity; write for example "
                + either_unit(u, "1.2 million psi", "8000 MPa")
            )
        )
    return float(match[1].replace(",", "")) * _MODULUS_MPA[unit]


_NEWTON = {"n": 1.0, "kn": 1000.0, "kg": KGF_TO_N, "lb": LBF_TO_N, "lbf": LBF_TO_N}
_PER_METER = {unit: 1000.0 / _LENGTH_MM[unit] for unit in ("m", "ft", "foot", "in", "mm")}
_LOAD = re.compile(r"\s*([0-9]+(?:\.[0-9]*)?|\.[0-9]+)\s*([A-Za-z]+)\s*(?:/\s*([A-Za-z]+))?\s*")


def parse_load(text: str, per_length: bool) -> float:
    """A load in N, or in N/m where it is spread: '50 lb', '20 lb/ft', '300 N/m'.

    Raises: InputError for anything else, and for more than HEAVIEST_N.
    """
    like = ("20 lb/ft", "300 N/m") if per_length else ("50 lb", "200 N")
    problem = UnitsError(
        lambda u: (
            f"'{_shortened(text)}' is not such a load; write for example " + either_unit(u, *like)
        )
    )
    match = _LOAD.fullmatch(text)
    if not match or match[2].lower() not in _NEWTON or bool(match[3]) != per_length:
        raise problem
    newton = float(match[1]) * _NEWTON[match[2].lower()]
    if newton > HEAVIEST_N:
        raise InputError(f"a load of '{_shortened(text)}' is more than any furniture bears")
    if not per_length:
        return newton
    if match[3].lower() not in _PER_METER:
        raise problem
    return newton * _PER_METER[match[3].lower()]


_TEMPERATURE = re.compile(
    r"\s*([+-]?[0-9]{1,6}(?:\.[0-9]*)?)\s*(?:°|deg(?:rees)?)?\s*([cf]?)\s*", re.IGNORECASE
)


def parse_temperature(text: str | float, default_unit: str = "C") -> float:
    """A temperature in degC: ``68 F``, ``20C``, ``-5``; a bare number is in ``default_unit``.

    Raises: InputError for anything else, and below absolute zero.
    """
    match = _TEMPERATURE.fullmatch(str(text).translate(_PLAIN))
    if not match:
        raise UnitsError(
            lambda u: (
                f"'{_shortened(str(text))}' is not a temperature; write for example "
                + either_unit(u, "68F", "20C")
            )
        )
    value = float(match[1])
    celsius = (value - 32.0) / 1.8 if (match[2] or default_unit).upper() == "F" else value
    if celsius < -273.15:
        raise InputError(f"{_shortened(str(text))} is below absolute zero")
    return celsius + 0.0  # no nothing below nothing


def maybe_fraction(percent: float) -> bool:
    """True for a percentage that may be meant as a fraction of one, such as 0.4 for 40 %."""
    return 0.0 < percent < 1.0


def parse_percent(text: str | float, what: str = "percentage") -> float:
    """A percentage as a number: ``8``, ``8%``, ``8 %``; under 1 only with the sign, ``0.4%``.

    Raises: InputError for anything else, for a negative one, and for one that may be a fraction.
    """
    try:
        value = float(str(text).strip().removesuffix("%"))
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise InputError(f"'{_shortened(str(text))}' is not a {what}; write for example 8 or 8%")
    value += 0.0  # no nothing below nothing
    if value < 0:
        raise InputError(f"a {what} cannot be negative: '{_shortened(str(text))}'")
    if maybe_fraction(value) and "%" not in str(text):
        raise InputError(
            f"a {what} of {value:g} may mean {value:g} % or {100.0 * value:g} %; write "
            f"{100.0 * value:g}% or {value:g}%"
        )
    return value
