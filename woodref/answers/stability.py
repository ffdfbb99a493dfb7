"""The answer of the command stability: how much a wood moves, and how many others move less."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.movement import movement_notes
from woodref.answers.property_text import marks
from woodref.answers.provenance import based_on, sentence, sentences
from woodref.answers.words import (
    likely_columns,
    likely_text,
    percent_text,
    room_facts,
    room_notes,
    wood_facts,
)
from woodref.board.stability import MovesAmong, Stability
from woodref.climate.part_seasons import USUAL_YEAR

if TYPE_CHECKING:
    from woodref.climate.rooms import Room

_MOVES = {
    MovesAmong.LITTLE: "moves little",
    MovesAmong.AS_MOST: "moves as most",
    MovesAmong.A_LOT: "moves a lot",
}


def stability_answer(s: Stability, room: Room | None, units: str, example: bool = False) -> Answer:
    """How a wood moves between two moisture contents, or in the year of a room.

    Parameters: s; room, None where moisture contents were given; units 'us' or 'si'; example,
    true where neither was given.
    """
    flat, quarter, rank = s.flat, s.quarter, s.rank
    columns = [Column("cut", "cut"), *likely_columns("change", "change", "change")]
    rows = [(cut, *m.likely_change_mm) for cut, m in (("flat", flat), ("quarter", quarter))]
    return Answer(
        headline=[*_lines(s, room, units)],
        facts=[
            *wood_facts(flat.wood),
            *room_facts(room),
            (Column("from_moisture", "", "percent"), flat.from_moisture_pct),
            (Column("to_moisture", "", "percent"), flat.to_moisture_pct),
            (Column("movement_width", "", "size"), flat.size_mm),
            (Column("tangential_over_radial", "", "ratio"), s.ratio),
            (Column("woods_ranked", "", "count"), rank.woods if rank else None),
            (Column("woods_moving_less", "", "count"), rank.less if rank else None),
            (Column("woods_moving_more", "", "count"), rank.more if rank else None),
            (Column("woods_more_even", "", "count"), rank.evener if rank else None),
        ],
        sections=[
            Section.of("stability", "", columns, rows, aside=True),
            based_on(flat.basis.values),
        ],
        notes=movement_notes(
            flat,
            units,
            *room_notes(room, units),
            *(sentences([USUAL_YEAR], units) if example else []),
        ),
    )


def _lines(s: Stability, room: Room | None, units: str) -> list[str]:
    flat, marked = s.flat, marks(*s.flat.basis.values)
    where = f", {room.label}" if room else ""
    width = "a foot" if units == "us" else "300 mm"
    evener = f"; {s.rank.evener} of {s.rank.woods} woods are lower and cup less" if s.rank else ""
    return [
        f"{sentence(flat.wood.common_name)}: {width} of width moves "
        f"{likely_text(flat.likely_change_mm.unsigned, 'change', units, marked)} flat sawn and "
        f"{likely_text(s.quarter.likely_change_mm.unsigned, 'change', units, marked)} quarter sawn "
        f"between {percent_text(flat.from_moisture_pct)} and "
        f"{percent_text(flat.to_moisture_pct)}{where}.",
        _ranked(s),
        f"Tangential movement is {s.ratio:.1f} times radial{evener}.",
    ]


def _ranked(s: Stability) -> str:
    if s.rank is None or s.third is None:
        return (
            "Its rank is not known: no table holds its shrinkage green to ovendry, by which woods "
            "are ranked."
        )
    estimated = s.flat.basis.tangential.basis == "estimated"
    return (
        f"It {_MOVES[s.third]}{', as far as its density tells' if estimated else ''}: of "
        f"{s.rank.woods} woods {s.rank.less} move less and {s.rank.more} move more, flat sawn."
    )
