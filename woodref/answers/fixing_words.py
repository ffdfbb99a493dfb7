"""What the commands fixing and gluing say: the lines of the answer."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from woodref.answers.property_text import marks
from woodref.answers.provenance import sentence
from woodref.answers.room_words import end_text, room_lines
from woodref.answers.shop_words import is_seen, need_text, room_text, size_text
from woodref.answers.words import likely_text, percent_text
from woodref.climate.seasons import MONTH_NAMES
from woodref.joinery.clearance import Fixing
from woodref.joinery.fit import Need, NeedKey, Verdict
from woodref.joinery.fixing_rules import off_center_mm
from woodref.joinery.hardware import screw_number
from woodref.units import KINDS, MM_PER_INCH, fraction_of_inch

if TYPE_CHECKING:
    from woodref.climate.part_seasons import PartSeasons

#: The sizes to make by their keys, as they are told: '7/16 in'.
Made = Mapping[NeedKey, str]
#: What is said of sizes by how they let the wood move.
VERDICTS: dict[Verdict, str] = {
    Verdict.HOLDS: "holds",
    Verdict.HOLDS_FOR_AVERAGE: "holds for an average board",
    Verdict.DOES_NOT_HOLD: "does not hold",
    Verdict.SHORT_ENOUGH: "short enough",
    Verdict.TOO_LONG: "too long",
}
#: Travel below this is none [mm].
_NONE_MM = 0.005


def moisture_words(seasons: PartSeasons) -> tuple[str, str, str]:
    """Its three moisture contents: '6.1 % (February)', '8 % (mean of the year)', '10 %'."""
    build, room = seasons.build, seasons.room
    of_build = MONTH_NAMES[build.month - 1] if build.month else ""
    if build.assumed:
        of_build = "mean of the year" if room else "halfway"
    fitted = percent_text(build.moisture_pct) + (f" ({of_build})" if of_build else "")
    if room is None:
        return fitted, percent_text(seasons.driest_pct), percent_text(seasons.wettest_pct)
    return fitted, end_text(room.season.design_driest), end_text(room.season.design_wettest)


def sets(need: Need) -> tuple[str, str]:
    """What to make in inches and in millimeters, 'none' above the largest bit."""
    inch, metric = need.made_mm("us"), need.made_mm("si")
    return (
        "none" if inch is None else KINDS["tool"].text(inch, "us"),
        "none" if metric is None else KINDS["tool"].text(metric, "si"),
    )


def _made(need: Need, units: str) -> str:
    """'7/16 in', '11.5 mm'."""
    inch, metric = sets(need)
    return inch if units == "us" else metric


def _given(size_mm: float, units: str) -> str:
    """A size as the user gave it: '3/16 in', '4.8 mm'."""
    return (
        f"{fraction_of_inch(size_mm / MM_PER_INCH, 64)} in"
        if units == "us"
        else f"{size_mm:.1f} mm"
    )


def _verdict(f: Fixing) -> str:
    """The line on the sizes that were given, by the one with the least room; '' for none."""
    c, units = f.worst, f.spec.units
    if c is None:
        return ""
    lively = f"a board that moves more than most needs {need_text(c.need.high, units)}"
    room = f"the {c.what} gives {room_text(c.room_mm, units)}"
    if c.room_mm < 0.0:
        room = f"the {c.what} is {need_text(-c.room_mm, units)} short even before it moves"
    elif not is_seen(c.room_mm, units):
        room = f"the {c.what} gives no room"
    if c.ok:
        return f"Yes: {room}, enough; {lively}."
    expected, short = need_text(c.need.expected, units), need_text(c.short_mm, units)
    if c.ok_expected:
        return f"Only for an average board: {room}, enough for {expected}; {lively}."
    if expected == need_text(c.need.high, units):
        return f"No, too little: {room}, and even an average board needs {expected}: {short} short."
    return f"No, too little: {room}; an average board needs {expected}, {lively}: {short} short."


def _hole_line(f: Fixing, made: Made) -> str:
    if not f.spec.sizes.screw:
        return f"Drill the hole {made[NeedKey.HOLE]} wider than the shank."
    hole = f.need(NeedKey.HOLE)
    if hole is None or hole.made_mm(f.spec.units) is None:
        return "No common bit drills so wide a hole: take a slotted hole."
    recess = made.get(NeedKey.RECESS)
    room = f", in a recess {recess} wide" if recess else ""
    return (
        f"Drill the hole {made[NeedKey.HOLE]}, and let a washer of at least "
        f"{made[NeedKey.WASHER]} lie over it{room}."
    )


def _slot_line(f: Fixing, made: Made, where: str = "slot", which: str = "screw") -> str:
    middle, offset = made[NeedKey.SLOT_CENTERED], made.get(NeedKey.SLOT_OFFSET)
    shank = f.spec.sizes.shank
    if shank is None:
        line = f"Make the {where} longer than the {which} by {middle}, with it in the middle"
    else:
        number = screw_number(shank) if f.spec.sizes.screw else None
        thick = f"#{number}" if number else _given(shank, f.spec.units)
        line = f"Make the {where} {middle} long for a {thick} {which} in the middle"
    shortest = ""
    if offset:
        off = off_center_mm(f.spec, f.travel)
        way = "away from" if off > 0.0 else "toward"
        shortest = (
            f" Shortest {where}: {offset}, the {which} {size_text(abs(off), f.spec.units)} off "
            f"center, {way} where the part is fixed."
        )
    return f"{line}.{shortest}"


def _peg_line(f: Fixing, made: Made) -> str:
    return _slot_line(f, made, "outer peg holes", "peg")


def _bottom_line(f: Fixing, made: Made) -> str:
    return f"{_leave(f, made, 'behind the bottom')}. {_slot_line(f, made)}"


def _with_gap(f: Fixing) -> str:
    """'; with your 3/16 in' where the gap is the user's."""
    gap = f.spec.sizes.gap
    return "" if gap is None else f"; with your {_given(gap, f.spec.units)}"


