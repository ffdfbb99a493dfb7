"""The quote of a piece as the shop reads it: each line, and what they come to."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.piece.quote import Charge
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate
    from woodref.piece.quote import Quote, QuoteLine

CHARGES: dict[Charge, str] = {
    Charge.MATERIALS: "materials",
    Charge.WORK: "",
    Charge.WORK_ONCE: "once for the order",
    Charge.FINISHING: "finishing, beside the finish itself",
    Charge.OVERHEAD: "overhead",
    Charge.MARKUP: "markup",
}


def charge_words(line: QuoteLine) -> str:
    """What a line is for: 'materials', 'joinery', 'drawing, once for the order'."""
    return ", ".join(word for word in (line.work, CHARGES[line.charge]) if word)


def quote_section(estimate: Estimate, for_people: bool = True) -> Section:
    """The lines of the quote for the whole order; for people with what they come to."""
    told = estimate.quote
    rows: list[dict[str, Any]] = [
        {
            "charge": charge_words(line) if for_people else line.charge.value,
            "work": line.work or None,
            "hours": line.hours,
            "charge_share": line.pct,
            "charged": line.amount,
        }
        for line in (told.lines if told else ())
    ]
    if told and for_people:
        rows += [
            {"charge": name, "charge_share": pct or None, "charged": amount}
            for name, pct, amount in sums(told)
        ]
    currency = estimate.currency
    columns = [
        Column("charge", "line"),
        Column("work", ""),
        Column("hours", "hours", "tenths"),
        Column("charge_share", "share", "percent"),
        Column("charged", f"amount{f' ({currency})' if currency else ''}", "money"),
    ]
    return Section("quote_lines", f"Quote{_of(told)}", columns, rows)


def _of(told: Quote | None) -> str:
    return f", {told.spec.quantity} pieces" if told and told.spec.quantity > 1 else ""


def sums(told: Quote) -> list[tuple[str, float, float]]:
    """What the lines of a quote come to: a name, a share of it [%], and the amount."""
    spec = told.spec
    taxed = [("tax", spec.tax_pct, told.tax), ("total with tax", 0.0, told.total)]
    due = [("deposit", spec.deposit_pct, told.deposit), ("balance", 0.0, told.balance)]
    return [
        ("price", 0.0, told.price),
        *(taxed if spec.tax_pct else []),
        *(due if spec.deposit_pct else []),
    ]


def quote_facts(estimate: Estimate) -> list[tuple[Column, Any]]:
    """What a quote comes to, for programs; null where there is none."""
    told = estimate.quote
    return [
        (Column("quote_pieces", "", "count"), told.spec.quantity if told else None),
        (Column("quote_rate", "", "money"), told.spec.rate if told else None),
        (Column("quote_price", "", "money"), told.price if told else None),
        (Column("quote_tax", "", "money"), told.tax if told else None),
        (Column("quote_total", "", "money"), told.total if told else None),
        (Column("deposit", "", "money"), told.deposit if told else None),
        (Column("balance", "", "money"), told.balance if told else None),
        (Column("quote_without", ""), list(told.without) if told else []),
        (Column("price_dates", ""), list(estimate.price_dates)),
    ]


def quote_notes(estimate: Estimate) -> list[str]:
    """What must be said of a quote: what it leaves out, and how old its prices are."""
    told = estimate.quote
    if told is None:
        return []
    left = [f"The quote leaves out {'; '.join(told.without)}."] if told.without else []
    cost, text = estimate.priced_cost, KINDS["money"].text
    spread = (
        [
            f"Materials of one piece may cost {text(cost.low, 'us')} to {text(cost.high, 'us')}; "
            "the quote takes the expected cost."
        ]
        if cost and cost.is_range
        else []
    )
    return [*left, *dates_line(estimate), *spread]


def dates_line(estimate: Estimate) -> list[str]:
    """'Lumber prices of 2025-03-31.'; nothing where the list has no dates."""
    dates = estimate.price_dates
    if not dates:
        return []
    ends = dates[0] if len(dates) == 1 else f"{dates[0]} to {dates[-1]}"
    return [f"Lumber prices of {ends}."]
