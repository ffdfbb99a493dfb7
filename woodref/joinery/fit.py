"""What a fixing is asked for: sizes to make, and the room that given sizes leave."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from woodref.joinery.hardware import gap_up, next_bit, size_up
from woodref.quantity import Range

_NOISE = 1e-6


class Verdict(StrEnum):
    """How far given sizes let the wood move; of a glued joint, if its length is glued."""

    HOLDS = "holds"
    HOLDS_FOR_AVERAGE = "holds for average board"
    DOES_NOT_HOLD = "does not hold"
    SHORT_ENOUGH = "short enough"
    TOO_LONG = "too long"

    @property
    def grade(self) -> int:
        """2 for a board at the high end of its likely range, 1 for an average one, else 0."""
        return _GRADES[self]


_GRADES = {
    Verdict.HOLDS: 2,
    Verdict.SHORT_ENOUGH: 2,
    Verdict.HOLDS_FOR_AVERAGE: 1,
    Verdict.DOES_NOT_HOLD: 0,
    Verdict.TOO_LONG: 0,
}


class NeedKey(StrEnum):
    """The sizes a fixing may ask for."""

    HOLE = "hole"
    WASHER = "washer"
    RECESS = "recess"
    SLOT_CENTERED = "slot-centered"
    SLOT_OFFSET = "slot-offset"
    SLOT_WIDTH = "slot-width"
    GAP = "gap"
    TONGUE = "tongue"
    GROOVE = "groove"


class CheckKey(StrEnum):
    """The places where a given size leaves room, or does not."""

    SHANK_IN_HOLE = "shank-in-hole"
    WASHER_IN_RECESS = "washer-in-recess"
    WASHER_OVER_HOLE = "washer-over-hole"
    SLOT_CENTERED = "slot-centered"
    SLOT_OFFSET = "slot-offset"
    GAP = "gap"
    TONGUE_LEFT = "tongue-left"
    TONGUE_BEFORE_BOTTOM = "tongue-before-bottom"
    GLUED_LENGTH = "glued-length"


class Made(StrEnum):
    """How a size is made, which is how it is rounded up."""

    BIT = "bit"
    CUT = "cut"
    GAP = "gap"


class Side(StrEnum):
    """Where the room of a check is.

    Each way as much, toward the fixed line, away from it, or both together, shared out as they
    are needed.
    """

    EACH = "each"
    TOWARD = "toward"
    AWAY = "away"
    TOGETHER = "together"


class Need(NamedTuple):
    """A size to make: ``what`` it is in words, the exact size [mm], and how it is made."""

    key: NeedKey
    what: str
    size_mm: float
    how: Made

    def made_mm(self, units: str) -> float | None:
        """The size of the inch or the metric set that serves; None above the largest bit [mm]."""
        if self.how is Made.BIT:
            return next_bit(self.size_mm, units)
        return (gap_up if self.how is Made.GAP else size_up)(self.size_mm, units)


class Check(NamedTuple):
    """A size the user gave: ``what`` in words, the room it leaves, and the room needed [mm].

    ``need.high`` is that of a board at the high end of its likely range, ``need.expected`` that
    of an average one; ``side`` says where the room is.
    """

    key: CheckKey
    what: str
    room_mm: float
    need: Range
    side: Side = Side.EACH

    @property
    def ok(self) -> bool:
        """True where a board at the high end of its likely range has room."""
        return self.room_mm >= self.need.high - _NOISE

    @property
    def ok_expected(self) -> bool:
        """True where an average board has room."""
        return self.room_mm >= self.need.expected - _NOISE

    @property
    def verdict(self) -> Verdict:
        """If the size holds; of a glued joint, if its length is glued."""
        if self.key is CheckKey.GLUED_LENGTH:
            return Verdict.SHORT_ENOUGH if self.ok else Verdict.TOO_LONG
        if self.ok:
            return Verdict.HOLDS
        return Verdict.HOLDS_FOR_AVERAGE if self.ok_expected else Verdict.DOES_NOT_HOLD

    @property
    def spare_mm(self) -> float:
        """Room left by a board at the high end, below zero where it is short [mm]."""
        return self.room_mm - self.need.high

    @property
    def short_mm(self) -> float:
        """Room that a board at the high end lacks, 0 where it has enough [mm]."""
        return 0.0 if self.ok else -self.spare_mm
