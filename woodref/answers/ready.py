"""What an estimate says of the boards in hand: which are ready, how long the others take."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.words import percent_text, range_columns
from woodref.piece.piece import Piece
from woodref.piece.ready import READY_PCT, BoardReady, Readiness


def ready_line(boards: Sequence[BoardReady], piece: Piece) -> list[str]:
    """How many boards are ready for the room of the piece; nothing where no board says."""
    if not boards:
        return []
    count = {
        state: sum(b.board.quantity for b in boards if b.readiness is state) for state in Readiness
    }
    whole = sum(count.values())
    room = piece.room.label if piece.room else "the room of the piece"
    line = (
        f"Boards: {count[Readiness.READY]} of {whole} are ready for {room}, within "
        f"{READY_PCT:g} % of {percent_text(piece.settled_pct)}"
    )
    others = [
        f"{number} {state.value}"
        for state, number in count.items()
        if number and state is not Readiness.READY
    ]
    told = f"{line}{'; ' if others else ''}{', '.join(others)}."
    return [Heed(told) if others else told]


def ready_sections(boards: Sequence[BoardReady]) -> list[Section]:
    """Every board with its moisture content, and the widths to make of it now."""
    rows = [
        (
            b.wood.common_name,
            b.board.thickness,
            b.board.width_mm,
            b.board.length_mm,
            b.board.quantity,
            b.board.moisture_pct,
            b.readiness.value,
            *(b.days or (None,) * 3),
        )
        for b in boards
    ]
    sizes = {
        (s.part.name, b.board.moisture_pct): (
            s.part.name,
            b.wood.common_name,
            b.board.moisture_pct,
            s.width_mm,
            s.part.width_mm,
        )
        for b in boards
        for s in b.sizes
    }
    return [
        Section.of(
            "ready_boards",
            "Boards in hand, and whether they are ready",
            [
                Column("wood", "wood"),
                Column("stock", "thickness"),
                Column("width", "width", "size"),
                Column("length", "length", "size"),
                Column("boards", "boards", "count"),
                Column("moisture", "moisture", "percent"),
                Column("readiness", "for that room"),
                *range_columns("rest_days", "days to rest", "count"),
            ],
            rows,
        ),
        Section.of(
            "widths_now",
            "Width to make now of a board as wet as this, for the width of the file at the build",
            [
                Column("part", "part"),
                Column("wood", "wood"),
                Column("moisture", "moisture", "percent"),
                Column("width_now", "make", "size"),
                Column("width", "for", "size"),
            ],
            sizes.values(),
        ),
    ]


def ready_notes(boards: Sequence[BoardReady]) -> list[str]:
    """What must be said of boards that rest."""
    if not boards:
        return []
    notes = [
        "A meter's reading is corrected for the temperature of the wood; set the meter to the "
        "wood first. A well-used meter is within 1 % of the true average.",
    ]
    if any(b.days for b in boards):
        notes.append(
            "Days to rest: stock on stickers with both faces open, until its mean is within 1 % of "
            "that room, by a recalled relation (unchecked); weigh or measure it again before "
            "milling."
        )
    return notes


def add_ready(answer: Answer, boards: Sequence[BoardReady], piece: Piece) -> None:
    """Add to an answer which boards in hand are ready for a piece.

    Parameters: answer; boards, none where nothing says how wet they are; piece.
    """
    answer.headline += ready_line(boards, piece)
    answer.sections += ready_sections(boards)
    answer.notes += ready_notes(boards)
