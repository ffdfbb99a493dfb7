"""The answer of an estimate: two lines first, then tables, cautions and assumptions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Heed, WholePage
from woodref.answers.piece_extras import extra_notes, span_lines
from woodref.answers.piece_fixings import fixing_line, fixing_notes
from woodref.answers.piece_shipping import carton_line, crate_line, crate_notes
from woodref.answers.piece_tables import sections_of
from woodref.answers.property_text import UNCHECKED_MARK, marks
from woodref.answers.provenance import (
    caution_line,
    caution_row,
    sentence,
    sentences,
    unchecked_note,
)
from woodref.answers.quote import quote_facts, quote_notes
from woodref.answers.ready import ready_line, ready_notes
from woodref.answers.shop_words import (
    change_range,
    change_text,
    legend,
    mass_range,
    money_range,
    size_text,
)
from woodref.answers.steps import step_section, step_text
from woodref.answers.words import percent_text, range_facts
from woodref.explain.piece import steps_of
from woodref.piece.estimate import Estimate
from woodref.piece.notices import SCOPE
from woodref.reference.bases import COMMON_PRACTICE, EDITORIAL, UNCHECKED
from woodref.reference.properties import PROPERTIES
from woodref.units import KINDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.quantity import Range


#: How an assumption is known that a reader must see without asking.
_UNSURE = (UNCHECKED, COMMON_PRACTICE, EDITORIAL)


def _money(figure: Range, currency: str) -> str:
    text = KINDS["money"].text
    unit = f" {currency}" if currency else ""
    ends = f" ({text(figure.low, 'us')} to {text(figure.high, 'us')})" if figure.is_range else ""
    return f"{text(figure.expected, 'us')}{unit}{ends}"


def _weight(estimate: Estimate, units: str) -> str:
    """'Hall bench: 34.5 lb (31 to 38) at 7 %'."""
    if len(estimate.unweighed) == len(estimate.parts):
        return f"{estimate.piece.name}: weight not known"
    used = [v for d in estimate.masses.densities.values() for v in d.values]
    told = (
        f"{estimate.piece.name}: {mass_range(estimate.mass_kg['build'], units, marks(*used))} at "
        f"{percent_text(estimate.piece.build.moisture_pct)}"
    )
    if estimate.unweighed:
        told += f", without {_count(len(estimate.unweighed), 'part')} of unknown weight"
    return told


def known_before(estimate: Estimate, units: str) -> list[str]:
    """What a piece without its boards in hand tells already: all but what it costs."""
    return [f"{_weight(estimate, units)}.", *headline(estimate, units)[1:]]


def headline(estimate: Estimate, units: str) -> list[str]:
    """Weight and cost, what needs attention, then the largest movement and what is good."""
    weight = _weight(estimate, units)
    if estimate.cost is None:
        without, woods = estimate.unpriced_woods
        have = "has" if without == 1 else "have"
        said = f"{without} of {woods} woods {have} no price"
        if without == woods:
            said = "nothing has a price" if estimate.priced_cost is None else "no wood has a price"
        cost = f"cost not known: {said}"
    else:
        cost = f"materials {money_range(estimate.cost, estimate.currency)}"
        if estimate.unpriced:
            cost += f", not counting {_count(len(estimate.unpriced), 'item')} without a price"
    lines = [
        *_leading(estimate, units),
        *span_lines(estimate, units),
        *fixing_line(estimate, units),
        *crate_line(estimate, units),
        *carton_line(estimate, units),
        *_plan_line(estimate, units),
        *ready_line(estimate.boards, estimate.piece),
    ]
    heeded = [line for line in lines if isinstance(line, Heed)]
    return [f"{weight}; {cost}.", *heeded, *(x for x in lines if not isinstance(x, Heed))]


def _plan_line(estimate: Estimate, units: str) -> list[str]:
    """The lines of the headline about boards: do all parts come out, and what to buy."""
    if estimate.plan is None:
        return []
    from woodref.answers.buying import plan_lines

    return plan_lines(estimate.plan, units)


def _count(n: int, what: str) -> str:
    return f"{n} {what}{'' if n == 1 else 's'}"


def _leading(estimate: Estimate, units: str) -> list[str]:
    """The movement to design for of the part that moves most, and where it stands to the build."""
    if estimate.leading is None:
        return ["No part is known to move in width."]
    part, move = estimate.leading
    delivery = estimate.delivery
    to_driest, to_wettest, bare = part.movements
    since = (to_driest.change_mm, to_wettest.change_mm)
    how, also = "bare", []
    if delivery:
        how = delivery.finish.label if delivery.finish.name else "bare, at its thickness"
        since = (delivery.narrowest_mm.expected, delivery.widest_mm.expected)
        thin = f"Thin bare wood would move {change_text(bare.change_mm, units)}."
        also = [WholePage(thin)]
    built = " to ".join(
        f"{change_text(mm, units)} {'wider' if mm >= 0.0 else 'narrower'}" for mm in since
    )
    mark = marks(*move.basis.values)
    if delivery and UNCHECKED_MARK not in mark:
        mark = UNCHECKED_MARK + mark  # the relation that slows it is recalled
    change = change_range(move.likely_change_mm.unsigned, units, mark)
    told = (
        f"Moves most: {part.part.name}, {size_text(part.part.width_mm, units)} wide, {how}: "
        f"{change} over the year; {built} than built."
    )
    return [told, *also]


def _facts(estimate: Estimate, units: str) -> list[tuple[Column, Any]]:
    """Single values for JSON."""
    facts: list[tuple[Column, Any]] = [
        (Column("piece", ""), estimate.piece.name),
        (Column("currency", ""), estimate.currency or None),
        (Column("board_feet", "", "board_feet"), estimate.board_feet),
        *range_facts("buy_board_feet", "board_feet", estimate.buy_board_feet),
        (Column("volume", "", "solid"), estimate.volume_m3),
    ]
    heaviest = estimate.masses.heaviest_lift
    facts.append((Column("heaviest_lift", ""), heaviest[0] if heaviest else None))
    for key, kind, figure in (
        ("mass", "mass", estimate.mass_kg["build"]),
        ("heaviest_lift_mass", "mass", heaviest[1] if heaviest else None),
        ("cost", "money", estimate.cost),
        ("priced_cost", "money", estimate.priced_cost),
    ):
        facts += range_facts(key, kind, figure)
    facts += [
        *quote_facts(estimate),
        (Column("unweighed", ""), list(estimate.unweighed)),
        (Column("unpriced", ""), list(estimate.unpriced)),
        (Column("cautions", ""), [caution_row(n, units) for n in estimate.notices]),
        (Column("assumptions", ""), sentences(estimate.assumptions, units)),
    ]
    return facts


def _notes(estimate: Estimate, units: str, explain: bool) -> list[str]:
    notes = [f"Not priced: {x}." for x in estimate.unpriced]
    if estimate.cost is None and estimate.priced_cost:
        notes.append(
            f"What is priced comes to {_money(estimate.priced_cost, estimate.currency)}, which is "
            "no cost of the piece."
        )
    notes += [f"Not weighed: {x}." for x in estimate.unweighed]
    notes += [f"{sentence(n.said(units).rstrip('.'))}." for n in estimate.remarks]
    notes += [
        *fixing_notes(estimate, units),
        *extra_notes(estimate, units),
        *crate_notes(estimate, units),
    ]
    notes += [*ready_notes(estimate.boards), *quote_notes(estimate)]
    for wood, value in estimate.figures:
        label = f"{wood.common_name}, {PROPERTIES[value.property_id].label}"
        if value.unchecked:
            notes.append(unchecked_note(label))
        elif value.basis_reason:
            notes.append(f"{sentence(label)}: {value.basis_reason}.")
        if value.sample:
            notes.append(f"{sentence(label)} is from a narrow sample: {value.sample}.")
    notes += [caution_line(notice, units) for notice in estimate.notices]
    if explain:
        notes += [f"Assumed: {x}" for x in sentences(estimate.assumptions, units)]
        notes += [f"Computed: {step_text(step)}" for step in steps_of(estimate)]
    else:
        # Rooms, and what is recalled or without a source, are always told; the rest on asking.
        rooms = estimate.piece.use_notes
        told = [n for n in estimate.assumptions if n in rooms or n.basis in _UNSURE]
        notes += [f"Assumed: {x}" for x in sentences(told, units)]
        notes.append("--explain says what is assumed, and each formula with its numbers.")
    return notes


def answer_of(
    estimate: Estimate, units: str, for_people: bool = True, explain: bool = False
) -> Answer:
    """The estimate as an answer: two lines, then tables, cautions and sources.

    For programs (``for_people`` false) every table is complete, for people it is narrow and
    without empty columns. ``explain`` adds what is assumed and how each figure was computed.
    """
    steps = [step_section(steps_of(estimate))] if explain and not for_people else []
    lead = headline(estimate, units)
    return Answer(
        headline=lead,
        facts=_facts(estimate, units),
        sections=[*sections_of(estimate, units, for_people), *steps],
        notes=_notes(estimate, units, explain and for_people),
        main="parts",
        screen=_screen(estimate, lead) if for_people else None,
    )


def _screen(estimate: Estimate, lead: Sequence[str]) -> Answer:
    """Weight, cost, what needs attention and what is good; the tables are for the whole page."""
    shown = [line for line in lead if not isinstance(line, WholePage)]
    kinds = dict.fromkeys(n.kind for n in estimate.notices if n.kind != SCOPE)
    cautions = f"Cautions: {', '.join(kinds)}; read them once with --full."
    never = "Nothing here is a structural value or shows that a piece is safe."
    more = "Part by part, sizes to make, assumptions: --full; each formula: --explain."
    return Answer(shown, notes=[cautions, never, *legend(shown), more])
