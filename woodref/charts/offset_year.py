"""How far parts stand from how they were fitted through the year: open or closed, in or out."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.joint import stands_words
from woodref.answers.provenance import sentence
from woodref.answers.words import likely_text
from woodref.board.movement import movement
from woodref.charts.figure import COLORS, QUIET, SMALL_PT, new_figure, style
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.charts.scale import size_axis, size_words
from woodref.charts.year import band, course, level_line, month_axis, year_line
from woodref.climate.sizes_by_month import sizes_through_year
from woodref.joinery.joint_types import JOINTS
from woodref.joinery.joints import joint_through_year
from woodref.quantity import Range

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.climate.rooms import Room
    from woodref.joinery.clearance import Fixing
    from woodref.joinery.joints import Joint


class _Told(NamedTuple):
    """The words of such a picture, and what stands above and below nothing in it."""

    title: str
    subtitle: str
    band: str
    above: str
    below: str


def joint_year(joint: Joint, room: Room, units: str) -> Figure:
    """How far the parts of a joint stand from how they were fitted, through the year.

    The zones above and below nothing are named by what the joint does there.

    Parameters: joint, fitted in the room; room; units 'us' or 'si'.
    Returns: a figure whose title says where the joint goes farthest.
    """
    mark, known = mark_of_movement(joint.wood), JOINTS[joint.spec.kind]
    states = joint_through_year(joint, [m.emc_pct for m in room.season.months])
    _, dry, wet = joint.states
    most = max((dry, wet), key=lambda s: abs(s.offset.expected))
    told = _Told(
        f"{sentence(stands_words(most, units, mark))} {most.moment} to design for",
        f"{sentence(joint.wood.common_name)} {joint.spec.kind}, "
        f"{size_words(joint.spec.width_mm, units)} across the grain; {room.label}",
        "9 joints in 10 fall",
        known.above,
        known.below,
    )
    ends = (dry.offset.expected, wet.offset.expected)
    return _offset_year(told, [s.offset for s in states], ends, room, units, mark)


def glued_year(fixing: Fixing, room: Room, units: str) -> Figure:
    """How far a glued joint would move through the year if it were free.

    Parameters: fixing of the kind glued; room; units 'us' or 'si'.
    Returns: a figure whose title says if so much is glued.
    """
    spec, mark, check = fixing.spec, mark_of_movement(fixing.wood), fixing.checks[0]
    moved = partial(
        movement, fixing.wood, spec.distance_mm, fixing.moisture.build_pct,
        ring_angle_deg=spec.ring_angle_deg, boards=spec.boards,
    )  # fmt: skip
    offsets = [
        Range(*(x - spec.distance_mm for x in m.size_mm))
        for m in sizes_through_year(room.season, moved)
    ]
    length, limit = (size_words(x, units) for x in (spec.distance_mm, check.room_mm))
    verdict = (
        f"{length} across the grain is short enough to glue"
        if check.ok
        else f"{length} across the grain is too long to glue: the trade stops at {limit}"
    )
    most = fixing.travel.most
    told = _Told(
        f"{verdict}; the wood wants to move {likely_text(most, 'change', units, mark)}",
        f"{sentence(fixing.wood.common_name)}, glued; {room.label}",
        f"9 boards in 10 would move if free; {limit} is common practice, no source",
        "wants to swell",
        "wants to shrink",
    )
    travel = fixing.travel
    ends = (travel.to_driest.expected, travel.to_wettest.expected)
    return _offset_year(told, offsets, ends, room, units, mark)


def _offset_year(
    told: _Told,
    offsets: Sequence[Range],
    ends_mm: tuple[float, float],
    room: Room,
    units: str,
    mark: str,
) -> Figure:
    """Offsets of the months with their band, above and below nothing.

    Parameters: told; offsets of the months [mm]; ends_mm at the driest and the wettest to design
    for [mm]; room; units; mark of the figures.
    """
    with style():
        figure, axes = new_figure(
            told.title,
            told.subtitle,
            note=with_legend(
                f"Band: where {told.band}. Dashed: at the driest and the wettest to design for. "
                f"{course(room.season)}",
                mark,
            ),
        )
        low, high = [o.low for o in offsets], [o.high for o in offsets]
        band(axes, low, high)
        year_line(axes, 0, [o.expected for o in offsets])
        zones(axes, told.above, told.below, [*ends_mm, *low, *high])
        for end in ends_mm:
            level_line(axes, end)
        size_axis(axes.yaxis, units)
        axes.set_ylabel(f"from how it was fitted ({'in' if units == 'us' else 'mm'})")
        axes.set_xlabel("month, and moisture content of wood in the room")
        month_axis(axes, room.season)
    return figure


def zones(
    axes: Axes,
    above: str,
    below: str,
    drawn: Sequence[float],
    left: tuple[bool, bool] = (False, False),
) -> None:
    """What parts do above and below nothing, shaded and named; sets the limits upward.

    Parameters: axes; above, below what they do there; drawn, all that is drawn; left,
    whether the name above and the one below stand at the left.
    """
    most = max(map(abs, drawn)) or 0.1
    top, bottom = max(*drawn, 0.0) + 0.22 * most, min(*drawn, 0.0) - 0.22 * most
    axes.set_ylim(bottom, top)
    axes.axhline(0.0, color=QUIET, linewidth=1.2, zorder=1.4)
    axes.axhspan(0.0, top, color=COLORS[1], alpha=0.07, linewidth=0, zorder=0.2)
    for y, word, va, at_left in ((0.98, above, "top", left[0]), (0.02, below, "bottom", left[1])):
        axes.text(
            0.01 if at_left else 0.99, y, word, transform=axes.transAxes,
            ha="left" if at_left else "right", va=va, size=SMALL_PT + 1.0, color=COLORS[1],
            weight="bold",
        )  # fmt: skip
