"""Units, and how a quantity is told in them, SI or US customary.

Stored and computed values are SI (mm, kg, N, MPa, degC). A :class:`Kind` says how a
quantity of that kind is printed in either system and which unit its JSON key carries.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor, gcd, isfinite
from typing import NamedTuple

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
    metric = f"{_told(size_mm)} mm"
    return inches if units == "us" else metric if units == "si" else f"{inches} ({metric})"


def _told(number: float) -> str:
    """A number of a message, of four digits and without an exponent below a million."""
    return f"{float(f'{number:.4g}'):g}"


def quantity_told(kind: str, value: float, units: str = "") -> str:
    """A quantity for a message: '68 F', '20 C', or for '' '68 F (20 C)'.

    Parameters: kind by its name in KINDS; value [SI].
    """
    of = KINDS[kind]
    us, si = (f"{_told(of.convert(value, u))} {of.label(u)}" for u in ("us", "si"))
    return us if units == "us" else si if units == "si" else f"{us} ({si})"


def impossible_size(what: str, size_mm: float | None) -> Callable[[str], str]:
    """What UnitsError says of a size of a board that is none."""

    def say(units: str) -> str:
        size = "none" if size_mm is None else size_told(size_mm, units)
        most = either_unit(units, "328 ft", "100 m")
        return f"{what} must be above 0 and below {most}, not {size}"

    return say


def sizes_told(text: str, *sizes_mm: float) -> Callable[[str], str]:
    """What UnitsError says: a message with {} where each size stands."""
    return lambda units: text.format(*(size_told(mm, units) for mm in sizes_mm))


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
    return f"{us} ({si})"
