"""What is said of sag: loads, limits, verdicts and creep, the same in every answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import isfinite
from typing import TYPE_CHECKING

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import marks
from woodref.answers.provenance import sentence
from woodref.answers.words import likely_columns, likely_text, listed
from woodref.board.beam_material import Spread
from woodref.board.deflection import THICKEST_MM, SagVerdict
from woodref.board.sag_limits import STRAIGHT_DIVISOR, LimitKind
from woodref.reference.bases import READ, in_words
from woodref.reference.sag_rules import Carried
from woodref.units import KGF_TO_N, KINDS, LBF_TO_N, MM_PER_FOOT

if TYPE_CHECKING:
    from woodref.board.beam_material import BeamMaterial
    from woodref.board.deflection import Deflection, LimitCheck
    from woodref.board.span import Span

_LBF_FT_N_M = LBF_TO_N / (MM_PER_FOOT * 1e-3)
_LB_FT2_N_M2 = _LBF_FT_N_M / (MM_PER_FOOT * 1e-3)

VERDICTS: dict[SagVerdict, str] = {
    SagVerdict.STRAIGHT: "looks straight",
    SagVerdict.TRADE: "within the trade limit",
    SagVerdict.OWN: "within your limit",
    SagVerdict.SAGS: "sags too much",
}
#: What a limit is, by whose it is, in a sentence and in a cell.
_LIMITS: dict[LimitKind, str] = {
    LimitKind.OWN: "your limit {}",
    LimitKind.TRADE: "the trade limit {}",
    LimitKind.STRAIGHT: "{} for a straight look",
}
_LIMIT_OF: dict[LimitKind, str] = {
    LimitKind.OWN: "yours",
    LimitKind.TRADE: "the trade",
    LimitKind.STRAIGHT: "a straight look",
}
_CARRIED: dict[Carried, str] = {
    Carried.SHELF: "the usual load of a shelf",
    Carried.BOOKS: "the usual load of books",
    Carried.BOOK_ROW: "a row of books",
}


def modulus_in_units(material: BeamMaterial, units: str) -> float:
    """The modulus in use [MPa], as print gives it in the units where nothing changes it."""
    if material.modulus_as_printed:
        return material.values[0].in_units(units).value
    return material.modulus_mpa.expected


def load_text(span: Span, units: str) -> str:
    """'40 lb/ft2, the usual load of a shelf', '20 lb per foot and 50 lb'; '' for none.

    Parameters: span; units 'us' or 'si'.
    """
    us, loads = units == "us", []
    if span.usual and span.usual.load_n_m2 is not None:
        x = span.usual.load_n_m2
        area = f"{x / _LB_FT2_N_M2:.3g} lb/ft2" if us else f"{x / KGF_TO_N:.3g} kg/m2"
        loads.append(f"{area}, {_CARRIED[span.usual.carried]}")
    elif span.uniform_n_m:
        x = span.uniform_n_m
        line = f"{x / _LBF_FT_N_M:.3g} lb per foot" if us else f"{x / KGF_TO_N:.3g} kg per meter"
        loads.append(f"{_CARRIED[span.usual.carried]}, {line}" if span.usual else line)
    if span.point_n:
        x = span.point_n
        loads.append(f"{x / LBF_TO_N:.3g} lb" if us else f"{x / KGF_TO_N:.3g} kg")
        loads[-1] += " on one spot"
    return " and ".join(loads)


def load_words(span: Span, units: str) -> str:
    """What a span carries, and that nobody said so where that is so.

    Parameters: span; units 'us' or 'si'.
    """
    text = load_text(span, units) or "its own weight alone"
    return f"{text} (no load was named)" if span.usual_assumed else text


def sag_words(d: Deflection, units: str) -> str:
    """'0.08 in under 20 lb per foot: within L/144 ...'.

    Parameters: d, with a load; units 'us' or 'si'.
    """
    sag = likely_text(d.now_mm, "change", units, marks(*d.material.values))
    return f"{sag} under {load_words(d.span, units)}: {verdict_words(d, units)}"


def verdict_words(d: Deflection, units: str) -> str:
    """'meets the trade limit L/144 (1/4 in), not L/360 (3/32 in) for a straight look'.

    Parameters: d, with a load; units 'us' or 'si'.
    """

    def named(checks: Sequence[LimitCheck]) -> list[str]:
        size = KINDS["size"].text
        return [
            _LIMITS[c.limit.kind].format(f"{c.limit.written} ({size(c.sag_mm, units)})")
            for c in checks
        ]

    met, missed = (named([c for c in d.checks if c.met is is_met]) for is_met in (True, False))
    if not met:
        *others, last = missed
        return f"meets neither {', '.join(others)} nor {last}"
    if not d.deciding.met:
        return f"does not meet {' or '.join(missed)}; meets {listed(met)}"
    return f"meets {listed(met)}" + (f", not {' or '.join(missed)}" if missed else "")


def needed_words(d: Deflection, units: str) -> str:
    """The thickness for each limit, of an average board and of a limber one.

    Parameters: d, with a load; units 'us' or 'si'.
    """
    size = KINDS["size_up"].text

    def thickness(needed_mm: float) -> str:
        if isfinite(needed_mm):
            return size(needed_mm, units)
        return f"more than {size(THICKEST_MM, units)}"

    each = [f"{thickness(c.needed_mm)} for {c.limit.written}" for c in d.checks]
    lead = "Diameter needed" if d.span.is_round else "Thickness needed"
    if d.material.spread is Spread.NONE:
        return f"{lead}: {listed(each)}."
    limber = [thickness(c.needed_high_mm) for c in d.checks]
    what = "panel" if d.material.spread is Spread.PRODUCTS else "board"
    return f"{lead}: {listed(each)}; of a limber {what} {listed(limber)}."


def sag_section(d: Deflection) -> Section:
    """The sag now and after years, by each rule of creep."""
    columns = [
        Column("when", "when"),
        Column("creep_factor", "", "ratio"),
        *likely_columns("sag", "sag", "change"),
    ]
    rows = [("now", 1.0, *d.now_mm)]
    for factor, sag in zip(d.creep_factors, d.later_mm, strict=True):
        rows.append((f"after years, {factor:g} times", factor, *sag))
    return Section.of("sags", "", columns, rows)


LIMIT_COLUMNS = (
    Column("span_fraction", "limit"),
    Column("limit_kind", "of"),
    Column("sag_limit", "allows", "change_end"),
    Column("limit_met", "met"),
    Column("needed_thickness", "thickness needed", "size_up"),
    Column("needed_thickness_high", "limber one", "size_up"),
    Column("longest_span", "longest span", "reach"),
)


def limit_rows(d: Deflection) -> list[tuple[object, ...]]:
    """A span against each of its limits, in the order of LIMIT_COLUMNS."""
    return [
        (
            c.limit.written,
            _LIMIT_OF[c.limit.kind],
            c.sag_mm,
            c.met,
            c.needed_mm,
            c.needed_high_mm,
            c.longest_mm,
        )
        for c in d.checks
    ]


def sag_notes(d: Deflection, units: str) -> list[str]:
    """Where load, limits and creep come from, and what they leave out.

    Parameters: d; units 'us' or 'si'.
    """
    return [*_load_notes(d, units), *_limit_notes(d), _creep_note(d, units)]


def limber_note(material: BeamMaterial) -> list[str]:
    """What a limber board or panel is, and where that range is from; nothing for none."""
    if material.spread is Spread.NONE:
        return ["The modulus is your own, without a range."]
    if material.spread is Spread.PRODUCTS:
        return ["A limber panel has the lowest modulus that print gives for its kind."]
    return [
        "A limber board is one at the low end of the likely range of stiffness: coefficient of "
        f"variation {material.values[0].cv_pct:.0f} %, of that 22 % between boards, FPL-GTR-190 "
        "(2010), Table 5-6, p. 5-26 (checked), the rest that of the mean itself."
    ]


def _load_notes(d: Deflection, units: str) -> list[str]:
    usual = d.span.usual
    if usual is None:
        return []
    printed = f"{load_text(replace(d.span, point_n=0.0), units)}: {usual.source}"
    notes = [f"{sentence(printed)}{'' if usual.basis in READ else f' ({in_words(usual.basis)})'}."]
    if d.over_shelf_limit:
        mass = KINDS["mass"].text
        notes.append(
            f"That is {mass(d.span.load_n / KGF_TO_N, units)}: that standard allows "
            f"{mass(d.rules.most_n / KGF_TO_N, units)} at most on any one shelf."
        )
    return notes


def _limit_notes(d: Deflection) -> list[str]:
    if not d.span.loaded:
        return []
    trade = f"L/{d.rules.trade_divisor:g}"
    straight = f"L/{STRAIGHT_DIVISOR:g}"
    return [
        f"Limits are held against the first sag, as those of printed shelves are: {trade}, "
        f"{d.rules.trade_source}; {straight} is our choice."
    ]


def _creep_note(d: Deflection, units: str) -> str:
    if d.span.short:
        return "No creep where the load comes and goes."
    if d.own_creep:
        return f"After years {d.creep_factors[0]:g} times the first sag, as you gave it."
    rules = "; ".join(
        f"{rule.factor:g} times the first sag, {rule.source}" for rule in d.rules.creep
    )
    warmer = "50 F" if units == "us" else "28 C"
    return (
        f"After years: {rules}; two to three times that creep where it is {warmer} warmer, four to "
        "six times the first sag where green wood dries under load (p. 5-39)."
    )
