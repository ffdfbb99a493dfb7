"""Fixings that let wood move: the travel, the sizes to make, and whether given sizes hold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from woodref.joinery.fixing_types import USUAL_ENGAGEMENT_MM, FixingSpec, checked_sizes
from woodref.joinery.hardware import BITS, gap_up, next_bit, screw_number, size_up
from woodref.joinery.travel import MoistureRange, Travel, travel_of
from woodref.quantity import Range
from woodref.reference.woods import Wood
from woodref.units import KINDS, MM_PER_INCH

#: Longest joint that is glued across the grain: 3 in, 75 mm (common practice, no source) [mm].
GLUED_LIMIT_MM = {"us": 3.0 * MM_PER_INCH, "si": 75.0}
RULE = (
    "a fixing holds where it leaves room for a lively board, at the high end of the likely range; "
    "sizes to make are for that too, and rounded up"
)
_YES, _USUAL, _NO = "holds", "holds for a usual board", "does not hold"
#: A shank is not set off the middle of its slot by less [mm].
_HARDLY_OFF_MM = 0.4
_NOISE = 1e-6


class Need(NamedTuple):
    """A size to make: exact [mm], and how it is made: 'bit', 'cut' or 'gap'."""

    what: str
    size_mm: float
    how: str

    def made_mm(self, units: str) -> float | None:
        """The size of the inch or the metric set that serves; None above the largest bit [mm]."""
        if self.how == "bit":
            return next_bit(self.size_mm, units)
        return (gap_up if self.how == "gap" else size_up)(self.size_mm, units)


class Check(NamedTuple):
    """A size the user gave: the room it leaves [mm], and the room that is needed [mm].

    ``way`` says where the room is: 'each' way as much, 'toward' the held line, 'away' from it,
    or both 'together', shared out as they are needed.
    """

    what: str
    room_mm: float
    need: Range
    way: str = "each"

    @property
    def ok(self) -> bool:
        """True where a lively board has room."""
        return self.room_mm >= self.need.high - _NOISE

    @property
    def ok_expected(self) -> bool:
        """True where a usual board has room."""
        return self.room_mm >= self.need.expected - _NOISE

    @property
    def verdict(self) -> str:
        """'holds', 'holds for a usual board' or 'does not hold'."""
        if self.ok:
            return _YES
        return _USUAL if self.ok_expected else _NO

    @property
    def spare_mm(self) -> float:
        """Room left by a lively board, below zero where it is short [mm]."""
        return self.room_mm - self.need.high

    @property
    def short_mm(self) -> float:
        """Room that a lively board lacks, 0 where it has enough [mm]."""
        return max(0.0, -self.spare_mm)


@dataclass(frozen=True)
class Fixing:
    """What a fixing needs: travel, sizes to make, and a check of each size that was given."""

    spec: FixingSpec
    wood: Wood
    moisture: MoistureRange
    travel: Travel
    needs: tuple[Need, ...]
    checks: tuple[Check, ...]
    notes: tuple[str, ...]

    @property
    def verdict(self) -> str:
        """'holds', 'holds for a usual board', 'does not hold', or '' where nothing was given.

        Of a glued joint 'short enough' or 'too long'.
        """
        if not self.checks:
            return ""
        if self.spec.kind == "glued":
            return "short enough" if self.checks[0].ok else "too long"
        found = {c.verdict for c in self.checks}
        return next(v for v in (_NO, _USUAL, _YES) if v in found)

    @property
    def worst(self) -> Check | None:
        """The check with the least room to spare."""
        return min(self.checks, key=lambda c: c.spare_mm, default=None)

    @property
    def gap_mm(self) -> float | None:
        """The gap at the build: as given, else as told; None where the kind has none [mm]."""
        if self.spec.sizes.gap is not None:
            return self.spec.sizes.gap
        told = next((n for n in self.needs if n.how == "gap"), None)
        return told.made_mm(self.spec.units) if told else None

    @property
    def room_mm(self) -> tuple[float | None, float | None]:
        """Room the sizes given leave toward the held line and away from it [mm].

        None where they bound nothing that way; below zero where there is none.
        """
        t = self.travel
        off = (t.toward.high - t.away.high) / 2.0
        toward: list[float] = []
        away: list[float] = []
        for c in self.checks:
            if c.way == "together":
                toward.append(c.room_mm / 2.0 + off)
                away.append(c.room_mm / 2.0 - off)
            if c.way in ("each", "toward"):
                toward.append(c.room_mm)
            if c.way in ("each", "away"):
                away.append(c.room_mm)
        return min(toward, default=None), min(away, default=None)

    @property
    def strain_pct(self) -> float:
        """The larger change of the width, as a share of it [%]."""
        return 100.0 * self.travel.most.expected / self.travel.distance_mm


Parts = tuple[list[Need], list[Check], list[str]]


def _round_hole(spec: FixingSpec, travel: Travel) -> Parts:
    s, most = spec.sizes, travel.most
    shank = s.screw or 0.0
    hole = Need("hole" if s.screw else "hole, beyond the shank", shank + 2.0 * most.high, "bit")
    needs, checks = [hole], []
    drilled = s.hole or (hole.made_mm(spec.units) if s.screw else None)
    if drilled:
        washer = Need("washer, at least", drilled + 2.0 * most.high, "cut")
        needs.append(washer)
        across = s.washer or washer.made_mm(spec.units)
        if across:
            needs.append(Need("recess for the washer", across + 2.0 * most.high, "bit"))
    if s.hole and s.screw:
        checks.append(Check("shank in its hole", (s.hole - s.screw) / 2.0, most))
    if s.washer and s.recess:
        checks.append(Check("washer in its recess", (s.recess - s.washer) / 2.0, most))
    if s.washer and drilled:
        checks.append(Check("washer over the hole", (s.washer - drilled) / 2.0, most))
    notes = [
        "the screw stands in the middle of its hole at the build, goes through the part that "
        "holds still and is driven into the part that moves"
    ]
    if hole.made_mm(spec.units) is None:
        notes.append("no common bit drills so large a hole: take a slotted hole")
    return needs, checks, notes


def _slot(spec: FixingSpec, travel: Travel, which: str, slot_moves: bool) -> Parts:
    """A shank in a slot: in the middle of a long one, or set off it in the shortest one.

    A shank that moves needs its room ahead of it; a slot that moves, behind.
    """
    shank, slot = spec.sizes.shank or 0.0, spec.sizes.slot
    beyond = "" if shank else f", beyond the {which}"
    needs = [Need(f"slot{beyond}, {which} in its middle", shank + 2.0 * travel.most.high, "cut")]
    notes = []
    off = (travel.toward.high - travel.away.high) / 2.0
    if abs(off) > _HARDLY_OFF_MM:
        end = "farther from" if (off > 0.0) != slot_moves else "nearer to"
        needs.append(Need(f"slot{beyond}, {which} set off it", shank + travel.both.high, "cut"))
        notes.append(
            f"set off the middle, {KINDS['change'].text(abs(off), spec.units)} {end} the held "
            f"line, the {which} has its room both ways in the shortest slot"
        )
    if not (slot and shank):
        return needs, [], notes
    check = Check(f"{which} in the middle of its slot", (slot - shank) / 2.0, travel.most)
    apart = Check(f"{which} off the middle of its slot", slot - shank, travel.both, "together")
    ways = (check, apart) if notes else (check,)
    return needs, [max(ways, key=lambda c: (c.ok, c.ok_expected))], notes


def _slotted(spec: FixingSpec, travel: Travel) -> Parts:
    needs, checks, notes = _slot(spec, travel, "screw", False)
    if spec.sizes.screw:
        needs.append(Need("width of the slot", spec.sizes.screw, "bit"))
    notes.append(
        "the slot lies in the part that holds still, along the movement; where it lies in the "
        "part that moves, set the screw off to the other side"
    )
    return needs, checks, notes


def _breadboard(spec: FixingSpec, travel: Travel) -> Parts:
    needs, checks, notes = _slot(spec, travel, "peg", True)
    if spec.edge_mm:
        part = spec.edge_mm / spec.distance_mm
        text = KINDS["change"].text
        out, short = (text(w.high * part, spec.units) for w in (travel.away, travel.toward))
        notes.append(
            f"beside the end, each edge of the top comes to stand up to {out} proud at the wettest "
            f"and up to {short} short at the driest"
        )
    notes.append(
        "glue and peg the middle alone; the outer holes are long in the tongue, along the end, and "
        "round in the end; the end itself does not change in length (common practice, no source)"
    )
    return needs, checks, notes


def _gap(spec: FixingSpec, travel: Travel, what: str) -> tuple[Need, list[Check], float]:
    """The gap to leave, its check, and the gap that there is or will be [mm]."""
    spare = spec.sizes.spare or 0.0
    need = Need(what, travel.away.high + spare, "gap")
    given = spec.sizes.gap
    if given is None:
        return need, [], gap_up(need.size_mm, spec.units)
    return need, [Check(what, given - spare, travel.away, "away")], given


def _engagement(spec: FixingSpec) -> tuple[float, list[str]]:
    if spec.sizes.engage is not None:
        return spec.sizes.engage, []
    kept = KINDS["size"].text(USUAL_ENGAGEMENT_MM, spec.units)
    return USUAL_ENGAGEMENT_MM, [
        f"at the driest {kept} of the tongue stays in the groove (common practice, no source)"
    ]


def _floating_panel(spec: FixingSpec, travel: Travel) -> Parts:
    need, checks, gap = _gap(spec, travel, "gap on each side")
    engage, notes = _engagement(spec)
    needs = [need, Need("depth of the groove", gap + travel.toward.high + engage, "cut")]
    if spec.sizes.groove is not None:
        left = spec.sizes.groove - gap - engage
        checks.append(Check("tongue left in the groove", left, travel.toward, "toward"))
    notes.append(
        "the width is that of the panel with its tongues; pin it in the middle, or it may wander "
        "to one side and leave the other groove; no glue in the grooves; the frame stays as wide "
        "between its stiles, as its rails run along their grain"
    )
    return needs, checks, notes


def _button(spec: FixingSpec, travel: Travel) -> Parts:
    need, checks, gap = _gap(spec, travel, "gap before the apron")
    engage, notes = _engagement(spec)
    s = spec.sizes
    tongue_need = Need("tongue of the button", gap + travel.toward.high + engage, "cut")
    tongue = s.tongue or tongue_need.made_mm(spec.units) or 0.0
    needs = [need, tongue_need, Need("depth of the groove", tongue - gap + travel.away.high, "cut")]
    if s.tongue is not None:
        left = s.tongue - gap - engage
        checks.append(Check("tongue left in the groove", left, travel.toward, "toward"))
    if s.groove is not None:
        checks.append(
            Check("tongue before the groove's bottom", s.groove - tongue + gap, travel.away, "away")
        )
    notes.append(
        "for an apron along the grain of the top; along an apron across the grain the buttons "
        "slide in their groove and need that much free length of it"
    )
    return needs, checks, notes


def _drawer_bottom(spec: FixingSpec, travel: Travel) -> Parts:
    gap, gap_checks, _ = _gap(spec, travel, "gap behind the bottom")
    needs, checks, notes = _slot(spec, travel, "screw", True)
    reach = KINDS["change"].text(travel.toward.high, spec.units)
    notes.append(
        f"its grain runs from side to side; its back edge draws in by up to {reach} at the "
        "driest: let it reach that much further under the drawer's back"
    )
    return [*needs, gap], [*checks, *gap_checks], notes


def _drawer_front(spec: FixingSpec, travel: Travel) -> Parts:
    need, checks, _ = _gap(spec, travel, "gap above the front")
    notes = ["in an opening whose height runs along the grain of its sides, and so stays the same"]
    if not spec.sizes.spare:
        notes.append("at the wettest a lively front just touches; --spare leaves a gap even then")
    return [need], checks, notes


def _glued(spec: FixingSpec, _: Travel) -> Parts:
    limit, length = GLUED_LIMIT_MM[spec.units], spec.distance_mm
    text = KINDS["size"].text(limit, spec.units)
    return (
        [],
        [Check("length across the grain", limit, Range(length, length, length))],
        [
            f"up to {text} is glued across the grain (common practice, no source); longer joints "
            "are screwed through slots, or glued in the middle alone",
            "the strain is what the glue and the wood around it must take up, as no part of the "
            "joint can move",
            "both woods count: the width of a batten lies across its own grain; ask for the longer "
            "way of the joint",
        ],
    )


_RULES: dict[str, Callable[[FixingSpec, Travel], Parts]] = {
    "round-hole": _round_hole,
    "slotted-hole": _slotted,
    "button": _button,
    "breadboard": _breadboard,
    "floating-panel": _floating_panel,
    "drawer-bottom": _drawer_bottom,
    "drawer-front": _drawer_front,
    "glued": _glued,
}


def _hardware_notes(spec: FixingSpec, needs: list[Need]) -> list[str]:
    """Where the shank of a numbered screw and the sizes of bits come from."""
    shank = spec.sizes.screw
    number = screw_number(shank) if shank else None
    notes = [RULE] if needs else []
    if any(n.how == "bit" for n in needs):
        notes.append(BITS)
    if shank and number:
        size = f"{shank / MM_PER_INCH:.3f} in" if spec.units == "us" else f"{shank:.2f} mm"
        notes.append(f"a #{number} screw has a shank of {size}: ANSI/ASME B18.6.1 (memory)")
    return notes


def checks_of(spec: FixingSpec, travel: Travel) -> tuple[Check, ...]:
    """The checks alone, for a travel that is known.

    Raises: FixingError for sizes that cannot exist together.
    """
    checked_sizes(spec.kind, spec.sizes)
    return tuple(_RULES[spec.kind](spec, travel)[1])


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
    needs, checks, notes = _RULES[spec.kind](spec, travel)
    return Fixing(
        spec,
        wood,
        moisture,
        travel,
        tuple(needs),
        tuple(checks),
        (*spec.assumed, *travel.notes, *notes, *_hardware_notes(spec, needs)),
    )
