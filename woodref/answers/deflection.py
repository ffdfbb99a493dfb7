"""The answer of the command deflection: how much a shelf, top or rail sags, now and in years."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from woodref.answers.provenance import based_on, basis_notes, sentence, sentences, unchecked_line
from woodref.answers.render import FACTS, Answer, Column, Section
from woodref.answers.words import SUPPORTED, range_facts
from woodref.board.deflection import THICKEST_MM
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.board.deflection import Deflection

_NEVER = (
    "Never a structural value: it says whether a shelf looks straight, not whether it is safe; "
    "for anything that must carry people or may fall on them, local codes and licensed practice "
    "decide."
)


def deflection_answer(d: Deflection, units: str) -> Answer:
    """The sag of a board, and the thickness that would keep it under its limit.

    Parameters: d; units 'us' or 'si'.
    """
    columns = [
        Column("when", "when"),
        Column("sag", "sag", "change"),
        Column("low", "likely from", "change_end"),
        Column("high", "to", "change_end"),
    ]
    rows = [("now", *d.now_mm), ("after years", *d.later_mm)]
    return Answer(
        headline=[*_lines(d, units), *unchecked_line(d.values)],
        facts=[
            (Column("wood", ""), d.wood.common_name),
            (Column("modulus_of_elasticity", "", "modulus"), modulus_in_units(d, units)),
            (Column("own_weight", "", "force"), d.own_weight_n),
            (Column("visible_sag", "", "change"), d.visible_mm),
            (Column("sag_limit", "", "change"), d.limit_mm),
            (Column("needed_thickness", "", "size_up"), d.needed_mm),
            (Column("needed_thickness_high", "", "size_up"), d.needed_high_mm),
            (Column("creep_factor", "", "ratio"), d.creep_factor),
            *range_facts("sag_now", "change", d.now_mm),
            *range_facts("sag_later", "change", d.later_mm),
        ],
        sections=[Section.of("", "", columns, rows), based_on(d.values)],
        notes=_notes(d),
        main=FACTS,
    )


def modulus_in_units(d: Deflection, units: str) -> float:
    """The modulus in use [MPa], as print gives it in the units where nothing changes it."""
    return d.values[0].in_units(units).value if d.modulus_as_printed else d.modulus_mpa


def _lines(d: Deflection, units: str) -> list[str]:
    change, size = KINDS["change"].text, KINDS["size_up"].text
    seen = "seen as sagging" if d.seen else "too little to be seen"
    under = "that" if d.limit_mm == d.visible_mm else change(d.limit_mm, units)
    lead = (
        f"{sentence(d.wood.common_name)} sags {change(d.now_mm.expected, units)} now and about "
        f"{change(d.later_mm.expected, units)} after years of this load: {seen} "
        f"(the eye begins at {change(d.visible_mm, units)})."
    )
    if not isfinite(d.needed_mm):
        return [lead, f"No thickness up to {size(THICKEST_MM, units)} keeps it under {under}."]
    high = d.needed_high_mm
    flexible = f", {size(high, units)} at the low end of its stiffness" if isfinite(high) else ""
    return [
        lead,
        f"To stay under {under} for years it must be {size(d.needed_mm, units)} thick{flexible}. "
        "Never a structural value.",
    ]


def _notes(d: Deflection) -> list[str]:
    return [
        _NEVER,
        f"A solid board {SUPPORTED[d.span.support]}, its own weight counted; where two loads have "
        "their worst spots apart, the two largest sags are added.",
        *sentences(d.notes),
        f"After years about {d.creep_factor:g} times the first sag at usual loads in a dry "
        "room (FPL-GTR-190 (2010), 5-39, inferred); two to three times the creep where it is "
        "50 F warmer, four to six times the first sag where green wood dries under load.",
        "Visible sag: 0.02 in per foot of span (common practice, no source).",
        "Likely range of a single board from the spread of the modulus, coefficient of variation "
        f"{d.values[0].cv_pct:.0f} %: 22 % between boards, FPL-GTR-190 (2010), Table 5-6, p. 5-26 "
        "(checked), the rest that of the mean itself.",
        *basis_notes(d.values),
    ]
