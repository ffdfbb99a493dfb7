"""The answer of the command panel: how the staves of a glued-up panel move together."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.method_words import movement_method
from woodref.answers.property_text import marks
from woodref.answers.provenance import based_on, computed_notes, sentences
from woodref.answers.room_words import end_text, room_lines
from woodref.answers.words import (
    identity,
    likely_columns,
    percent_text,
    room_facts,
    room_notes,
    sold_as,
    swing_text,
    way_text,
    wood_facts,
)
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.board.panel import PanelMovement
    from woodref.climate.rooms import Room

_STEP = (
    "Staves of different rings change in thickness differently: a joint that is flush at the build "
    "shows a step, the largest of which is given."
)


def panel_answer(moves: Sequence[PanelMovement], room: Room | None, units: str) -> Answer:
    """What a panel does from its build on.

    Parameters: moves, the one to another moisture content, or in a room those of
    woodref.board.panel.panel_year; room, None where a moisture content was given; units.
    """
    first = moves[0].staves[0]
    method = movement_method(first.basis)
    spans = ("build to driest", "build to wettest", "driest to wettest")
    names = spans if room else ("build to then",)
    return Answer(
        headline=[
            *(_year_lines(moves, room, units) if room else [_lead(moves[0], units)]),
        ],
        names=sold_as(first.wood),
        facts=[*wood_facts(first.wood), *room_facts(room)],
        sections=[
            _panel_section(moves, names),
            _staves_section(moves[0], names[0]),
            based_on(first.basis.values),
        ],
        notes=[
            *identity(first.wood),
            *([_STEP] if any(m.step_mm for m in moves) else []),
            *sentences(first.notes, units),
            *room_notes(room, units),
            *computed_notes(f"{method}; a panel is the sum of its staves", first.basis.values),
        ],
    )


def _marks(m: PanelMovement) -> str:
    return marks(*m.staves[0].basis.values)


def _name(m: PanelMovement, units: str) -> str:
    """'A panel of 8 staves of cherry, 40 in wide at 7 %'."""
    first, count = m.staves[0], len(m.staves)
    return (
        f"A panel of {'1 stave' if count == 1 else f'{count} staves'}{_alike(m, units)} of "
        f"{first.wood.common_name}, "
        f"{KINDS['size'].text(m.size_mm, units)} wide at {percent_text(first.from_moisture_pct)}"
    )


def _alike(m: PanelMovement, units: str) -> str:
    """' 4-13/32 in wide': the width of staves that are alike, '' of others."""
    widths = {s.size_mm for s in m.staves}
    if len(m.staves) == 1 or len(widths) > 1:
        return ""
    return f" {KINDS['size'].text(widths.pop(), units)} wide"


def _lead(m: PanelMovement, units: str) -> str:
    return (
        f"{_name(m, units)}, is {KINDS['size'].text(m.after_mm, units)} at "
        f"{percent_text(m.staves[0].to_moisture_pct)}: it "
        f"{'swells' if m.change_mm >= 0.0 else 'shrinks'} {swing_text(m, units)}{_marks(m)}."
    )


def _year_lines(moves: Sequence[PanelMovement], room: Room, units: str) -> list[str]:
    to_driest, to_wettest, swing = moves
    season = room.season
    return [
        f"{_name(to_driest, units)}: allow {swing_text(swing, units)}{_marks(swing)} of movement "
        f"over the year in {room.label}.",
        f"It {way_text(to_driest.change_mm, units)} by the driest, "
        f"{end_text(season.design_driest)}, and {way_text(to_wettest.change_mm, units)} by the "
        f"wettest, {end_text(season.design_wettest)}.",
        *room_lines(season),
    ]


def _panel_section(moves: Sequence[PanelMovement], names: Sequence[str]) -> Section:
    columns = [
        Column("between", "span"),
        Column("from_moisture", "from", "percent"),
        Column("to_moisture", "to", "percent"),
        Column("before", "before", "size"),
        Column("after", "after", "size"),
        *likely_columns("change", "change", "change"),
    ]
    if moves[0].thicknesses:
        columns += [
            Column("thinnest", "thinnest", "size"),
            Column("thickest", "thickest", "size"),
            Column("step", "step", "change"),
        ]
    rows = []
    for name, m in zip(names, moves, strict=True):
        first, thick = m.staves[0], [t.after_mm for t in m.thicknesses]
        row = (name, first.from_moisture_pct, first.to_moisture_pct, m.size_mm, m.after_mm)
        edge = (min(thick), max(thick), m.step_mm) if thick else ()
        rows.append((*row, *m.likely_change_mm, *edge))
    # Only a step in a joint is not told by the headline.
    return Section.of("panel", "", columns, rows, aside=not moves[0].thicknesses)


def _staves_section(m: PanelMovement, span: str) -> Section:
    columns = [
        Column("stave", "stave", "count"),
        Column("width", "width", "size"),
        Column("ring_angle_deg", "ring angle"),
        Column("change", f"change, {span}", "change"),
    ]
    rows = ((i, s.size_mm, s.ring_angle_deg, s.change_mm) for i, s in enumerate(m.staves, start=1))
    alike = len({(s.size_mm, s.ring_angle_deg) for s in m.staves}) == 1
    return Section.of("panel_staves", "", columns, rows, aside=alike)
