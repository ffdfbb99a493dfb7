"""The room a fixing leaves through the year, and the zone in which it binds."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.fixing_words import VERDICTS
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import size_text
from woodref.board.movement import movement
from woodref.charts.figure import COLORS, SMALL_PT, ground, new_figure, style
from woodref.charts.fixing_sketch import has_sketch, sketch
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.charts.offset_year import glued_year
from woodref.charts.scale import size_ticks
from woodref.charts.year import band, course, month_axis, year_line
from woodref.climate.sizes_by_month import sizes_through_year
from woodref.joinery.fit import CheckKey, NeedKey
from woodref.joinery.fit import Side as Bound
from woodref.quantity import Range

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.climate.rooms import Room
    from woodref.joinery.clearance import Fixing


#: Room below this is none [mm].
_NONE_MM = 0.05


class _Room(NamedTuple):
    """Words for a room: what it is and where, and what happens where there is none."""

    what: str
    where: str
    binds: str


#: The gap of a kind of fixing, and the room of any other check.
_GAPS = {
    "button": _Room("gap", "before the apron", "the button binds"),
    "floating-panel": _Room("gap", "", "the panel binds"),
    "drawer-bottom": _Room("gap", "behind the bottom", "the bottom binds"),
    "drawer-front": _Room("gap", "above the front", "the front sticks"),
}
_ROOMS = {
    CheckKey.SHANK_IN_HOLE: _Room("room", "in the hole", "the screw binds"),
    CheckKey.WASHER_IN_RECESS: _Room("room", "of the washer in its recess", "the washer binds"),
    CheckKey.WASHER_OVER_HOLE: _Room("cover", "of the washer", "the washer bares the hole"),
    CheckKey.SLOT_CENTERED: _Room("room", "in the slot", "the screw binds"),
    CheckKey.SLOT_OFFSET: _Room("room", "in the slot", "the screw binds"),
    CheckKey.TONGUE_LEFT: _Room("tongue to spare", "in the groove", "the tongue comes out"),
    CheckKey.TONGUE_BEFORE_BOTTOM: _Room("room", "before the groove's bottom", "the tongue binds"),
}


def _words(fixing: Fixing, key: CheckKey) -> _Room:
    """The words for the room of a check of a fixing."""
    if key is CheckKey.GAP:
        return _GAPS[fixing.spec.kind]
    words = _ROOMS[key]
    return words._replace(binds="the peg binds") if fixing.spec.kind == "breadboard" else words


class Side(NamedTuple):
    """The room to one side through the year [mm].

    ``to`` 'swell' or 'shrink'; ``key`` the check that bounds it; ``start_mm`` at the build;
    ``months`` of an average board with their likely range; ``worst_mm`` at the end to design for,
    of a board that moves more than most; ``words`` of the room.
    """

    to: str
    key: CheckKey
    start_mm: float
    months: tuple[Range, ...]
    worst_mm: float
    words: _Room

    @property
    def least(self) -> int:
        """The month with the least room, 0 for January."""
        return min(range(len(self.months)), key=lambda n: self.months[n].expected)

    @property
    def used_up(self) -> int:
        """The first month without room of those around the least one."""
        at = self.least
        while self.months[at - 1].expected <= 0.0 and at > self.least - 11:
            at -= 1
        return at % 12

    @property
    def least_mm(self) -> float:
        """The least room an average board has in the year [mm]."""
        return self.months[self.least].expected


def _bounds(fixing: Fixing) -> dict[str, tuple[CheckKey, float]]:
    """What bounds a fixing to swell and to shrink, and the room there at the build [mm].

    Of the sizes given, else of those to make.
    """
    bounds: dict[str, tuple[CheckKey, float]] = {}
    for to, room_mm, side in zip(
        ("shrink", "swell"), fixing.room_mm, (Bound.TOWARD, Bound.AWAY), strict=True
    ):
        if room_mm is not None:
            ways = (side, Bound.EACH, Bound.TOGETHER)
            check = min((c for c in fixing.checks if c.side in ways), key=lambda c: c.room_mm)
            bounds[to] = (check.key, room_mm)
    if bounds:
        return bounds
    units, shank = fixing.spec.units, fixing.spec.sizes.shank or 0.0
    for key, need_key in (
        (CheckKey.SHANK_IN_HOLE, NeedKey.HOLE),
        (CheckKey.SLOT_CENTERED, NeedKey.SLOT_CENTERED),
    ):
        need = fixing.need(need_key)
        made = need.made_mm(units) if need else None
        if made is not None:
            return dict.fromkeys(("swell", "shrink"), (key, (made - shank) / 2.0))
    return {} if fixing.gap_mm is None else {"swell": (CheckKey.GAP, fixing.gap_mm)}


def sides_of(fixing: Fixing, room: Room) -> list[Side]:
    """The room of a fixing through the year, to each side that is bounded; the worst first.

    Parameters: fixing, fitted in the room; room.
    """
    spec, travel = fixing.spec, fixing.travel
    moved = partial(
        movement, fixing.wood, spec.distance_mm, fixing.moisture.build_pct,
        ring_angle_deg=spec.ring_angle_deg, boards=spec.boards,
    )  # fmt: skip
    offsets = [
        [x - spec.distance_mm for x in m.size_mm] for m in sizes_through_year(room.season, moved)
    ]
    sides = []
    for to, (key, start) in _bounds(fixing).items():
        words = _words(fixing, key)
        if to == "swell":
            months = tuple(Range(start - o, start - high, start - low) for o, low, high in offsets)
            worst = start - travel.away.high
        else:
            months = tuple(Range(start + o, start + low, start + high) for o, low, high in offsets)
            worst = start - travel.toward.high
        sides.append(Side(to, key, start, months, worst, words))
    return sorted(sides, key=lambda s: (round(min(s.worst_mm, s.least_mm), 2), s.least_mm))


def fixing_year(fixing: Fixing, room: Room, units: str) -> Figure:
    """The room a fixing has left, month by month, with the zone in which it binds.

    Beside it the fixing to scale, in the month with the least room. Of a glued joint how far it
    would move if it were free.

    Parameters: fixing, fitted in the room; room; units 'us' or 'si'.
    Returns: a figure whose title says what becomes of the room.
    """
    if fixing.spec.kind == "glued":
        return glued_year(fixing, room, units)
    sides = sides_of(fixing, room)
    mark = mark_of_movement(fixing.wood)
    given = "your sizes" if fixing.checks else "the sizes to make"
    with style():
        figure, first = new_figure(
            _title(fixing, sides, room, units, mark),
            note=with_legend(
                f"{sentence(fixing.wood.common_name)}, {room.label}, with {given}. Dashed: what a "
                "board that moves more than most has left at the driest or the wettest to design "
                f"for. Band: 9 boards in 10. {course(room.season)}",
                mark,
            ),
        )
        worst, year = sides[0], first
        if has_sketch(worst.key):
            first.remove()
            beside, year = figure.subplots(1, 2, width_ratios=[1.0, 2.4])
            sketch(beside, fixing, worst.key, worst.to, worst.start_mm, worst.least_mm, units)
        _year(year, sides, room, units, mark)
    return figure


def _title(fixing: Fixing, sides: Sequence[Side], room: Room, units: str, mark: str) -> str:
    """What becomes of the room: the finding."""
    side, months = sides[0], room.season.months
    what, where, binds = side.words
    if side.start_mm < _NONE_MM:
        return f"No {what} {where}: {binds}"
    start = size_text(side.start_mm, units)
    to = f" to {side.to}" if len(sides) > 1 and what == "room" else ""
    lead = f"{sentence(what)}{to} {where}: {start}"
    if side.key is CheckKey.GAP:
        lead = f"{'Your' if fixing.checks else 'A'} {start} gap {where}".strip()
    if side.least_mm <= 0.0:
        return f"{lead} is used up by {months[side.used_up].name}; {binds}"
    left = size_text(side.least_mm, units)
    closes = f"{lead} closes to {left}{mark} by {months[side.least].name}"
    if left == start:
        closes = f"{lead} hardly changes"
    verdict = fixing.verdict
    if verdict is None:
        return f"{closes}; it holds"
    lively = ", not for one that moves more than most" if verdict.grade == 1 else ""
    return f"{closes}; it {VERDICTS[verdict]}{lively}"


def left_words(room_mm: float, units: str) -> str:
    """The room left in words, without a negative size."""
    if abs(room_mm) < _NONE_MM:
        return "none left"
    return (
        size_text(room_mm, units) if room_mm > 0.0 else f"{size_text(-room_mm, units)} too little"
    )


def _year(axes: Axes, sides: Sequence[Side], room: Room, units: str, mark: str) -> None:
    """The lines of the room left, the worst to design for, and the zone where it binds."""
    season = room.season
    drawn = [0.0]
    for n, side in enumerate(sides):
        color = COLORS[0] if n == 0 else COLORS[2]
        low, high = [m.low for m in side.months], [m.high for m in side.months]
        drawn += [*low, *high, side.worst_mm]
        band(axes, low, high, color)
        year_line(axes, 0 if n == 0 else 2, [m.expected for m in side.months])
        axes.axhline(side.worst_mm, color=color, linestyle="--", linewidth=1.2)
    top, bottom = max(drawn), min(drawn)
    room_mm = 0.13 * (top - bottom)
    top, bottom = top + room_mm, bottom - room_mm
    axes.axhspan(bottom, 0.0, color=COLORS[1], alpha=0.14, linewidth=0)
    axes.set_ylim(bottom, top)
    _names(axes, sides, units, mark)
    axes.text(
        -0.35, bottom + 0.12 * room_mm, " or ".join(dict.fromkeys(s.words.binds for s in sides)),
        size=SMALL_PT + 0.5, color=COLORS[1], va="bottom", weight="bold",
    )  # fmt: skip
    ticks = [(p, t) for p, t in zip(*size_ticks(bottom, top, units), strict=True) if p > -1e-9]
    axes.set_yticks([p for p, _ in ticks], [t for _, t in ticks])
    month_axis(axes, season, with_moisture=False)
    axes.set_xlabel("month", size=SMALL_PT)
    axes.set_ylabel(f"room left ({'in' if units == 'us' else 'mm'})")


def _names(axes: Axes, sides: Sequence[Side], units: str, mark: str) -> None:
    """The name of each line at its highest month, and of each worst case at its dashed line."""
    bottom, top = axes.get_ylim()
    close = len(sides) > 1 and abs(sides[0].worst_mm - sides[1].worst_mm) < 0.07 * (top - bottom)
    for n, side in enumerate(sides):
        color = COLORS[0] if n == 0 else COLORS[2]
        end = "wettest" if side.to == "swell" else "driest"
        # Two lines that lie together have their words one above and one below.
        under = close and side.worst_mm <= sides[1 - n].worst_mm and (n or not _same(sides))
        axes.text(
            11.35, side.worst_mm, f"at the {end}: {left_words(side.worst_mm, units)}{mark}",
            size=SMALL_PT, color=color, ha="right", va="top" if under else "bottom",
            bbox=ground(), zorder=4.0,
        )  # fmt: skip
        if len(sides) > 1:
            at = max(range(12), key=lambda k: side.months[k].expected)
            axes.annotate(
                f"room to {side.to}", (at, side.months[at].expected), (0, 7),
                textcoords="offset points", size=SMALL_PT + 0.5, color=color, va="bottom",
                ha="left" if at < 2 else "right" if at > 9 else "center",
            )  # fmt: skip


def _same(sides: Sequence[Side]) -> bool:
    """True where the worst of both sides is the same."""
    return sides[0].worst_mm == sides[1].worst_mm
