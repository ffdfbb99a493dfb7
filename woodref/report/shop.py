"""The pages for the shop wall: what to mind, cut and make; how boards are cut and what to buy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.answers.fixing_words import VERDICTS
from woodref.answers.piece_extras import (
    delivery_notes,
    delivery_section,
    finish_notes,
    finish_section,
)
from woodref.answers.piece_fixings import fixing_notes
from woodref.answers.piece_shipping import item_section
from woodref.answers.piece_tables import (
    SIZES,
    blank_sections,
    part_rows,
    sheet_section,
)
from woodref.answers.provenance import sentence
from woodref.answers.quote import quote_notes, quote_section
from woodref.answers.sag_words import needed_words, sag_words
from woodref.answers.shop_words import mass_range, money_range, need_text, size_text
from woodref.answers.words import percent_text, range_columns, range_row
from woodref.board.deflection import SagVerdict
from woodref.lumber.purchase import Purchase
from woodref.piece.ready import Readiness
from woodref.piece.remarks import PIECE
from woodref.report.blocks import (
    block,
    fixings_block,
    notice_lines,
    sources_block,
    spans_block,
    weight_block,
    woods_table,
    year_block,
)
from woodref.report.boards import plan_blocks
from woodref.report.client import outside
from woodref.report.markup import Markup, bullets, element, joined, unbroken
from woodref.report.tables import Cell, Grid, facts, grid_of, section_table, table
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.lumber.buying import BuyingPlan
    from woodref.piece.cost import LumberLine
    from woodref.piece.estimate import Estimate
    from woodref.reference.cautions import Notice
    from woodref.report.view import View

#: The sizes of a part as the shop cuts it.
_CUT_LIST = [c for c in SIZES if c.key not in ("volume", "board_feet")]
#: Columns of a section that tell what things cost.
_COSTS = ("price", "cost", "unpriced")
#: Columns of a section that tell nothing to who buys.
_NOT_BOUGHT = frozenset(
    {"density", "density_low", "density_high", "density_basis", "area", "basis", "item_kind"}
    | {"mass", "mass_low", "mass_high"}
)
#: The most parts named in a line.
_MOST_NAMES = 6


def _tick() -> Cell:
    return Cell(element("span", class_="tick", aria_hidden="true"))


def _with_ticks(grid: Grid) -> Grid:
    """The table with a box to tick behind each row."""
    return Grid([*grid.heads, Cell("done")], [[*row, _tick()] for row in grid.rows])


def _cost(view: View) -> str:
    """What the materials cost, and how many of them have no price."""
    estimate = view.estimate
    if not view.costs:
        return ""
    if estimate.cost is None:
        return "not priced"
    left = len(estimate.unpriced)
    without = f", not counting {left} item{'s' if left > 1 else ''} without a price"
    return money_range(estimate.cost, estimate.currency) + (without if left else "")


def summary(view: View) -> Markup:
    """The piece at a glance."""
    piece, estimate = view.estimate.piece, view.estimate
    known = len(estimate.unweighed) < len(estimate.parts)
    return facts(
        [
            ("Size", outside(view)),
            ("Weight", mass_range(estimate.mass_kg["build"], view.units) if known else ""),
            ("Materials", _cost(view)),
            ("Build at", f"{percent_text(piece.build.moisture_pct)} moisture content"),
            (
                "In use",
                f"{percent_text(piece.driest.moisture_pct)} to "
                f"{percent_text(piece.wettest.moisture_pct)}",
            ),
            ("Lives in", piece.room.label if piece.room else ""),
        ]
    )


def _short_lines(plan: BuyingPlan | None) -> Iterator[str]:
    """What the boards in hand do not give."""
    if plan is None or plan.complete or not plan.boards_on_hand:
        return
    left = sum(u.quantity for u in plan.uncut)
    names = [f"{u.part.name} {u.quantity} of {u.part.pieces}" for u in plan.uncut]
    more = f" and {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else ""
    bought = " What is short is on the buying list." if plan.purchases else ""
    yield (
        f"Your {plan.boards_on_hand} boards give {plan.blanks - left} of {plan.blanks} blanks. "
        f"Still short: {', '.join(names[:_MOST_NAMES])}{more}.{bought}"
    )


def _fixing_lines(view: View) -> Iterator[str]:
    """Each fixing that binds, and by how much."""
    for r in view.estimate.fixings:
        if r.unknown:
            yield f"{sentence(r.spec.name)}: not known, {r.unknown}."
        fixing = r.fixing
        if fixing is None or fixing.holds or fixing.verdict is None or fixing.worst is None:
            continue
        short = need_text(fixing.worst.short_mm, view.units)
        yield (
            f"{sentence(r.spec.name)} ({r.spec.part}): {VERDICTS[fixing.verdict]}, "
            f"{fixing.worst.what} {short} short."
        )


def _span_lines(view: View) -> Iterator[str]:
    """Each span that sags too much, with what would do, and each that is not judged."""
    for r in view.estimate.spans:
        name = sentence(r.spec.name)
        if r.load_missing:
            yield f"{name}: sag is not judged; give load, uniform or point in its [[span]]."
        elif r.sag is None:
            yield f"{name}: sag is not known, {r.unknown}."
        elif r.sag.verdict is SagVerdict.SAGS:
            yield (
                f"{name} sags too much, {sag_words(r.sag, view.units)}. "
                f"{needed_words(r.sag, view.units)}"
            )


def _wet_lines(view: View) -> Iterator[str]:
    """How many boards in hand are not ready for the room."""
    for state in (Readiness.TOO_WET, Readiness.TOO_DRY):
        n = sum(b.board.quantity for b in view.estimate.boards if b.readiness is state)
        if n:
            boards = "1 board in hand is" if n == 1 else f"{n} boards in hand are"
            yield f"{boards} {state.value} for that room."


def first_block(view: View) -> Markup:
    """What needs attention, or that nothing does."""
    estimate = view.estimate
    lines = [
        *_short_lines(estimate.plan),
        *_fixing_lines(view),
        *_span_lines(view),
        *_wet_lines(view),
        *(f"Not weighed: {x}." for x in estimate.unweighed),
        *(f"Not priced: {x}." for x in estimate.unpriced if view.costs),
    ]
    if lines:
        return block("Look at first", bullets(lines), class_="first")
    checked = [
        f"fixings ({len(estimate.fixings)})" if estimate.fixings else "",
        f"spans ({len(estimate.spans)})" if estimate.spans else "",
        "boards in hand" if estimate.plan and estimate.plan.boards_on_hand else "",
    ]
    told = ", ".join(x for x in checked if x)
    return element("p", f"Checked and ok: {told}.") if told else Markup()


def cut_list(view: View) -> Markup:
    """The parts with a box to tick for each row."""
    section = Section("parts", "Finished sizes", _CUT_LIST, part_rows(view.estimate))
    volume_m3 = sum(line.net_volume_m3 for line in view.estimate.lumber)
    amount = f"{view.estimate.board_feet:.1f} board feet"
    if view.units == "si":
        amount = KINDS["solid"].text(volume_m3, "si")
    total = f"{amount} of lumber in the finished parts."
    return block(
        "Cut list",
        table(_with_ticks(grid_of(section, view.units)), section.title),
        *(section_table(s, view.units) for s in blank_sections(view.estimate)),
        element("p", total, class_="note"),
    )


def sizes_block(view: View) -> Markup:
    """The sizes of the joints to make now, a row with a box to tick for each fixing."""
    rows = []
    for r in view.estimate.fixings:
        needs = r.fixing.needs if r.fixing else ()
        made = [(need.what, need.made_mm(r.spec.units)) for need in needs]
        told = (
            joined([what, unbroken(size_text(mm, r.spec.units) if mm is not None else "none")], " ")
            for what, mm in made
        )
        if made:
            rows.append([Cell(r.spec.name), Cell(r.spec.part), Cell(joined(told, "; ")), _tick()])
    heads = [Cell("fixing"), Cell("part"), Cell("make"), Cell("done")]
    title = f"At {percent_text(view.estimate.piece.build.moisture_pct)} moisture content"
    return block("Joinery: make now", table(Grid(heads, rows), title))


def _boards_words(purchase: LumberLine | Purchase, units: str) -> str:
    """'3 of 5 in x 120 in', '' where only an amount is known."""
    boards = purchase.boards if isinstance(purchase, Purchase) else ()
    return "; ".join(
        f"{n} of {size_text(width, units)} x {size_text(length, units)}"
        for width, length, n in boards
    )


def purchase_section(estimate: Estimate, units: str) -> Section:
    """The lumber to buy: boards by size where a plan chose them, else an amount with its waste.

    Parameters: estimate; units of the sizes.
    """
    us = units == "us"
    amount = Column("board_feet", "board feet", "tenths") if us else Column("volume", "m3", "solid")
    columns = [
        Column("wood", "wood"),
        Column("stock", "stock"),
        Column("boards", "boards"),
        amount,
        *range_columns("cost", "cost", "money"),
        Column("unpriced", "not priced because"),
    ]
    bought = estimate.plan.purchases if estimate.plan else estimate.lumber
    rows: list[dict[str, Any]] = []
    for p in bought:
        feet = p.board_feet if isinstance(p, Purchase) else p.buy_board_feet
        row: dict[str, Any] = {
            "wood": p.wood,
            "stock": p.nominal.label,
            "board_feet": feet.expected,
            "volume": p.buy_volume_m3.expected,
            "boards": _boards_words(p, units),
            **range_row("cost", p.cost),
            "unpriced": p.unpriced,
        }
        rows.append(row)
    title = "Lumber" if estimate.plan else "Lumber, waste included"
    return Section("purchases", title, columns, rows)


def _bought(section: Section, costs: bool) -> Section:
    """The section, without what tells nothing to buy, and without costs where they are not told."""
    kept = [
        c
        for c in section.columns
        if c.key not in _NOT_BOUGHT and (costs or c.key.partition("_")[0] not in _COSTS)
    ]
    return section._replace(columns=kept)


def buying_block(view: View) -> Markup:
    """What to buy, with a box to tick for each row."""
    estimate, units = view.estimate, view.units
    sections = [
        purchase_section(estimate, units),
        sheet_section(estimate),
        finish_section(estimate),
        item_section(estimate),
    ]
    told = [_bought(s, view.costs) for s in sections if s.rows]
    return block(
        "To buy",
        element(
            "div",
            joined([table(_with_ticks(grid_of(s, units)), s.title) for s in told]),
            class_="abreast",
        )
        if told
        else "",
        bullets(finish_notes(estimate), "note"),
    )


def plan_page(view: View) -> Markup:
    """The page of the boards: how each is cut, what to buy, and what else the shop minds."""
    plan = view.estimate.plan
    parts = [
        block("Cutting plan", plan_blocks(plan, view.units)) if plan else Markup(),
        buying_block(view),
        block("Notes on the joinery", bullets(fixing_notes(view.estimate, view.units), "note")),
        cautions_block(view),
        quote_block(view),
    ]
    return element("div", joined(parts), class_="new-page")


def part_weights(view: View) -> Markup:
    """What each part weighs and, where costs are told, its share of them."""
    money = f" and cost ({view.estimate.currency})" if view.estimate.currency else " and cost"
    columns = [Column("part", "part"), *range_columns("mass", "weight", "mass")]
    if view.costs:
        columns += range_columns("cost", "cost", "money")
    title = f"Weight at the build{money if view.costs else ''}, by part"
    return section_table(Section("weights", title, columns, part_rows(view.estimate)), view.units)


def quote_block(view: View) -> Markup:
    """Every line of the quote."""
    if not view.costs or view.estimate.quote is None:
        return Markup()
    section = quote_section(view.estimate)
    return block(
        section.title,
        section_table(section, view.units, "What the price is made of"),
        bullets(quote_notes(view.estimate), "note"),
        class_="keep",
    )


def _dust_line(view: View, dust: Sequence[Notice]) -> list[Markup]:
    """What dust does, in a line, and how many documents name woods of the piece."""
    if not dust:
        return []
    general, *own = dust
    documents = len({source for notice in own for source in notice.sources})
    told = (
        f" {documents} documents name woods of this piece; --sources tells them."
        if documents > 1
        else ""
    )
    mark = view.mark([general.basis])
    return [joined([element("b", "Dust."), f"{general.text}{mark}{told}"], " ")]


def cautions_block(view: View) -> Markup:
    """The cautions of the shop, dust first and in one line."""
    notices = view.estimate.notices
    dust = [n for n in notices if n.kind == "dust"]
    others = [n for n in notices if n.kind != "dust"]
    lines = [*_dust_line(view, dust), *notice_lines(view, others)]
    return block("Cautions", bullets(lines), class_="caution")


def figures_page(view: View) -> Markup:
    """The page of the figures behind the others."""
    estimate = view.estimate
    told = [n.said(view.units) for n in estimate.remarks if n.code != PIECE]
    remarks = [sentence(text.rstrip(".")) + "." for text in told]
    parts = [
        year_block(view),
        fixings_block(view),
        spans_block(view),
        block(
            "After delivery",
            section_table(delivery_section(estimate), view.units),
            bullets(delivery_notes(estimate, view.units), "note"),
        ),
        weight_block(view, part_weights(view)),
        woods_table(view),
        block("Remarks", bullets(remarks)),
        block(
            "Dust, document by document",
            bullets(notice_lines(view, [n for n in estimate.notices if n.kind == "dust"])),
        ),
    ]
    return element("div", joined(parts), class_="new-page")


def shop_blocks(view: View) -> Iterator[Markup]:
    """The blocks of the pages, in order; the marks are told at their end."""
    yield summary(view)
    yield first_block(view)
    yield cut_list(view)
    yield sizes_block(view)
    yield plan_page(view)
    if view.sources:
        yield figures_page(view)
    yield element("p", "A range given holds 9 cases in 10. ", view.legend, class_="note end")
    if view.sources:
        yield sources_block(view)
