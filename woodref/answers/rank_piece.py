"""What rank answers for a part of a piece: the woods by what happens to that piece."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.choice_questions import Asked
from woodref.answers.choice_words import gates_words, strengths
from woodref.answers.provenance import sentence
from woodref.answers.rank import rank_answer
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.choose.rank_piece import RankedPiece, TriedWood

#: Woods of the first screen, and those told in words.
_ROWS, _TOLD = 9, 3


def _holds(tried: TriedWood, any_sized: bool) -> str:
    if not any_sized:
        return "none named"
    return f"see to: {', '.join(tried.broken)}" if tried.broken else "ok"


def _lead(ranked: RankedPiece, asked: Asked, units: str) -> list[str]:
    best, *others = ranked.woods
    runners = ", ".join(t.wood.name for t in others[:3])
    gates = gates_words(ranked.ranking.buyable, asked.kind)
    lines = [
        f"For {', '.join(ranked.parts)} of {ranked.piece.name}, of {gates}: {best.wood.name} comes "
        f"first{f'; then {runners}' if runners else ''}."
    ]
    priced = [t for t in ranked.woods if t.cost is not None]
    tied = [t for t in priced if t.wood.against_best is None or t.wood.is_tie]
    if tied:
        cheapest = min(tied, key=lambda t: (t.cost or 0.0, t.wood.name))
        money = KINDS["money"].text(cheapest.cost or 0.0, units)
        currency = f" {ranked.before.currency}" if ranked.before.currency else ""
        lines.append(
            f"Of those in a tie with the first, {cheapest.wood.name} costs least: materials "
            f"{money}{currency}, waste included."
        )
    return lines


def rank_piece_answer(ranked: RankedPiece, asked: Asked, units: str, people: bool) -> Answer:
    """The woods tried in the piece: movement, weight, cost, and whether it still holds.

    Parameters: ranked; asked, what the question held; units 'us' or 'si'; people false for one
    row per fact.
    """
    whole = rank_answer(ranked.ranking, asked, units, people, False)
    any_sized = any(t.replacement.sized for t in ranked.woods)
    rows: list[dict[str, Any]] = [
        {
            "rank": n,
            "wood": t.wood.name if people else t.wood.common_name,
            "species_id": t.wood.species_id,
            "swing": t.swing_mm,
            "mass": t.mass_kg,
            "cost": t.cost,
            "all_hold": _holds(t, any_sized) if people else not t.broken,
            "sized_broken": list(t.broken),
            "score": t.wood.score,
        }
        for n, t in enumerate(ranked.woods, 1)
    ]
    columns = [
        Column("rank", "#", "count"),
        Column("wood", "wood"),
        Column("species_id", ""),
        Column("swing", "moves", "change_end"),
        Column("mass", "piece", "mass"),
        Column("cost", "materials" if asked.prices else "", "money"),
        Column("score", "of 100", "count"),
        Column("all_hold", "fixings, sag"),
        Column("sized_broken", ""),
    ]
    lead = _lead(ranked, asked, units)
    section = Section("in_piece", "", columns, rows)
    told = [
        f"{sentence(t.wood.name)}: {strengths(t.wood.contributions)}." for t in ranked.woods[:_TOLD]
    ]
    screen = Answer(
        headline=lead,
        sections=[section._replace(rows=rows[:_ROWS])],
        notes=[
            *told,
            "Moves: the swing of the widest of these parts through the year of the piece. What is "
            "to be resized: woodref estimate PIECE --with.",
            "The ranking behind it, limits and sources: --full.",
        ],
    )
    return Answer(
        headline=[*lead, *whole.headline],
        facts=[
            *whole.facts,
            (Column("piece", ""), ranked.piece.name),
            (Column("parts_changed", ""), list(ranked.parts)),
        ],
        sections=[section._replace(title="In the piece"), *whole.sections],
        notes=whole.notes,
        screen=screen,
    )
