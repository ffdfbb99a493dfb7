"""Read lengths, temperatures and masses as a shop writes them; print SI or US customary.

Stored and computed values are SI (mm, kg, N, MPa, degC). A :class:`Kind` says how a
quantity of that kind is printed in either system and which unit its JSON key carries.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from math import ceil, floor, gcd, inf, isfinite
from typing import NamedTuple

from woodref.errors import InputError
from woodref.formulas import lumber

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8
KM_PER_MILE = 1.609344
M2_PER_FT2 = 0.09290304
M3_PER_FT3 = 0.028316846592
CM3_PER_IN3 = 16.387064
BOARD_FOOT_M3 = lumber.BOARD_FOOT_M3
L_PER_QUART = 0.946352946
L_PER_GALLON = 3.785411784
LB_TO_KG = 0.45359237
KGF_TO_N = 9.80665
LBF_TO_N = 4.4482216152605
PSI_TO_MPA = 0.006894757293168361
LB_FT3_TO_KG_M3 = 16.01846337396014


class UnitsError(InputError):
    """A mistake that is told in both systems of units, and by ``told`` in one of them.

    Parameters: say, the message for 'us', 'si', or '' for both (size_told, either_unit).
    """

    def __init__(self, say: Callable[[str], str]) -> None:
        self._say = say
        super().__init__(say(""))

    def told(self, units: str) -> str:
        """The message in a system of units."""
        return self._say(units)


def told_in(error: InputError, units: str) -> str:
    """The message of an error in a system of units, as far as it knows the two apart."""
    return error.told(units) if isinstance(error, UnitsError) else str(error)


def either_unit(units: str, us: str, si: str) -> str:
    """What is said in a system of units, 'us' or 'si'; both with an 'or' for ''."""
    return us if units == "us" else si if units == "si" else f"{us} or {si}"


def size_told(size_mm: float, units: str = "") -> str:
    """A size for a message: '9-1/2 in', '241.3 mm', or for '' '9-1/2 in (241.3 mm)'.

    Inches are a fraction where they are one of 64ths.
    """
    number = size_mm / MM_PER_INCH
    sixty_fourths = isfinite(number) and abs(number * 64.0 - round(number * 64.0)) < 1e-6
    inches = f"{fraction_of_inch(number, 64) if sixty_fourths else f'{number:.4g}'} in"
    metric = f"{float(f'{size_mm:.4g}'):g} mm"
    return inches if units == "us" else metric if units == "si" else f"{inches} ({metric})"


def sizes_told(text: str, *sizes_mm: float) -> Callable[[str], str]:
    """What UnitsError says: a message with {} where each size stands."""
    return lambda units: text.format(*(size_told(mm, units) for mm in sizes_mm))


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


def _sized(mm: float, text: str | float) -> float:
    """A length that a shop can mean: nothing at all, or from FINEST_MM to FARTHEST_MM.

    Raises: InputError.
    """
    if mm and not FINEST_MM <= mm <= FARTHEST_MM:
        what = "finer than wood is measured" if mm < FINEST_MM else "longer than any piece"
        raise InputError(f"a length of {_shortened(str(text))} is {what}")
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

    Raises: InputError for anything else.
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
        raise InputError(f"{text} is below absolute zero")
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


def fraction_of_inch(inches: float, denominator: int = 32, up: bool = False) -> str:
    """Inches to the nearest fraction: 38.53 is '38-17/32'; ``up`` rounds up (sizes to drill)."""
    units = abs(inches) * denominator
    whole, rest = divmod(ceil(units - 1e-9) if up else round(units), denominator)
    sign = "-" if inches < 0 and (whole or rest) else ""
    if not rest:
        return f"{sign}{whole}"
    common = gcd(rest, denominator)
    text = f"{rest // common}/{denominator // common}"
    return f"{sign}{whole}-{text}" if whole else f"{sign}{text}"


def fixed(value: float, decimals: int) -> str:
    """A number with so many decimals and thousands separated; never '-0.0'."""
    # In two steps, as Kind.number.
    text = f"{round(value, decimals + 6):,.{decimals}f}"
    return text.lstrip("-") if not float(text.replace(",", "")) else text


def _size_in(x: float) -> str:
    return f"{fraction_of_inch(x)} in"


def _size_mm(x: float) -> str:
    return f"{fixed(x, 1).removesuffix('.0')} mm"


def _size_up_in(x: float) -> str:
    return f"{fraction_of_inch(x, up=True)} in"


def _tool_in(x: float) -> str:
    return f"{fraction_of_inch(x, 64, up=True)} in"


def _reach_in(x: float) -> str:
    return f"{floor(x + 1e-9)} in"


def _reach_mm(x: float) -> str:
    return f"{fixed(floor(x / 10.0 + 1e-9) * 10.0, 0)} mm"


def _size_up_mm(x: float) -> str:
    return _size_mm(ceil(x * 10.0 - 1e-6) / 10.0)


def _change_in(x: float) -> str:
    near = fraction_of_inch(x, 64)
    return f"{fixed(x, 3)} in" + (f" (about {near})" if near != "0" else "")


def _distance_miles(x: float) -> str:
    return f"{fixed(x / KM_PER_MILE, 0)} miles"


class Kind(NamedTuple):
    """How one kind of quantity is printed.

    ``si`` and ``us`` are the unit suffixes of keys, ``labels`` the units as printed;
    SI value = US value times ``factor`` (``offset`` is added to a US value); ``digits`` are the
    decimals kept in JSON, ``shown`` those printed; ``texts`` print what is more than a number
    and its unit. Pairs are (SI, US).
    """

    si: str
    us: str
    labels: tuple[str, str]
    factor: float
    digits: tuple[int, int]
    shown: tuple[int, int]
    texts: tuple[Callable[[float], str] | None, Callable[[float], str] | None] = (None, None)
    offset: float = 0.0

    def suffix(self, units: str) -> str:
        """The unit suffix of a key in a system of units, 'us' or 'si'."""
        return self.us if units == "us" else self.si

    def label(self, units: str) -> str:
        """The unit as printed."""
        return self.labels[units == "us"]

    def convert(self, value: float, units: str) -> float:
        """The SI value in the system of units, not rounded."""
        return value / self.factor + self.offset if units == "us" else value

    def number(self, value: float, units: str) -> float:
        """The value in the system of units, rounded for JSON.

        Rounded in two steps, so that the last bit of a sum, in which versions of Python differ,
        does not tip a value that lies halfway.
        """
        digits = self.digits[units == "us"]
        return round(round(self.convert(value, units), digits + 6), digits)

    def text(self, value: float, units: str) -> str:
        """The value as people read it, with its unit."""
        x = self.convert(value, units)
        special = self.texts[units == "us"]
        if special:
            return special(x)
        return f"{fixed(x, self.shown[units == 'us'])} {self.label(units)}".rstrip()


_LENGTHS = ("mm", "in")
_PLAIN_NUMBER = ("", "")
KINDS: dict[str, Kind] = {
    "size": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (1, 4), (1, 4), (_size_mm, _size_in)),
    "size_up": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (1, 4), (1, 4), (_size_up_mm, _size_up_in)),
    "tool": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (1, 4), (1, 4), (_size_mm, _tool_in)),
    "reach": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (1, 4), (0, 0), (_reach_mm, _reach_in)),
    "change": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (2, 4), (2, 3), (None, _change_in)),
    "change_end": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (2, 4), (2, 3)),
    # A distance on the map is in km for programs, whatever the units.
    "distance": Kind("", "", ("km", "miles"), 1.0, (2, 2), (0, 0), (None, _distance_miles)),
    "drop": Kind("mm", "in", _LENGTHS, MM_PER_INCH, (1, 2), (0, 0)),
    "area": Kind("m2", "ft2", ("m2", "ft2"), M2_PER_FT2, (3, 2), (3, 2)),
    "volume": Kind("m3", "board_feet", ("m3", "board feet"), BOARD_FOOT_M3, (4, 2), (4, 2)),
    "cut": Kind("cm3", "in3", ("cm3", "in3"), CM3_PER_IN3, (1, 3), (0, 1)),
    "solid": Kind("m3", "ft3", ("m3", "ft3"), M3_PER_FT3, (5, 3), (4, 2)),
    "liquid": Kind("l", "qt", ("L", "qt"), L_PER_QUART, (2, 2), (2, 2)),
    "mass": Kind("kg", "lb", ("kg", "lb"), LB_TO_KG, (2, 2), (1, 1)),
    "density": Kind("kg_m3", "lb_ft3", ("kg/m3", "lb/ft3"), LB_FT3_TO_KG_M3, (0, 1), (0, 1)),
    "gravity": Kind("", "", _PLAIN_NUMBER, 1.0, (4, 4), (2, 2)),
    "force": Kind("n", "lbf", ("N", "lbf"), LBF_TO_N, (0, 0), (0, 0)),
    "line_load": Kind("n_m", "lbf_ft", ("N/m", "lbf/ft"), LBF_TO_N / 0.3048, (1, 2), (0, 1)),
    "stress": Kind("mpa", "psi", ("MPa", "psi"), PSI_TO_MPA, (1, 0), (1, 0)),
    "modulus": Kind("mpa", "million_psi", ("MPa", "million psi"), PSI_TO_MPA * 1e6, (0, 2), (0, 2)),
    "work": Kind("kj_m3", "in_lbf_in3", ("kJ/m3", "in-lbf/in3"), PSI_TO_MPA * 1e3, (0, 1), (0, 1)),
    "temperature": Kind("c", "f", ("C", "F"), 1 / 1.8, (1, 1), (1, 0), offset=32.0),
    "percent": Kind("pct", "pct", ("%", "%"), 1.0, (2, 2), (1, 1)),
    "share": Kind("pct", "pct", ("%", "%"), 1.0, (1, 1), (0, 0)),
    "per_pct": Kind("per_pct", "per_pct", ("1/%", "1/%"), 1.0, (7, 7), (5, 5)),
    "pct_per_pct": Kind("pct_per_pct", "pct_per_pct", ("%/%", "%/%"), 1.0, (4, 4), (2, 2)),
    "ratio": Kind("", "", _PLAIN_NUMBER, 1.0, (3, 3), (3, 3)),
    "tenths": Kind("", "", _PLAIN_NUMBER, 1.0, (2, 2), (1, 1)),
    "count": Kind("", "", _PLAIN_NUMBER, 1.0, (0, 0), (0, 0)),
    "money": Kind("", "", _PLAIN_NUMBER, 1.0, (2, 2), (2, 2)),
    "board_feet": Kind("", "", _PLAIN_NUMBER, 1.0, (2, 2), (2, 2)),
}


def in_both(kind: str, value: float) -> str:
    """A quantity in both systems of units, for a page both read: '47.6 lb (21.6 kg)'.

    Parameters: kind by its name in KINDS; value [SI].
    """
    us, si = (KINDS[kind].text(value, units) for units in ("us", "si"))
    return f"{us} ({si.replace('.0 mm', ' mm')})"
