"""The page for the shop wall: what to cut, which sizes to make, what to buy, what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from woodref.answers.piece_extras import (
    delivery_notes,
    delivery_section,
    finish_notes,
    finish_section,
    span_lines,
)
from woodref.answers.piece_fixings import fixing_line
from woodref.answers.piece_shipping import item_section
from woodref.answers.piece_tables import (
    SIZES,
    blank_sections,
    lumber_section,
    part_rows,
    sheet_section,
)
from woodref.answers.provenance import sentence
from woodref.answers.render import Column, Section
from woodref.answers.words import percent_text, range_columns
from woodref.piece.remarks import PIECE
from woodref.report.blocks import (
    block,
    cautions_block,
    cost,
    fixings_block,
    outside,
    sources_block,
    spans_block,
    weight,
    weight_block,
    woods_block,
    year_block,
)
from woodref.report.boards import plan_blocks, purchase_section
from woodref.report.markup import Markup, bullets, element
from woodref.report.tables import Cell, Grid, facts, grid_of, section_table, table
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.report.view import View

#: The sizes of a part as the estimate has them, but for its volume.
_CUT_LIST = [c for c in SIZES if c.key != "volume"]
#: Columns of a section that tell what things cost.
_COSTS = ("price", "cost", "unpriced")


def _shown(section: Section, costs: bool) -> Section:
    """The section, without what things cost where that is not on the page."""
    if costs:
        return section
    kept = [c for c in section.columns if c.key.partition("_")[0] not in _COSTS]
    return section._replace(columns=kept)


def summary(view: View) -> Markup:
    """The piece at a glance."""
    piece = view.estimate.piece
    return facts(
        [
            ("Outside", outside(view)),
            ("Weight", weight(view)),
            ("Materials", cost(view) if view.costs else ""),
            ("Build at", f"{percent_text(piece.build.moisture_pct)} moisture content"),
            (
                "In use",
                f"{percent_text(piece.driest.moisture_pct)} to "
                f"{percent_text(piece.wettest.moisture_pct)}",
            ),
            ("Lives in", piece.room.label if piece.room else ""),
        ]
    )


def first_block(view: View) -> Markup:
    """What does not hold, and what is not known."""
    estimate = view.estimate
    return block(
        "Look at first",
        bullets(
            [
                *fixing_line(estimate, view.units),
                *span_lines(estimate, view.units),
                *(f"Not weighed: {x}." for x in estimate.unweighed),
                *(f"Not priced: {x}." for x in estimate.unpriced if view.costs),
            ]
        ),
        class_="first",
    )


def cut_list(view: View) -> Markup:
    """The parts with a box to tick for each row."""
    section = Section("parts", "Finished sizes", _CUT_LIST, part_rows(view.estimate))
    grid = grid_of(section, view.units)
    box = Cell(element("span", class_="tick", aria_hidden="true"))
    rows = [[*row, box] for row in grid.rows]
    volume_m3 = sum(line.net_volume_m3 for line in view.estimate.lumber)
    amount = f"{view.estimate.board_feet:.2f} board feet"
    if view.units == "si":
        amount = KINDS["solid"].text(volume_m3, "si")
    total = f"{amount} of lumber in the finished parts."
    return block(
        "Cut list",
        table(Grid([*grid.heads, Cell("done")], rows), section.title),
        *(section_table(s, view.units) for s in blank_sections(view.estimate)),
        element("p", total, class_="note"),
    )


def buying_block(view: View) -> Markup:
    """What to buy, and how boards are cut up where there is a plan."""
    estimate, units = view.estimate, view.units
    sections = [sheet_section(estimate), finish_section(estimate), item_section(estimate)]
    lumber = (
        purchase_section(estimate.plan, units, view.costs)
        if estimate.plan
        else lumber_section(estimate, units, for_people=True)
    )
    return block(
        "To buy",
        *(section_table(_shown(s, view.costs), units) for s in (lumber, *sections)),
        bullets(finish_notes(estimate), "note"),
    )


def plan_block(view: View) -> Markup:
    """The boards as they are cut."""
    plan = view.estimate.plan
    return block("Cutting plan", plan_blocks(plan, view.units)) if plan else Markup()


def part_weights(view: View) -> Markup:
    """What each part weighs and, where costs are told, its share of them."""
    money = f" and cost ({view.estimate.currency})" if view.estimate.currency else " and cost"
    columns = [Column("part", "part"), *range_columns("mass", "weight", "mass")]
    if view.costs:
        columns += range_columns("cost", "cost", "money")
    title = f"Weight at the build{money if view.costs else ''}, by part"
    return section_table(Section("weights", title, columns, part_rows(view.estimate)), view.units)


def shop_blocks(view: View) -> Iterator[Markup]:
    """The blocks of the page, in order."""
    estimate = view.estimate
    yield summary(view)
    yield first_block(view)
    yield cut_list(view)
    yield fixings_block(view)
    yield spans_block(view)
    yield buying_block(view)
    yield plan_block(view)
    yield year_block(view, table_too=True)
    yield block(
        "After delivery",
        section_table(delivery_section(estimate), view.units),
        bullets(delivery_notes(estimate, view.units), "note"),
    )
    yield weight_block(view, part_weights(view))
    yield woods_block(view)
    remarks = [sentence(n.text.rstrip(".")) + "." for n in estimate.remarks if n.code != PIECE]
    yield block("Remarks", bullets(remarks))
    yield cautions_block(estimate.notices)
    yield sources_block(view)
