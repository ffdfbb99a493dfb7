"""One wood in place of another: look, work, price and trade side by side, on one screen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.compare import compare_answer
from woodref.answers.property_text import footnotes, mark_of, marks, value_text
from woodref.answers.provenance import sentence
from woodref.answers.render import SCREEN_HEIGHT, as_screen
from woodref.answers.shop_words import change_range, change_text, legend, mass_text, size_text
from woodref.answers.wood_pair import (
    NO_DATA,
    decay_words,
    look_words,
    pair_section,
    printed_notes,
    trade_words,
)
from woodref.answers.words import percent_text
from woodref.formulas.spread import Difference

if TYPE_CHECKING:
    from collections.abc import Sequence

    from woodref.choose.compare import ComparedValue, Row
    from woodref.choose.wood_beside import WoodBeside
    from woodref.lumber.price_rows import Price
    from woodref.reference.looks import Look

_Row = tuple[str, str, str, str]
_NO_CONTROL = "No trade control on record for either."
_CONTROLLED = "Check the current listing of trade."
#: What each cell of the look is called, in the order of the table.
_CELLS = {
    "with light it": "color_with_age",
    "texture": "texture",
    "pores": "pores",
    "figure": "figure",
    "blunts edges": "blunting",
    "works": "workability",
}
#: Rows that one screen does without where it is full, the first to go first.
_SPARE = ("works", "texture", "figure", "stiffness")
#: What each figure of a comparison is called, and what is said of more and of less of it.
_FIGURES: dict[str, tuple[str, str, str]] = {
    "side_hardness": ("hardness", "harder", "softer"),
    "modulus_of_elasticity": ("stiffness", "stiffer", "less stiff"),
}


def _verdict(row: Row, more: str, less: str) -> str:
    """'slightly harder', 'same' within natural spread: the other wood beside the first."""
    contrast = row.contrasts[0]
    if contrast is None or contrast.verdict is None:
        return ""
    if contrast.verdict is Difference.WITHIN_SPREAD:
        return "same"
    how = "clearly" if contrast.verdict is Difference.CLEAR else "slightly"
    return f"{how} {less if contrast.ratio > 1.0 else more}"


def _value(cell: ComparedValue | None, units: str) -> str:
    return NO_DATA if cell is None else value_text(cell.values[0], units) + marks(*cell.values)


def _figure_rows(beside: WoodBeside, units: str) -> list[_Row]:
    rows: list[_Row] = []
    for key, (label, more, less) in _FIGURES.items():
        row = beside.comparison.row(key)
        if row:
            first, other = (_value(c, units) for c in row.cells)
            rows.append((label, first, other, _verdict(row, more, less)))
    weight = beside.comparison.row("board_mass")
    if weight:
        told = (
            mass_text(c.value, units) + marks(*c.values) if c else NO_DATA for c in weight.cells
        )
        first, other = told
        rows.append(("board weighs", first, other, _percent(weight.cells)))
    return rows


def _percent(cells: tuple[ComparedValue | None, ...]) -> str:
    first, other = cells
    if first is None or other is None:
        return ""
    pct = 100.0 * (other.value / first.value - 1.0)
    return "same" if abs(pct) < 0.5 else f"{abs(pct):.0f} % {'more' if pct > 0.0 else 'less'}"


def _movement_row(beside: WoodBeside, units: str) -> _Row:
    first, other = (
        change_range(m.likely_change_mm.unsigned, units, marks(*m.basis.values)) if m else NO_DATA
        for m in beside.swings
    )
    return (f"{size_text(beside.width_mm, units)} moves", first, other, _moves(beside, units))


def _moves(beside: WoodBeside, units: str) -> str:
    one, two = beside.swings
    if one is None or two is None:
        return ""
    more = abs(two.change_mm) - abs(one.change_mm)
    told = change_text(more, units)
    if told.startswith("under"):
        return "same"
    return f"{told} {'more' if more > 0.0 else 'less'}"


def _cell(look: Look | None, name: str) -> str:
    cell = look.cells.get(name) if look else None
    return NO_DATA if cell is None else f"{cell.value}{mark_of(cell.basis)}"


def _same(first: str, other: str) -> str:
    """'same' where two words are, but for their marks."""
    return "same" if first.strip("*~") == other.strip("*~") != NO_DATA else ""


def _look_rows(beside: WoodBeside, region: str, full: bool) -> list[_Row]:
    """Look, working and yards; on one screen without what a yard board rarely shows."""
    looks = beside.pair.look.first, beside.pair.look.other
    hues = [
        f"{look.seen['hue'].value}{mark_of(look.seen['hue'].basis)}" if look else NO_DATA
        for look in looks
    ]
    rows: list[_Row] = [("color", hues[0], hues[1], _same(*hues))]
    for label, name in _CELLS.items():
        first, other = (_cell(look, name) for look in looks)
        if full or NO_DATA not in (first, other):
            rows.append((label, first, other, _same(first, other)))
    first, other = (look.stock.get(region, NO_DATA) if look else NO_DATA for look in looks)
    return [*rows, ("yards", first, other, _same(first, other))]


def _price(price: Price | None, currency: str) -> str:
    return "no price" if price is None else f"{price.price.expected:.2f} {currency}".rstrip()


def _price_rows(beside: WoodBeside, currency: str, listed: str) -> list[_Row]:
    one, two = beside.prices
    if not listed:
        return []
    beside_first = ""
    if one and two and one.per == two.per:
        pct = 100.0 * (two.price.expected / one.price.expected - 1.0)
        beside_first = f"{abs(pct):.0f} % {'more' if pct > 0.0 else 'less'}"
    return [(f"{listed}", _price(one, currency), _price(two, currency), beside_first)]


def _wood_rows(beside: WoodBeside, full: bool) -> list[_Row]:
    first, other = beside.pair.first, beside.pair.other
    decay = decay_words(first), decay_words(other)
    rows: list[_Row] = [("decay", *decay, _same(*decay))]
    if full or first.controls or other.controls:
        trade = trade_words(first), trade_words(other)
        rows.append(("trade control", *trade, _same(*trade)))
    return rows


def _headline(beside: WoodBeside, units: str) -> list[str]:
    first, other = (w.common_name for w in beside.comparison.woods)
    hardness, weight = (beside.comparison.row(k) for k in ("side_hardness", "board_mass"))
    said = []
    if weight and (pct := _percent(weight.cells)):
        said.append("weighs as much" if pct == "same" else f"weighs {pct}")
    if moves := _moves(beside, units):
        width = size_text(beside.width_mm, units)
        said.append("moves as much" if moves == "same" else f"moves {moves} across {width}")
    if hardness and (verdict := _verdict(hardness, "harder", "softer")):
        said.append("as hard" if verdict == "same" else verdict)
    look = look_words(beside.pair.look) if beside.pair.look.band else "not known"
    lead = f"{sentence(other)} in place of {first}: look {look}."
    return [lead, *([f"{sentence(', '.join(said))}."] if said else [])]


def wood_beside_answer(
    beside: WoodBeside,
    units: str,
    people: bool,
    region: str,
    currency: str = "",
    stock: str = "",
    price_file: str = "",
) -> Answer:
    """One wood in place of another as an answer.

    Parameters: beside; units 'us' or 'si'; people false for programs; region whose yards are
    asked about; currency, nominal thickness and file of the price list, '' for none.
    """
    per = next((p.per for p in beside.prices if p), "")
    listed = f"{stock}, a {per}" if per else stock if price_file else ""

    def rows_of(full: bool) -> list[_Row]:
        return [
            *_look_rows(beside, region, full),
            *_figure_rows(beside, units),
            _movement_row(beside, units),
            *_price_rows(beside, currency, listed),
            *_wood_rows(beside, full),
        ]

    whole = compare_answer(beside.comparison, units, None, people)
    used = "".join(text for row in rows_of(True) for text in row)
    ends = (percent_text(x) for x in (beside.year.driest_pct, beside.year.wettest_pct))
    notes = [
        *printed_notes(beside.pair),
        f"Movement flat sawn, {' to '.join(ends)}. Look is typical: lay samples side by side.",
    ]
    lead = _table(beside, rows_of(True)) if people else pair_section([(beside.pair, ())])
    return Answer(
        headline=_headline(beside, units),
        facts=_facts(beside, region, currency, stock, price_file),
        sections=[lead, *whole.sections],
        notes=[*notes, *footnotes(used), *whole.notes],
        main="comparison",
        screen=_screen(beside, rows_of(False), notes, units) if people else None,
    )


def _table(beside: WoodBeside, rows: Sequence[_Row]) -> Section:
    first, other = (w.common_name for w in beside.comparison.woods)
    columns = [Column("figure", " "), Column("before", first), Column("after", other)]
    return Section.of("", "", [*columns, Column("verdict", "change")], rows)


def _screen(beside: WoodBeside, rows: Sequence[_Row], notes: Sequence[str], units: str) -> Answer:
    """The short form, without the rows that it has no room for."""
    controlled = beside.pair.first.controls or beside.pair.other.controls
    trade = _CONTROLLED if controlled else _NO_CONTROL
    used = "".join(text for row in rows for text in row)
    more = f"{trade} Every figure with its spread: --full."
    screen = Answer(_headline(beside, units), notes=[*notes, *legend(used), more])
    for spared in range(len(_SPARE) + 1):
        kept = [row for row in rows if row[0] not in _SPARE[:spared]]
        screen.sections = [_table(beside, kept)]
        if len(as_screen(screen, units).splitlines()) <= SCREEN_HEIGHT:
            break
    return screen


def _facts(
    beside: WoodBeside, region: str, currency: str, stock: str, price_file: str
) -> list[tuple[Column, Any]]:
    woods, looks = beside.comparison.woods, (beside.pair.look.first, beside.pair.look.other)
    facts: list[tuple[Column, Any]] = [
        (Column("from_moisture", "", "percent"), beside.year.driest_pct),
        (Column("to_moisture", "", "percent"), beside.year.wettest_pct),
        (Column("movement_width", "", "size"), beside.width_mm),
        (Column("price_list", ""), price_file or None),
        (Column("currency", ""), currency or None),
        (Column("stock", ""), stock or None),
        (Column("region", ""), region),
    ]
    sides = zip(("_before", ""), woods, looks, beside.swings, beside.prices, strict=True)
    for after, wood, look, swing, price in sides:
        change = swing.likely_change_mm.unsigned.expected if swing else None
        facts += [
            (Column(f"wood{after}", ""), wood.common_name),
            (Column(f"swing{after}", "", "change_end"), change),
            (Column(f"price{after}", "", "money"), price.price.expected if price else None),
            (Column(f"stock_class{after}", ""), look.stock.get(region) if look else None),
            (Column(f"color_with_age{after}", ""), look.value("color_with_age") if look else None),
            (Column(f"blunting{after}", ""), look.value("blunting") if look else None),
        ]
    return facts
