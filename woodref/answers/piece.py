"""The answer of an estimate: two lines first, then tables, cautions and assumptions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.piece_extras import extra_notes, span_line
from woodref.answers.piece_fixings import fixing_line, fixing_notes
from woodref.answers.piece_shipping import crate_line, crate_notes
from woodref.answers.piece_tables import SPANS, sections_of
from woodref.answers.provenance import caution_line, caution_row, recalled_line, sentence, sentences
from woodref.answers.render import Answer, Column
from woodref.answers.steps import step_section, step_text
from woodref.answers.words import range_facts
from woodref.explain.piece import steps_of
from woodref.piece.assumptions import ROOM
from woodref.piece.estimate import Estimate
from woodref.reference.bases import COMMON_PRACTICE, EDITORIAL, UNCHECKED
from woodref.reference.properties import PROPERTIES
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.quantity import Range


#: How an assumption is known that a reader must see without asking.
_UNSURE = (UNCHECKED, COMMON_PRACTICE, EDITORIAL)


def _money(figure: Range, currency: str) -> str:
    text = KINDS["money"].text
    unit = f" {currency}" if currency else ""
    ends = f" ({text(figure.low, 'us')} to {text(figure.high, 'us')})" if figure.is_range else ""
    return f"{text(figure.expected, 'us')}{unit}{ends}"


def headline(found: Estimate, units: str) -> list[str]:
    """Weight, cost and largest movement, in two lines; then what does not hold."""
    mass, text = found.mass_kg["build"], KINDS["mass"].text
    weight = (
        f"{found.piece.name}: {text(mass.expected, units)} (likely {text(mass.low, units)} to "
        f"{text(mass.high, units)}) at {found.piece.build.moisture_pct:.1f} % moisture content"
    )
    if len(found.unweighed) == len(found.parts):
        weight = f"{found.piece.name}: weight not known"
    elif found.unweighed:
        weight += f", without {_count(len(found.unweighed), 'part')} of unknown weight"
    if found.cost is None:
        cost = "not priced"
    else:
        cost = f"materials {_money(found.cost, found.currency)}"
        if found.unpriced:
            cost += f", without {_count(len(found.unpriced), 'item')} not priced"
    return [
        f"{weight}; {cost}.",
        _largest(found, units),
        *span_line(found, units),
        *fixing_line(found, units),
        *crate_line(found, units),
        *_plan_line(found),
    ]


def _plan_line(found: Estimate) -> list[str]:
    """The line of the headline about boards: do all parts come out, and what to buy."""
    if found.plan is None:
        return []
    from woodref.answers.buying import plan_lines

    return [" ".join(plan_lines(found.plan))]


def _count(n: int, what: str) -> str:
    return f"{n} {what}{'' if n == 1 else 's'}"


def _largest(found: Estimate, units: str) -> str:
    if found.largest is None:
        return "No part is known to move in width."
    part, move = found.largest
    start, end = SPANS[part.movements.index(move)]
    text, ends = KINDS["change"].text, KINDS["change_end"].text
    change = move.likely_change_mm.unsigned
    verb = "widens" if move.change_mm >= 0 else "narrows"
    return (
        f"Moves most: {part.part.name}, {KINDS['size'].text(part.part.width_mm, units)} wide, "
        f"{verb} by {text(change.expected, units)} (likely {ends(change.low, units)} to "
        f"{ends(change.high, units)}) from {start} {move.from_moisture_pct:.1f} % to {end} "
        f"{move.to_moisture_pct:.1f} %."
    )


def _facts(found: Estimate) -> list[tuple[Column, Any]]:
    """Single values for JSON."""
    buy = found.buy_board_feet
    facts: list[tuple[Column, Any]] = [
        (Column("piece", ""), found.piece.name),
        (Column("currency", ""), found.currency or None),
        (Column("board_feet", "", "board_feet"), found.board_feet),
        (Column("buy_board_feet", "", "board_feet"), buy.expected),
        (Column("buy_board_feet_low", "", "board_feet"), buy.low),
        (Column("buy_board_feet_high", "", "board_feet"), buy.high),
        (Column("volume", "", "solid"), found.volume_m3),
    ]
    heaviest = found.masses.heaviest_lift
    facts.append((Column("heaviest_lift", ""), heaviest[0] if heaviest else None))
    for key, kind, figure in (
        ("mass", "mass", found.mass_kg["build"]),
        ("heaviest_lift_mass", "mass", heaviest[1] if heaviest else None),
        ("cost", "money", found.cost),
    ):
        facts += range_facts(key, kind, figure)
    facts += [
        (Column("unweighed", ""), list(found.unweighed)),
        (Column("unpriced", ""), list(found.unpriced)),
        (Column("cautions", ""), [caution_row(n) for n in found.notices]),
        (Column("assumptions", ""), sentences(found.assumptions)),
    ]
    return facts


def _notes(found: Estimate, units: str, explain: bool) -> list[str]:
    notes = [f"Not priced: {x}." for x in found.unpriced]
    notes += [f"Not weighed: {x}." for x in found.unweighed]
    notes += [f"{sentence(n.text.rstrip('.'))}." for n in found.remarks]
    notes += [*fixing_notes(found), *extra_notes(found, units), *crate_notes(found, units)]
    for wood, value in found.figures:
        label = f"{wood.common_name}, {PROPERTIES[value.property_id].label}"
        if value.recalled:
            notes.append(f"[unchecked] {label} is recalled, not seen in print.")
        elif value.basis_reason:
            notes.append(f"{sentence(label)}: {value.basis_reason}.")
        if value.sample:
            notes.append(f"{sentence(label)} is from a narrow sample: {value.sample}.")
    notes += [caution_line(notice) for notice in found.notices]
    if explain:
        notes += [f"Assumed: {x}" for x in sentences(found.assumptions)]
        notes += [f"Computed: {step_text(step)}" for step in steps_of(found)]
    else:
        # Rooms, and what is recalled or without a source, are always told; the rest on asking.
        told = [n for n in found.assumptions if n.code == ROOM or n.basis in _UNSURE]
        notes += [f"Assumed: {x}" for x in sentences(told)]
        notes.append("--explain says what is assumed, and each formula with its numbers.")
    return notes


def answer_of(
    found: Estimate, units: str, for_people: bool = True, explain: bool = False
) -> Answer:
    """The estimate as an answer: two lines, then tables, cautions and sources.

    For programs (``for_people`` false) every table is complete, for people it is narrow and
    without empty columns. ``explain`` adds what is assumed and how each figure was computed.
    """
    steps = [step_section(steps_of(found))] if explain and not for_people else []
    return Answer(
        headline=[*headline(found, units), *recalled_line(v for _, v in found.figures)],
        facts=_facts(found),
        sections=[*sections_of(found, for_people), *steps],
        notes=_notes(found, units, explain and for_people),
        main="parts",
    )
