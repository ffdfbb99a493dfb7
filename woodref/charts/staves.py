"""A panel of staves from its end: before and after, or with its width through the year."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from woodref.answers.shop_words import change_text
from woodref.answers.words import percent_text
from woodref.board.movement import CUTS, Movement
from woodref.board.panel import PanelMovement, Stave, panel_movement
from woodref.board.panel import panel_year as panel_moves
from woodref.charts.figure import COLORS, INK, QUIET, SMALL_PT, style
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.charts.room_year import allowance_words, design_levels
from woodref.charts.scale import size_words
from woodref.charts.sheet import (
    WOOD,
    dimension,
    extension,
    letters_px,
    ring_center,
    rings,
    room_of,
    sheet,
)
from woodref.charts.year import Level, YearLine, course, seasonal_width
from woodref.climate.sizes_by_month import sizes_through_year

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.climate.rooms import Room
    from woodref.reference.woods import Wood

#: How much larger a change may be drawn, and the share of the width it should come to.
_LARGER, _SHARE = (1, 2, 5, 10, 20, 50, 100), 0.12
#: Height of a strip of staves, of the line of words below it, free room beside it [px].
_HIGH_PX, _WORDS_PX, _BESIDE_PX = 44.0, 18.0, 70.0
#: Distance of the rings drawn, and of the pith from a stave as a share of its width.
_RING_PX, _PITH = 6.0, 0.75
#: A letter is about this share of its size wide.
_LETTER = 0.6
#: Height of the chart of the year below the staves [px].
_YEAR_PX = 360.0
_RINGS_NOTE = "The heart side of a stave is not known here: its rings are drawn heart side down."


def enlarged(change: float, size: float) -> int:
    """How many times as large a change is drawn, so that it is seen beside a size."""
    wanted = _SHARE * size / abs(change) if change else 1.0
    return max((n for n in _LARGER if n <= wanted), default=1)


def staves_before_and_after(m: PanelMovement, units: str = "us") -> Figure:
    """The staves of a panel before and after, edge to edge, the change of each written below it.

    Parameters: m, the movement of the panel; units 'us' or 'si'.
    Returns: a figure of 800 px; the change is drawn larger by the factor it states.
    """
    lead = m.staves[0]
    mark = mark_of_movement(lead.wood)
    times = enlarged(m.change_mm, m.size_mm)
    start, end = (percent_text(p) for p in (lead.from_moisture_pct, lead.to_moisture_pct))
    larger = f", change drawn {times} times as large" if times > 1 else ""
    low, high = (size_words(x, units) for x in (m.likely_mm.low, m.likely_mm.high))
    with style():
        figure, axes = sheet(
            f"{_name(lead.wood, len(m.staves))} {size_words(m.size_mm, units)} wide at {start} "
            f"{_becomes(m, units, mark)} at {end}",
            f"Staves seen from the end. Below: at {end}{larger}; sizes are true.",
            2.0 * (_HIGH_PX + _WORDS_PX) + 3.0 * 28.0,
            with_legend(f"9 panels in 10 come to {low} to {high}. {_RINGS_NOTE}", mark),
        )
        wide, high_px = room_of(axes)
        before = [s.size_mm for s in m.staves]
        after = [s.size_mm + times * s.change_mm for s in m.staves]
        scale = (wide - 2.0 * _BESIDE_PX) / max(sum(before), sum(after))
        angles = [s.ring_angle_deg for s in m.staves]
        rows = (
            (high_px - 28.0, before, INK, m.size_mm, start, _cuts(angles, before, units)),
            (high_px - 56.0 - _HIGH_PX - _WORDS_PX, after, COLORS[0], m.after_mm, end,
             _changes(m.staves, units, mark)),
        )  # fmt: skip
        for top, widths, color, size, when, words in rows:
            px = [scale * w for w in widths]
            left = (wide - sum(px)) / 2.0
            strip(axes, px, angles, left, top - _HIGH_PX, color, words)
            text = f"{size_words(size, units)}{mark if color != INK else ''} at {when}"
            _across(axes, left, left + sum(px), top, text, color)
    return figure


def panel_year(
    wood: Wood, staves: Sequence[Stave], build_pct: float, room: Room, units: str
) -> Figure:
    """A panel of staves seen on its end, and its width through the year below.

    Parameters: wood; staves as built; build_pct moisture content then [%]; room; units.
    Returns: a figure of 800 px.
    """
    width_mm, mark = sum(s.width_mm for s in staves), mark_of_movement(wood)
    design = room.season.design_pct
    dry, wet, swing = panel_moves(wood, staves, build_pct, design.low, design.high)
    built = f"{size_words(width_mm, units)} at {percent_text(build_pct)}"
    with style():
        figure, axes = sheet(
            allowance_words(swing, room.season, units, mark),
            f"{_name(wood, len(staves))}, built {built}; {room.label}",
            _HIGH_PX + _WORDS_PX + 44.0 + _YEAR_PX,
            with_legend(
                " ".join(("Band: where 9 panels in 10 fall.", course(room.season), _RINGS_NOTE)),
                mark,
            ),
        )
        wide, high = room_of(axes)
        px = [s.width_mm / width_mm * (wide - 2.0 * _BESIDE_PX) for s in staves]
        angles = [s.ring_angle_deg for s in staves]
        bottom, cuts = high - 28.0 - _HIGH_PX, _cuts(angles, [s.width_mm for s in staves], units)
        strip(axes, px, angles, _BESIDE_PX, bottom, INK, cuts)
        _across(axes, _BESIDE_PX, _BESIDE_PX + sum(px), high - 28.0, built, INK)
        across, up = figure.get_size_inches() * figure.dpi
        place = axes.get_position()
        year = figure.add_axes(
            (86.0 / across, place.y0 + 62.0 / up, (across - 110.0) / across,
             (_YEAR_PX - 78.0) / up)
        )  # fmt: skip
        sizes = sizes_through_year(room.season, partial(panel_movement, wood, staves, build_pct))
        seasonal_width(
            "",
            "",
            [YearLine("panel", sizes)],
            room.season,
            units,
            [
                Level(width_mm, f"built {built}"),
                *design_levels(dry.after_mm, wet.after_mm, "", units, mark),
            ],
            mark=mark,
            axes=year,
        )  # fmt: skip
    return figure


def _name(wood: Wood, count: int) -> str:
    """'A panel of 3 staves of black cherry'."""
    return f"A panel of {count} stave{'' if count == 1 else 's'} of {wood.common_name}"


def _becomes(m: PanelMovement, units: str, mark: str) -> str:
    """'shrinks 1/16 in, to 13-15/16 in,'."""
    if not m.change_mm:
        return "stays as wide"
    way = "swells" if m.change_mm > 0.0 else "shrinks"
    return f"{way} {change_text(m.change_mm, units)}{mark}, to {size_words(m.after_mm, units)},"


def _cuts(angles: Sequence[float], widths_mm: Sequence[float], units: str) -> list[str]:
    """Number, width and cut of each stave: '1: 5 in flat'."""
    names = {angle: name for name, angle in CUTS.items()}
    return [
        f"{n}: {size_words(w, units)} {names.get(a, f'{a:g} degrees')}"
        for n, (a, w) in enumerate(zip(angles, widths_mm, strict=True), 1)
    ]


def _changes(staves: Sequence[Movement], units: str, mark: str) -> list[str]:
    """The change of each stave: 'shrinks 1/32 in'."""
    ways = ["swells" if s.change_mm > 0.0 else "shrinks" for s in staves]
    return [
        f"{way} {change_text(s.change_mm, units)}{mark}" if s.change_mm else "stays"
        for way, s in zip(ways, staves, strict=True)
    ]


def _across(axes: Axes, left: float, right: float, top: float, text: str, color: str) -> None:
    """The whole width, above a strip of staves."""
    y = top + 16.0
    for x in (left, right):
        extension(axes, complex(x, top), complex(x, y), color)
    dimension(axes, complex(left, y), complex(right, y), text, color)


def strip(
    axes: Axes,
    widths_px: Sequence[float],
    angles_deg: Sequence[float],
    left: float,
    bottom: float,
    color: str,
    words: Sequence[str],
) -> None:
    """Staves edge to edge, each with its rings, and words below those that have room for them.

    Parameters: axes of a sheet; widths_px, angles_deg of the rings to the face, of each stave;
    left, bottom [px]; color of the edges; words, one for each stave.
    """
    from matplotlib.patches import Rectangle

    per_letter = letters_px(SMALL_PT) * _LETTER
    fit = all(len(t) * per_letter <= w for t, w in zip(words, widths_px, strict=True))
    for n, (width, angle, text) in enumerate(zip(widths_px, angles_deg, words, strict=True)):
        box = Rectangle(
            (left, bottom), width, _HIGH_PX, facecolor=WOOD, edgecolor=color, linewidth=1.3
        )
        axes.add_patch(box)
        middle = complex(left + width / 2.0, bottom + _HIGH_PX / 2.0)
        half = complex(width, _HIGH_PX) / 2.0
        corners = [
            middle - half,
            middle + half.conjugate(),
            middle + half,
            middle - half.conjugate(),
        ]
        far = _HIGH_PX / 2.0 + _PITH * max(min(width, 120.0), _HIGH_PX) * (1.0 + angle / 45.0)
        rings(axes, box, corners, ring_center(middle, far, angle), 0.0, _RING_PX)
        box.set_zorder(1.0)
        low = text if fit else str(n + 1)
        if len(low) * per_letter <= width:
            axes.text(
                middle.real, bottom - 6.0, low, ha="center", va="top", size=SMALL_PT,
                color=QUIET if color == INK else color,
            )  # fmt: skip
        left += width
