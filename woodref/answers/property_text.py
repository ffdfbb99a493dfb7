"""Printed figures for people: a number in the units asked for, marked for how it is known."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.answers.provenance import sentence
from woodref.formulas.spread import RULE
from woodref.reference.bases import ESTIMATED, SECOND_HAND, UNCHECKED
from woodref.reference.properties import CONDITIONS, PROPERTIES
from woodref.reference.woods import Value
from woodref.units import KINDS, fixed

if TYPE_CHECKING:
    from woodref.choose.columns import Marked

#: Marks behind a figure, with what each says at the end of the page. No mark: read in print.
UNCHECKED_MARK, ROUGH_MARK = "*", "~"
FOOTNOTES: dict[str, str] = {
    UNCHECKED_MARK: "* unchecked, from memory and not seen in print.",
    ROUGH_MARK: "~ estimated, read only in a document that quotes the publication, the middle of a "
    "printed range, or printed at another moisture content.",
}
_MARKS = {UNCHECKED: UNCHECKED_MARK, SECOND_HAND: ROUGH_MARK, ESTIMATED: ROUGH_MARK}
#: Short words for the moisture conditions in a table.
CONDITION_WORDS: dict[str, str] = {
    "green": "green",
    "12pct": "at 12 %",
    "15pct": "at 15 %",
    "air_dry": "air-dry",
    "ovendry": "ovendry",
    "other": "at the moisture content of the test",
    "unstated": "condition not stated",
    "range": "",
}
assert CONDITION_WORDS.keys() == CONDITIONS.keys()


def figure_label(property_id: str, condition: str) -> str:
    """'side hardness at 12 %': the name of a figure, with its condition where that adds."""
    p = PROPERTIES[property_id]
    words = CONDITION_WORDS[condition]
    usual = condition == p.columns[0][0] and condition not in ("12pct", "unstated")
    told = p.label_has_condition and condition == p.columns[0][0]
    if usual or told or not words:
        return p.label
    return f"{p.label}{'' if words.startswith('at ') else ','} {words}"


def unit_of(property_id: str, units: str) -> str:
    """The unit of a property as printed; nothing for a pure number."""
    return KINDS[PROPERTIES[property_id].kind].label(units)


def converted(property_id: str, value: float, units: str) -> float:
    """A value [SI] in the unit of the property in a system of units."""
    return KINDS[PROPERTIES[property_id].kind].convert(value, units)


def _decimals(property_id: str, units: str) -> int:
    return KINDS[PROPERTIES[property_id].kind].shown[units == "us"]


def number(property_id: str, value: float, units: str, digits: int = 0) -> str:
    """A value [SI] as people read it, without its unit.

    Parameters: digits the most significant digits of an estimate; all of a printed figure.
    """
    x = converted(property_id, value, units)
    if digits:
        x = float(f"{x:.{digits}g}")
    return fixed(x, _decimals(property_id, units))


def exact(property_id: str, value: float | None, units: str) -> float | None:
    """A value [SI] in the units asked for, rounded for programs."""
    if value is None:
        return None
    return round(converted(property_id, value, units), _decimals(property_id, units) + 2)


def with_unit(property_id: str, value: float, units: str) -> str:
    """A value [SI] as people read it, with its unit."""
    return f"{number(property_id, value, units)} {unit_of(property_id, units)}".rstrip()


def value_text(value: Value, units: str) -> str:
    """A figure with its unit, as print gives it in a system of units."""
    return with_unit(value.property_id, value.in_units(units).value, units)


def mark_of(basis: str) -> str:
    """The mark of a figure or class that was recalled, quoted or estimated; else nothing."""
    return _MARKS.get(basis, "")


def marks(*values: Value, besides: str = "") -> str:
    """The marks of a figure, or of one computed from several and of what has a mark besides."""
    used = [besides]
    used += [mark_of(v.basis) + (ROUGH_MARK if v.is_midpoint else "") for v in values]
    return "".join(mark for mark in FOOTNOTES if mark in "".join(used))


def marks_of(marked: Marked) -> str:
    """The marks of a figure that rests on others, as ``marks``."""
    return (UNCHECKED_MARK if marked.unchecked else "") + (ROUGH_MARK if marked.rough else "")


def footnotes(used: Iterable[str]) -> list[str]:
    """The lines that say what the marks used on a page mean."""
    seen = "".join(used)
    return [text for mark, text in FOOTNOTES.items() if mark in seen]


def boards_likely(value: Value, units: str) -> str:
    """'913 to 1,810': the central 90 % of single boards; nothing where no spread is known."""
    ends = value.in_units(units).likely or ()
    return " to ".join(number(value.property_id, end, units, digits=3) for end in ends)


def spread_lines(values: Iterable[Value]) -> list[str]:
    """The rule of the likely range, and the coefficients of variation, in two lines."""
    by_basis: dict[str, set[float]] = {}
    for v in values:
        p = PROPERTIES[v.property_id]
        if v.sd is not None and p.cv_pct is not None:
            by_basis.setdefault(p.cv_basis, set()).add(p.cv_pct)
    told = "; ".join(
        f"{', '.join(f'{cv:g}' for cv in sorted(cvs))} %: {basis}"
        for basis, cvs in by_basis.items()
    )
    return [sentence(RULE) + ".", f"Coefficients of variation, {told}."] if told else []
