"""The moisture contents a wood swings between in a year."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.record import record

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.piece.piece import Piece


@record
class SeasonalRange:
    """Moisture contents of the driest and the wettest of a year to design for [%].

    By default those of a heated house (common practice, no source).
    """

    driest_pct: float = DRIEST_PCT
    wettest_pct: float = DAMPEST_PCT

    @classmethod
    def of_room(cls, room: Room | None) -> SeasonalRange:
        """The year of a room, the usual one where there is none."""
        if room is None:
            return cls()
        _, dry, wet = room.season.design_pct
        return cls(dry, wet)

    @classmethod
    def of_piece(cls, piece: Piece) -> SeasonalRange:
        """The year a piece is made for."""
        return cls(*sorted((piece.driest.moisture_pct, piece.wettest.moisture_pct)))
