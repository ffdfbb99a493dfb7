"""Which boards in hand are ready for a piece: near the moisture content of the room it goes to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from typing import TYPE_CHECKING

from woodref.board.movement import size_for
from woodref.errors import InputError, NoDataError
from woodref.formulas.room import DESIGN_LEAST_PCT
from woodref.lumber.tally import Board
from woodref.piece.parts_table import Part
from woodref.record import record
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    from woodref.piece.piece import Piece
    from woodref.quantity import Range

#: A board is ready this near the mean of the room [%]: about what Table 13-2 of FPL-GTR-190 (2010)
#: prints for single pieces of a region.
READY_PCT = DESIGN_LEAST_PCT
#: Sizes to make now are told where the board is farther than this from the build [%].
_SAME_PCT = 0.3


class Readiness(Enum):
    """How a board in hand stands to the room its piece goes to."""

    READY = "ready"
    TOO_WET = "too wet"
    TOO_DRY = "too dry"
    UNKNOWN = "moisture not given"


@record
class SizeNow:
    """A part of a wood as wet as a board: its width now for the width of the file [mm]."""

    part: Part
    width_mm: float


@record
class BoardReady:
    """A board in hand, and whether it is ready.

    ``days`` about how long stock on stickers takes to come near, None where it is ready or
    nobody knows; ``sizes`` to make now of parts that may come from it, for the sizes of the file
    at the moisture content of the build.
    """

    wood: Wood
    board: Board
    readiness: Readiness
    days: Range | None
    sizes: tuple[SizeNow, ...]


def ready_boards(
    piece: Piece, woods: Mapping[str, Wood], boards: Sequence[tuple[Wood, Board]]
) -> tuple[BoardReady, ...]:
    """Every board in hand of a piece, in its order; none where no board says how wet it is.

    Parameters: piece; woods by the species names of its parts; boards in hand with their woods.
    Source: acclimation woodref.drying.acclimation; sizes FPL-GTR-282 (2021), Eq. 4-9.
    """
    if all(board.moisture_pct is None for _, board in boards):
        return ()
    return tuple(_board_ready(piece, woods, wood, board) for wood, board in boards)


def _board_ready(piece: Piece, woods: Mapping[str, Wood], wood: Wood, board: Board) -> BoardReady:
    moisture, target = board.moisture_pct, piece.settled_pct
    if moisture is None:
        return BoardReady(wood, board, Readiness.UNKNOWN, None, ())
    readiness = Readiness.READY
    if abs(moisture - target) > READY_PCT:
        readiness = Readiness.TOO_WET if moisture > target else Readiness.TOO_DRY
    days = None if readiness is Readiness.READY else _days(wood, board, moisture, target)
    return BoardReady(wood, board, readiness, days, tuple(_sizes(piece, woods, wood, moisture)))


def _days(wood: Wood, board: Board, moisture_pct: float, target_pct: float) -> Range | None:
    from woodref.drying.acclimation import acclimate

    try:
        return acclimate(wood, board.thickness_mm, min(moisture_pct, 30.0), target_pct).mean_days
    except (InputError, NoDataError):
        return None  # too thick for the lag to be followed, or of unknown density


def _sizes(
    piece: Piece, woods: Mapping[str, Wood], wood: Wood, moisture_pct: float
) -> Sequence[SizeNow]:
    """Widths to make now, of the parts of a wood, where the board is off the build."""
    build = piece.build.moisture_pct
    if abs(moisture_pct - build) <= _SAME_PCT or moisture_pct > 30.0:
        return []
    ids = set(wood.species_ids)
    parts = [p for p in piece.parts if p.species and ids & set(woods[p.species].species_ids)]
    try:
        return [
            SizeNow(p, size_for(wood, p.width_mm, moisture_pct, build, p.ring_angle_deg).size_mm)
            for p in parts
        ]
    except NoDataError:
        return []
