"""The answer of the command buy: do all parts come out, what to buy, and each board in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.blanks import multiple_section, turning_section
from woodref.answers.buying_words import many, short_words
from woodref.answers.screen import first_screen
from woodref.answers.shop_words import money_range
from woodref.answers.words import listed, range_facts, range_row
from woodref.lumber.buying import BuyingPlan
from woodref.lumber.cutting_instructions import alike, cut_words, rest_of, used_pct
from woodref.lumber.lots import LotPlan
from woodref.lumber.purchase import Purchase
from woodref.lumber.rough import PRACTICE, size_words
from woodref.lumber.waste import Waste, WasteOrigin
from woodref.quantity import Range
from woodref.reference.bases import UNCHECKED, in_words
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.lumber.thicknesses import YardStock

#: Tables of the first screen, in its order.
_ON_SCREEN = ("buy_boards", "buy", "uncut", "left_over")
_LOTS = [
    Column("wood", "wood"),
    Column("stock", "thickness"),
    Column("supply", "boards"),
    Column("blanks_cut", "blanks cut", "count"),
    Column("blanks_left", "still short", "count"),
    Column("boards", "boards", "count"),
    Column("boards_at_least", "fewest possible", "count"),
    Column("gap_boards", "boards over it", "count"),
    Column("offcuts", "offcuts", "share"),
    Column("plan_status", "result"),
]
_BOARDS = [
    Column("boards", "boards", "count"),
    Column("board", "board"),
    Column("wood", ""),
    Column("stock", ""),
    Column("width", "", "size"),
    Column("length", "", "size"),
    Column("supply", ""),
    Column("first_cut", ""),
    Column("cuts", "cuts, rough sizes"),
    Column("used", "used", "share"),
    Column("offcut", "rest"),
    Column("offcut_length", "", "size"),
    Column("offcut_width", "", "size"),
]
_UNCUT = [
    Column("part", "part"),
    Column("wood", ""),
    Column("blanks_left", "left", "count"),
    Column("blanks", "of", "count"),
    Column("reason", "reason"),
]
_BUY = [
    Column("wood", "wood"),
    Column("stock", "thickness"),
    Column("to_buy", "what"),
    Column("buy_board_feet", "board feet", "tenths"),
    Column("buy_board_feet_low", "", "tenths"),
    Column("buy_board_feet_high", "", "tenths"),
    Column("buy_volume_m3", "m3", "ratio"),
    Column("waste", "", "share"),
    Column("prices_used", "price"),
    Column("cost", "cost", "money"),
    Column("cost_low", "from", "money"),
    Column("cost_high", "to", "money"),
    Column("unpriced", ""),
]
_SIZES = [
    Column("wood", "wood"),
    Column("stock", "thickness"),
    Column("width", "width", "size"),
    Column("length", "length", "size"),
    Column("boards", "boards", "count"),
]


def _lead(plan: BuyingPlan) -> str:
    """Whether all parts come out."""
    blanks, boards = plan.blanks, plan.boards_on_hand
    if not boards:
        return f"No boards in hand: all {many(blanks, 'blank')} are to be bought."
    used = sum(len(lot.plan.boards) for lot in plan.lots if not lot.bought)
    stock, give = many(boards, "board"), "gives" if boards == 1 else "give"
    if plan.complete:
        return f"Yes: your {stock} {give} all {many(blanks, 'blank')}; {used} are cut."
    left = sum(u.quantity for u in plan.uncut)
    return Heed(
        f"Your {stock} {give} {blanks - left} of {many(blanks, 'blank')}. Still short: "
        f"{short_words(plan, 4)}."
    )


def _money(cost: Range | None, currency: str) -> str:
    return "not priced" if cost is None else money_range(cost, currency)


def _amount(plan: BuyingPlan, units: str) -> str:
    """'24.5 board feet', '0.058 m3'."""
    if units == "us":
        return f"{sum(p.board_feet.expected for p in plan.purchases):.1f} board feet"
    return KINDS["solid"].text(sum(p.buy_volume_m3.expected for p in plan.purchases), units)


def _to_buy(plan: BuyingPlan, units: str) -> str:
    """What to buy and what it costs, or what is left over."""
    if not plan.purchases:
        spare = sum(board.quantity for _, board in plan.left_over)
        return f"Nothing to buy; {many(spare, 'board')} left over whole."
    boards = sum(n for p in plan.purchases for _, _, n in p.boards)
    what = (
        f"{many(boards, 'board')}, {_amount(plan, units)}"
        if boards
        else (f"about {_amount(plan, units)} with waste")
    )
    cost = _money(plan.cost, plan.currency)
    without = dict.fromkeys(f"{p.nominal.label} {p.wood}" for p in plan.purchases if p.cost is None)
    if without and plan.cost:
        cost += f", not counting {listed([*without])} (not in your price list)"
    elif plan.unpriced:
        cost += f" ({'; '.join(plan.unpriced)})"
    return f"To buy: {what}; {cost}."


def _result(lot: LotPlan) -> str:
    plan = lot.plan
    if plan.complete:
        if plan.proven:
            return "proven best"
        return "fewest boards" if plan.gap_boards == 0 else "best found"
    if plan.too_large:
        return "cannot be done with these boards"
    if plan.short:
        return "too few boards for these cuts"
    return "best found, some short"


def _lot_row(lot: LotPlan) -> dict[str, Any]:
    plan = lot.plan
    return {
        "wood": lot.wood.common_name,
        "stock": lot.nominal.label,
        "supply": "to buy" if lot.bought else "in hand",
        "blanks_cut": lot.pieces_cut,
        "blanks_left": lot.pieces_left,
        "boards": len(plan.boards),
        "boards_at_least": None
        if lot.bought or plan.short or plan.too_large
        else plan.bound_boards,
        "gap_boards": plan.gap_boards,
        "offcuts": plan.offcut_pct,
        "plan_status": _result(lot),
    }


def _board_rows(lot: LotPlan, units: str) -> list[dict[str, Any]]:
    rows = []
    for board, count in alike(lot.plan):
        width, length = lot.sizes[board.stock]
        rest = rest_of(lot.plan, board)
        rows.append(
            {
                "boards": count,
                "board": f"{lot.plan.stock[board.stock].name}" + (", to buy" if lot.bought else ""),
                "wood": lot.wood.common_name,
                "stock": lot.nominal.label,
                "width": width,
                "length": length,
                "supply": "to buy" if lot.bought else "in hand",
                "first_cut": "rip" if board.rip_first else "crosscut",
                "cuts": cut_words(lot.plan, board, units),
                "used": used_pct(lot.plan, board),
                "offcut": " x ".join(size_words(x, units) for x in rest) if rest else "",
                "offcut_length": rest[0] if rest else None,
                "offcut_width": rest[1] if rest else None,
            }
        )
    return rows


def _price_words(purchase: Purchase, currency: str) -> str:
    """'9.20 USD per board foot, FAS, 2025-03-31', for every row used."""
    return "; ".join(
        ", ".join(
            x
            for x in (
                f"{p.price.expected:.2f} {currency}".strip() + f" per {p.per}",
                p.grade,
                p.date,
            )
            if x
        )
        for p in purchase.prices
    )


def _buy_row(purchase: Purchase, currency: str) -> dict[str, Any]:
    boards = sum(n for _, _, n in purchase.boards)
    waste = purchase.waste.expected if purchase.waste else None
    return {
        "wood": purchase.wood,
        "stock": purchase.nominal.label,
        "to_buy": many(boards, "board") if boards else f"an amount, {waste:.0f} % waste in it",
        **range_row("buy_board_feet", purchase.board_feet),
        "buy_volume_m3": purchase.buy_volume_m3.expected,
        "waste": waste,
        "prices_used": _price_words(purchase, currency) or purchase.unpriced,
        **range_row("cost", purchase.cost),
        "unpriced": purchase.unpriced or None,
    }


#: Where a waste comes from.
_ORIGINS = {WasteOrigin.GIVEN: "as given", WasteOrigin.PIECE: "as the piece has it"}


def _origin(waste: Waste) -> str:
    """Where a waste comes from, in words."""
    if waste.grade:
        return (
            f"{waste.grade.name} has at least {waste.grade.clear_face_pct:.1f} % of its face clear "
            f"[{in_words(waste.grade.basis)}] ({waste.grade.source})"
        )
    return _ORIGINS.get(waste.origin, f"{in_words(waste.basis)}, no source")


def _notes(
    plan: BuyingPlan, stock: YardStock, waste: Waste, remarks: Sequence[str], units: str
) -> list[str]:
    a = stock.allowances
    length, width, trim, kerf, planing = (
        size_words(x, units)
        for x in (a.length_mm, a.width_mm, a.end_trim_mm, a.kerf_mm, a.planing_mm)
    )
    notes = [
        *remarks,
        *(f"{name}: {thicker.words}." for name, thicker in plan.thicker_listed),
        f"Rough blanks are {length} longer and {width} wider than the finished part; {trim} comes "
        f"off each end of a board, {kerf} is lost in a saw cut, and stock that no table of sizes "
        f"holds loses {planing} in planing. What was not given is common practice, no source.",
    ]
    labels = {lot.nominal.label for lot in plan.lots} | {p.nominal.label for p in plan.purchases}
    used = [s for s in stock.sold.all if s.nominal in labels]
    for s in used:
        if s.basis == UNCHECKED:
            notes.append(f"The dressed size of {s.nominal} is recalled, not seen in print.")
    sources = dict.fromkeys(s.source for s in used if s.source)
    if sources:
        notes.append(
            f"Thickness after surfacing: {'; '.join(sources)}; the stock itself may differ."
        )
    if any(s.basis == PRACTICE for s in used):
        notes.append("Sawn thicknesses outside the table lose the planing allowance.")
    if any(p.waste for p in plan.purchases):
        w = waste.pct
        spread = "" if w.low == w.high else f" ({w.low:g} to {w.high:g})"
        notes.append(
            f"No yard widths and lengths are given, so no plan was made for what is bought: "
            f"{w.expected:.0f} %{spread} waste is added, {_origin(waste)}."
        )
    if plan.lots:
        notes.append(
            "Grain runs along the length. A board is crosscut, then ripped, or the other way "
            "round; 'fewest possible' is what no plan of the cuts allowed does with less than."
        )
        notes.append(
            "A plan sees no knots, checks or sapwood: look every board over and buy a spare. Short "
            "and narrow stock kicks back: cut no section shorter than your machines hold safely."
        )
    return notes


def _bought_in(units: str) -> list[Column]:
    """The columns of what is bought: for people board feet, or m3, never both."""
    other = "buy_volume_m3" if units == "us" else "buy_board_feet"
    return [c._replace(head="") if c.key == other else c for c in _BUY]


def plan_lines(plan: BuyingPlan, units: str) -> list[str]:
    """Whether all parts come out of the boards in hand; what to buy, and its cost."""
    head = [_lead(plan), _to_buy(plan, units)]
    if plan.interrupted:
        head.append(Heed("Stopped by hand: these are the best plans found so far."))
    return head


def plan_sections(plan: BuyingPlan, units: str) -> list[Section]:
    """The tables of a plan: boards and their cuts, how good it is, what to buy, what stays."""
    uncut = [
        {
            "part": u.part.name,
            "wood": u.part.species,
            "blanks_left": u.quantity,
            "blanks": u.part.pieces,
            "reason": u.reason,
        }
        for u in plan.uncut
        if plan.boards_on_hand
    ]
    sizes = [
        {"wood": p.wood, "stock": p.nominal.label, "width": w, "length": n, "boards": count}
        for p in plan.purchases
        for w, n, count in p.boards
    ]
    whole = [
        {
            "wood": wood.common_name,
            "stock": b.thickness,
            "width": b.width_mm,
            "length": b.length_mm,
            "boards": b.quantity,
        }
        for wood, b in plan.left_over
    ]
    return [
        Section(
            "cut_boards",
            "Boards and their cuts",
            _BOARDS,
            [r for lot in plan.lots for r in _board_rows(lot, units)],
        ),
        multiple_section(plan.multiples),
        turning_section(plan.parts),
        Section("lots", "Yield", _LOTS, [_lot_row(lot) for lot in plan.lots]),
        Section("uncut", "What the boards in hand do not give", _UNCUT, uncut),
        Section(
            "buy", "To buy", _bought_in(units), [_buy_row(p, plan.currency) for p in plan.purchases]
        ),
        Section("buy_boards", "Boards to buy", _SIZES, sizes),
        Section("left_over", "Boards left whole", _SIZES, whole),
    ]


def answer_of(
    plan: BuyingPlan, stock: YardStock, waste: Waste, remarks: Sequence[str], units: str
) -> Answer:
    """The plan as an answer; ``remarks`` are what is to be said of the files that were read."""
    used = Counter("buy" if lot.bought else "hand" for lot in plan.lots for _ in lot.plan.boards)
    facts: list[tuple[Column, Any]] = [
        (Column("complete", ""), plan.complete),
        (Column("interrupted", ""), plan.interrupted),
        (Column("blanks", "", "count"), plan.blanks),
        (Column("blanks_left", "", "count"), sum(u.quantity for u in plan.uncut)),
        (Column("boards_on_hand", "", "count"), plan.boards_on_hand),
        (Column("boards_used", "", "count"), used["hand"]),
        (Column("boards_to_buy", "", "count"), used["buy"]),
        (Column("currency", ""), plan.currency),
        *range_facts("cost", "money", plan.cost),
    ]
    answer = Answer(
        headline=plan_lines(plan, units),
        facts=facts,
        sections=plan_sections(plan, units),
        notes=_notes(plan, stock, waste, remarks, units),
    )
    answer.screen = _screen(answer, units)
    return answer


def _priced_columns(section: Section) -> list[Column]:
    """The columns of what is bought; the price only where there is one."""
    priced = any(row.get("cost") is not None for row in section.rows)
    return [c for c in section.columns if priced or c.key != "prices_used"]


def _screen(answer: Answer, units: str) -> Answer:
    """What to buy; the cuts are for the saw, and told whole.

    Where boards are planned, the first line has their amount and cost.
    """
    first = [s for key in _ON_SCREEN for s in answer.sections if s.key == key and s.rows]
    if first and first[0].key == "buy_boards":
        first = [s for s in first if s.key != "buy"]
    first = [s._replace(columns=_priced_columns(s)) if s.key == "buy" else s for s in first]
    screen = first_screen(replace(answer, sections=first), units)
    screen.notes[-1] = "More: --full, with the cuts of each board."
    return screen
