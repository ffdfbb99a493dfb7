"""Pictures of the year of a room: a board or a panel, month by month."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING

from woodref.answers.fixing_words import VERDICTS
from woodref.answers.provenance import sentence
from woodref.answers.words import cut_words, percent_text
from woodref.board.movement import movement
from woodref.board.panel import Stave, panel_movement
from woodref.charts.gap_year import gap_year
from woodref.charts.legend import mark_of_movement
from woodref.charts.year import Allowance, Built, YearLine, seasonal_width
from woodref.climate.rooms import Room
from woodref.climate.sizes_by_month import MonthSize, sizes_through_year
from woodref.errors import InputError
from woodref.joinery.clearance import Fixing
from woodref.joinery.joint_types import JOINTS
from woodref.joinery.joints import Joint, joint_through_year
from woodref.reference.woods import Wood
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def board_year(
    wood: Wood,
    face: str,
    cuts: Mapping[str, float],
    size_mm: float,
    start_pct: float | None,
    room: Room,
    units: str,
) -> Figure:
    """A board through the year, a line for each cut.

    Parameters: wood; face 'width' or 'thickness'; cuts, ring angle by name; size_mm at
    start_pct, or at the driest to design for where that is None [mm]; room; units 'us' or 'si'.
    """
    base = room.season.design_pct.low if start_pct is None else start_pct
    lines = [
        YearLine(
            cut_words(name),
            sizes_through_year(
                room.season, partial(movement, wood, size_mm, base, ring_angle_deg=angle)
            ),
        )
        for name, angle in cuts.items()
    ]
    when = "at the driest" if start_pct is None else f"at {percent_text(start_pct)}"
    how = "wide" if face == "width" else "thick"
    return seasonal_width(
        f"{sentence(wood.common_name)}, {KINDS['size'].text(size_mm, units)} {how} {when}: "
        f"{face} through the year",
        room.label,
        lines,
        room.season,
        units,
        None if start_pct is None else Built(size_mm, start_pct),
        what=face,
        mark=mark_of_movement(wood),
    )


def panel_year(
    wood: Wood, staves: Sequence[Stave], build_pct: float, room: Room, units: str
) -> Figure:
    """The width of a panel of staves through the year.

    Parameters: wood; staves as built; build_pct moisture content then [%]; room; units.
    """
    width_mm = sum(s.width_mm for s in staves)
    count = f"{len(staves)} staves" if len(staves) > 1 else "1 stave"
    sizes = sizes_through_year(room.season, partial(panel_movement, wood, staves, build_pct))
    return seasonal_width(
        f"A panel of {count} of {wood.common_name}, {KINDS['size'].text(width_mm, units)} wide at "
        f"{percent_text(build_pct)}: width through the year",
        room.label,
        [YearLine("panel", sizes)],
        room.season,
        units,
        Built(width_mm, build_pct),
        mark=mark_of_movement(wood),
    )


def joint_year(joint: Joint, room: Room, units: str) -> Figure:
    """How far the parts of a joint stand from how they were fitted, through the year.

    Parameters: joint, fitted in the room; room; units 'us' or 'si'.
    """
    season = room.season
    states = joint_through_year(joint, [m.emc_pct for m in season.months])
    months = [
        MonthSize(m.month, m.emc_pct, s.offset) for m, s in zip(season.months, states, strict=True)
    ]
    known = JOINTS[joint.spec.kind]
    return seasonal_width(
        f"{sentence(joint.wood.common_name)}, {joint.spec.kind}: "
        f"{KINDS['size'].text(joint.spec.width_mm, units)}, through the year",
        room.label,
        [YearLine(str(joint.spec.kind), months)],
        season,
        units,
        what=f"above 0 {known.above}, below 0 {known.below}",
        mark=mark_of_movement(joint.wood),
        kind=KINDS["change_end"],
    )


def fixing_year(fixing: Fixing, room: Room, units: str) -> Figure:
    """How far a fixing is from the fixed line through the year, and the room its sizes leave.

    Of a floating panel the gap left beside it (woodref.charts.gap_year).

    Parameters: fixing, fitted in the room; room; units 'us' or 'si'.
    Raises: InputError for a glued joint, which has no travel to draw.
    """
    spec, built = fixing.spec, fixing.moisture.build_pct
    if spec.kind == "glued":
        raise InputError("a glued joint has no travel to draw; leave --plot out")
    if fixing.gap_mm is not None:
        return gap_year(fixing, room, units)
    moved = partial(
        movement,
        fixing.wood,
        spec.distance_mm,
        built,
        ring_angle_deg=spec.ring_angle_deg,
        boards=spec.boards,
    )
    toward, away = fixing.room_mm
    allowed = None
    if fixing.verdict and (toward is not None or away is not None):
        allowed = Allowance(
            None if toward is None else spec.distance_mm - toward,
            None if away is None else spec.distance_mm + away,
            f"hatched: the room your sizes leave ({VERDICTS[fixing.verdict]})",
        )
    return seasonal_width(
        f"{sentence(fixing.wood.common_name)}, {spec.kind.replace('-', ' ')}: "
        f"{KINDS['size'].text(spec.distance_mm, units)} from the fixed line through the year",
        room.label,
        [YearLine("distance", sizes_through_year(room.season, moved))],
        room.season,
        units,
        Built(spec.distance_mm, built),
        allowed,
        "distance from the fixed line",
        mark_of_movement(fixing.wood),
    )
