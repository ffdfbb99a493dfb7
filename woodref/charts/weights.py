"""Where the weight of a piece is: its parts as bars, the heaviest first."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.property_text import marks
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import mass_range, mass_text
from woodref.answers.words import listed, percent_text
from woodref.charts.figure import (
    COLORS,
    INK,
    QUIET,
    SMALL_PT,
    TEXT_PT,
    new_figure,
    style,
    thousands,
    tint,
)
from woodref.charts.legend import with_legend
from woodref.errors import NoDataError
from woodref.quantity import Range, exactly
from woodref.units import KINDS

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.piece.estimate import Estimate

#: Parts drawn by themselves at most, longest line of a name [letters].
MOST, _NAME = 12, 34
#: What is no part, and the least share of the whole it is drawn from.
_BESIDE, _LEAST = "finish and hardware", 0.005
#: Height of a bar with its gap, and of all the rest [px].
_ROW_PX, _REST_PX = 34, 150
_HATCHES = ("", "///", "---", "\\\\\\", "|||", "xxx", "+++", "//////")
_MASS = KINDS["mass"]


class Bar(NamedTuple):
    """What a bar is of: its name, its material, '' for several, its mass [kg], and its marks."""

    name: str
    material: str
    mass_kg: Range
    mark: str


def bars_of(estimate: Estimate) -> list[Bar]:
    """The parts that are weighed, the heaviest first, then what is lighter and what is no part.

    Parameters: estimate.
    """
    densities = estimate.masses.densities
    bars = []
    for e in estimate.parts:
        if e.mass_kg is None:
            continue
        known = densities.get(e.part.species) if e.wood else None
        count = f"{e.part.quantity} x " if e.part.quantity > 1 else ""
        mark = marks(*known.values) if known else ""
        bars.append(Bar(f"{count}{e.part.name}", e.material, e.mass_kg["build"], mark))
    whole = estimate.mass_kg["build"].expected
    beside = whole - sum(b.mass_kg.expected for b in bars)
    if beside > _LEAST * whole:
        bars.append(Bar(_BESIDE, "", exactly(beside), ""))
    bars.sort(key=lambda b: -b.mass_kg.expected)
    shown, rest = bars[:MOST], bars[MOST:]
    if len(rest) == 1:
        return bars
    if rest:
        every = "".join(dict.fromkeys("".join(b.mark for b in rest)))
        shown.append(Bar(f"the {len(rest)} lightest", "", _sum(rest), every))
    return shown


def _sum(bars: list[Bar]) -> Range:
    return Range(*(sum(ends) for ends in zip(*(b.mass_kg for b in bars), strict=True)))


def _finding(estimate: Estimate, bars: list[Bar], units: str) -> str:
    """What the piece weighs, and what of it is heaviest."""
    whole = estimate.mass_kg["build"]
    used = [v for d in estimate.masses.densities.values() for v in d.values]
    lead = f"{sentence(estimate.piece.name)} weighs {mass_range(whole, units)}{marks(*used)}"
    parts = [b for b in bars if b.material]
    heavy = [f"{b.name} {100.0 * b.mass_kg.expected / whole.expected:.0f} %" for b in parts[:3]]
    return f"{lead}; the heaviest: {listed(heavy)}"


def weight_by_part(estimate: Estimate, units: str = "us") -> Figure:
    """The weight of a piece part by part, the heaviest first.

    Parameters: estimate; units 'us' or 'si'.
    Returns: a figure of 800 px, as high as it takes, whose title names the heaviest parts.
    Raises: NoDataError where no part is weighed.
    """
    bars = bars_of(estimate)
    if not any(b.material for b in bars):
        raise NoDataError("no part of the piece has a known density; there is no weight to draw")
    materials = list(dict.fromkeys(b.material for b in bars if b.material))
    told = ["Thin lines: where 9 pieces in 10 fall."]
    if estimate.unweighed:
        told.append(f"Not weighed: {'; '.join(estimate.unweighed)}.")
    lift = estimate.masses.heaviest_lift
    if lift and len(estimate.masses.lifts) > 1:
        told.append(f"Heaviest to lift: {lift[0]}, {mass_range(lift[1], units)}.")
    with style():
        figure, axes = new_figure(
            _finding(estimate, bars, units),
            f"Part by part at {percent_text(estimate.piece.build.moisture_pct)}, all of a kind "
            "together",
            height_px=_REST_PX + _ROW_PX * len(bars),
            note=with_legend(" ".join(told), [b.mark for b in bars]),
        )
        for line, bar in enumerate(bars):
            _draw(axes, line, bar, materials, estimate.mass_kg["build"].expected, units)
        _finish(axes, bars, len(materials) > 1, units)
    return figure


def _draw(
    axes: Axes, line: int, bar: Bar, materials: list[str], whole_kg: float, units: str
) -> None:
    """A bar with its range, and its weight and share behind it."""
    n = materials.index(bar.material) if bar.material else 7
    color = COLORS[n % len(COLORS)]
    expected, low, high = (_MASS.convert(x, units) for x in bar.mass_kg)
    axes.barh(
        line, expected, height=0.62, facecolor=tint(color), edgecolor=color, linewidth=0.8,
        hatch=_HATCHES[n % len(_HATCHES)], zorder=2.0,
    )  # fmt: skip
    if bar.mass_kg.is_range:
        axes.plot([low, high], [line, line], color=INK, linewidth=1.2, zorder=3.0)
    share = 100.0 * bar.mass_kg.expected / whole_kg
    told = f"{share:.0f} %" if share >= 0.5 else "under 1 %"
    axes.annotate(
        f"{mass_text(bar.mass_kg.expected, units)}{bar.mark}, {told}",
        (max(expected, high), line), (7, 0), textcoords="offset points", va="center",
        size=SMALL_PT + 0.5, zorder=3.0,
    )  # fmt: skip


def _finish(axes: Axes, bars: list[Bar], several: bool, units: str) -> None:
    """Limits, names and labels."""
    names = [
        textwrap.fill(f"{b.name}, {b.material}" if several and b.material else b.name, _NAME)
        for b in bars
    ]
    most = max(_MASS.convert(b.mass_kg.high, units) for b in bars)
    axes.set_xlim(0.0, 1.24 * most)
    axes.set_ylim(len(bars) - 0.45, -0.55)
    small = any("\n" in name for name in names)
    axes.set_yticks(range(len(bars)), names, size=SMALL_PT if small else TEXT_PT)
    axes.tick_params(axis="y", length=0)
    axes.grid(visible=False, axis="y")
    axes.spines["left"].set_visible(False)
    thousands(axes.xaxis)
    axes.set_xlabel(f"weight ({_MASS.label(units)})", color=QUIET, size=SMALL_PT)
