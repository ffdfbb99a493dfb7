"""The page a maker gives to the client: what the piece is, and how to live with it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from woodref.answers.provenance import sentence
from woodref.answers.shop_words import mass_range, size_text
from woodref.report.blocks import block, sources_block
from woodref.report.care import care_list, carries, few
from woodref.report.drawing import drawing
from woodref.report.markup import Markup, element, joined, name, unbroken
from woodref.report.masthead import day_words
from woodref.report.tables import facts
from woodref.report.year_picture import year_parts
from woodref.units import fixed

if TYPE_CHECKING:
    from woodref.reference.looks import Cell, Look
    from woodref.reference.woods import Wood
    from woodref.report.view import View

#: How a wood changes in light, by the word of its look.
_AGES = {
    "stable": "keeps its color",
    "darkens": "darkens with light and age",
    "lightens": "lightens with light and age",
    "reddens": "reddens with light and age",
    "browns": "turns brown with light and age",
}
#: What is noticed first in a wood, by the word of its look.
_FIGURES = {
    "growth rings plain": "plain growth rings",
    "flecked rays": "flecks of the rays where it is quarter sawn",
    "ribbon": "a ribbon stripe where it is quarter sawn",
    "marbled": "darker streaks",
    "mottled": "a mottled figure",
    "curly common": "a curl now and then",
}
SCOPE = (
    "Weights and movement are estimates; 9 pieces in 10 fall in a range given. Looks are typical; "
    "every board differs. Nothing here is a structural design value."
)


def outside(view: View) -> Markup:
    """The outside size of the piece as it stands, where its file gives one."""
    size = view.estimate.piece.size_mm
    if size is None:
        return Markup()
    told = [
        unbroken(f"{size_text(mm, view.units)} {way}")
        for mm, way in zip(size, ("long", "deep", "high"), strict=True)
    ]
    return joined(told, ", ")


def weight(view: View) -> str:
    """What the piece weighs at the build, and what is left out of that."""
    estimate = view.estimate
    left = len(estimate.unweighed)
    if left == len(estimate.parts):
        return ""
    densities = estimate.masses.densities.values()
    mark = view.mark(
        [item.basis for item in estimate.piece.items],
        [value for density in densities for value in density.values],
    )
    without = f", not counting {left} part{'s' if left > 1 else ''}" if left else ""
    return f"{mass_range(estimate.mass_kg['build'], view.units, mark)}{without}"


def _day(text: str, units: str) -> str:
    return day_words(date.fromisoformat(text), units)


def price(view: View) -> Markup:
    """The one price of the quote, its tax and deposit, and the date of the prices it rests on."""
    told, currency = view.estimate.quote, view.estimate.currency
    if not view.price or told is None:
        return Markup()

    def money(amount: float) -> str:
        return f"{fixed(amount, 2)} {currency}".strip()

    n = told.spec.quantity
    lines = [f"for {n} pieces" if n > 1 else "", "tax included" if told.tax else ""]
    if told.deposit:
        lines.append(f"deposit {money(told.deposit)} with the order")
    days = [_day(text, view.units) for text in view.estimate.price_dates]
    if days:
        lines.append(f"lumber prices of {' to '.join(dict.fromkeys((days[0], days[-1])))}")
    return joined(
        [
            element("span", money(told.total), class_="price"),
            element("span", "; ".join(line for line in lines if line), class_="terms"),
        ],
        " ",
    )


def summary(view: View) -> Markup:
    """The piece at a glance."""
    finish = view.estimate.finish
    loads = carries(view)
    return facts(
        [
            ("Price", price(view)),
            ("Size", outside(view)),
            ("Weight", weight(view)),
            ("Finish", sentence(finish.finish.label) if finish and finish.finish.name else ""),
            ("Worked out to carry", joined(few(loads), "; ") if loads else ""),
        ]
    )


def _cell(look: Look, *names: str) -> Cell | None:
    """The first of some cells of a look that is filled."""
    return next((look.cells[n] for n in names if n in look.cells), None)


def _looks_like(view: View, look: Look) -> str:
    """'grayish brown, coarse texture; browns with light': how a wood looks and ages."""
    said: list[str] = []
    hue = _cell(look, "sold_as_hue", "heartwood_hue")
    if hue:
        said.append(f"{hue.value}{view.mark([hue.basis])}")
    texture, figure = _cell(look, "texture"), _cell(look, "figure")
    if texture:
        said.append(f"{texture.value} texture{view.mark([texture.basis])}")
    if figure and figure.value in _FIGURES:
        said.append(f"{_FIGURES[str(figure.value)]}{view.mark([figure.basis])}")
    age = _cell(look, "color_with_age")
    ages = (
        f"; {_AGES.get(str(age.value), f'{age.value} with light')}{view.mark([age.basis])}"
        if age
        else ""
    )
    return f"{', '.join(said)}{ages}"


#: The most parts of a wood that are named, where there are few woods and where there are many.
_MOST_PARTS, _FEWER_PARTS, _MANY_WOODS = 4, 2, 4


def _wood_line(view: View, wood: Wood) -> Markup:
    look = next((x for x in view.estimate.looks if x.species_id == wood.species_id), None)
    parts = [name(p.part.name) for p in view.estimate.parts if p.wood == wood]
    most = _MOST_PARTS if len(view.woods) < _MANY_WOODS else _FEWER_PARTS
    told = [*parts[:most], *(["others"] if len(parts) > most else [])]
    latin = f" ({wood.botanical_name})" if wood.botanical_name and not wood.is_group else ""
    return joined(
        [
            element("b", sentence(wood.common_name)),
            element("i", latin) if latin else "",
            ", ",
            joined(told[:-1], ", "),
            " and " if len(told) > 1 else "",
            told[-1],
            f": {_looks_like(view, look)}." if look else ".",
        ],
        "",
    )


def woods_block(view: View) -> Markup:
    """The woods, each with a line on its look and how it ages."""
    lines = [element("li", _wood_line(view, wood)) for wood in view.woods]
    sheets = [line.sheet.name for line in view.estimate.sheets]
    if sheets:
        lines.append(element("li", "Sheet goods: ", joined(map(name, sheets), ", "), "."))
    return block("Woods", element("ul", joined(lines)))


def client_blocks(view: View) -> Iterator[Markup]:
    """The blocks of the page, in order; the marks are told at its end."""
    yield element("div", drawing(view), summary(view), class_="two")
    yield woods_block(view)
    year = year_parts(view)
    if year:
        yield block("Through the year", element("div", joined(year), class_="beside"))
    yield block("Care", care_list(view))
    yield element("p", SCOPE, element("br"), view.legend, class_="note end")
    if view.sources:
        yield sources_block(view)
