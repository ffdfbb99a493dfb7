"""What the commands fixing and gluing say: the lines of the answer."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.provenance import sentence
from woodref.answers.words import percent_text
from woodref.joinery.clearance import Fixing, Need
from woodref.joinery.hardware import screw_number
from woodref.joinery.travel import MoistureRange
from woodref.quantity import Range
from woodref.units import KINDS, MM_PER_INCH, fraction_of_inch

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.climate.seasons import Month

#: Travel below this is none [mm].
_NONE_MM = 0.005


class Seasons(NamedTuple):
    """When it is fitted, the driest and the wettest of its life, and where that comes from.

    ``words`` are those of the three moisture contents; ``room`` None where they were given.
    """

    moisture: MoistureRange
    words: tuple[str, str, str]
    room: Room | None
    notes: tuple[str, ...]


def at_month(month: Month) -> str:
    """'6.1 % (February)'."""
    return f"{percent_text(month.emc_pct)} ({month.name})"


def sets(need: Need) -> tuple[str, str]:
    """What to make in inches and in millimeters, 'none' above the largest bit."""
    inch, metric = need.made_mm("us"), need.made_mm("si")
    return (
        "none" if inch is None else KINDS["tool"].text(inch, "us"),
        "none" if metric is None else KINDS["tool"].text(metric, "si"),
    )


def _made(need: Need, units: str) -> str:
    """'7/16 in (11.5 mm)', or the other way round."""
    inch, metric = sets(need)
    return f"{inch} ({metric})" if units == "us" else f"{metric} ({inch})"


def _given(size_mm: float, units: str) -> str:
    """A size as the user gave it: '3/16 in', '4.8 mm'."""
    return (
        f"{fraction_of_inch(size_mm / MM_PER_INCH, 64)} in"
        if units == "us"
        else f"{size_mm:.1f} mm"
    )


def _likely(way: Range, units: str) -> str:
    """'0.04 in (about 3/64), likely 0.03 to 0.06 in'."""
    low, high = (KINDS["change_end"].text(end, units) for end in (way.low, way.high))
    return f"{KINDS['change'].text(way.expected, units)}, likely {low.rpartition(' ')[0]} to {high}"


def _verdict(f: Fixing) -> str:
    """The line on the sizes that were given, by the one with the least room; '' for none."""
    c, units, change = f.worst, f.spec.units, KINDS["change"].text
    if c is None:
        return ""
    room = f"the {c.what} gives {change(c.room_mm, units)} of room"
    if c.room_mm < 0.0:
        room = f"the {c.what} is {change(-c.room_mm, units)} short even before it moves"
    if c.ok:
        return (
            f"Yes, it holds: {room}, and a lively board needs {change(c.need.high, units)}: "
            f"{change(c.spare_mm, units)} to spare."
        )
    if c.ok_expected:
        return (
            f"Only for a usual board: {room}, enough for its {change(c.need.expected, units)}, but "
            f"a lively one needs {change(c.need.high, units)}: {change(c.short_mm, units)} short."
        )
    return (
        f"No, it does not hold: {room}, and it needs {_likely(c.need, units)}; "
        f"{change(c.short_mm, units)} short for a lively board."
    )


def _hole_line(f: Fixing, made: dict[str, str]) -> str:
    if not f.spec.sizes.screw:
        return f"Drill the hole {made['hole, beyond the shank']} wider than the shank."
    if f.needs[0].made_mm(f.spec.units) is None:
        return "No common bit drills so wide a hole: take a slotted hole."
    return (
        f"Drill the hole {made['hole']}, and let a washer of at least "
        f"{made['washer, at least']} lie over it."
    )


def _slot_line(f: Fixing, made: dict[str, str], where: str = "slot", which: str = "screw") -> str:
    middle, *off = (v for k, v in made.items() if k.startswith("slot"))
    shank = f.spec.sizes.shank
    if shank is None:
        line = f"Make the {where} longer than the {which} by {middle}, with it in the middle"
    else:
        number = screw_number(shank) if f.spec.sizes.screw else None
        thick = f"#{number}" if number else _given(shank, f.spec.units)
        line = f"Make the {where} {middle} long for a {thick} {which} in the middle"
    apart = f", or {off[0]} with it set off the middle as told below" if off else ""
    return f"{line}{apart}."


def _peg_line(f: Fixing, made: dict[str, str]) -> str:
    return _slot_line(f, made, "outer peg holes", "peg")


def _bottom_line(f: Fixing, made: dict[str, str]) -> str:
    return f"Leave {made['gap behind the bottom']} behind the bottom. {_slot_line(f, made)}"


def _with_gap(f: Fixing) -> str:
    """'; with your 3/16 in' where the gap is the user's."""
    gap = f.spec.sizes.gap
    return "" if gap is None else f"; with your {_given(gap, f.spec.units)}"


