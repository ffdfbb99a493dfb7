"""The end of a board, a round or a panel before and after, with its sizes as dimensions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from woodref.answers.provenance import sentence
from woodref.answers.section import change_words
from woodref.answers.shop_words import change_text, is_seen
from woodref.answers.words import percent_text
from woodref.board.cross_section import CrossSection, Face, Round
from woodref.board.outline import FACES, Pith, Points, circle, rectangle
from woodref.board.panel_section import PanelSection
from woodref.charts.figure import COLORS, INK, QUIET, SMALL_PT, style
from woodref.charts.legend import mark_of_movement, with_legend
from woodref.charts.scale import size_words
from woodref.charts.sheet import MARGIN_PX, WOOD, dimension, extension, rings, sheet

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from woodref.reference.woods import Wood

#: How much larger a change may be drawn, and the most share of half the size it comes to.
_LARGER, _SHARE = (1, 2, 5, 10, 20, 50, 100), 0.12
#: Room for the dimensions beside, above and below the drawing, and its most height [px].
_BESIDE_PX, _ABOVE_PX, _BELOW_PX, _HIGHEST_PX = 96.0, 62.0, 48.0, 420.0
_WIDE_PX = 800.0 - 2.0 * MARGIN_PX - 2.0 * _BESIDE_PX
#: Of the points of a face every so many is drawn.
_EVERY = 4
#: A piece that is drawn thinner than this has no room for words on it [px].
_THIN_PX = 44.0
#: Less than this is nothing [mm].
_FLAT_MM = 0.01
#: Rings drawn over the height of a board, and their least and most distance [px].
_RINGS, _RING_PX, _FAR_PX = 7, 6.0, 20.0
_AFTER = COLORS[0]


def enlarged(before: Points, after: Points) -> int:
    """How many times as large a change is drawn, so that it is seen beside the piece.

    Parameters: before, after, the same points of an outline.
    """
    size = max(abs(z) for z in before)
    most = max(abs(b - a) for a, b in zip(before, after, strict=True))
    return max((n for n in _LARGER if n * most <= _SHARE * size), default=1)


def end_before_and_after(
    piece: CrossSection | Round | PanelSection, units: str = "us", where: str = ""
) -> Figure:
    """The end of a board, a round or a panel. Parameters, returns: as board_before_and_after."""
    if isinstance(piece, Round):
        return round_before_and_after(piece, units, where)
    if isinstance(piece, PanelSection):
        return panel_before_and_after(piece, units, where)
    return board_before_and_after(piece, units, where)


class _Drawing:
    """The two outlines of a piece on a sheet, and points of the piece as pixels on it.

    ``before`` and ``after`` are the outlines face by face [px], ``after`` with the change drawn
    ``times`` as large; the faces of a round are one line.
    """

    def __init__(
        self,
        title: str,
        before: Mapping[str, Points],
        after: Mapping[str, Points],
        moistures: tuple[float, float],
        wood: Wood,
        note: str,
    ) -> None:
        whole, then = (sum((tuple(f) for f in faces.values()), ()) for faces in (before, after))
        times = enlarged(whole, then)
        self.times, self.mark = times, mark_of_movement(wood)
        drawn = {
            n: tuple(a + times * (b - a) for a, b in zip(before[n], after[n], strict=True))
            for n in before
        }
        both = [*whole, *(z for face in drawn.values() for z in face)]
        left, low = min(z.real for z in both), min(z.imag for z in both)
        wide, high = max(z.real for z in both) - left, max(z.imag for z in both) - low
        self.scale = min(_WIDE_PX / wide, _HIGHEST_PX / high)
        off_x = (800.0 - 2.0 * MARGIN_PX - self.scale * wide) / 2.0
        self._zero = complex(off_x - self.scale * left, _BELOW_PX - self.scale * low)
        start, end = (percent_text(pct) for pct in moistures)
        larger = f", change drawn {times} times as large" if times > 1 else ""
        self.figure, self.axes = sheet(
            title,
            f"Dashed: at {start}, with its rings. Solid: at {end}{larger}; sizes are true.",
            self.scale * high + _ABOVE_PX + _BELOW_PX,
            with_legend(note, self.mark),
        )
        self.before = {n: tuple(self.px(z) for z in face) for n, face in before.items()}
        self.after = {n: tuple(self.px(z) for z in face) for n, face in drawn.items()}

    @property
    def below_px(self) -> float:
        """How far below a thin piece its lower dimension stands clear of its cup [px]."""
        high = abs(self.before["right"][-1] - self.before["right"][0])
        return 38.0 if high < _THIN_PX else 18.0

    def px(self, point: complex) -> complex:
        """A point of the piece [mm] on the sheet [px]."""
        return self._zero + self.scale * point

    def ends_of_boards(self, boards: Sequence[tuple[Pith, Mapping[str, Points]]]) -> None:
        """The ends before, with their rings.

        Parameters: boards, each as its pith seen from its middle, and its faces [mm].
        """
        from matplotlib.patches import Polygon

        for pith, faces in boards:
            straight = len(faces) > 1
            corners = [
                self.px(z)
                for face in faces.values()
                for z in (face[:1] if straight else _drawn(face))
            ]
            place = Polygon(
                [(z.real, z.imag) for z in corners],
                closed=True, facecolor=WOOD, edgecolor=QUIET, linewidth=0.6, zorder=1.0,
            )  # fmt: skip
            self.axes.add_patch(place)
            middle = sum(corners) / len(corners)
            high = max(z.imag for z in corners) - min(z.imag for z in corners)
            center = None if pith.far else middle + self.scale * pith.point
            angle = _run_deg(pith)
            step = min(max(high / _RINGS, _RING_PX), _FAR_PX)
            rings(self.axes, place, corners, center, angle, step)

    def outlines(self) -> None:
        """The outline before, dashed, and after, solid."""
        for faces, color, stroke, width in (
            (self.after, _AFTER, "-", 2.0),
            (self.before, INK, (0, (5, 3)), 1.1),
        ):
            points = [z for face in faces.values() for z in _drawn(face)]
            points.append(points[0])
            self.axes.plot(
                [z.real for z in points],
                [z.imag for z in points],
                color=color,
                linestyle=stroke,
                linewidth=width,
                zorder=3.0,
            )

    def level(self, size: str, faces: Mapping[str, Points], face: str, away_px: float) -> None:
        """The dimension of a wide face, above the top one or below the bottom one."""
        points = faces[face]
        left, right = sorted((points[0], points[-1]), key=lambda z: z.real)
        color = INK if faces is self.before else _AFTER
        every = [z.imag for f in (*self.before.values(), *self.after.values()) for z in f]
        y = max(every) + away_px if face == "top" else min(every) - away_px
        for z in (left, right):
            extension(self.axes, z, complex(z.real, y), color)
        dimension(self.axes, complex(left.real, y), complex(right.real, y), size, color)

    def upright(self, size: str, faces: Mapping[str, Points], face: str) -> None:
        """The dimension of an edge: before at the left, after at the right."""
        points = faces[face]
        low, high = sorted((points[0], points[-1]), key=lambda z: z.imag)
        color = INK if faces is self.before else _AFTER
        every = [z.real for f in (*self.before.values(), *self.after.values()) for z in f]
        x, side = (min(every) - 14.0, -8.0) if face == "left" else (max(every) + 14.0, 8.0)
        for z in (low, high):
            extension(self.axes, z, complex(x, z.imag), color)
        ends = complex(x, low.imag), complex(x, high.imag)
        dimension(self.axes, *ends, size, color, complex(side, 0.0))


def _drawn(face: Points) -> list[complex]:
    """The points of a face that are drawn, its ends among them: a file need not hold them all."""
    return [*face[::_EVERY], face[-1]]


def _run_deg(pith: Pith) -> float:
    """How straight rings run, counterclockwise from the level [degree]."""
    from cmath import phase
    from math import degrees

    return degrees(phase(pith.toward * 1j))


def board_before_and_after(s: CrossSection, units: str = "us", where: str = "") -> Figure:
    """The end of a board or squared leg, with its sizes, its cup and its diagonals.

    Parameters: s; units 'us' or 'si'; where, the room whose year it is, '' for none.
    Returns: a figure of 800 px; the change is drawn larger by the factor it states.
    """
    before = rectangle(s.width_mm, s.thickness_mm)
    apart, mark = abs(s.diagonal_difference_mm.expected), mark_of_movement(s.wood)
    with style():
        d = _Drawing(
            f"{_name(s.wood)} {size_words(s.width_mm, units)} x "
            f"{size_words(s.thickness_mm, units)}: {change_words(s, units, mark)}",
            before,
            s.outline,
            (s.from_moisture_pct, s.to_moisture_pct),
            s.wood,
            _where(where) + f"In the middle it is then {size_words(s.middle_mm, units)}{mark} thick"
            + (f"; its diagonals are {change_text(apart, units)} apart." if apart > _FLAT_MM
               else "."),
        )  # fmt: skip
        d.ends_of_boards([(s.pith, before)])
        d.outlines()
        _sizes_before(d, s.width_mm, s.thickness_mm, units, percent_text(s.from_moisture_pct))
        hollow_below = s.cupped.name == "bottom" and is_seen(s.cupped.cup_mm.expected, units)
        below = 38.0 if hollow_below else d.below_px
        for face, away in (("top", 16.0), ("bottom", below)):
            size = size_words(s.faces[face].after_mm, units) + d.mark
            d.level(size, d.after, face, away)
        d.upright(size_words(s.faces["right"].after_mm, units) + d.mark, d.after, "right")
        if is_seen(s.cupped.cup_mm.expected, units):
            _cup(d, s.cupped, units)
    return d.figure


def _sizes_before(d: _Drawing, width_mm: float, thickness_mm: float, units: str, when: str) -> None:
    """The dimensions before: width above, thickness at the left."""
    d.level(f"{size_words(width_mm, units)} at {when}", d.before, "top", 42.0)
    d.upright(size_words(thickness_mm, units), d.before, "left")


def _where(label: str) -> str:
    """The room of a piece, before the rest of the note."""
    return f"In the year of {label}. " if label else ""


def _name(wood: Wood) -> str:
    return sentence(wood.common_name)


def _cup(d: _Drawing, face: Face, units: str) -> None:
    """The straight line over the hollow face, and how deep it is below it."""
    points = d.after[face.name]
    first, last = points[0], points[-1]
    extension(d.axes, first, last, _AFTER)
    along = (last - first) / abs(last - first)
    deep = max(points, key=lambda z: abs(((z - first) / along).imag))
    chord = first + along * ((deep - first) / along).real
    text = f"cup {change_text(face.cup_mm.expected, units)}{d.mark}"
    inward = (deep - chord) / abs(deep - chord)
    beside = inward * (abs(deep - chord) / 2.0 + 18.0) + 8.0
    dimension(d.axes, chord, deep, text, _AFTER, beside, size=SMALL_PT + 0.5)


def round_before_and_after(r: Round, units: str = "us", where: str = "") -> Figure:
    """The end of a dowel or turned leg. Parameters, returns: as board_before_and_after."""
    before, mark = circle(r.diameter_mm), mark_of_movement(r.wood)
    with style():
        d = _Drawing(
            f"{_name(r.wood)} round of {size_words(r.diameter_mm, units)}: "
            f"{change_words(r, units, mark)}",
            {"round": before},
            {"round": r.outline},
            (r.from_moisture_pct, r.to_moisture_pct),
            r.wood,
            _where(where),
        )
        d.ends_of_boards([(r.pith, {"round": before})])
        d.outlines()
        points = d.after["round"]
        half = len(points) // 2
        across = [(points[k], points[k + half]) for k in range(half)]
        widest = max(across, key=lambda ends: abs(ends[0] - ends[1]))
        narrowest = min(across, key=lambda ends: abs(ends[0] - ends[1]))
        for ends, size, share in ((widest, r.widest_mm, 0.3), (narrowest, r.narrowest_mm, 0.7)):
            start, end = sorted(ends, key=lambda z: (round(z.real, 3), z.imag))
            off = (share - 0.5) * (end - start)
            dimension(d.axes, start, end, size_words(size, units) + d.mark, _AFTER, off * 0.9)
        whole = d.before["round"]
        top = max(z.imag for z in whole)
        left, right = (f(whole, key=lambda z: z.real) for f in (min, max))
        y = max(top, *(z.imag for z in points)) + 22.0
        for z in (left, right):
            extension(d.axes, z, complex(z.real, y))
        text = f"{size_words(r.diameter_mm, units)} at {percent_text(r.from_moisture_pct)}"
        dimension(d.axes, complex(left.real, y), complex(right.real, y), text)
    return d.figure


def panel_before_and_after(p: PanelSection, units: str = "us", where: str = "") -> Figure:
    """The end of a panel of boards. Parameters, returns: as board_before_and_after."""
    first, mark = p.boards[0], mark_of_movement(p.wood)
    faces, left = [], -p.width_mm / 2.0
    for board in p.boards:
        middle = left + board.width_mm / 2.0
        own = rectangle(board.width_mm, board.thickness_mm)
        faces.append({n: tuple(z + middle for z in own[n]) for n in FACES})
        left += board.width_mm
    whole: dict[str, Points] = {
        "bottom": sum((f["bottom"] for f in faces), ()),
        "right": faces[-1]["right"],
        "top": sum((f["top"] for f in reversed(faces)), ()),
        "left": faces[0]["left"],
    }
    with style():
        d = _Drawing(
            f"{_name(p.wood)} panel of {len(p.boards)} boards: {change_words(p, units, mark)}",
            whole,
            p.outline,
            (first.from_moisture_pct, first.to_moisture_pct),
            p.wood,
            _where(where),
        )
        d.ends_of_boards([(b.pith, f) for b, f in zip(p.boards, faces, strict=True)])
        d.outlines()
        when = percent_text(first.from_moisture_pct)
        _sizes_before(d, p.width_mm, first.thickness_mm, units, when)
        d.level(size_words(p.top_mm, units) + d.mark, d.after, "top", 16.0)
        d.level(size_words(p.bottom_mm, units) + d.mark, d.after, "bottom", 18.0)
        if p.out_of_flat_mm.expected >= _FLAT_MM:
            _out_of_flat(d, p, units)
    return d.figure


def _out_of_flat(d: _Drawing, p: PanelSection, units: str) -> None:
    """How far the top goes up and down, between two level lines at the right of the panel."""
    top = [z.imag for z in d.after["top"]]
    right = max(z.real for f in (*d.before.values(), *d.after.values()) for z in f)
    x, highest, lowest = right + 14.0, max(top), min(top)
    for y in (highest, lowest):
        extension(d.axes, complex(right - 40.0, y), complex(x, y), _AFTER)
    text = f"{change_text(p.out_of_flat_mm.expected, units)}{d.mark}\nout of flat"
    ends = complex(x, lowest), complex(x, highest)
    dimension(d.axes, *ends, text, _AFTER, 10.0 + 0j, size=SMALL_PT + 0.5)