def _button_line(f: Fixing, made: Made) -> str:
    return (
        f"{_leave(f, made, 'between button and apron')}{_with_gap(f)}, "
        f"the tongue is to be {made[NeedKey.TONGUE]} long, in a groove "
        f"{made[NeedKey.GROOVE]} deep."
    )


def _leave(f: Fixing, made: Made, where: str) -> str:
    """'Leave at least 3/16 in on each side', also where the wood needs no room there."""
    gap = f.need(NeedKey.GAP)
    if gap is not None and gap.size_mm < _NONE_MM:
        return (
            f"No extra gap is needed {where} in this room: leave your usual clearance, at least "
            f"{made[NeedKey.GAP]}"
        )
    return f"Leave at least {made[NeedKey.GAP]} {where}"


def _panel_line(f: Fixing, made: Made) -> str:
    return (
        f"{_leave(f, made, 'on each side')}{_with_gap(f)}, the grooves are to "
        f"be {made[NeedKey.GROOVE]} deep."
    )


def _front_line(f: Fixing, made: Made) -> str:
    return f"{_leave(f, made, 'above the front')}."


_TO_MAKE: dict[str, Callable[[Fixing, Made], str]] = {
    "round-hole": _hole_line,
    "slotted-hole": _slot_line,
    "button": _button_line,
    "breadboard": _peg_line,
    "floating-panel": _panel_line,
    "drawer-bottom": _bottom_line,
    "drawer-front": _front_line,
}


def _travel_line(f: Fixing, seasons: PartSeasons) -> str:
    """How far it travels, between which moisture contents."""
    units, (fitted, dry, wet) = f.spec.units, moisture_words(seasons)
    t, size = f.travel, KINDS["size"].text(f.spec.distance_mm, units)
    marked = marks(f.travel.basis.tangential, f.travel.basis.radial)
    inward = f"shrinks {likely_text(t.toward, 'change', units, marked)} by the driest, {dry}"
    if t.toward.high < _NONE_MM:
        inward = "does not shrink"
    outward = f"swells {likely_text(t.away, 'change', units, marked)} by the wettest, {wet}"
    if t.away.high < _NONE_MM:
        outward = "does not swell"
    return (
        f"{sentence(f.wood.common_name)} {size} from where it is fixed, fitted at {fitted}: it "
        f"{inward}, and {outward}."
    )


def _gap_line(f: Fixing, seasons: PartSeasons) -> str:
    """What the gap is in the dry and in the wet part of the year; '' of a kind without one."""
    if f.gap_mm is None:
        return ""
    units, (_, dry, wet) = f.spec.units, moisture_words(seasons)
    at_driest, at_wettest = (
        max(0.0, f.gap_mm - way.expected) for way in (f.travel.to_driest, f.travel.to_wettest)
    )
    text = room_text
    return (
        f"The gap is then {text(at_driest, units)} at the driest, {dry}, and "
        f"{text(at_wettest, units)} at the wettest, {wet}."
    )


def _glued_lines(f: Fixing, seasons: PartSeasons) -> list[str]:
    units, check, size = f.spec.units, f.checks[0], KINDS["size"].text
    limit = f"the usual {size(check.room_mm, units)} (common practice, no source)"
    marked = marks(f.travel.basis.tangential, f.travel.basis.radial)
    most, length = f.travel.most, size(f.spec.distance_mm, units)
    fitted, dry, wet = moisture_words(seasons)
    where = dry if most == f.travel.toward else wet
    wants = (
        f"From {fitted} to {where} {f.wood.common_name} wants to move "
        f"{likely_text(most, 'change', units, marked)} over that length, {f.strain_pct:.1f} % of it"
    )
    if check.ok:
        return [f"Yes: {length} across the grain is within {limit}.", f"{wants}."]
    return [
        f"No, not all of it: {length} across the grain is more than {limit}. Glue the middle "
        "alone, or screw it through slots (woodref fixing).",
        f"{wants}.",
    ]


def headline(f: Fixing, seasons: PartSeasons) -> list[str]:
    """The lines of the answer: the verdict, what to make, the travel."""
    of_room = room_lines(seasons.room.season) if seasons.room else []
    if f.spec.kind == "glued":
        return [*_glued_lines(f, seasons), *of_room]
    made = {n.key: _made(n, f.spec.units) for n in f.needs}
    kind = _TO_MAKE[f.spec.kind](f, made)
    lines = (_verdict(f), kind, _travel_line(f, seasons), _gap_line(f, seasons))
    return [*(line for line in lines if line), *of_room]
