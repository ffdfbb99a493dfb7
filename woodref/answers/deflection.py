"""The answer of the command deflection: how much a shelf, top or rail sags, now and in years."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.answer import FACTS, Answer, Column, Section
from woodref.answers.property_text import marks
from woodref.answers.provenance import based_on, basis_notes, sentence, sentences
from woodref.answers.sag_words import (
    LIMIT_COLUMNS,
    VERDICTS,
    limber_note,
    limit_rows,
    load_words,
    modulus_in_units,
    needed_words,
    sag_notes,
    sag_section,
    sag_words,
)
from woodref.answers.shop_words import change_text
from woodref.answers.words import SUPPORTED, identity, likely_text, range_facts, sold_as

if TYPE_CHECKING:
    from woodref.board.deflection import Deflection

NEVER = (
    "Never a structural value: it says how far a board sags, not whether it is safe; for anything "
    "that must carry people or may fall on them, local codes and licensed practice decide."
)


def deflection_answer(d: Deflection, units: str) -> Answer:
    """The sag of a board, and the thickness that would keep it within its limits.

    Parameters: d; units 'us' or 'si'.
    """
    limits = limit_rows(d) if d.span.loaded else []
    later = d.later_mm
    return Answer(
        headline=[*_lines(d, units)],
        facts=[
            (Column("wood", ""), d.material.name),
            (Column("verdict", ""), VERDICTS[d.verdict] if d.verdict else None),
            (Column("usual_load", ""), d.span.usual.carried.value if d.span.usual else None),
            (Column("usual_load_assumed", ""), d.span.usual_assumed),
            (Column("short_load", ""), d.span.short),
            (Column("uniform_load", "", "line_load"), d.span.uniform_n_m),
            (Column("point_load", "", "force"), d.span.point_n),
            (Column("own_weight", "", "force"), d.own_weight_n),
            (Column("modulus_of_elasticity", "", "modulus"), modulus_in_units(d.material, units)),
            *range_facts("sag_now", "change", d.now_mm),
            (Column("sag_later_least", "", "change"), later[0].expected if later else None),
            (Column("sag_later_most", "", "change"), later[-1].expected if later else None),
        ],
        sections=[
            Section.of("sag_limits", "", LIMIT_COLUMNS, limits, aside=True),
            sag_section(d)._replace(aside=True),
            based_on(d.material.values),
        ],
        notes=_notes(d, units),
        main=FACTS,
        names=sold_as(d.material.wood) if d.material.wood else [],
    )


def _lines(d: Deflection, units: str) -> list[str]:
    name = sentence(d.material.name)
    if d.span.loaded:
        lines = [f"{name} sags {sag_words(d, units)}."]
    else:
        sag = likely_text(d.now_mm, "change", units, marks(*d.material.values))
        lines = [f"{name} sags {sag} under {load_words(d.span, units)}."]
    if d.creep_factors:
        ends = dict.fromkeys(change_text(sag.expected, units) for sag in d.later_mm)
        more = " or more" if d.material.is_panel else ""
        lines.append(f"After years of it {' to '.join(ends)}{more}.")
    if d.span.loaded:
        lines += [needed_words(d, units), "Never a structural value."]
    else:
        lines.append("What it is to carry is left out, so nothing is said for or against it.")
    return lines


def _notes(d: Deflection, units: str) -> list[str]:
    what = "A panel" if d.material.is_panel else "A board"
    what = "A round part" if d.span.is_round else what
    return [
        NEVER,
        f"{what} {SUPPORTED[d.span.support]}, its own weight counted; where two loads have their "
        "worst spots apart, the two largest sags are added.",
        *sag_notes(d, units),
        *(identity(d.material.wood) if d.material.wood else []),
        *sentences(d.material.notes, units),
        *limber_note(d.material),
        *basis_notes(d.material.values),
    ]
