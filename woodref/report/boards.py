"""The boards of a buying plan, drawn as they are cut, and told in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from woodref.answers.provenance import sentence
from woodref.answers.render import Column, Section
from woodref.answers.words import range_row
from woodref.cutting.model import blank_positions
from woodref.lumber.cutting_instructions import blank_words, cut_words, used_pct
from woodref.report.markup import Markup, element, joined
from woodref.report.tables import section_table
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.cutting.model import CutBoard, CutPlan
    from woodref.lumber.buying import BuyingPlan
    from woodref.lumber.lots import LotPlan

#: Width of a drawing and the largest letters in it, in its own units.
_WIDE, _LETTERS = 1000.0, 20.0
LOOK = "Look every board over before the first cut: a plan sees no knots, checks or sapwood."


def _drawing(plan: CutPlan, board: CutBoard, longest_mm: float) -> Markup:
    """One board to scale, its blanks numbered; what is cut off stays gray."""
    stock, scale = plan.stock[board.stock], _WIDE / longest_mm
    length, width = stock.length_mm * scale, max(2.0, stock.width_mm * scale)
    shapes = [
        element("rect", class_="board", width=f"{length:.1f}", height=f"{width:.1f}"),
    ]
    for place in blank_positions(plan, board):
        blank = plan.blanks[place.blank]
        x, y = place.along_mm * scale, place.across_mm * scale
        wide, high = blank.length_mm * scale, blank.width_mm * scale
        shapes.append(
            element(
                "rect",
                class_="blank",
                x=f"{x:.1f}",
                y=f"{y:.1f}",
                width=f"{wide:.1f}",
                height=f"{high:.1f}",
            )
        )
        letters = min(_LETTERS, 0.9 * high, 0.9 * wide)
        shapes.append(
            element(
                "text",
                f"{place.blank + 1}",
                x=f"{x + wide / 2.0:.1f}",
                y=f"{y + high / 2.0 + 0.35 * letters:.1f}",
                font_size=f"{letters:.1f}",
            )
        )
    return element(
        "svg",
        joined(shapes, ""),
        viewBox=f"-1 -1 {_WIDE + 2.0:g} {width + 2.0:.1f}",
        class_="cuts",
        aria_hidden="true",
    )


def _boards(lot: LotPlan, units: str) -> Iterator[Markup]:
    """Every board of a lot, those that are cut alike once."""
    plan = lot.plan
    longest = max(plan.stock[b.stock].length_mm for b in plan.boards)
    number = 1
    for board, count in Counter(plan.boards).items():
        last = number + count - 1
        which = f"Board {number}" if count == 1 else f"Boards {number} to {last}, cut alike"
        yield element(
            "figure",
            element(
                "figcaption",
                element("b", f"{which}: {plan.stock[board.stock].name}"),
                f", {used_pct(plan, board):.0f} % used. ",
                f"{cut_words(plan, board, units)}.",
            ),
            _drawing(plan, board, longest),
            class_="board",
        )
        number = last + 1


def _blanks(lot: LotPlan) -> Section:
    """The rough blanks of a lot, by the number they have in its drawings."""
    cut = Counter(i for board in lot.plan.boards for i in board.blanks)
    columns = [
        Column("number", "no."),
        Column("part", "blank for"),
        Column("quantity", "to cut", "count"),
        Column("length", "rough length", "size"),
        Column("width", "rough width", "size"),
    ]
    rows = [
        {
            "number": str(i + 1),
            "part": blank_words(blank),
            "quantity": cut[i],
            "length": blank.length_mm,
            "width": blank.width_mm,
        }
        for i, blank in enumerate(lot.plan.blanks)
        if cut[i]
    ]
    return Section("blanks", "Rough blanks", columns, rows)


def _lot(lot: LotPlan, units: str) -> Markup:
    whose = "to buy" if lot.bought else "in hand"
    return joined(
        [
            element("h3", f"{sentence(lot.wood.common_name)}, {lot.nominal.label}, {whose}"),
            section_table(_blanks(lot), units),
            *_boards(lot, units),
        ]
    )


def purchase_section(plan: BuyingPlan, units: str, costs: bool) -> Section:
    """What to buy: boards by size where a plan chose them, else an amount with its waste.

    Parameters: plan; units of the sizes; costs, whether they are told.
    """
    size = KINDS["size"].text
    columns = [
        Column("wood", "wood"),
        Column("stock", "stock"),
        Column("boards", "boards"),
        Column("board_feet", "board feet", "board_feet"),
        Column("board_feet_low", "from", "board_feet"),
        Column("board_feet_high", "to", "board_feet"),
        Column("volume", "volume", "solid"),
    ]
    if costs:
        columns += [Column(f"cost{end}", "cost", "money") for end in ("", "_low", "_high")]
        columns.append(Column("unpriced", "not priced because"))
    rows: list[dict[str, Any]] = []
    for p in plan.purchases:
        row: dict[str, Any] = {
            "wood": p.wood,
            "stock": p.nominal.label,
            **range_row("board_feet", p.board_feet),
            "volume": p.buy_volume_m3.expected,
            "boards": "; ".join(
                f"{n} of {size(width, units)} x {size(length, units)}"
                for width, length, n in p.boards
            ),
            **range_row("cost", p.cost),
            "unpriced": p.unpriced,
        }
        rows.append(row)
    return Section("purchases", "To buy", columns, rows)


def plan_blocks(plan: BuyingPlan, units: str) -> Markup:
    """The boards of a plan: their blanks and their cuts, lot by lot, and what stays uncut.

    Parameters: plan; units 'us' or 'si'.
    """
    uncut = [element("li", f"{u.part.name}: {u.parts_short} short: {u.reason}") for u in plan.uncut]
    return joined(
        [
            *(_lot(lot, units) for lot in plan.lots if lot.plan.boards),
            element("h3", "Not cut from boards in hand") if uncut else Markup(),
            element("ul", joined(uncut)) if uncut else Markup(),
            element("p", LOOK, class_="note") if plan.lots else Markup(),
        ]
    )
