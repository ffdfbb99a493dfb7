"""The part of a piece that moves most through the year of its room, with what its fixing allows."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.words import percent_text
from woodref.board.movement import Movement, movement
from woodref.board.panel import PanelMovement, panel_movement
from woodref.charts.legend import mark_of_movement
from woodref.charts.year import Allowance, Built, YearLine, seasonal_width
from woodref.climate.seasons import MONTH_NAMES
from woodref.climate.sizes_by_month import sizes_through_year
from woodref.joinery.allowed_sizes import allowed_sizes
from woodref.piece.in_use import most_mobile_part, tightest
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from woodref.piece.estimate import Estimate


class PartYear(NamedTuple):
    """A picture of a part through the year, its title, and what is seen in words."""

    figure: Figure
    title: str
    words: str


def part_year(estimate: Estimate, units: str) -> PartYear | None:
    """The width of the part that moves most, month by month, and the room of its fixing.

    The picture holds no word a person wrote: names are told in title and words.

    Parameters: estimate; units 'us' or 'si'.
    Returns: None where the piece names no room it lives in, or no part is known to move.
    Source: as woodref.climate.sizes_by_month.sizes_through_year.
    """
    piece, mobile = estimate.piece, most_mobile_part(estimate.parts)
    if piece.room is None or mobile is None or mobile.wood is None:
        return None
    part, wood, build = mobile.part, mobile.wood, piece.build.moisture_pct

    def move(moisture_pct: float) -> Movement | PanelMovement:
        if part.panel:
            return panel_movement(wood, part.panel, build, moisture_pct)
        angle, boards = part.ring_angle_deg, part.staves
        return movement(wood, part.width_mm, build, moisture_pct, angle, boards)

    months = sizes_through_year(piece.room.season, move)
    fixing = tightest(estimate.fixings, part.name)
    ends = allowed_sizes(fixing, part.width_mm) if fixing else None
    figure = seasonal_width(
        "Width through the year",
        "Thin bare wood",
        [YearLine("width", months)],
        piece.room.season,
        units,
        Built(part.width_mm, build),
        Allowance(*ends, "room of the fixing") if ends and any(ends) else None,
        mark=mark_of_movement(wood),
    )
    size = KINDS["size"].text
    small, large = (f(months, key=lambda m: m.size_mm.expected) for f in (min, max))
    said = [f"Built {size(part.width_mm, units)} wide at {percent_text(build)} moisture content"]
    if piece.room.season.is_still:
        said.append(f"expected at about {size(large.size_mm.expected, units)} all year")
    else:
        said += [
            f"narrowest in {MONTH_NAMES[small.month - 1]}, {size(small.size_mm.expected, units)}",
            f"widest in {MONTH_NAMES[large.month - 1]}, {size(large.size_mm.expected, units)}",
        ]
    if fixing and ends and any(ends):
        low, high = (size(e, units) if e is not None else "" for e in ends)
        room = (
            f"from {low} to {high}"
            if low and high
            else f"down to {low}"
            if low
            else f"up to {high}"
        )
        said.append(f"{fixing.spec.name} let it move {room}")
    return PartYear(
        figure, f"{part.name} through the year, {piece.room.label}", f"{'; '.join(said)}."
    )
