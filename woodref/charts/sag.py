"""A shelf, top or rail as it sags, now and after years, against the limits it is held to."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.property_text import marks
from woodref.answers.provenance import sentence
from woodref.answers.sag_words import VERDICTS, load_words
from woodref.answers.shop_words import change_range, change_text, size_text
from woodref.answers.words import SUPPORTED
from woodref.board.beam_material import Spread
from woodref.board.deflection import SagVerdict
from woodref.board.sag_limits import LimitKind
from woodref.charts.figure import COLORS, INK, QUIET, SMALL_PT, ground, style
from woodref.charts.legend import with_legend
from woodref.charts.scale import size_words
from woodref.charts.sheet import WOOD, dimension, extension, room_of, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from woodref.board.deflection import Deflection, LimitCheck
    from woodref.board.span import Span

#: How much larger than its span a sag may be drawn, and how deep it comes to at most [px].
_LARGER, _DEEP_PX = (1, 2, 3, 5, 7, 10, 15, 20, 30, 50, 75, 100, 200), 120.0
#: Room above the board for its load, below its deepest sag, and beside it [px].
_ABOVE_PX, _BELOW_PX, _LEFT_PX, _RIGHT_PX = 82.0, 60.0, 40.0, 140.0
#: A board is drawn at least this thick, a support this large [px].
_THIN_PX, _SUPPORT_PX = 7.0, 16.0
#: Names of limits stand so far apart at least [px].
_APART_PX = 30.0
#: Points along a bent line.
_POINTS = 48
_LIMIT_WORDS = {
    LimitKind.OWN: "your limit",
    LimitKind.TRADE: "trade limit",
    LimitKind.STRAIGHT: "straight look",
}
_SPREADS = {
    Spread.NONE: "",
    Spread.PRODUCTS: "In parentheses: from the stiffest to the most limber panel of its kind.",
    Spread.BOARDS: "In parentheses: 9 boards in 10.",
}
_NOW, _LATER, _LIMIT = COLORS[0], COLORS[1], QUIET


def sag_shape(support: str, share: float) -> float:
    """The sag of a spread load at a share of the span, over its largest.

    Parameters: support 'simple', 'fixed' or 'cantilever'; share 0 to 1, of a cantilever from
    where it is held.
    Source: the elastic line of a uniform beam, as woodref.formulas.bending takes its largest.
    """
    x = share
    if support == "simple":
        return 16.0 / 5.0 * (x - 2.0 * x**3 + x**4)
    if support == "fixed":
        return 16.0 * x**2 * (1.0 - x) ** 2
    return (x**4 - 4.0 * x**3 + 6.0 * x**2) / 3.0


def sag_finding(d: Deflection, units: str) -> str:
    """'Black cherry over 36 in sags 3/32 in now, 3/16 in after years: within the trade limit'."""
    mark = marks(*d.material.values)
    now = change_text(d.now_mm.expected, units) + mark
    later = _years(d, units)[-1] + mark if d.later_mm else ""
    more = " or more" if d.material.is_panel else ""
    what = f"{sentence(d.material.name)} over {size_words(d.span.span_mm, units)}"
    sags = f"{now} now" + (f", {later}{more} after years" if later else "")
    if now == later:
        sags = f"{now} now and after years"
    if d.verdict is None:
        return f"{what} sags {sags} under its own weight"
    if d.verdict is SagVerdict.SAGS:
        check = d.deciding
        allows = f"{check.limit.written} allows {size_text(check.sag_mm, units)}"
        return f"{what} sags too much: {sags}; {allows}"
    return f"{what} sags {sags}: {VERDICTS[d.verdict]}"


def sagged(d: Deflection, units: str = "us") -> Figure:
    """A span as it sags, the sag drawn larger, with its limits.

    Parameters: d; units 'us' or 'si'.
    Returns: a figure of 800 px whose title says if the span stays within its limits.
    """
    later = d.later_mm[-1].expected if d.later_mm else 0.0
    deepest = max(d.now_mm.expected, later, *(c.sag_mm for c in d.checks if d.span.loaded), 1e-6)
    wide = 800.0 - 24.0 - _LEFT_PX - _RIGHT_PX
    scale = wide / d.span.span_mm
    times = max((n for n in _LARGER if n * scale * deepest <= _DEEP_PX), default=1)
    down = times * scale
    thick = max(_THIN_PX, scale * d.span.thickness_mm)
    with style():
        figure, axes = sheet(
            sag_finding(d, units),
            f"{sentence(load_words(d.span, units))}; {SUPPORTED[d.span.support]}. Sag drawn "
            f"{times} times as large.",
            _ABOVE_PX + thick + down * deepest + _BELOW_PX,
            with_legend(_note(d, units), marks(*d.material.values)),
        )
        top = room_of(axes)[1] - _ABOVE_PX
        drawing = _Drawing(axes, d.span, scale, down, top, thick)
        drawing.load()
        if later:
            drawing.board(later, _LATER, False)
        drawing.board(d.now_mm.expected, _NOW, True)
        drawing.supports()
        if d.span.loaded:
            drawing.limits([(c, _limit_text(c, units)) for c in d.checks])
        drawing.sags(
            [(d.now_mm.expected, f"now {_likely(d, units)}", _NOW)]
            + ([(later, f"after years {' to '.join(_years(d, units))}", _LATER)] if later else [])
        )
        drawing.span_size(size_words(d.span.span_mm, units), deepest)
    return figure


def _likely(d: Deflection, units: str) -> str:
    return (
        change_range(d.now_mm, units)
        if d.now_mm.is_range
        else change_text(d.now_mm.expected, units)
    )


def _years(d: Deflection, units: str) -> list[str]:
    """'9/64 in', '3/16 in': the sag after years, by each rule of creep."""
    return list(dict.fromkeys(change_text(sag.expected, units) for sag in d.later_mm))


def _limit_text(check: LimitCheck, units: str) -> str:
    words = _LIMIT_WORDS[check.limit.kind]
    return f"{words} {check.limit.written}\n{size_text(check.sag_mm, units)}"


def _note(d: Deflection, units: str) -> str:
    """What the ranges and the curve are; that nothing here is for safety."""
    told = [_SPREADS[d.material.spread] if d.now_mm.is_range else ""]
    if d.span.point_n:
        told.append("The curve drawn is that of a load spread over the span.")
    told.append("Limits are held against the first sag. Never a structural value.")
    return " ".join(t for t in told if t)


class _Drawing:
    """A span on a sheet: its place and its scales, along and down [px over mm]."""

    def __init__(
        self, axes: Axes, span: Span, scale: float, down: float, top: float, thick: float
    ) -> None:
        self.axes, self.span = axes, span
        self.scale, self.down, self.top, self.thick = scale, down, top, thick
        self.wide = scale * span.span_mm

    def _line(self, sag_mm: float) -> list[complex]:
        """The top of the board from end to end [px]."""
        shares = [n / _POINTS for n in range(_POINTS + 1)]
        return [
            complex(
                _LEFT_PX + share * self.wide,
                self.top - self.down * sag_mm * sag_shape(self.span.support, share),
            )
            for share in shares
        ]

    @property
    def deepest_x(self) -> float:
        """Where the sag is largest [px]."""
        return _LEFT_PX + self.wide * (1.0 if self.span.support == "cantilever" else 0.5)

    def board(self, sag_mm: float, color: str, filled: bool) -> None:
        """The board at a sag: filled, or as a dashed outline."""
        from matplotlib.patches import Polygon

        line = self._line(sag_mm)
        around = [*line, *(z - 1j * self.thick for z in reversed(line))]
        self.axes.add_patch(
            Polygon(
                [(z.real, z.imag) for z in around],
                closed=True, facecolor=WOOD if filled else "none", edgecolor=color,
                linewidth=1.6, linestyle="-" if filled else (0, (4, 2)), zorder=2.0,
            )
        )  # fmt: skip

    def supports(self) -> None:
        """What the ends rest on, or are held in."""
        from matplotlib.patches import Polygon, Rectangle

        ends = (_LEFT_PX, _LEFT_PX + self.wide)
        looks: dict[str, Any] = {
            "facecolor": "#c9c9c9",
            "edgecolor": INK,
            "linewidth": 0.8,
            "zorder": 1.0,
        }
        under = self.top - self.thick
        for n, x in enumerate(ends):
            if self.span.support == "simple":
                half = _SUPPORT_PX / 2.0
                corners = [
                    (x, under),
                    (x - half, under - _SUPPORT_PX),
                    (x + half, under - _SUPPORT_PX),
                ]
                self.axes.add_patch(Polygon(corners, closed=True, **looks))
            elif n == 0 or self.span.support == "fixed":
                left = x - _SUPPORT_PX if n == 0 else x
                high = self.thick + 2.0 * _SUPPORT_PX
                self.axes.add_patch(
                    Rectangle((left, under - _SUPPORT_PX), _SUPPORT_PX, high, **looks)
                )

    def load(self) -> None:
        """Arrows of what it carries, spread or on one spot."""
        spread = [n / 12.0 for n in range(13)] if self.span.uniform_n_m else []
        looks = {"arrowstyle": "-|>", "color": QUIET, "linewidth": 0.9, "mutation_scale": 8.0}
        for share in spread:
            x = _LEFT_PX + share * self.wide
            self._arrow(x, 22.0, looks)
        if self.span.point_n:
            at = self.span.point_at_mm
            x = self.deepest_x if at is None else _LEFT_PX + self.scale * at
            self._arrow(x, 46.0, {**looks, "color": INK, "linewidth": 2.2, "mutation_scale": 14.0})

    def _arrow(self, x: float, long: float, looks: dict[str, object]) -> None:
        tip = self.top + 6.0
        self.axes.annotate("", (x, tip), (x, tip + long), arrowprops=looks)

    def limits(self, told: list[tuple[LimitCheck, str]]) -> None:
        """The limits as dotted level lines under the top of the straight board, named at right."""
        right = _LEFT_PX + self.wide + 14.0
        taken: list[float] = []
        for check, text in sorted(told, key=lambda t: t[0].sag_mm):
            y = self.top - self.down * check.sag_mm
            self.axes.plot(
                [_LEFT_PX - 12.0, right], [y, y], color=_LIMIT, linewidth=1.1, linestyle=":",
                zorder=3.0,
            )  # fmt: skip
            at = min([y, *(t - _APART_PX for t in taken[-1:])])
            taken.append(at)
            self.axes.text(
                right + 4.0, at, text, size=SMALL_PT, color=_LIMIT if check.met else COLORS[6],
                va="center", weight="normal" if check.met else "bold",
            )  # fmt: skip

    def sags(self, told: list[tuple[float, str, str]]) -> None:
        """The depth of each sag as a dimension near where it is largest, its words above."""
        held = self.span.support == "cantilever"
        for n, (sag_mm, text, color) in enumerate(told):
            x = self.deepest_x - 12.0 - (0.2 * self.wide if n else 0.0)
            lowest, words = self.top - self.down * sag_mm, self.top + 34.0 + 18.0 * n
            ends = complex(x, lowest), complex(self.deepest_x, lowest)
            extension(self.axes, *ends, color)
            extension(self.axes, complex(x, words), complex(x, self.top), color)
            dimension(self.axes, complex(x, self.top), complex(x, lowest), "", color)
            self.axes.text(
                x + (6.0 if held else 0.0), words, text, size=SMALL_PT + 0.5, color=color,
                ha="right" if held else "center", va="bottom", weight="bold",
                bbox=ground(), zorder=4.0,
            )  # fmt: skip

    def span_size(self, text: str, deepest_mm: float) -> None:
        """The free length, below all."""
        y = self.top - self.thick - self.down * deepest_mm - 34.0
        for x in (_LEFT_PX, _LEFT_PX + self.wide):
            extension(self.axes, complex(x, self.top - self.thick), complex(x, y), QUIET)
        dimension(self.axes, complex(_LEFT_PX, y), complex(_LEFT_PX + self.wide, y), text, INK)
