"""The tables of an estimate beside wood and weight: finish, spans, the months after delivery."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Heed, Section
from woodref.answers.drying_notes import ONE_FACE
from woodref.answers.provenance import sentence, sentences
from woodref.answers.sag_words import (
    LIMIT_COLUMNS,
    VERDICTS,
    limber_note,
    limit_rows,
    load_words,
    modulus_in_units,
    needed_words,
    sag_notes,
    sag_words,
)
from woodref.answers.words import SUPPORTED, likely_text, range_columns, range_row
from woodref.board.deflection import SagVerdict
from woodref.climate.seasons import MONTH_NAMES, MONTHS

if TYPE_CHECKING:
    from woodref.board.deflection import Deflection
    from woodref.piece.estimate import Estimate
    from woodref.piece.in_use import SpanResult

NEVER = "Sag is never a structural value here: it does not say that a shelf or a rail is safe."


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


def _verdict(result: SpanResult) -> str:
    if result.load_missing:
        return "no load named"
    if result.sag is None:
        return "not known"
    return VERDICTS[result.sag.verdict] if result.sag.verdict else "nothing on it"


def span_section(estimate: Estimate, units: str, for_people: bool = True) -> Section:
    """How every span sags, now and after years, and how it stands to its limits.

    Parameters: estimate; units 'us' or 'si'; for_people with loads in words.
    """
    return Section(
        "spans",
        "Spans",
        [
            Column("span", "span"),
            Column("part", ""),
            Column("support", ""),
            *([Column("carries", "carries")] if for_people else []),
            Column("usual_load", ""),
            Column("uniform_load", "", "line_load"),
            Column("point_load", "", "force"),
            Column("usual_load_assumed", ""),
            Column("short_load", ""),
            Column("length", "length", "size"),
            Column("thickness", "height", "size"),
            Column("moisture", "", "percent"),
            Column("modulus_of_elasticity", "", "modulus"),
            Column("sag_now", "sag now", "change"),
            Column("sag_now_low", "", "change_end"),
            Column("sag_now_high", "", "change_end"),
            Column("sag_later_least", "after years", "change_end"),
            Column("sag_later_most", "to", "change_end"),
            Column("verdict", "verdict"),
            Column("unknown_reason", ""),
        ],
        [_span_row(r, units) for r in estimate.spans],
    )


def _span_row(r: SpanResult, units: str) -> dict[str, Any]:
    span, d = r.sag.span if r.sag else r.spec.span, r.sag
    row = {
        "span": r.spec.name,
        "part": r.spec.part,
        "support": SUPPORTED[span.support],
        "carries": load_words(span, units) if d else "",
        "usual_load": span.usual.carried.value if span.usual else None,
        "uniform_load": span.uniform_n_m,
        "point_load": span.point_n,
        "usual_load_assumed": span.usual_assumed,
        "short_load": span.short,
        "length": span.span_mm,
        "thickness": span.thickness_mm,
        "verdict": _verdict(r),
        "unknown_reason": r.unknown or None,
    }
    if d is None:
        return row
    later = d.later_mm
    return {
        **row,
        **range_row("sag_now", d.now_mm),
        "sag_later_least": later[0].expected if later else None,
        "sag_later_most": later[-1].expected if later else None,
        "moisture": d.material.moisture_pct,
        "modulus_of_elasticity": modulus_in_units(d.material, units),
    }


def limit_section(estimate: Estimate) -> Section:
    """Every span that carries something against each of its limits."""
    loaded = [(r.spec.name, r.sag) for r in estimate.spans if r.sag and r.sag.span.loaded]
    return Section.of(
        "sag_limits",
        "Limits of sag",
        [Column("span", "span"), *LIMIT_COLUMNS],
        [(name, *row) for name, d in loaded for row in limit_rows(d)],
    )


def span_lines(estimate: Estimate, units: str) -> list[str]:
    """The lines of the headline about spans: what sags too much first, and what would hold."""
    if not estimate.spans:
        return []
    sags = [(r.spec.name, r.sag) for r in estimate.spans if r.sag]
    unjudged = "Sag of the {} is not judged: give load, uniform or point in its [[span]]."
    lines: list[str] = [
        Heed(unjudged.format(r.spec.name)) for r in estimate.spans if r.load_missing
    ]
    for name, d in sags:
        if d.verdict is SagVerdict.SAGS:
            told = f"Sags too much: {name}, {sag_words(d, units)}. {needed_words(d, units)}"
            lines.append(Heed(told))
    for name, d in sags:
        if d.verdict is SagVerdict.TRADE:
            lines.append(f"The {name} sags {sag_words(d, units)}.")
    good = [d for _, d in sags if d.verdict in (SagVerdict.STRAIGHT, SagVerdict.OWN)]
    if good:
        spans = "span" if len(good) == 1 else "spans"
        rest = "Sag of the rest" if lines else "Sag"
        lines.append(f"{rest}: ok ({len(good)} {spans}{_within(good)}).")
    return lines


def _within(good: Sequence[Deflection]) -> str:
    """', within L/360', where the spans share their finest limit."""
    finest = {max(c.limit.divisor for c in d.checks if c.met) for d in good}
    return f", within L/{finest.pop():g}" if len(finest) == 1 else ""


def delivery_section(estimate: Estimate) -> Section:
    """The part that moves most at the end of each month after delivery."""
    d = estimate.delivery
    name = estimate.leading[0].part.name if estimate.leading else ""
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


def span_notes(estimate: Estimate, units: str) -> list[str]:
    """What must be said of the spans."""
    if not estimate.spans:
        return []
    notes = [
        f"{sentence(r.spec.name)}: sag is not known: {r.unknown}."
        for r in estimate.spans
        if r.unknown and not r.load_missing
    ]
    sags = [r.sag for r in estimate.spans if r.sag]
    said = [*(n for d in sags for n in sag_notes(d, units))]
    said += [line for d in sags for line in sentences(d.material.notes, units)]
    said += [line for d in sags for line in limber_note(d.material)]
    return [*notes, NEVER, *dict.fromkeys(said)]


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
    return [
        f"In the years after delivery {estimate.leading[0].part.name if estimate.leading else ''} "
        f"swings by {likely_text(d.swing_mm, 'change', units)}: "
        f"{100.0 * d.year.mean_share.expected:.0f} % of the air's swing reach its "
        f"mean; it is {d.finish.label}. It arrives at the beginning of "
        f"{MONTH_NAMES[d.months[0].month - 1]}. The lag rests on a recalled relation (unchecked); "
        "woodref delivery says more."
    ]


def extra_notes(estimate: Estimate, units: str) -> list[str]:
    """What must be said of spans, finish and the months after delivery."""
    return [*span_notes(estimate, units), *finish_notes(estimate), *delivery_notes(estimate, units)]
