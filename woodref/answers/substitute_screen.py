"""The first screen of substitute: what comes nearest in look and work, and why, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.choice_words import allergy_line, beside, listed_and
from woodref.answers.property_text import UNCHECKED_MARK, marks_of
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import legend, shown
from woodref.answers.uses import figure_text
from woodref.choose.changes import seasonal_change_mm
from woodref.choose.columns import COLUMNS, Marked, price_column
from woodref.choose.figures_in_units import figure_in_units
from woodref.choose.profile import LookCounts
from woodref.units import KINDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.answers.choice_questions import Question
    from woodref.choose.substitute_result import Substitute, Substitutes

#: Woods of the table, and woods told in words.
_ROWS, _TOLD = 7, 3
_STABLE = "stable"


def _stock_words(s: Substitute, substitutes: Substitutes) -> str:
    if substitutes.buyable is not None and not substitutes.buyable.by_class:
        return ""
    return {"commonly stocked": "", "specialty": "dealers"}.get(s.stock, s.stock or "unknown")


def _figure(s: Substitute, name: str, asked: Question, units: str) -> str:
    column = COLUMNS[name]
    value = figure_in_units(asked.woods[s.species_id], column, s.figures[name], units)
    text = figure_text(column, value, units)
    return text + marks_of(column.marked(s.figures)) if text else "?"


def _moves(s: Substitute, asked: Question, units: str) -> str:
    column = COLUMNS["seasonal_change_mm_per_300mm"]
    change = seasonal_change_mm(s.figures, asked.width_mm)
    if change is None:
        return "?"
    return shown("change", change, units) + marks_of(column.marked(s.figures))


def look_word(s: Substitute) -> str:
    """'close', 'not alike', 'not known', with a mark where the look is recalled."""
    if s.look.band is None:
        return "not known"
    return s.look.band + (UNCHECKED_MARK if s.look.unchecked else "")


def weight_mark(substitutes: Substitutes, s: Substitute) -> str:
    """The marks of what a wood weighs beside the first: they rest on the figures of both."""
    column = COLUMNS["density_kg_m3"]
    both = substitutes.figures["marked"][column.name], column.marked(s.figures)
    return marks_of(Marked.of(both))


def _table(substitutes: Substitutes, asked: Question, units: str) -> Section:
    price = price_column(units)
    told = substitutes.woods[:_ROWS]
    stock = [_stock_words(s, substitutes) for s in told]
    rows: list[dict[str, Any]] = []
    for s, class_ in zip(told, stock, strict=True):
        cost = s.figures[price]
        rows.append(
            {
                "wood": s.name,
                "look": look_word(s),
                "moves": _moves(s, asked, units),
                "hardness": _figure(s, "side_hardness_n", asked, units),
                "weight": _percent(s.weight_change_pct) + weight_mark(substitutes, s),
                "price": "" if cost is None else f"{cost:,.2f}",
                "stock": class_,
            }
        )
    columns = [
        Column("wood", "wood"),
        *([Column("look", "look")] if substitutes.look_counts is not LookCounts.NOTHING else []),
        Column("moves", f"moves, {_whole(KINDS['size'].text(asked.width_mm, units))}"),
        Column("hardness", "hardness"),
        Column("weight", "weight"),
        *([Column("price", "price")] if asked.prices else []),
        *([Column("stock", "stock")] if any(stock) else []),
    ]
    return Section("substitutes", "", columns, rows)


def _whole(size: str) -> str:
    """A size without decimals that are zero: '300 mm' for '300.0 mm'."""
    return size.replace(".0 mm", " mm")


def _percent(pct: float | None) -> str:
    return "?" if pct is None else f"{pct:+.0f} %"


def reasons(s: Substitute, substitutes: Substitutes, asked: Question, units: str) -> str:
    """The reasons in words: 'Yellow birch: harder; but moves more, 4 % lighter'."""
    told = [c for c in s.changes if c.criterion.column.name != "density_kg_m3"]
    parts = [beside(told)]
    if s.weight_change_pct is not None and abs(s.weight_change_pct) >= 1.0:
        word = "heavier" if s.weight_change_pct > 0.0 else "lighter"
        parts.append(f"{abs(s.weight_change_pct):.0f} % {word}")
    price = price_column(units)
    before, after = substitutes.figures[price], s.figures[price]
    if before is not None and after is not None and before != after:
        per = "a board foot" if units == "us" else "a cubic meter"
        parts.append(f"{abs(after - before):,.2f} {per} {'more' if after > before else 'less'}")
    return f"{sentence(s.name)}: {', '.join(parts)}{_aging(s)}."


def _aging(s: Substitute) -> str:
    """What time does to either color, where the two differ and one of them changes."""
    ages = [
        look.cells.get("color_with_age") if look else None for look in (s.look.first, s.look.other)
    ]
    first, other = (str(cell.value) if cell else "" for cell in ages)
    if not first or not other or first == other:
        return ""
    return f"; with time it {_goes(other)}, the first {_goes(first)}"


def _goes(word: str) -> str:
    return "keeps its color" if word == _STABLE else word


def printed_line(woods: Sequence[Substitute]) -> list[str]:
    """What print itself calls alike, with its page: 'In print: butternut, ... p. 2-5'."""
    told = [
        f"{s.common_name} ({r.compares}, p. {r.page})" for s in woods for r in s.look.printed[:1]
    ]
    editions = dict.fromkeys(r.edition for s in woods for r in s.look.printed[:1])
    return [f"Alike in print: {', '.join(told)}; {'; '.join(editions)}."] if told else []


def papers_line(woods: Sequence[Substitute]) -> list[str]:
    """The papers of the trade that woods need."""
    told = [f"{s.name} ({s.control})" for s in woods if s.control]
    return [f"Trade papers: {listed_and(told)}; check the current listing."] if told else []


def substitute_screen(
    substitutes: Substitutes, asked: Question, lead: list[str], units: str
) -> Answer:
    """The short form of what could take the place of a wood.

    Parameters: substitutes; asked; lead its first lines; units 'us' or 'si'.
    """
    first = substitutes.woods[:_ROWS]
    table = _table(substitutes, asked, units)
    cells = (str(v) for row in table.rows for v in row.values())
    return Answer(
        headline=lead,
        sections=[table],
        notes=[
            *(reasons(s, substitutes, asked, units) for s in first[:_TOLD]),
            *printed_line([s for s in substitutes.printed if s.tier <= 1][:3]),
            *papers_line(first),
            *allergy_line([s.name for s in first if s.figures["allergen"]]),
            *legend(cells),
            "More woods, limits, look and sources: --full.",
        ],
    )
