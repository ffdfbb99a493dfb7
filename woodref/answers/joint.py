"""What the command joint says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.fixing import trade_notes
from woodref.answers.fixing_words import moisture_words
from woodref.answers.method_words import movement_method
from woodref.answers.property_text import marks
from woodref.answers.provenance import (
    based_on,
    computed_notes,
    sentence,
    sentences,
)
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
from woodref.joinery.joints import Joint, JointState, Moment, joint_through_year
from woodref.joinery.miter import SQUARE_DEG
from woodref.quantity import Range
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.part_seasons import PartSeasons
    from woodref.climate.seasons import Season
    from woodref.reference.library import Reference

#: What stands how, with the offset in place of the braces.
_STANDS: dict[Way, tuple[str, str]] = {
    Way.STILL: ("it", "is as it was fitted"),
    Way.OPEN_INSIDE: ("the miter", "opens {} at the inside"),
    Way.OPEN_OUTSIDE: ("the miter", "opens {} at the outside"),
    Way.WIDER: ("the rail", "is {} wider"),
    Way.NARROWER: ("the rail", "is {} narrower"),
    Way.FARTHER: ("the distance of the outer dowels from the fixed one", "is {} more"),
    Way.NEARER: ("the distance of the outer dowels from the fixed one", "is {} less"),
    Way.PROUD: ("the strip", "stands {} proud of each face"),
    Way.BELOW: ("the strip", "lies {} below each face"),
    Way.END_OUT: ("the end", "stands out {} beyond the edge of the panel"),
    Way.PANEL_OUT: ("the edge of the panel", "stands out {} beyond the end"),
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


def stands_words(state: JointState, units: str, mark: str = "") -> str:
    """'the miter opens 1/32 in (0 to 1/32) at the inside': how the parts stand."""
    subject, predicate = _STANDS[state.way]
    offset = likely_text(_size_of(state.offset), "change", units, mark)
    return f"{subject} {predicate.format(offset)}"


def _moves(states: Sequence[JointState], ats: Sequence[str], units: str, mark: str) -> str:
    """'the miter opens ... at the inside at the driest, 4.2 % (January); it opens ...'."""
    told, last = [], ""
    for state, at in zip(states, ats, strict=True):
        if state.moment is Moment.FITTED:
            continue
        subject, predicate = _STANDS[state.way]
        offset = likely_text(_size_of(state.offset), "change", units, mark)
        name = "it" if subject == last else subject
        told.append(f"{name} {predicate.format(offset)} {state.moment}, {at}")
        last = subject
    return "; ".join(told)


def _headline(j: Joint, ats: tuple[str, str, str], mark: str) -> list[str]:
    """What to make, or what opens, first; then what is looked at."""
    moves, lead = _moves(j.states, ats, j.spec.units, mark), _lead(j)
    if j.spec.kind in (JointKind.TENON, JointKind.DOWEL):
        return [lead, sentence(f"{moves}."), f"Fitted at {ats[0]}."]
    return [sentence(f"{moves}."), f"{lead} Fitted at {ats[0]}."]


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
    return _miter_line(j, wood, size)


def _miter_line(j: Joint, wood: str, size: str) -> str:
    """'Black cherry frame of members 3 in wide, mitered and closed.'."""
    other = j.spec.other
    if other is None or not _unlike(j):
        corner = "" if _square(j) else f" at {_corner(j)} degrees"
        return f"{wood} frame of members {size} wide, mitered{corner} and closed."
    second = KINDS["size"].text(other.width_mm, j.spec.units)
    named = other.wood.common_name if other.wood else j.wood.common_name
    return (
        f"{wood} member {size} wide and {named} member {second} wide, mitered at {_corner(j)} "
        "degrees and closed."
    )


def _square(j: Joint) -> bool:
    return j.spec.other is not None and j.spec.other.corner_deg == SQUARE_DEG


def _corner(j: Joint) -> str:
    return f"{j.spec.other.corner_deg:g}" if j.spec.other else ""


def _unlike(j: Joint) -> bool:
    """True where the two members of a miter differ."""
    own = (j.spec.width_mm, None, j.spec.ring_angle_deg)
    return j.spec.other is not None and j.spec.other[:3] != own


def _angle_line(j: Joint) -> list[str]:
    """How far each cut turns; nothing of the other kinds."""
    angles = [s.cut_angle.expected for s in j.states if s.cut_angle]
    others = [s.other_cut_angle.expected for s in j.states if s.other_cut_angle]
    if not angles:
        return []
    fitted, dry, wet = (f"{a:.2f}" for a in angles)
    if not _unlike(j):
        return [
            f"Each cut turns from {fitted} to {dry} degrees at the driest and {wet} at the "
            "wettest; the corner opens by twice the difference."
        ]
    second = "{:.2f} to {:.2f} and {:.2f}".format(*others)
    return [
        f"Its cut turns from {fitted} degrees to {dry} at the driest and {wet} at the wettest, "
        f"that of the other from {second}; cut them at {fitted} and {others[0]:.2f}."
    ]


def _make_section(j: Joint) -> Section:
    columns = [
        Column("size", "what"),
        Column("needed", "needed", "change"),
        Column("made", "make", "tool"),
    ]
    rows = [(n.what, n.size_mm, n.made_mm(j.spec.units)) for n in j.needs]
    # The headline tells what is to be made.
    return Section.of("sizes_to_make", "To make", columns, rows, aside=True)


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
        Column("other_cut_angle_deg", "other cut" if _unlike(j) else ""),
    ]
    rows = [
        (
            s.moment,
            at,
            *s.offset,
            s.way,
            *_degrees(s.cut_angle),
            *_degrees(s.opening),
            _degrees(s.other_cut_angle)[0],
        )
        for s, at in zip(j.states, ats, strict=True)
    ]
    return Section.of("joint_states", "Through the year", columns, rows, aside=True)


def _degrees(angle: Range | None) -> tuple[float | None, ...]:
    return (None, None, None) if angle is None else tuple(round(a, 3) for a in angle)


def _other_facts(j: Joint) -> list[tuple[Column, Any]]:
    """The second member of a miter, and the corner; null of the other kinds."""
    other = j.spec.other
    named = (other.wood or j.wood).common_name if other else None
    return [
        (Column("other_wood", ""), named),
        (Column("other_width", "", "size"), other.width_mm if other else None),
        (Column("corner_deg", ""), other.corner_deg if other else None),
    ]


def _month_section(j: Joint, season: Season) -> Section:
    """The joint in each month of its room, once thin wood has come to rest in its mean air."""
    columns = [
        Column("month", "month"),
        Column("moisture", "moisture", "percent"),
        *likely_columns("offset", _OFFSETS[j.spec.kind], "change"),
        Column("joint_stands", "it is"),
    ]
    states = joint_through_year(j, [m.emc_pct for m in season.months])
    rows = (
        (m.name, m.emc_pct, *s.offset, s.way) for m, s in zip(season.months, states, strict=True)
    )
    return Section.of("months", "Month by month", columns, rows)


def joint_answer(
    j: Joint, seasons: PartSeasons, reference: Reference, monthly: bool = False
) -> Answer:
    """The answer about a joint: what moves against what, and what the trade does.

    Parameters: joint; seasons it was worked out for; reference library, for the rules of the
    trade; monthly with the table of the months of its room.
    """
    units, ats = j.spec.units, moisture_words(seasons)
    bases = [travel.basis for travel in (j.travel, j.core, j.second) if travel]
    used = list(dict.fromkeys(value for b in bases for value in (b.tangential, b.radial)))
    return Answer(
        headline=[
            *_headline(j, ats, marks(*used)),
            *_angle_line(j),
            *(room_lines(seasons.room.season) if seasons.room else []),
        ],
        names=sold_as(j.wood, *([j.spec.core] if j.spec.core else [])),
        facts=[
            *wood_facts(j.wood),
            *room_facts(seasons.room),
            (Column("joint_kind", ""), j.spec.kind),
            (Column("joint_width", "", "size"), j.spec.width_mm),
            (Column("fixed_line_distance", "", "size"), j.spec.distance_mm),
            (Column("glued_length", "", "size"), j.spec.glued_mm),
            *_other_facts(j),
            (Column("core_wood", ""), j.spec.core.common_name if j.spec.core else None),
            (Column("ring_angle_deg", ""), j.spec.ring_angle_deg),
            (Column("build_moisture", "", "percent"), j.moisture.build_pct),
            (Column("driest_moisture", "", "percent"), j.moisture.driest_pct),
            (Column("wettest_moisture", "", "percent"), j.moisture.wettest_pct),
        ],
        sections=[
            _make_section(j),
            _state_section(j, ats),
            *([_month_section(j, seasons.room.season)] if monthly and seasons.room else []),
            based_on(used),
        ],
        notes=[
            *identity(j.wood),
            *(identity(j.spec.core) if j.spec.core else []),
            *(identity(j.spec.other.wood) if j.spec.other and j.spec.other.wood else []),
            *sentences([*j.notes, *seasons.notes], units),
            *trade_notes(JOINTS[j.spec.kind].practices, reference, units),
            *computed_notes(movement_method(j.travel.basis), used),
        ],
        main="joint_states",
    )