def _button_line(f: Fixing, made: dict[str, str]) -> str:
    return (
        f"Leave at least {made['gap before the apron']} between button and apron{_with_gap(f)}, "
        f"the tongue is to be {made['tongue of the button']} long, in a groove "
        f"{made['depth of the groove']} deep."
    )


def _panel_line(f: Fixing, made: dict[str, str]) -> str:
    return (
        f"Leave at least {made['gap on each side']} on each side{_with_gap(f)}, the grooves are to "
        f"be {made['depth of the groove']} deep."
    )


def _front_line(_: Fixing, made: dict[str, str]) -> str:
    return f"Leave at least {made['gap above the front']} above the front."


_TO_MAKE: dict[str, Callable[[Fixing, dict[str, str]], str]] = {
    "round-hole": _hole_line,
    "slotted-hole": _slot_line,
    "button": _button_line,
    "breadboard": _peg_line,
    "floating-panel": _panel_line,
    "drawer-bottom": _bottom_line,
    "drawer-front": _front_line,
}


def _travel_line(f: Fixing, seasons: Seasons) -> str:
    """How far it travels, between which moisture contents."""
    units, (fitted, dry, wet) = f.spec.units, seasons.words
    t, size = f.travel, KINDS["size"].text(f.spec.distance_mm, units)
    inward = f"draws in by {_likely(t.toward, units)}, at {dry}"
    if t.toward.high < _NONE_MM:
        inward = "does not draw in"
    outward = f"goes out by {_likely(t.away, units)}, at {wet}"
    if t.away.high < _NONE_MM:
        outward = "does not go out"
    return (
        f"{sentence(f.wood.common_name)} {size} from the held line, fitted at {fitted}, {inward}, "
        f"and {outward}."
    )


def _glued_lines(f: Fixing, seasons: Seasons) -> list[str]:
    units, check, size = f.spec.units, f.checks[0], KINDS["size"].text
    limit = f"the {size(check.room_mm, units)} of the trade (common practice, no source)"
    most, length = f.travel.most, size(f.spec.distance_mm, units)
    where = seasons.words[1 if most == f.travel.toward else 2]
    wants = (
        f"{sentence(f.wood.common_name)} wants to change by {_likely(most, units)}, over that "
        f"length from {seasons.words[0]} to {where}, a strain of {f.strain_pct:.2f} %"
    )
    if check.ok:
        return [f"Yes: {length} across the grain is within {limit}.", f"{wants}."]
    return [
        f"No, not all of it: {length} across the grain is longer than {limit}.",
        f"{wants}: glue the middle alone, or screw it through slots (woodref fixing).",
    ]


def headline(f: Fixing, seasons: Seasons) -> list[str]:
    """The lines of the answer: the verdict, what to make, the travel."""
    if f.spec.kind == "glued":
        return _glued_lines(f, seasons)
    made = {n.what: _made(n, f.spec.units) for n in f.needs}
    lines = (_verdict(f), _TO_MAKE[f.spec.kind](f, made), _travel_line(f, seasons))
    return [line for line in lines if line]
