"""Woods in place of another: how near they look against how near they work, the first at 0."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.choice_words import woods_words
from woodref.answers.property_text import UNCHECKED_MARK, marks_of
from woodref.answers.provenance import sentence
from woodref.charts.figure import COLORS, INK, QUIET, SMALL_PT, new_figure, style, thousands
from woodref.charts.labels import label_points
from woodref.charts.legend import with_legend
from woodref.charts.stock_marks import StockMark, stock_legend, stock_mark
from woodref.choose.columns import Marked
from woodref.choose.distance import UNKNOWN_DISTANCE
from woodref.choose.look_distance import BANDS, NOT_ALIKE

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.choose.substitute_result import Substitute, Substitutes

#: Woods drawn at most, the two nearest ones beside them.
MOST = 10
#: How far the zone of what is not alike reaches at least and at most, and how wide the place of
#: woods of unknown look is.
_LEAST, _FARTHEST, _UNKNOWN = 0.25, 0.45, 0.3
_BEYOND = BANDS[-1][0]
_NOT_KNOWN = "look not known"
#: Fillings of the zones, from the nearest on.
_SHADES = ("#dfe9dc", "#ecf2ea", "#f4f4f4", "#ffffff", "#ffffff")
#: Longest line of a wood's name [letters].
_NAME = 22


class _Zone(NamedTuple):
    """A zone of look: its word, where it begins and ends on the axis."""

    word: str
    left: float
    right: float


def finding(substitutes: Substitutes) -> str:
    """'Nearest black walnut in look: Peruvian walnut (close); in work: white ash'."""
    wood, work = substitutes.wood.common_name, substitutes.nearest_in_work
    look = substitutes.nearest_in_look
    if work is None or look is None:
        return f"In place of {wood}: only woods of its own trade group pass"
    if look.look.band is None:
        return f"Nearest {wood} in work: {work.name}; no look is known"
    band = look.look.band
    if work.species_id == look.species_id:
        return f"Nearest {wood} in look and in work: {look.name} ({band})"
    return f"Nearest {wood} in look: {look.name} ({band}); in work: {work.name}"


def look_against_work(substitutes: Substitutes, kind: str = "") -> Figure:
    """Woods in place of another: apart in look, by zones, against apart in work.

    No number stands at the look, which is our own and schematic measure
    (woodref.choose.look_distance); beyond the related woods its scale may be narrower.

    Parameters: substitutes; kind of woods that were looked at, '' for any.
    Returns: a figure of 800 px.
    """
    drawn = woods_drawn(substitutes)
    stock = [stock_mark(s.stock, substitutes.buyable) for s in drawn]
    sure = [_marks(s) for s in drawn]
    places = {s.species_id: n for n, s in enumerate(substitutes.woods, 1)}
    labels = [
        _label(places.get(s.species_id), s.name + mark) for s, mark in zip(drawn, sure, strict=True)
    ]
    zones, squeeze = _zones(drawn)
    points = [(_across(s, zones, squeeze), s.in_work) for s in drawn]
    highest = max((p[1] for p in points), default=0.0)
    note = "Numbers: the order of the answer."
    if _top(highest) > UNKNOWN_DISTANCE:
        note += " Dashed: as far apart in work as two woods taken at random."
    with style():
        figure, axes = new_figure(
            finding(substitutes),
            f"{sentence(substitutes.profile.title)}, of {woods_words(substitutes.buyable, kind)}",
            height_px=600,
            note=with_legend(f"{stock_legend(stock)} {note}".strip(), sure),
        )
        _frame(axes, zones, highest)
        colors = [_draw(axes, point, mark) for point, mark in zip(points, stock, strict=True)]
        first = textwrap.fill(substitutes.wood.common_name, _NAME)
        axes.plot([0.0], [0.0], marker="*", markersize=14.0, color=INK, clip_on=False, zorder=4.0)
        edges = [[(z.right, 0.0), (z.right, _top(highest))] for z in zones[:-1]]
        label_points(
            axes, [first, *labels], [(0.0, 0.0), *points], [INK, *colors], edges, grounded=False
        )
    return figure


def woods_drawn(substitutes: Substitutes) -> list[Substitute]:
    """The first woods, and what is nearest in look and in work where it is not among them."""
    near = (substitutes.nearest_in_look, substitutes.nearest_in_work)
    every = [*(substitutes.woods[:MOST] or substitutes.own_group[:MOST]), *(s for s in near if s)]
    return list({s.species_id: s for s in every}.values())


def _marks(s: Substitute) -> str:
    """The marks of look and work: each once."""
    of_look = UNCHECKED_MARK if s.look.band and s.look.unchecked else ""
    work = marks_of(Marked.of(c.of_other for c in s.changes))
    return "".join(dict.fromkeys(of_look + work))


def _label(place: int | None, name: str) -> str:
    return textwrap.fill(f"{place} {name}" if place else name, _NAME)


def _zones(drawn: Sequence[Substitute]) -> tuple[list[_Zone], float]:
    """The zones from the nearest on, and what a distance beyond the related counts there."""
    zones, left = [], 0.0
    for most, word in BANDS:
        zones.append(_Zone(word, left, most))
        left = most
    far = max((s.look.distance or 0.0 for s in drawn), default=0.0) - _BEYOND
    # A little air behind the farthest wood.
    wide = min(max(1.12 * far, _LEAST), _FARTHEST)
    zones.append(_Zone(NOT_ALIKE, left, left + wide))
    if any(s.look.distance is None for s in drawn):
        zones.append(_Zone(_NOT_KNOWN, left + wide, left + wide + _UNKNOWN))
    return zones, min(1.0, wide / (1.12 * far)) if far > 0.0 else 1.0


def _across(s: Substitute, zones: Sequence[_Zone], squeeze: float) -> float:
    """Where a wood stands along the look."""
    distance = s.look.distance
    if distance is None:
        return (zones[-1].left + zones[-1].right) / 2.0
    return distance if distance <= _BEYOND else _BEYOND + squeeze * (distance - _BEYOND)


def _draw(axes: Axes, point: tuple[float, float], mark: StockMark) -> str:
    """The point of a wood; its color."""
    color = COLORS[{"o": 0, "^": 1, "X": 7}[mark.marker]]
    axes.plot(
        *([v] for v in point),
        marker=mark.marker,
        markersize=10.0,
        color=color,
        markeredgecolor="white",
        markeredgewidth=0.8,
        clip_on=False,
        zorder=3.0,
    )
    return color


def _top(highest: float) -> float:
    """Upper end of the axis of work."""
    return 1.15 * max(highest, 0.5)


def _frame(axes: Axes, zones: Sequence[_Zone], highest: float) -> None:
    """Zones with their words, limits and labels of the axes."""
    top = _top(highest)
    axes.set_xlim(0.0, zones[-1].right)
    axes.set_ylim(0.0, top)
    for zone, shade in zip(zones, _SHADES, strict=False):
        axes.axvspan(zone.left, zone.right, color=shade, linewidth=0.0, zorder=0.0)
        axes.axvline(zone.right, color="#c8c8c8", linewidth=0.8, zorder=0.5)
        axes.text(
            (zone.left + zone.right) / 2.0,
            1.01,
            zone.word,
            transform=axes.get_xaxis_transform(),
            ha="center",
            va="bottom",
            size=SMALL_PT,
            weight="bold",
            color=INK,
        )
    if top > UNKNOWN_DISTANCE:
        axes.axhline(UNKNOWN_DISTANCE, color=QUIET, linewidth=1.0, linestyle="--", zorder=1.0)
    axes.set_title(axes.get_title(loc="left"), loc="left", size=10.0, color=QUIET, pad=24.0)
    axes.set_xticks([])
    axes.grid(visible=False)
    axes.set_xlabel("look: the farther right, the less alike")
    thousands(axes.yaxis, 5)
    axes.tick_params(axis="y", pad=8.0)
    axes.set_ylabel("work: the higher, the less alike")
