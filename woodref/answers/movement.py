"""Answers about the movement of one board: between two moisture contents, and through a year."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.method_words import movement_method
from woodref.answers.property_text import marks
from woodref.answers.provenance import based_on, computed_notes, sentence, sentences
from woodref.answers.room_words import end_text, room_lines
from woodref.answers.words import (
    cut_words,
    identity,
    likely_columns,
    likely_text,
    percent_text,
    room_notes,
    sold_as,
    way_text,
    wood_facts,
)
from woodref.answers.year import EMC_SOURCE, extremes_facts, place_facts
from woodref.reference.bases import weakest
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.board.movement import Movement
    from woodref.climate.rooms import Room
    from woodref.climate.seasons import Season
    from woodref.explain.step import Step


def movement_answer(cuts: Mapping[str, Movement], face: str, units: str, wanted: bool) -> Answer:
    """What a board does between two moisture contents, the first cut in the headline.

    Parameters: cuts, the movement of each; face 'width' or 'thickness'; units 'us' or 'si';
    wanted, true where the size after is the one that was asked for.
    """
    cut, lead = next(iter(cuts.items()))
    columns = [
        Column("cut", "cut"),
        Column("before", f"{face} now", "size_up" if wanted else "size"),
        Column("after", f"{face} then", "size"),
        *likely_columns("change", "change", "change"),
        Column("basis", "basis"),
    ]
    rows = (
        (name, m.size_mm, m.after_mm, *m.likely_change_mm, weakest(v.basis for v in m.basis.values))
        for name, m in cuts.items()
    )
    return Answer(
        headline=[_lead(lead, cut, face, units, wanted)],
        names=sold_as(lead.wood),
        facts=[
            *wood_facts(lead.wood),
            (Column("from_moisture", "", "percent"), lead.from_moisture_pct),
            (Column("to_moisture", "", "percent"), lead.to_moisture_pct),
        ],
        sections=[Section.of("movement", "", columns, rows), based_on(lead.basis.values)],
        notes=movement_notes(lead, units),
    )


def movement_notes(m: Movement, units: str, *others: str) -> list[str]:
    """What is to be said of a movement; others stand before what it is computed from."""
    return [
        *identity(m.wood),
        *sentences(m.notes, units),
        *others,
        *computed_notes(movement_method(m.basis), m.basis.values),
    ]


def _lead(m: Movement, cut: str, face: str, units: str, wanted: bool) -> str:
    size, marked = KINDS["size"].text, marks(*m.basis.values)
    board = f"{sentence(m.wood.common_name)}, {cut_words(cut)}"
    how = "wide" if face == "width" else "thick"
    start, end = percent_text(m.from_moisture_pct), percent_text(m.to_moisture_pct)
    if wanted:
        return (
            f"{board}: start from {KINDS['size_up'].text(m.size_mm, units)} "
            f"{how} at {start} for {size(m.after_mm, units)} at {end}{marked}."
        )
    return (
        f"{board}: {size(m.size_mm, units)} {how} at {start} is {size(m.after_mm, units)} at "
        f"{end}; it {way_text(m.change_mm, units)}{marked}."
    )


def year_movement_answer(
    cuts: Mapping[str, Movement],
    face: str,
    made: tuple[float, float] | None,
    room: Room,
    units: str,
) -> Answer:
    """What a board does through the year in a room: its size at the driest and the wettest.

    Parameters: cuts, the movement of each from the driest to design for to the wettest; face
    'width' or 'thickness'; made, size [mm] and moisture content [%] from which it came to the
    driest, None where its size there was given; room; units 'us' or 'si'.
    """
    cut, lead = next(iter(cuts.items()))
    season, marked = room.season, marks(*lead.basis.values)
    columns = [
        Column("cut", "cut"),
        Column("size_driest", f"{face} driest", "size"),
        Column("size_wettest", f"{face} wettest", "size"),
        *likely_columns("swing", "swing", "change"),
    ]
    rows = ((name, m.size_mm, m.after_mm, *m.likely_change_mm) for name, m in cuts.items())
    return Answer(
        headline=[
            f"{sentence(lead.wood.common_name)}, {cut_words(cut)}: allow "
            f"{likely_text(lead.likely_change_mm.unsigned, 'change', units, marked)} of movement "
            f"over the year in {room.label}.",
            _year_line(lead, face, made, season, units),
            *room_lines(season),
        ],
        names=sold_as(lead.wood),
        facts=[
            *wood_facts(lead.wood),
            *place_facts(room.place),
            (Column("setting", ""), season.setting.name),
            (Column("build_moisture", "", "percent"), made and made[1]),
            *extremes_facts(season),
        ],
        sections=[Section.of("swings", "", columns, rows), based_on(lead.basis.values)],
        notes=movement_notes(lead, units, *room_notes(room, units), EMC_SOURCE),
    )


def _year_line(
    m: Movement, face: str, made: tuple[float, float] | None, season: Season, units: str
) -> str:
    size, how = KINDS["size"].text, "wide" if face == "width" else "thick"
    start = f"{size(made[0], units)} {how} at {percent_text(made[1])} is " if made else ""
    return sentence(
        f"{start}{size(m.size_mm, units)} {how} at the driest, {end_text(season.design_driest)}, "
        f"and {size(m.after_mm, units)} at the wettest, {end_text(season.design_wettest)}."
    )


def cut_steps(cuts: Mapping[str, Movement], face: str) -> Iterator[Step]:
    """How the size of each cut after the change was computed; face 'width' or 'thickness'."""
    for cut, m in cuts.items():
        yield from _size_steps(cut, m, f"{face} at {percent_text(m.to_moisture_pct)}")


def year_steps(
    cuts: Mapping[str, Movement], to_driest: Mapping[str, Movement], face: str
) -> Iterator[Step]:
    """How the sizes at the driest and at the wettest were computed, cut by cut.

    Parameters: cuts, the movement of each from the driest to the wettest; to_driest, that
    from the size as built to the driest, empty where the size there was given; face
    'width' or 'thickness'.
    """
    for cut, m in cuts.items():
        ways = [(to_driest[cut], "driest")] if cut in to_driest else []
        for move, end in (*ways, (m, "wettest")):
            at = f"{face} at the {end}, {percent_text(move.to_moisture_pct)}"
            yield from _size_steps(cut, move, at)


def _size_steps(cut: str, m: Movement, what: str) -> Iterator[Step]:
    """The size after; where a printed coefficient governs, that by shrinkage alone beside it."""
    from woodref.explain.board import movement_step, shrinkage_alone_step

    name = f"{m.wood.common_name}, {cut_words(cut)}"
    yield movement_step(name, what, m)
    alone = shrinkage_alone_step(name, what, m)
    if alone:
        yield alone
