"""Names beside points that never lie on one another: tried around each point, nearest first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, inf, pi, sin
from typing import TYPE_CHECKING, NamedTuple

from woodref.charts.figure import ground
from woodref.record import record

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

#: Distances of a label from its point that are tried, from the nearest on [px].
_REACH_PX = (9.0, 16.0, 26.0, 40.0, 58.0, 80.0, 105.0, 135.0, 170.0, 210.0)
_DIRECTIONS = 16
#: From this distance on a thin line leads from the point to its label [px].
_LEADER_PX = 14.0
#: Free room around a label [px].
_MARGIN_PX = 3.0
#: What lying on another label, off the chart, on a point, on a line costs beside distance [px].
_ON_LABEL, _OUTSIDE, _ON_POINT, _ON_LINE = 1e5, 1e5, 2e3, 60.0
#: Rounds in which each label may move again once it sees where the others went.
_ROUNDS = 4


class Box(NamedTuple):
    """A rectangle on the canvas [px], y upward."""

    left: float
    bottom: float
    right: float
    top: float

    def meets(self, other: Box) -> bool:
        """True where the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def holds(self, other: Box) -> bool:
        """True where the other lies wholly inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )

    def grown(self, by: float) -> Box:
        """The rectangle with so much more on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)


class Stroke(NamedTuple):
    """A straight line on the canvas [px]."""

    x1: float
    y1: float
    x2: float
    y2: float

    def crosses(self, box: Box) -> bool:
        """True where part of the line lies inside the rectangle (Liang and Barsky 1984)."""
        start, end = 0.0, 1.0
        dx, dy = self.x2 - self.x1, self.y2 - self.y1
        for step, room in (
            (-dx, self.x1 - box.left),
            (dx, box.right - self.x1),
            (-dy, self.y1 - box.bottom),
            (dy, box.top - self.y1),
        ):
            if step == 0.0:
                if room <= 0.0:
                    return False
                continue
            ratio = room / step
            if step < 0.0:
                start = max(start, ratio)
            else:
                end = min(end, ratio)
        return start < end


@record
class Spot:
    """A label to place: its point and the size of its text [px]."""

    x: float
    y: float
    width: float
    height: float

    def at(self, dx: float, dy: float) -> Box:
        """The text where its middle lies so far from the point."""
        return Box(
            self.x + dx - self.width / 2.0,
            self.y + dy - self.height / 2.0,
            self.x + dx + self.width / 2.0,
            self.y + dy + self.height / 2.0,
        )

    def places(self) -> Iterator[tuple[float, float, float]]:
        """Where the text may go: middle of the text from the point, and how far that is [px]."""
        for reach in _REACH_PX:
            for i in range(_DIRECTIONS):
                angle = 2.0 * pi * i / _DIRECTIONS
                dx = cos(angle) * (reach + self.width / 2.0)
                dy = sin(angle) * (reach + self.height / 2.0)
                yield dx, dy, self.gap(dx, dy)

    def gap(self, dx: float, dy: float) -> float:
        """Free distance from the point to the text [px]."""
        return hypot(max(0.0, abs(dx) - self.width / 2.0), max(0.0, abs(dy) - self.height / 2.0))

    def leader(self, dx: float, dy: float) -> Stroke:
        """From the point to the middle of the text."""
        return Stroke(self.x, self.y, self.x + dx, self.y + dy)


def place(
    spots: Sequence[Spot], frame: Box, points: Sequence[Box], lines: Sequence[Stroke] = ()
) -> list[tuple[float, float]]:
    """Where the middle of each text goes from its point, so that no two texts meet.

    Each takes the nearest free place; then each may move again, seeing the others.

    Parameters: spots; frame to stay in; points that should stay free; lines a text had better
    not lie on [px].
    Returns: offsets in the order of the spots [px].
    """
    offsets: list[tuple[float, float] | None] = [None] * len(spots)

    def cost(i: int, dx: float, dy: float, gap: float) -> float:
        spot = spots[i]
        box = spot.at(dx, dy).grown(_MARGIN_PX)
        total = gap + (0.0 if frame.holds(box) else _OUTSIDE)
        if total >= _OUTSIDE:
            return total
        lead = spot.leader(dx, dy)
        for j, taken in enumerate(offsets):
            if j != i and taken is not None:
                there = spots[j].at(*taken)
                total += _ON_LABEL * box.meets(there)
                total += _ON_POINT * lead.crosses(there)
                total += _ON_POINT * spots[j].leader(*taken).crosses(box)
        own = Box(spot.x, spot.y, spot.x, spot.y)
        total += _ON_POINT * sum(
            box.meets(p) + (not p.holds(own) and lead.crosses(p)) for p in points
        )
        return total + _ON_LINE * sum(stroke.crosses(box) for stroke in lines)

    for _ in range(_ROUNDS):
        before = list(offsets)
        for i, spot in enumerate(spots):
            best, least = (0.0, 0.0), inf
            for dx, dy, gap in spot.places():
                here = cost(i, dx, dy, gap)
                if here < least:
                    best, least = (dx, dy), here
            offsets[i] = best
        if offsets == before:
            break
    return [o for o in offsets if o is not None]


def settle(figure: Figure) -> None:
    """Lay the figure out once and keep it so; text can be measured afterwards."""
    figure.draw_without_rendering()
    figure.set_layout_engine("none")


def label_points(
    axes: Axes,
    names: Sequence[str],
    points: Sequence[tuple[float, float]],
    colors: Sequence[str],
    lines: Sequence[Sequence[tuple[float, float]]] = (),
    size: float = 9.5,
    grounded: bool = True,
) -> None:
    """Write a name beside each point, none on another, with a thin line where it is far.

    Call it last: it settles the figure.

    Parameters: axes; names; points in the units of the axes; colors; lines, pairs of points,
    that names had better not lie on; size of the letters [pt]; grounded false for no white
    behind them.
    """
    figure = axes.get_figure(root=True)
    assert figure is not None
    settle(figure)
    to_px = axes.transData.transform
    window = axes.get_window_extent()
    spots = []
    for name, point in zip(names, points, strict=True):
        text = axes.text(*point, name, size=size)
        extent = text.get_window_extent()
        text.remove()
        x, y = to_px(point)
        spots.append(Spot(float(x), float(y), extent.width, extent.height))
    offsets = place(
        spots,
        Box(window.x0, window.y0, window.x1, window.y1),
        [Box(s.x, s.y, s.x, s.y).grown(6.0) for s in spots],
        [Stroke(*map(float, (*to_px(a), *to_px(b)))) for a, b in lines],
    )
    per_px = 72.0 / figure.dpi
    for name, point, color, spot, (dx, dy) in zip(
        names, points, colors, spots, offsets, strict=True
    ):
        far = spot.gap(dx, dy) >= _LEADER_PX
        axes.annotate(
            name,
            point,
            xytext=(dx * per_px, dy * per_px),
            textcoords="offset points",
            ha="center",
            va="center",
            size=size,
            color=color,
            bbox=ground() if grounded else None,
            arrowprops={
                "arrowstyle": "-",
                "color": color,
                "linewidth": 0.7,
                "shrinkA": 0.0,
                "shrinkB": 4.0,
            }
            if far
            else None,
        )
