"""What the command joint says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.fixing import trade_notes
from woodref.answers.fixing_words import moisture_words
from woodref.answers.method_words import movement_method
from woodref.answers.provenance import (
    based_on,
    computed_notes,
    sentence,
    sentences,
    unchecked_line,
)
from woodref.answers.render import Answer, Column, Section
from woodref.answers.room_words import room_lines
from woodref.answers.words import (
    identity,
    likely_columns,
    likely_text,
    room_facts,
    sold_as,
    wood_facts,
)
from woodref.joinery.fit import Need, NeedKey
from woodref.joinery.joint_types import JOINTS, JointKind, Way
from woodref.joinery.joints import Joint, JointState, Moment
from woodref.quantity import Range
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.part_seasons import PartSeasons
    from woodref.reference.library import Reference

#: How the parts stand, with the offset in place of the braces.
_STANDS: dict[Way, str] = {
    Way.STILL: "it is as it was fitted",
    Way.OPEN_INSIDE: "the miter opens at the inside by {}",
    Way.OPEN_OUTSIDE: "the miter opens at the outside by {}",
    Way.WIDER: "the rail is wider by {}",
    Way.NARROWER: "the rail is narrower by {}",
    Way.FARTHER: "the outer dowels stand out from the fixed one by {}",
    Way.NEARER: "the outer dowels draw in to the fixed one by {}",
    Way.PROUD: "the strip stands proud of each face by {}",
    Way.BELOW: "the strip lies below each face by {}",
    Way.END_OUT: "the end stands out beyond the edge of the panel by {}",
    Way.PANEL_OUT: "the edge of the panel stands out beyond the end by {}",
}
#: What the offset of each kind is called in its table.
_OFFSETS: dict[JointKind, str] = {
    JointKind.MITER: "gap",
    JointKind.TENON: "width of the rail",
    JointKind.DOWEL: "outer dowel",
    JointKind.VENEER: "strip over each face",
    JointKind.BREADBOARD: "end beyond the panel",
}


def _size_of(offset: Range) -> Range:
    """How large an offset is either way; from nothing where it may go both ways."""
    if offset.low < 0.0 < offset.high:
        return Range(abs(offset.expected), 0.0, max(-offset.low, offset.high))
    return offset.unsigned


def _state_line(state: JointState, at: str, units: str) -> str:
    """'At the driest, 6 %: the miter opens at the inside by ...'."""
    stands = _STANDS[state.way].format(likely_text(_size_of(state.offset), "change", units))
    return f"{sentence(state.moment)}, {at}: {stands}."


def _made(need: Need, units: str) -> str:
    """The size to make: '7/16 in', '11.5 mm'."""
    size = need.made_mm(units)
    return "" if size is None else KINDS["tool"].text(size, units)


def _tenon_line(j: Joint, size: str) -> str:
    spec, units = j.spec, j.spec.units
    room, slot = j.need(NeedKey.GAP), j.need(NeedKey.SLOT_CENTERED)
    if spec.glued_mm is None or room is None or slot is None:
        return (
            f"All of a tenon {size} wide may be glued, by the rule of the trade "
            "(common practice, no source)."
        )
    return (
        f"Glue {KINDS['size'].text(spec.glued_mm, units)} of the {size} (common practice, no "
        f"source); leave the rest dry, with {_made(room, units)} of room beyond it, and make "
        f"peg holes in it longer than the peg by {_made(slot, units)}."
    )


def _lead(j: Joint) -> str:
    """The first line: what to do, or what is looked at."""
    units = j.spec.units
    size = KINDS["size"].text(j.spec.width_mm, units)
    wood = sentence(j.wood.common_name)
    if j.spec.kind is JointKind.TENON:
        return _tenon_line(j, size)
    if j.spec.kind is JointKind.DOWEL:
        slot = j.need(NeedKey.SLOT_CENTERED)
        longer = f" longer than the shank by {_made(slot, units)}" if slot else ""
        return f"Fix one dowel or screw, and make the holes of the outer ones{longer}."
    if j.spec.kind is JointKind.VENEER:
        core = f"a core of {j.spec.core.common_name}" if j.spec.core else "a core that keeps still"
        return f"{wood} strip on the edge of a panel {size} thick, {core}, planed flush."
    if j.spec.kind is JointKind.BREADBOARD:
        return (
            f"{wood} panel {size} wide with a breadboard end cut flush; its peg holes: woodref "
            "fixing --kind breadboard."
        )
    return f"{wood} frame of members {size} wide, mitered and closed."


def _angle_line(j: Joint) -> list[str]:
    """How far each cut turns; nothing of the other kinds."""
    angles = [s.cut_angle.expected for s in j.states if s.cut_angle]
    if not angles:
        return []
    fitted, dry, wet = (f"{a:.2f}" for a in angles)
    return [
        f"Each cut turns from {fitted} to {dry} degrees at the driest and {wet} at the wettest; "
        "the corner opens by twice the difference."
    ]


def _make_section(j: Joint) -> Section:
    columns = [
        Column("size", "what"),
        Column("needed", "needed", "change"),
        Column("made", "make", "tool"),
    ]
    rows = [(n.what, n.size_mm, n.made_mm(j.spec.units)) for n in j.needs]
    return Section.of("sizes_to_make", "To make", columns, rows)


def _state_section(j: Joint, ats: tuple[str, str, str]) -> Section:
    """The joint when it is fitted, at the driest and at the wettest."""
    angle = "cut, degrees" if j.spec.kind is JointKind.MITER else ""
    columns = [
        Column("when", "when"),
        Column("at", "at"),
        *likely_columns("offset", _OFFSETS[j.spec.kind], "change"),
        Column("joint_stands", "it is"),
        Column("cut_angle_deg", angle),
        Column("cut_angle_low_deg", ""),
        Column("cut_angle_high_deg", ""),
        Column("opening_deg", ""),
        Column("opening_low_deg", ""),
        Column("opening_high_deg", ""),
    ]
    rows = [
        (s.moment, at, *s.offset, s.way, *_degrees(s.cut_angle), *_degrees(s.opening))
        for s, at in zip(j.states, ats, strict=True)
    ]
    return Section.of("joint_states", "Through the year", columns, rows)


def _degrees(angle: Range | None) -> tuple[float | None, ...]:
    return (None, None, None) if angle is None else tuple(round(a, 3) for a in angle)


def joint_answer(j: Joint, seasons: PartSeasons, reference: Reference) -> Answer:
    """The answer about a joint: what moves against what, and what the trade does.

    Parameters: joint; seasons it was worked out for; reference library, for the rules of the
    trade.
    """
    units, ats = j.spec.units, moisture_words(seasons)
    bases = [travel.basis for travel in (j.travel, j.core) if travel]
    used = [value for b in bases for value in (b.tangential, b.radial)]
    lines = [
        _state_line(s, at, units)
        for s, at in zip(j.states, ats, strict=True)
        if s.moment is not Moment.FITTED
    ]
    return Answer(
        headline=[
            _lead(j),
            f"Fitted at {ats[0]}.",
            *lines,
            *_angle_line(j),
            *(room_lines(seasons.room.season) if seasons.room else []),
            *unchecked_line(used),
        ],
        names=sold_as(j.wood, *([j.spec.core] if j.spec.core else [])),
        facts=[
            *wood_facts(j.wood),
            *room_facts(seasons.room),
            (Column("joint_kind", ""), j.spec.kind),
            (Column("joint_width", "", "size"), j.spec.width_mm),
            (Column("fixed_line_distance", "", "size"), j.spec.distance_mm),
            (Column("glued_length", "", "size"), j.spec.glued_mm),
            (Column("core_wood", ""), j.spec.core.common_name if j.spec.core else None),
            (Column("ring_angle_deg", ""), j.spec.ring_angle_deg),
            (Column("build_moisture", "", "percent"), j.moisture.build_pct),
            (Column("driest_moisture", "", "percent"), j.moisture.driest_pct),
            (Column("wettest_moisture", "", "percent"), j.moisture.wettest_pct),
        ],
        sections=[
            _make_section(j),
            _state_section(j, ats),
            based_on(used),
        ],
        notes=[
            *identity(j.wood),
            *(identity(j.spec.core) if j.spec.core else []),
            *sentences([*j.notes, *seasons.notes]),
            *trade_notes(JOINTS[j.spec.kind].practices, reference, units),
            *computed_notes(movement_method(j.travel.basis), used),
        ],
        main="joint_states",
    )
