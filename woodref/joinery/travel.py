"""How far a point of a moving part travels from its fixed line, the line that does not move."""

from __future__ import annotations

from typing import NamedTuple

from woodref.board.movement import Movement, movement
from woodref.board.movement_basis import MovementBasis
from woodref.errors import InputError
from woodref.note import Note
from woodref.quantity import Range, check_glued, exactly
from woodref.record import record
from woodref.reference.woods import Wood

_NOTHING = exactly(0.0)


class MoistureRange(NamedTuple):
    """Moisture content when it is fitted, and at the driest and the wettest of its life [%]."""

    build_pct: float
    driest_pct: float
    wettest_pct: float


@record
class Travel:
    """Travel of a point toward the fixed line, as the part shrinks, and away from it.

    ``to_driest`` and ``to_wettest`` are its travel from the build to either, below zero toward
    the fixed line: of wood fitted outside its later range both go one way.
    """

    distance_mm: float
    toward: Range
    away: Range
    to_driest: Range
    to_wettest: Range
    basis: MovementBasis
    notes: tuple[Note, ...]

    @property
    def most(self) -> Range:
        """The larger of the two: what a fastener in the middle of its hole needs."""
        return max(self.toward, self.away, key=lambda way: way.high)

    @property
    def both(self) -> Range:
        """The two together: what a fastener needs that is set for them."""
        return self.toward.plus(self.away)


def _signed(m: Movement) -> Range:
    """The change of a distance, its ends in order and on one side of nothing."""
    sign = 1.0 if m.to_moisture_pct > m.from_moisture_pct else -1.0
    if m.to_moisture_pct == m.from_moisture_pct:
        return _NOTHING
    # A hair of moisture moves less than the noise of the sizes: keep the ends in order.
    sizes = [max(0.0, sign * x) for x in m.likely_change_mm]
    low, high = sorted((sign * min(sizes), sign * max(sizes)))
    return Range(sign * sizes[0], low, high)


def _largest(ways: tuple[Range, Range], sign: float) -> Range:
    """The larger travel of two in one direction; nothing where neither goes there."""
    there = [w for w in ways if sign * w.expected > 0.0]
    most = max(there, key=lambda w: sign * w.expected, default=_NOTHING)
    low, high = sorted((sign * most.low, sign * most.high))
    return Range(sign * most.expected, low, high) if there else _NOTHING


def checked_range(moisture: MoistureRange) -> MoistureRange:
    """The moisture contents; InputError where the driest is wetter than the wettest."""
    if moisture.driest_pct > moisture.wettest_pct:
        raise InputError(
            f"the driest, {moisture.driest_pct:.1f} %, is more than the wettest, "
            f"{moisture.wettest_pct:.1f} %; exchange the two"
        )
    return moisture


def travel_of(
    wood: Wood,
    distance_mm: float,
    moisture: MoistureRange,
    ring_angle_deg: float = 0.0,
    boards: int = 1,
) -> Travel:
    """Travel of a point between the moisture content of the build and the driest and wettest.

    Parameters: wood of the part that moves; distance_mm across the grain from the fixed
    line, at the build [mm]; moisture [%], 0 to 30; ring_angle_deg 0 flat, 45 rift, 90 quarter
    sawn; boards glued side by side over that distance, which share part of their spread.
    Returns: Travel.
    Raises: InputError for a distance of nothing, and moisture contents in the wrong order;
    NoDataError; as woodref.board.movement.movement.
    Source: as woodref.board.movement.movement; wood does not move along the grain.
    """
    if distance_mm <= 0.0:
        raise InputError(
            "where the part is fixed nothing moves; give the distance of the fixing from there"
        )
    check_glued(boards)
    checked_range(moisture)
    dry, wet = (
        movement(wood, distance_mm, moisture.build_pct, end, ring_angle_deg, boards)
        for end in (moisture.driest_pct, moisture.wettest_pct)
    )
    notes = tuple(dict.fromkeys((*dry.notes, *wet.notes)))
    ends = (_signed(dry), _signed(wet))
    toward, away = _largest(ends, -1.0), _largest(ends, 1.0)
    return Travel(distance_mm, toward, away, *ends, dry.basis, notes)
