"""Pictures of the year of a room: a board or the parts of a joint, month by month."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING

from woodref.answers.provenance import sentence
from woodref.answers.shop_words import is_seen
from woodref.answers.words import cut_words, likely_text, percent_text
from woodref.board.movement import movement, seasonal_movement
from woodref.charts.legend import mark_of_movement
from woodref.charts.scale import size_words
from woodref.charts.year import Level, YearLine, seasonal_width
from woodref.climate.rooms import Room
from woodref.climate.seasons import Season
from woodref.climate.sizes_by_month import sizes_through_year
from woodref.reference.woods import Wood

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from woodref.board.movement import SizeChange


def board_year(
    wood: Wood,
    face: str,
    cuts: Mapping[str, float],
    size_mm: float,
    start_pct: float | None,
    room: Room,
    units: str,
) -> Figure:
    """A board through the year, a line for each cut, with the range to design for of the first.

    Parameters: wood; face 'width' or 'thickness'; cuts, ring angle by name; size_mm at
    start_pct, or at the driest to design for where that is None [mm]; room; units 'us' or 'si'.
    Returns: a figure whose title says what to allow for.
    """
    season, mark = room.season, mark_of_movement(wood)
    design = season.design_pct
    base = design.low if start_pct is None else start_pct
    lines = [
        YearLine(
            cut_words(name),
            sizes_through_year(
                season, partial(movement, wood, size_mm, base, ring_angle_deg=angle)
            ),
        )
        for name, angle in cuts.items()
    ]
    cut, angle = next(iter(cuts.items()))
    swing = seasonal_movement(wood, size_mm, start_pct, design.low, design.high, angle)
    which = cut_words(cut) if len(cuts) > 1 else ""
    levels = design_levels(swing.size_mm, swing.after_mm, which, units, mark)
    made = size_words(size_mm, units)
    if start_pct is not None:
        levels.insert(0, Level(size_mm, f"made {made} at {percent_text(start_pct)}"))
    how = "wide" if face == "width" else "thick"
    when = "at the driest" if start_pct is None else f"at {percent_text(start_pct)}"
    return seasonal_width(
        allowance_words(swing, season, units, mark, face),
        f"{sentence(wood.common_name)}, {cut_words(cut)}, {made} {how} {when}; {room.label}",
        lines,
        season,
        units,
        levels,
        face,
        mark,
    )


def allowance_words(
    swing: SizeChange, season: Season, units: str, mark: str, face: str = "width"
) -> str:
    """'Allow 9/32 in (11/64 to 25/64) of movement: narrowest in January, widest in August'.

    Parameters: swing from the driest to design for to the wettest; season of the room; units;
    mark of the figures; face 'width' or 'thickness'.
    """
    likely = likely_text(swing.likely_change_mm.unsigned, "change", units, mark)
    words = f"Allow {likely} of movement over the year"
    if season.is_still:
        return f"{words}; this room has no dry and no damp season"
    if not is_seen(swing.change_mm, units):
        return f"{words}: too little to notice"
    least, most = ("narrowest", "widest") if face == "width" else ("thinnest", "thickest")
    return f"{words}: {least} in {season.driest.name}, {most} in {season.wettest.name}"


def design_levels(dry_mm: float, wet_mm: float, which: str, units: str, mark: str) -> list[Level]:
    """The sizes at the driest and at the wettest to design for [mm], as level lines.

    Parameters: dry_mm, wet_mm; which of several lines they are of, '' for the only one; units;
    mark of the figures.
    """
    of = f" ({which})" if which else ""
    return [
        Level(size, f"{word} to design for{of} {size_words(size, units)}{mark}")
        for word, size in (("driest", dry_mm), ("wettest", wet_mm))
    ]
