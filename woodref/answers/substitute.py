"""What substitute answers: the closest woods and what changes, then what is behind it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.choice_questions import Question
from woodref.answers.choice_words import gates_words
from woodref.answers.property_text import UNCHECKED_MARK, footnotes, marks_of
from woodref.answers.provenance import (
    ESTIMATED_NOTE,
    disagreeing_densities,
    sentence,
)
from woodref.answers.shop_words import shown
from woodref.answers.substitute_screen import (
    look_word,
    printed_line,
    substitute_screen,
    weight_mark,
)
from woodref.answers.substitute_tables import (
    NAMED,
    changes_section,
    limits_section,
    listed,
    look_section,
    missing_section,
    names_section,
)
from woodref.answers.uses import label_of
from woodref.answers.wood_pair import look_words
from woodref.answers.words import percent_text, room_facts, sold_as
from woodref.choose.changes import Verdict, seasonal_change_mm
from woodref.choose.columns import COLUMNS, ChoiceColumn
from woodref.choose.profile import LookCounts
from woodref.choose.substitute_result import DISTANCE_RULE
from woodref.formulas.spread import DIFFERENCE_RULE
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.choose.changes import Change
    from woodref.choose.substitute_result import Substitute, Substitutes


#: What the look counted, in words.
_LOOK_COUNTS = {
    LookCounts.DECIDES: "The look decides for this use: look-alikes first, then related woods.",
    LookCounts.QUARTER: "The look counts a quarter beside the figures for this use.",
    LookCounts.NOTHING: "The look is not counted: the use does not show it, or it was not asked.",
}


def _more(pct: float | None, more: str, less: str, same: str) -> str:
    """'12 % more', as ``more`` says; '' where it is not known."""
    if pct is None:
        return ""
    if abs(pct) < 0.5:
        return same
    return f"{abs(pct):.0f} % {more if pct > 0 else less}"


def _signed(pct: float | None) -> str:
    return "" if pct is None else f"{pct:+.0f} %"


#: The columns behind what a wood weighs, and what it moves.
_DENSITY, _SWING = COLUMNS["density_kg_m3"], COLUMNS["seasonal_change_mm_per_300mm"]


def _mark(s: Substitute, column: ChoiceColumn) -> str:
    """The marks of a figure of a wood."""
    return marks_of(column.marked(s.figures))


def _first_mark(substitutes: Substitutes, column: ChoiceColumn) -> str:
    """The marks of a figure of the first wood."""
    return marks_of(substitutes.figures["marked"][column.name])


def _control(s: Substitute) -> str:
    return " (trade control)" if s.control else ""


def _movement(substitutes: Substitutes, s: Substitute, asked: Question, units: str) -> str:
    before = seasonal_change_mm(substitutes.figures, asked.width_mm)
    after = seasonal_change_mm(s.figures, asked.width_mm)
    if before is None or after is None:
        return "movement is not known"
    first, other = (
        shown("change", mm, units) + mark
        for mm, mark in ((before, _first_mark(substitutes, _SWING)), (after, _mark(s, _SWING)))
    )
    width = KINDS["size"].text(asked.width_mm, units)
    both = f"{other} for {first} across {width}"
    if first == other or abs(after - before) < 0.01 * before:
        return f"moves as much ({other} across {width})"
    return f"moves {'more' if after > before else 'less'} ({both})"


def _cost(substitutes: Substitutes, s: Substitute, asked: Question) -> str:
    if asked.prices is None:
        return "cost not known without a price list"
    if s.price_change_pct is not None:
        return f"costs {_more(s.price_change_pct, 'more', 'less', 'the same')} by the board foot"
    lacks = (
        s.common_name
        if substitutes.figures["price_per_m3"] is not None
        else substitutes.wood.common_name
    )
    return f"cost not known: no price of {lacks} in {asked.thickness}"


def _headline(
    substitutes: Substitutes, asked: Question, units: str, of_piece: Sequence[str]
) -> list[str]:
    """What comes nearest, from which woods; then the first of them beside the wood."""
    wood, use = substitutes.wood.common_name, substitutes.profile.title.lower()
    lead = f"In place of {wood} ({use}), of {gates_words(substitutes.buyable, asked.kind)}: "
    own = ", ".join(s.common_name + _control(s) for s in substitutes.own_group[:NAMED])
    if not substitutes.woods:
        return [f"{lead}only woods of its own trade group pass, {own}."]
    best, *others = substitutes.woods
    if _look_decides(substitutes) and not best.looks_alike:
        lead += f"nothing looks like it. {_nearest(substitutes)}"
    elif _look_decides(substitutes) and not substitutes.stocked_alike:
        lead += f"nothing commonly stocked looks like it. {_nearest(substitutes)}"
    else:
        lead += f"{best.name}{_control(best)} comes closest"
        runners = ", ".join(s.name + _control(s) for s in others[:3])
        lead += f"; then {runners}." if runners else ", and nothing else passes."
    weight = _more(best.weight_change_pct, "more", "less", "the same")
    weight += weight_mark(substitutes, best) if weight else ""
    second = (
        f"{sentence(best.name)} weighs {weight or 'an unknown amount'}, "
        f"{_movement(substitutes, best, asked, units)}, {_cost(substitutes, best, asked)}; "
        f"look: {look_words(best.look)}."
    )
    lines = [lead, second, *of_piece]
    if own:
        lines.append(f"Of its own trade group, where the yard sells it apart: {own}.")
    return lines


def _look_decides(substitutes: Substitutes) -> bool:
    return substitutes.look_counts is LookCounts.DECIDES


def _nearest(substitutes: Substitutes) -> str:
    """The nearest in work, and the nearest in look with how it is stocked."""
    work, look = substitutes.nearest_in_work, substitutes.nearest_in_look
    parts = [f"nearest in work: {work.name}"] if work else []
    if look is not None and look.look.band is not None:
        stock = f", {look.stock}" if look.stock and look.tier else ""
        parts.append(f"nearest in look: {look.name} ({look.look.band}{stock})")
    return sentence("; ".join(parts)) + "." if parts else ""


def _unchecked(s: Substitute) -> bool:
    return any(c.unchecked for c in s.changes) or s.look.unchecked


def _labels(changes: Sequence[Change], units: str) -> str:
    return ", ".join(
        label_of(c.criterion.column, units) + ("" if c.clear else " (slightly)") for c in changes
    )


def _row(s: Substitute, n: int | None, substitutes: Substitutes, asked: Question) -> dict[str, Any]:
    return {
        "rank": n,
        "wood": s.common_name,
        "botanical_name": s.botanical_name,
        "species_id": s.species_id,
        "trade_group": s.trade_group or None,
        "sold_as": s.name,
        "also": list(s.also),
        "stock_class": s.stock or None,
        "distance": s.distance,
        "work_distance": s.in_work,
        "look_distance": s.look.distance,
        "look_band": s.look.band,
        "weight_change": s.weight_change_pct,
        "swing": seasonal_change_mm(s.figures, asked.width_mm),
        "swing_before": seasonal_change_mm(substitutes.figures, asked.width_mm),
        "price_change": s.price_change_pct,
        "price_per_board_foot": s.figures["price_per_board_foot"],
        "price_per_m3": s.figures["price_per_m3"],
        "better": [c.criterion.column.name for c in s.verdicts(Verdict.BETTER)],
        "worse": [c.criterion.column.name for c in s.verdicts(Verdict.WORSE)],
        "same": [c.criterion.column.name for c in s.verdicts(Verdict.SAME)],
        "unknown": [c.criterion.column.name for c in s.verdicts(Verdict.UNKNOWN)],
        "trade_control": s.control or None,
    }


_KINDS = {
    "rank": "count",
    **dict.fromkeys(("distance", "work_distance", "look_distance"), "ratio"),
    **dict.fromkeys(("weight_change", "price_change"), "percent"),
    **dict.fromkeys(("swing", "swing_before"), "change_end"),
    **dict.fromkeys(("price_per_board_foot", "price_per_m3"), "money"),
}


def _list_section(
    key: str,
    title: str,
    woods: Sequence[Substitute],
    substitutes: Substitutes,
    asked: Question,
    units: str,
    people: bool,
) -> Section:
    rows = [_row(s, n, substitutes, asked) for n, s in enumerate(woods, 1)]
    if not people:
        names = list(rows[0]) if rows else ["wood"]
        return Section(key, "", [Column(k, "", _KINDS.get(k, "")) for k in names], rows)
    for row, s in zip(rows, woods, strict=True):
        row |= {
            "weight": _signed(s.weight_change_pct)
            + ("" if s.weight_change_pct is None else weight_mark(substitutes, s)),
            "moves": ""
            if row["swing"] is None
            else KINDS["change_end"].text(row["swing"], units) + _mark(s, _SWING),
            "cost": _signed(s.price_change_pct),
            "better": _labels(s.verdicts(Verdict.BETTER), units),
            "worse": _labels(s.verdicts(Verdict.WORSE), units),
            "wood": s.name,
            "look": look_word(s),
        }
    width = KINDS["size"].text(asked.width_mm, units)
    columns = [
        Column("rank", "#", "count"),
        Column("wood", "wood"),
        Column("look", "look"),
        Column("stock_class", "stock"),
        Column("weight", "weight"),
        Column("moves", f"moves, {width}"),
        *([Column("cost", "cost")] if asked.prices else []),
        Column("better", "better"),
        Column("worse", "worse"),
        *([Column("trade_control", "trade control")] if any(s.control for s in woods) else []),
    ]
    return Section(key, title, columns, rows)


def _notes(substitutes: Substitutes, asked: Question, of_piece: Sequence[str]) -> list[str]:
    dry, wet = substitutes.seasonal_range.driest_pct, substitutes.seasonal_range.wettest_pct
    where = (
        f", {asked.room.label}"
        if asked.room
        else ", as the piece says"
        if asked.piece
        else ", which stand for a year in a heated house (common practice, no source)"
    )
    look = (
        "Look goes by hue, lightness, texture, pores, figure and luster as typical of a wood; one "
        "word covers many shades: lay a finished sample beside the first wood."
    )
    notes = [
        f"Profile {substitutes.profile.name}: its weights are a judgment of ours, common practice, "
        "no source; woodref uses shows it.",
        f"{sentence(DISTANCE_RULE)}.",
        _LOOK_COUNTS[substitutes.look_counts],
        *([look] if substitutes.look_counts is not LookCounts.NOTHING else []),
        *(
            [f"No table tells how {substitutes.wood.common_name} looks, so the work alone decides."]
            if substitutes.look is None
            else []
        ),
        *printed_line(substitutes.printed),
        f"Better, worse, same: {DIFFERENCE_RULE}; a share of pieces must differ by 10 points.",
        f"Movement flat sawn between {percent_text(dry)} and {percent_text(wet)}{where}.",
    ]
    if substitutes.fails:
        fails = "; ".join(substitutes.fails)
        notes.append(f"{sentence(substitutes.wood.common_name)} itself does not meet: {fails}.")
    for s in substitutes.woods:
        if s.also:
            of = f" (figures of {s.common_name})" if s.name != s.common_name else ""
            notes.append(f"Sold as {s.name}{of}: also {listed(s.also)}.")
    used = [
        *(weight_mark(substitutes, s) + _mark(s, _SWING) for s in substitutes.woods),
        *(
            marks_of(m)
            for s in substitutes.woods
            for c in s.changes
            for m in (c.of_first, c.of_other)
        ),
        *(UNCHECKED_MARK for s in substitutes.woods if s.look.unchecked),
    ]
    notes += footnotes(used)
    if any(c.estimated for s in substitutes.woods for c in s.changes):
        notes.append(f"{ESTIMATED_NOTE}.")
    notes += disagreeing_densities([substitutes.wood, *asked.woods.values()])
    if asked.prices:
        money = f", {asked.prices.currency}" if asked.prices.currency else ""
        notes.append(f"Prices: {asked.prices.file}, {asked.thickness}{money}.")
    notes += of_piece
    notes.append(
        "Trade controls are those recorded here; rules change, so check the current listing. "
        "Another wood is another dust: woodref show NAME has the cautions of a wood."
    )
    return notes


class _OfPiece(NamedTuple):
    """What is told of a piece: lines of the headline, tables and notes."""

    lines: list[str]
    sections: list[Section]
    notes: list[str]


def _of_piece(substitutes: Substitutes, asked: Question, units: str, people: bool) -> _OfPiece:
    """What another wood does to the piece, nothing without one: its words know every joint."""
    if asked.piece is None:
        return _OfPiece([], [], [])
    from woodref.answers.substitute_piece import piece_line, piece_notes, piece_sections

    with_wood, best = asked.replacements, substitutes.woods[:1]
    return _OfPiece(
        [line for s in best for line in piece_line(substitutes, with_wood, s, units)],
        piece_sections(substitutes, with_wood, asked.piece, people),
        piece_notes(with_wood),
    )


def substitute_answer(
    substitutes: Substitutes, asked: Question, units: str, people: bool
) -> Answer:
    """The closest woods, what changes with each, and what was left out.

    Parameters: substitutes; asked, what the question held; units 'us' or 'si'; people false for one
    row per fact.
    """
    own_title = "Of its own trade group, where the yard sells it apart"
    of_piece = _of_piece(substitutes, asked, units, people)
    lead, buyable = _headline(substitutes, asked, units, of_piece.lines), substitutes.buyable
    return Answer(
        headline=lead,
        screen=substitute_screen(substitutes, asked, [lead[0], *of_piece.lines], units),
        names=sold_as(substitutes.wood),
        facts=[
            (Column("wood", ""), substitutes.wood.common_name),
            (Column("botanical_name", ""), substitutes.wood.botanical_name),
            (Column("use", ""), substitutes.profile.name),
            (Column("bought_where", ""), buyable.place if buyable else None),
            (Column("look_counts", ""), substitutes.look_counts.value),
            *room_facts(asked.room),
            (Column("from_moisture", "", "percent"), substitutes.seasonal_range.driest_pct),
            (Column("to_moisture", "", "percent"), substitutes.seasonal_range.wettest_pct),
            (Column("movement_width", "", "size"), asked.width_mm),
            (Column("price_list", ""), asked.prices.file if asked.prices else None),
            (Column("currency", ""), asked.prices.currency if asked.prices else None),
            (Column("stock", ""), asked.thickness if asked.prices else None),
            (Column("passed", "", "count"), substitutes.passed),
            (Column("considered", "", "count"), substitutes.considered),
            (Column("first_fails", ""), list(substitutes.fails)),
        ],
        sections=[
            _list_section("substitutes", "", substitutes.woods, substitutes, asked, units, people),
            _list_section(
                "same_group", own_title, substitutes.own_group, substitutes, asked, units, people
            ),
            *of_piece.sections,
            changes_section(substitutes, asked.woods, units, people),
            look_section(substitutes, people),
            names_section(substitutes, people),
            limits_section(substitutes),
            missing_section(substitutes, units, people),
        ],
        notes=_notes(substitutes, asked, of_piece.notes),
    )
