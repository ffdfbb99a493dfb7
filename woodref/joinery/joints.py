"""Joints whose parts move against each other: by how much, and the room to leave."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from math import hypot
from typing import NamedTuple

from woodref.display import Grid, Shown, number, ranged
from woodref.joinery.fit import Made, Need, NeedKey
from woodref.joinery.joint_types import JOINTS, JointKind, JointSpec, Way
from woodref.joinery.miter import OtherMember, corner_after
from woodref.joinery.travel import MoistureRange, Travel, travel_of
from woodref.note import Note
from woodref.quantity import Range, exactly
from woodref.record import record
from woodref.reference.woods import Wood

_STILL = exactly(0.0)
#: An offset below this is none [mm].
_NONE_MM = 0.005
NOT_COVERED = Note(
    "joint-not-covered",
    "racking, tipping and strength are not covered; nothing here is a structural design value",
)


class Moment(StrEnum):
    """When a joint is looked at."""

    FITTED = "when fitted"
    DRIEST = "at the driest"
    WETTEST = "at the wettest"


class JointState(NamedTuple):
    """A joint at one moisture content.

    ``offset`` how far the parts stand from how they were fitted [mm], above zero the ``above`` of
    its kind: of a miter the gap; of a tenon the change of the whole rail; of dowels the way of
    the outer one; of an edge strip its height over each face; of a breadboard end how far it
    stands beyond the panel. ``cut_angle`` of a miter to the outer edge of the member,
    ``other_cut_angle`` that of the second one, and ``opening`` of the corner [degree], None of the
    other kinds.
    """

    moment: Moment
    moisture_pct: float
    offset: Range
    way: Way
    cut_angle: Range | None = None
    opening: Range | None = None
    other_cut_angle: Range | None = None


@record(repr=False)
class Joint(Shown):
    """What moves against what in a joint, by how much, and the sizes to make for it.

    ``travel`` of what moves: the point that goes farthest from what is fixed, of a tenon the
    whole rail, of a miter the mean of its two members, or where they are of two woods the first;
    ``core`` that of the solid core under an edge strip, None without one; ``second`` that of the
    second member of a miter, None of the other kinds.
    """

    spec: JointSpec
    wood: Wood
    moisture: MoistureRange
    travel: Travel
    core: Travel | None
    states: tuple[JointState, ...]
    needs: tuple[Need, ...]
    notes: tuple[Note, ...]
    second: Travel | None = None

    def need(self, key: NeedKey) -> Need | None:
        """The size to make of a key, None where the joint asks for none."""
        return next((n for n in self.needs if n.key is key), None)

    def _line(self) -> str:
        _, dry, wet = self.states
        ends = "; ".join(f"{s.moment} {ranged(s.offset, 'mm')}, {s.way}" for s in (dry, wet))
        return f"{self.spec.kind}, {self.wood.common_name}: {ends}"

    def _grid(self) -> Grid:
        rows = [(s.moment, number(s.moisture_pct), ranged(s.offset, "mm"), s.way)
                for s in self.states]  # fmt: skip
        return Grid(("when", "moisture, %", "offset", "way"), rows)


def _times(change: Range, factor: float) -> Range:
    """A multiple by any factor, its ends in order."""
    low, high = sorted((factor * change.low, factor * change.high))
    return Range(factor * change.expected, low, high)


def _over_core(strip: Range, core: Range) -> Range:
    """Half the change of a strip less that of its core; the two pieces are independent."""
    middle = (strip.expected - core.expected) / 2.0
    above = hypot(strip.high - strip.expected, core.expected - core.low) / 2.0
    below = hypot(strip.expected - strip.low, core.high - core.expected) / 2.0
    return Range(middle, middle - below, middle + above)


def _way(kind: JointKind, offset: Range) -> Way:
    if abs(offset.expected) < _NONE_MM:
        return Way.STILL
    known = JOINTS[kind]
    return known.above if offset.expected > 0.0 else known.below


def _state(
    spec: JointSpec, moment: Moment, moisture_pct: float, change: Range, other: Range
) -> JointState:
    """The joint after a change of what moves, and of a core [mm]."""
    offset = change
    if spec.kind is JointKind.VENEER:
        offset = _over_core(change, other)
    elif spec.kind is JointKind.BREADBOARD:
        offset = _times(change, -1.0)
    return JointState(moment, moisture_pct, offset, _way(spec.kind, offset))


def _needs(spec: JointSpec, travel: Travel) -> tuple[Need, ...]:
    """The sizes to make so that what is not fixed can move."""
    slot = 2.0 * travel.most.high
    if spec.kind is JointKind.TENON and spec.loose_mm > 0.0:
        return (
            Need(NeedKey.GAP, "room beyond the dry end of the tenon", travel.away.high, Made.GAP),
            Need(NeedKey.SLOT_CENTERED, "peg hole in the tenon, beyond the peg", slot, Made.CUT),
        )
    if spec.kind is JointKind.DOWEL:
        return (Need(NeedKey.SLOT_CENTERED, "outer holes, beyond the shank", slot, Made.CUT),)
    return ()


def joint_of(spec: JointSpec, wood: Wood, moisture: MoistureRange) -> Joint:
    """How the parts of a joint move against each other, and the room to leave for it.

    Parameters: spec, as woodref.joinery.joint_types.joint_spec makes it; wood of the part that
    moves; moisture content at the build, the driest and the wettest [%], 0 to 30.
    Returns: Joint; sizes [mm].
    Raises: as woodref.joinery.travel.travel_of.
    Source: as woodref.board.movement.movement; what follows from it is plane geometry; the rules
    of each kind are common practice, no source.
    """
    if spec.other is not None:
        return _mitered(spec, spec.other, wood, moisture)
    angle = spec.ring_angle_deg
    one = travel_of(wood, spec.distance_mm, moisture, angle, spec.boards)
    travel = one
    core = None
    if spec.kind is JointKind.TENON:
        # It is told by the whole rail; the room to leave by what lies beyond the glue.
        travel = travel_of(wood, spec.width_mm, moisture, angle, spec.staves)
    elif spec.core is not None:
        core = travel_of(spec.core, spec.width_mm, moisture, spec.core_ring_angle_deg)
    others = (core.to_driest, core.to_wettest) if core else (_STILL, _STILL)
    rows = (
        (Moment.FITTED, moisture.build_pct, _STILL, _STILL),
        (Moment.DRIEST, moisture.driest_pct, travel.to_driest, others[0]),
        (Moment.WETTEST, moisture.wettest_pct, travel.to_wettest, others[1]),
    )
    states = tuple(_state(spec, *row) for row in rows)
    notes = _notes(spec, travel, core)
    return Joint(spec, wood, moisture, travel, core, states, _needs(spec, one), notes)


def _notes(spec: JointSpec, *travels: Travel | None) -> tuple[Note, ...]:
    """What is assumed, what is so of the movements, the rules of the kind, each once."""
    of_travels = (note for travel in travels if travel for note in travel.notes)
    said = (*spec.assumed, *of_travels, *JOINTS[spec.kind].rules, NOT_COVERED)
    return tuple(dict.fromkeys(said))


def _mitered(spec: JointSpec, other: OtherMember, wood: Wood, moisture: MoistureRange) -> Joint:
    """A corner of two members; of one wood they share part of their spread."""
    boards = spec.staves * (2 if other.wood is None else 1)
    members = (
        (wood, spec.width_mm, spec.ring_angle_deg),
        (other.wood or wood, other.width_mm, other.ring_angle_deg),
    )

    def moved(count: int) -> tuple[Travel, Travel]:
        first, second = (travel_of(w, mm, moisture, angle, count) for w, mm, angle in members)
        return first, second

    both, alone = moved(boards), moved(spec.staves)

    def lost(travels: tuple[Travel, Travel], end: str) -> tuple[Range, Range]:
        first, second = (
            _times(getattr(travel, end), -1.0 / travel.distance_mm) for travel in travels
        )
        return first, second

    def state(moment: Moment, pct: float, end: str = "") -> JointState:
        still = (_STILL, _STILL)
        corner = corner_after(
            spec.width_mm,
            other,
            lost(both, end) if end else still,
            lost(alone, end) if end else still,
        )
        way = _way(spec.kind, corner.gap)
        return JointState(
            moment,
            pct,
            corner.gap,
            way,
            corner.cut_angle,
            corner.opening,
            corner.other_cut_angle,
        )

    states = (
        state(Moment.FITTED, moisture.build_pct),
        state(Moment.DRIEST, moisture.driest_pct, "to_driest"),
        state(Moment.WETTEST, moisture.wettest_pct, "to_wettest"),
    )
    notes = _notes(spec, *both)
    return Joint(spec, wood, moisture, both[0], None, states, (), notes, both[1])


def joint_through_year(joint: Joint, moistures_pct: Sequence[float]) -> tuple[JointState, ...]:
    """The joint at each of some moisture contents, such as those of the months of a room.

    Parameters: joint, as fitted; moistures_pct [%].
    """

    def at(pct: float) -> JointState:
        there = joint.moisture._replace(driest_pct=pct, wettest_pct=pct)
        return joint_of(joint.spec, joint.wood, there).states[1]

    return tuple(at(pct) for pct in moistures_pct)
