"""The part that moves most through the year: a small picture with one figure."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from woodref.answers.shop_words import change_text, size_text
from woodref.climate.seasons import MONTH_NAMES, MONTHS
from woodref.reference.bases import UNCHECKED
from woodref.report.markup import Markup, element, joined, name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.drying.lag import LagMonth
    from woodref.report.view import View

#: The picture in its own units, about mm on paper: the curve, and room for words around it.
_WIDE, _HIGH, _TOP, _LEFT, _RIGHT = 99.0, 14.0, 7.0, 10.0, 40.0
#: Swings of the moisture content below this are drawn as a level line [%].
_STILL_PCT = 0.3


class _Point(NamedTuple):
    """An end of the year: where it stands among the points, and what is written there."""

    at: int
    word: str


class _Year(NamedTuple):
    """Moisture content of the part through the year, its ends, and words below the points.

    The width of the part follows it.
    """

    values: Sequence[float]
    dry: _Point
    wet: _Point
    below: Sequence[str]

    @property
    def is_still(self) -> bool:
        return self.values[self.wet.at] - self.values[self.dry.at] < _STILL_PCT


def _by_month(months: Sequence[LagMonth]) -> _Year:
    """The year of a room, January first."""
    values = [m.mean_pct.expected for m in sorted(months, key=lambda m: m.month)]
    dry, wet = (f(range(len(values)), key=values.__getitem__) for f in (min, max))
    return _Year(values, _Point(dry, "narrowest"), _Point(wet, "widest"), [m[0] for m in MONTHS])


def _between(driest_pct: float, wettest_pct: float) -> _Year:
    """The two ends alone, where no room tells the months."""
    return _Year(
        [driest_pct, wettest_pct], _Point(0, "driest air"), _Point(1, "dampest air"), ["", ""]
    )


def _picture(year: _Year, figure: str, said: str) -> Markup:
    low, high = year.values[year.dry.at], year.values[year.wet.at]
    step = _WIDE / (len(year.values) - 1)

    def at(i: int) -> tuple[float, float]:
        share = 0.5 if year.is_still else (year.values[i] - low) / (high - low)
        return _LEFT + step * i, _TOP + _HIGH * (1.0 - share)

    points = [at(i) for i in range(len(year.values))]
    end, bottom = _LEFT + _WIDE, _TOP + _HIGH
    parts = [
        element("path", class_="curve", d="M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)),
        *(
            element("text", word, x=f"{x:.1f}", y=f"{bottom + 11.0:.1f}")
            for word, (x, _) in zip(year.below, points, strict=True)
            if word
        ),
    ]
    if not year.is_still:
        for point, down in ((year.dry, 5.4), (year.wet, -2.4)):
            x, y = points[point.at]
            near = min(max(x, _LEFT + 3.0), end - 3.0)
            parts += [
                element("circle", class_="end", cx=f"{x:.1f}", cy=f"{y:.1f}", r="1.1"),
                element("text", point.word, x=f"{near:.1f}", y=f"{y + down:.1f}"),
            ]
        x = end + 8.0
        measure = f"M{x:g} {_TOP:g}V{bottom:g}M{x - 1.2:g} {_TOP:g}h2.4M{x - 1.2:g} {bottom:g}h2.4"
        middle = f"{_TOP + _HIGH / 2.0 + 1.6:g}"
        parts += [
            element("path", class_="measure", d=measure),
            element("text", figure, class_="figure", x=f"{x + 2.5:g}", y=middle),
        ]
    high_ = bottom + (12.5 if any(year.below) else 7.0)
    return element(
        "svg",
        joined(parts, ""),
        viewBox=f"0 0 {end + _RIGHT:g} {high_:g}",
        class_="year",
        role="img",
        aria_label=said,
    )


def year_parts(view: View) -> list[Markup]:
    """The picture and a sentence; nothing where no part is known to move."""
    estimate = view.estimate
    if estimate.leading is None:
        return []
    mobile, move = estimate.leading
    lag, part = estimate.delivery, mobile.part
    mark = view.mark([UNCHECKED] if lag else [], mobile.movements[-1].basis.values)
    figure = change_text(move.likely_change_mm.expected, view.units) + mark
    if lag:
        year = _by_month(lag.year.months)
        dry, wet = (MONTH_NAMES[point.at] for point in (year.dry, year.wet))
        when = f", narrowest about {dry} and widest about {wet}"
        when = ", and hardly by the month" if year.is_still else when
    else:
        piece = estimate.piece
        year, when = _between(piece.driest.moisture_pct, piece.wettest.moisture_pct), ""
    width = size_text(part.width_mm, view.units)
    told = f", {width} wide, changes its width by {figure} over the year{when}."
    why = " Solid wood swells in damp air and shrinks in dry air: that is no fault."
    return [
        _picture(year, figure, f"The {part.name}{told}"),
        element("p", "The ", name(part.name), told, why),
    ]
