"""What each kind of fixing needs of a travel: sizes to make, checks of given ones, remarks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from woodref.joinery.fit import Check, CheckKey, Made, Need, NeedKey, Side
from woodref.joinery.fixing_types import FIXINGS, USUAL_ENGAGEMENT_MM, FixingSpec
from woodref.joinery.hardware import BITS, gap_up, screw_number, size_up
from woodref.joinery.travel import Travel
from woodref.note import Note
from woodref.quantity import exactly
from woodref.reference.bases import COMMON_PRACTICE
from woodref.units import KINDS, MM_PER_INCH

#: Longest joint that is glued across the grain: 3 in, 75 mm (common practice, no source) [mm].
GLUED_LIMIT_MM = {"us": 3.0 * MM_PER_INCH, "si": 75.0}
HIGH_END = Note(
    "sized-for-high-end",
    "a fixing holds where it leaves room for a board at the high end of its likely range; "
    "sizes to make are for that too, and rounded up",
)
_PRACTICE = COMMON_PRACTICE
BREADBOARD_GLUE = Note(
    "breadboard-glue",
    "glue and peg the middle alone; the outer holes are long in the tongue, along the end, and "
    "round in the end; the end itself does not change in length (common practice, no source)",
    _PRACTICE,
)
#: A shank is not set off the middle of its slot by less [mm].
HARDLY_OFF_MM = 0.4


class Demand(NamedTuple):
    """What a kind of fixing asks for, given a travel."""

    needs: list[Need]
    checks: list[Check]
    notes: list[Note]


def _round_hole(spec: FixingSpec, travel: Travel) -> Demand:
    s, most = spec.sizes, travel.most
    shank = s.screw or 0.0
    what = "hole" if s.screw else "hole, beyond the shank"
    hole = Need(NeedKey.HOLE, what, shank + 2.0 * most.high, Made.BIT)
    needs, checks = [hole], []
    bit = hole.made_mm(spec.units)
    drilled = s.hole or (bit if s.screw else None)
    if drilled:
        washer = Need(NeedKey.WASHER, "washer, at least", drilled + 2.0 * most.high, Made.CUT)
        needs.append(washer)
        across = s.washer or size_up(washer.size_mm, spec.units)
        wide = across + 2.0 * most.high
        needs.append(Need(NeedKey.RECESS, "recess for the washer", wide, Made.BIT))
    if s.hole and s.screw:
        play = (s.hole - s.screw) / 2.0
        checks.append(Check(CheckKey.SHANK_IN_HOLE, "shank in its hole", play, most))
    if s.washer and s.recess:
        play = (s.recess - s.washer) / 2.0
        checks.append(Check(CheckKey.WASHER_IN_RECESS, "washer in its recess", play, most))
    if s.washer and drilled:
        cover = (s.washer - drilled) / 2.0
        checks.append(Check(CheckKey.WASHER_OVER_HOLE, "washer over the hole", cover, most))
    notes = [
        Note(
            "screw-centered",
            "the screw stands in the middle of its hole at the build, goes through the part that "
            "holds still and is driven into the part that moves",
        )
    ]
    if bit is None:
        text = "no common bit drills so large a hole: take a slotted hole"
        notes.append(Note("hole-above-bits", text))
    return Demand(needs, checks, notes)


def off_center_mm(spec: FixingSpec, travel: Travel) -> float:
    """How far a shank stands off the middle of the shortest slot [mm].

    Above zero it stands away from where the part is fixed.
    """
    off = (travel.toward.high - travel.away.high) / 2.0
    return -off if FIXINGS[spec.kind].slot_moves else off


def _slot(spec: FixingSpec, travel: Travel, which: str) -> Demand:
    """A shank in a slot: in the middle of a long one, or set off it in the shortest one.

    A shank that moves needs its room ahead of it; a slot that moves, behind.
    """
    shank, slot = spec.sizes.shank or 0.0, spec.sizes.slot
    beyond = "" if shank else f", beyond the {which}"
    long = shank + 2.0 * travel.most.high
    needs = [
        Need(NeedKey.SLOT_CENTERED, f"slot{beyond}, {which} in its middle", long, Made.CUT),
    ]
    notes = []
    off = off_center_mm(spec, travel)
    if abs(off) > HARDLY_OFF_MM:
        end = "away from" if off > 0.0 else "toward"
        short = shank + travel.both.high
        needs.append(
            Need(NeedKey.SLOT_OFFSET, f"slot{beyond}, {which} set off it", short, Made.CUT)
        )
        notes.append(
            Note(
                "slot-offset",
                f"in the shortest slot the {which} sits "
                f"{KINDS['tool'].text(abs(off), spec.units)} off center, {end} where the part is "
                "fixed, and has its room both ways",
            )
        )
    if not (slot and shank):
        return Demand(needs, [], notes)
    play = slot - shank
    centered = Check(
        CheckKey.SLOT_CENTERED, f"{which} in the middle of its slot", play / 2.0, travel.most
    )
    offset = Check(
        CheckKey.SLOT_OFFSET,
        f"{which} off the middle of its slot",
        play,
        travel.both,
        Side.TOGETHER,
    )
    ways = (centered, offset) if notes else (centered,)
    return Demand(needs, [max(ways, key=lambda c: (c.ok, c.ok_expected))], notes)


def _slotted(spec: FixingSpec, travel: Travel) -> Demand:
    needs, checks, notes = _slot(spec, travel, "screw")
    if spec.sizes.screw:
        needs.append(Need(NeedKey.SLOT_WIDTH, "width of the slot", spec.sizes.screw, Made.BIT))
    notes.append(
        Note(
            "slot-holds-still",
            "the slot lies in the part that holds still, along the movement; where it lies in the "
            "part that moves, set the screw off to the other side",
        )
    )
    return Demand(needs, checks, notes)


def _breadboard(spec: FixingSpec, travel: Travel) -> Demand:
    needs, checks, notes = _slot(spec, travel, "peg")
    if spec.edge_mm:
        part = spec.edge_mm / spec.distance_mm
        text = KINDS["size_up"].text
        out, short = (text(w.high * part, spec.units) for w in (travel.away, travel.toward))
        notes.append(
            Note(
                "edge-proud",
                f"beside the end, each edge of the top comes to stand up to {out} proud at the "
                f"wettest and up to {short} short at the driest",
            )
        )
    notes.append(BREADBOARD_GLUE)
    return Demand(needs, checks, notes)


def _gap(spec: FixingSpec, travel: Travel, what: str) -> tuple[Need, list[Check], float]:
    """The gap to leave, its check, and the gap that there is or will be [mm]."""
    spare = spec.sizes.spare or 0.0
    need = Need(NeedKey.GAP, what, travel.away.high + spare, Made.GAP)
    given = spec.sizes.gap
    if given is None:
        return need, [], gap_up(need.size_mm, spec.units)
    return need, [Check(CheckKey.GAP, what, given - spare, travel.away, Side.AWAY)], given


def _engagement(spec: FixingSpec) -> tuple[float, list[Note]]:
    """The tongue that stays in its groove at the driest [mm], and a note where it is assumed."""
    if spec.sizes.engage is not None:
        return spec.sizes.engage, []
    kept = KINDS["size"].text(USUAL_ENGAGEMENT_MM, spec.units)
    text = f"at the driest {kept} of the tongue stays in the groove (common practice, no source)"
    return USUAL_ENGAGEMENT_MM, [Note("tongue-engagement", text, _PRACTICE)]


def _tongue_left(left_mm: float, travel: Travel) -> Check:
    what = "tongue left in the groove"
    return Check(CheckKey.TONGUE_LEFT, what, left_mm, travel.toward, Side.TOWARD)


def _floating_panel(spec: FixingSpec, travel: Travel) -> Demand:
    need, checks, gap = _gap(spec, travel, "gap on each side")
    engage, notes = _engagement(spec)
    deep = gap + travel.toward.high + engage
    needs = [need, Need(NeedKey.GROOVE, "depth of the groove", deep, Made.CUT)]
    if spec.sizes.groove is not None:
        checks.append(_tongue_left(spec.sizes.groove - gap - engage, travel))
    notes.append(
        Note(
            "panel-floats",
            "the width is that of the panel with its tongues; pin it in the middle, or it may "
            "wander to one side and leave the other groove; no glue in the grooves; the frame "
            "stays as wide between its stiles, as its rails run along their grain",
        )
    )
    return Demand(needs, checks, notes)


def _button(spec: FixingSpec, travel: Travel) -> Demand:
    need, checks, gap = _gap(spec, travel, "gap before the apron")
    engage, notes = _engagement(spec)
    s = spec.sizes
    long = gap + travel.toward.high + engage
    tongue_need = Need(NeedKey.TONGUE, "tongue of the button", long, Made.CUT)
    tongue = s.tongue or size_up(long, spec.units)
    deep = tongue - gap + travel.away.high
    needs = [need, tongue_need, Need(NeedKey.GROOVE, "depth of the groove", deep, Made.CUT)]
    if s.tongue is not None:
        checks.append(_tongue_left(s.tongue - gap - engage, travel))
    if s.groove is not None:
        what, left = "tongue before the groove's bottom", s.groove - tongue + gap
        checks.append(Check(CheckKey.TONGUE_BEFORE_BOTTOM, what, left, travel.away, Side.AWAY))
    notes.append(
        Note(
            "buttons-along-grain",
            "for an apron along the grain of the top; along an apron across the grain the buttons "
            "slide in their groove and need that much free length of it",
        )
    )
    return Demand(needs, checks, notes)


def _drawer_bottom(spec: FixingSpec, travel: Travel) -> Demand:
    gap, gap_checks, _ = _gap(spec, travel, "gap behind the bottom")
    needs, checks, notes = _slot(spec, travel, "screw")
    reach = KINDS["size_up"].text(travel.toward.high, spec.units)
    notes.append(
        Note(
            "bottom-reaches-under",
            f"its grain runs from side to side; its back edge shrinks in by up to {reach} at the "
            "driest: let it reach that much further under the drawer's back",
        )
    )
    return Demand([*needs, gap], [*checks, *gap_checks], notes)


def _drawer_front(spec: FixingSpec, travel: Travel) -> Demand:
    need, checks, _ = _gap(spec, travel, "gap above the front")
    text = "in an opening whose height runs along the grain of its sides, and so stays the same"
    notes = [Note("opening-holds-still", text)]
    if not spec.sizes.spare:
        text = (
            "at the wettest a front at the high end of its range just touches; --spare leaves a "
            "gap even then"
        )
        notes.append(Note("front-touches", text))
    return Demand([need], checks, notes)


def _glued(spec: FixingSpec, _: Travel) -> Demand:
    limit, length = GLUED_LIMIT_MM[spec.units], spec.distance_mm
    across = exactly(length)
    return Demand(
        [],
        [Check(CheckKey.GLUED_LENGTH, "length across the grain", limit, across)],
        [
            Note(
                "glued-limit",
                f"up to {KINDS['size'].text(limit, spec.units)} is glued across the grain (common "
                "practice, no source); longer joints are screwed through slots, or glued in the "
                "middle alone",
                _PRACTICE,
            ),
            Note(
                "glued-strain",
                "the strain is what the glue and the wood around it must take up, as no part of "
                "the joint can move",
            ),
            Note(
                "both-woods-count",
                "both woods count: the width of a batten lies across its own grain; ask for the "
                "longer way of the joint",
            ),
        ],
    )


_RULES: dict[str, Callable[[FixingSpec, Travel], Demand]] = {
    "round-hole": _round_hole,
    "slotted-hole": _slotted,
    "button": _button,
    "breadboard": _breadboard,
    "floating-panel": _floating_panel,
    "drawer-bottom": _drawer_bottom,
    "drawer-front": _drawer_front,
    "glued": _glued,
}


def demand_of(spec: FixingSpec, travel: Travel) -> Demand:
    """What a fixing asks for at a travel.

    Parameters: spec; travel of the fixing.
    Returns: Demand, sizes [mm].
    Source: geometry; common practice, no source, where a note says so.
    """
    return _RULES[spec.kind](spec, travel)


def hardware_notes(spec: FixingSpec, needs: Sequence[Need]) -> list[Note]:
    """Where the shank of a numbered screw and the sizes of bits come from."""
    shank = spec.sizes.screw
    number = screw_number(shank) if shank else None
    notes = [HIGH_END] if needs else []
    if any(n.how is Made.BIT for n in needs):
        notes.append(Note("bit-sizes", BITS, _PRACTICE))
    if shank and number:
        size = f"{shank / MM_PER_INCH:.3f} in" if spec.units == "us" else f"{shank:.2f} mm"
        text = f"a #{number} screw has a shank of {size}: FPL-GTR-282 (2021), Table 8-9, p. 8-12"
        notes.append(Note("screw-shank", text))
    return notes
