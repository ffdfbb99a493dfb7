"""The tables of an estimate beside wood and weight: finish, spans, the months after delivery."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING

from woodref.answers.deflection import modulus_in_units
from woodref.answers.drying_notes import ONE_FACE
from woodref.answers.provenance import sentence, sentences
from woodref.answers.render import Column, Section
from woodref.answers.words import SUPPORTED, range_columns, range_row
from woodref.climate.seasons import MONTH_NAMES, MONTHS
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate

NEVER = (
    "Sag is a matter of looks here, never a structural value: it does not say that a shelf or a "
    "rail is safe."
)


def finish_section(estimate: Estimate) -> Section:
    """What is put on, how much of it, and what it costs."""
    columns = [
        Column("finish", "finish"),
        Column("coats", "coats", "count"),
        Column("area", "area", "area"),
        Column("amount", "amount", "liquid"),
        Column("mass", "dry", "mass"),
        *range_columns("cost", "cost", "money"),
    ]
    line = estimate.finish
    rows = (
        [
            {
                "finish": line.finish.name or "none",
                "coats": line.finish.coats,
                "area": line.area_m2,
                "amount": line.liters,
                "mass": line.mass_kg or None,
                **range_row("cost", line.cost),
            }
        ]
        if line
        else []
    )
    return Section("finishes", "Finish", columns, rows)


def _verdict(holds: bool, known: bool) -> str:
    if not known:
        return "not known"
    return "holds" if holds else "sags too much"


def span_section(estimate: Estimate, units: str) -> Section:
    """How every span sags, now and after years, and how thick it must be."""
    rows = []
    for r in estimate.spans:
        span, d = r.spec.span, r.sag
        rows.append(
            {
                "span": r.spec.name,
                "part": r.spec.part,
                "support": SUPPORTED[span.support],
                "length": span.span_mm,
                "thickness": span.thickness_mm,
                "verdict": _verdict(bool(d and d.holds), d is not None),
                "unknown_reason": r.unknown or None,
                **(
                    {
                        **range_row("sag_now", d.now_mm),
                        **range_row("sag_later", d.later_mm),
                        "sag_limit": d.limit_mm,
                        "needed_thickness": d.needed_mm,
                        "needed_thickness_high": d.needed_high_mm,
                        "moisture": d.moisture_pct,
                        "modulus_of_elasticity": modulus_in_units(d, units),
                    }
                    if d
                    else {}
                ),
            }
        )
    columns = [
        Column("span", "span"),
        Column("part", ""),
        Column("support", ""),
        Column("length", "length", "size"),
        Column("thickness", "height", "size"),
        Column("moisture", "", "percent"),
        Column("modulus_of_elasticity", "", "modulus"),
        Column("sag_now", "sag now", "change"),
        Column("sag_now_low", "", "change_end"),
        Column("sag_now_high", "", "change_end"),
        *range_columns("sag_later", "after years", "change"),
        Column("sag_limit", "limit", "change_end"),
        Column("needed_thickness", "height needed", "size_up"),
        Column("needed_thickness_high", "", "size_up"),
        Column("verdict", "verdict"),
        Column("unknown_reason", ""),
    ]
    return Section("spans", "Spans, by the look of them", columns, rows)


def span_line(estimate: Estimate, units: str) -> list[str]:
    """The line of the headline about spans: which sag too much, and what would hold."""
    if not estimate.spans:
        return []
    change, size = KINDS["change"].text, KINDS["size_up"].text
    low = []
    for r in estimate.spans:
        d = r.sag
        if d and not d.holds:
            must = f", {size(d.needed_mm, units)} would hold" if isfinite(d.needed_mm) else ""
            low.append(
                f"{r.spec.name} by {change(d.later_mm.expected, units)} over "
                f"{size(d.span.span_mm, units)} after years{must}"
            )
    if low:
        return [f"Sags too much: {'; '.join(low)}."]
    known = [r for r in estimate.spans if r.sag]
    return [f"No span is seen to sag ({len(known)} checked)."] if known else []


def delivery_section(estimate: Estimate) -> Section:
    """The part that moves most at the end of each month after delivery."""
    d = estimate.delivery
    name = estimate.largest[0].part.name if estimate.largest else ""
    return Section.of(
        "delivery",
        f"After delivery: {name} at the end of each month, through the lag of its thickness",
        [
            Column("month", "month"),
            Column("emc", "air", "percent"),
            *range_columns("mean_moisture", "board", "percent"),
            *range_columns("change", "width since build", "change"),
        ],
        (
            (MONTHS[m.month - 1], m.emc_pct, *m.mean_pct, *m.change_mm)
            for m in (d.months if d else ())
        ),
    )


def span_notes(estimate: Estimate) -> list[str]:
    """What must be said of the spans."""
    if not estimate.spans:
        return []
    notes = [
        f"{sentence(r.spec.name)}: sag is not known: {r.unknown}."
        for r in estimate.spans
        if r.unknown
    ]
    sags = [r.sag for r in estimate.spans if r.sag]
    return [
        *notes,
        NEVER,
        *dict.fromkeys(line for d in sags for line in sentences(d.notes)),
        "After years about twice the first sag at usual loads in a dry room (FPL-GTR-190 "
        "(2010), 5-39, inferred); visible sag 0.02 in per foot of span (common practice, no "
        "source); likely range by the coefficient of variation of the modulus between boards, 22 % "
        "(checked), and that of its mean.",
    ]


def finish_notes(estimate: Estimate) -> list[str]:
    """What must be said of the finish."""
    line = estimate.finish
    if not line:
        return []
    notes = []
    if not line.measured:
        notes.append(
            "The finish covers all faces, edges and ends of the lumber parts, each taken as a "
            "box; give area in [finish] for another."
        )
    if line.liters is not None:
        notes.append("Nothing is added to the finish for what stays in brush and can.")
    if line.finish.one_face:
        notes.append(ONE_FACE)
    return notes


def delivery_notes(estimate: Estimate, units: str) -> list[str]:
    """What must be said of the months after delivery."""
    d = estimate.delivery
    if not d:
        return []
    text, ends = KINDS["change"].text, KINDS["change_end"].text
    swing = d.swing_mm
    return [
        f"In the years after delivery {estimate.largest[0].part.name if estimate.largest else ''} "
        f"swings by {text(swing.expected, units)}, likely {ends(swing.low, units)} to "
        f"{ends(swing.high, units)}: {100.0 * d.year.mean_share.expected:.0f} % of the air's "
        f"swing reach its mean; it is {d.finish.label}. It arrives at the beginning of "
        f"{MONTH_NAMES[d.months[0].month - 1]}. The lag rests on a recalled relation (unchecked); "
        "woodref delivery says more."
    ]


def extra_notes(estimate: Estimate, units: str) -> list[str]:
    """What must be said of spans, finish and the months after delivery."""
    return [*span_notes(estimate), *finish_notes(estimate), *delivery_notes(estimate, units)]
