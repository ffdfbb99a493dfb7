"""Fixings that let wood move: the travel, the sizes to make, and whether given sizes hold."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.display import Shown, ranged
from woodref.joinery.fit import Check, Need, NeedKey, Side, Verdict
from woodref.joinery.fixing_rules import demand_of, hardware_notes
from woodref.joinery.fixing_types import FixingSpec, checked_sizes
from woodref.joinery.travel import MoistureRange, Travel, travel_of
from woodref.note import Note
from woodref.record import record
from woodref.reference.woods import Wood


@record(repr=False)
class Fixing(Shown):
    """What a fixing needs: travel, sizes to make, and a check of each size that was given."""

    spec: FixingSpec
    wood: Wood
    moisture: MoistureRange
    travel: Travel
    needs: tuple[Need, ...]
    checks: tuple[Check, ...]
    notes: tuple[Note, ...]

    @property
    def verdict(self) -> Verdict | None:
        """The least good verdict on the sizes that were given; None where nothing was."""
        return min((c.verdict for c in self.checks), key=lambda v: v.grade, default=None)

    @property
    def holds(self) -> bool:
        """True where no size that was given falls short, for a board at the high end."""
        return all(c.ok for c in self.checks)

    @property
    def worst(self) -> Check | None:
        """The check with the least room to spare."""
        return min(self.checks, key=lambda c: c.spare_mm, default=None)

    def need(self, key: NeedKey) -> Need | None:
        """The size to make of a key, None where the kind asks for none."""
        return next((n for n in self.needs if n.key is key), None)

    @property
    def gap_mm(self) -> float | None:
        """The gap at the build: as given, else as told; None where the kind has none [mm]."""
        if self.spec.sizes.gap is not None:
            return self.spec.sizes.gap
        told = self.need(NeedKey.GAP)
        return told.made_mm(self.spec.units) if told else None

    @property
    def room_mm(self) -> tuple[float | None, float | None]:
        """Room the sizes given leave toward the fixed line and away from it [mm].

        None where they bound nothing that way; below zero where there is none.
        """
        t = self.travel
        off = (t.toward.high - t.away.high) / 2.0
        toward: list[float] = []
        away: list[float] = []
        for c in self.checks:
            if c.side is Side.TOGETHER:
                toward.append(c.room_mm / 2.0 + off)
                away.append(c.room_mm / 2.0 - off)
            if c.side in (Side.EACH, Side.TOWARD):
                toward.append(c.room_mm)
            if c.side in (Side.EACH, Side.AWAY):
                away.append(c.room_mm)
        return min(toward, default=None), min(away, default=None)

    @property
    def strain_pct(self) -> float:
        """The larger change of the width, as a share of it [%]."""
        return 100.0 * self.travel.most.expected / self.travel.distance_mm

    def _line(self) -> str:
        verdict = f": {self.verdict}" if self.verdict else ""
        most = ranged(self.travel.most, "mm")
        return f"{self.spec.kind}, {self.wood.common_name}, moves {most}{verdict}"


def fixing_of(spec: FixingSpec, wood: Wood, moisture: MoistureRange) -> Fixing:
    """What a fixing needs so that the wood can move, and whether the given sizes let it.

    Parameters: spec, as woodref.joinery.fixing_types.fixing_spec makes it; wood of the part
    that moves; moisture content at the build, the driest and the wettest [%], 0 to 30.
    Returns: Fixing; sizes [mm].
    Raises: FixingError for sizes that cannot exist together; as
    woodref.joinery.travel.travel_of.
    Source: as woodref.board.movement.movement; the rules of each kind are geometry, and
    common practice, no source, where they say so.
    """
    checked_sizes(spec.kind, spec.sizes)
    travel = travel_of(wood, spec.distance_mm, moisture, spec.ring_angle_deg, spec.boards)
    needs, checks, notes = demand_of(spec, travel)
    return Fixing(
        spec,
        wood,
        moisture,
        travel,
        tuple(needs),
        tuple(checks),
        (*spec.assumed, *travel.notes, *notes, *hardware_notes(spec, needs)),
    )


def first_needs(fixing: Fixing, builds_pct: Sequence[float]) -> tuple[Need, ...]:
    """The size to make first, were the same fixing fitted at other moisture contents.

    A gap that was given changes nothing of it: it is what is asked for.

    Parameters: fixing; builds_pct moisture contents when it is fitted [%], 0 to 30, those of
    the months of a room for instance.
    Returns: a Need for each [mm]; none of a glued joint, which needs no size.
    Raises: as fixing_of.
    """
    if not fixing.needs:
        return ()
    moistures = (fixing.moisture._replace(build_pct=pct) for pct in builds_pct)
    return tuple(fixing_of(fixing.spec, fixing.wood, m).needs[0] for m in moistures)
