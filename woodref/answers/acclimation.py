"""Answer about stock that acclimatizes in a room before it is milled."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.drying_notes import physics_notes
from woodref.answers.property_text import UNCHECKED_MARK
from woodref.answers.provenance import based_on, sentence, sentences
from woodref.answers.words import (
    identity,
    percent_text,
    range_columns,
    range_facts,
    room_facts,
    sold_as,
    wood_facts,
)
from woodref.climate.seasons import MONTH_NAMES
from woodref.drying.acclimation import NEAR_PCT
from woodref.reference.bases import in_words
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.drying.acclimation import Acclimation, AcclimationDay
    from woodref.quantity import Range
    from woodref.reference.trade import AcclimationRule
    from woodref.reference.woods import Wood


#: Beyond so many days a time is told in months, of so many days each.
_LONG_DAYS, _MONTH_DAYS = 100.0, 365.25 / 12.0


def days_text(days: Range) -> str:
    """'191 days (95 to 383)', to two figures beyond 100 days."""
    likely, low, high = (_rounded(d) for d in days)
    return f"{likely} day{'' if likely == '1' else 's'} ({low} to {high})"


def time_text(days: Range) -> str:
    """'26 days (13 to 52)', '6 months (3 to 13)': months beyond 100 days."""
    if days.expected < _LONG_DAYS:
        return days_text(days)
    likely, low, high = (f"{d / _MONTH_DAYS:.0f}" for d in days)
    return f"{likely} months ({low} to {high})"


def _rounded(days: float) -> str:
    whole = f"{days:.0f}" if days < 100.0 else f"{float(f'{days:.2g}'):.0f}"
    return "less than 1" if 0.0 < days < 0.5 else whole


def _span_text(low_days: float, high_days: float) -> str:
    """'1 to 2 weeks', '10 to 14 days'."""
    if low_days % 7.0 or high_days % 7.0:
        return f"{low_days:g} to {high_days:g} days"
    return f"{low_days / 7.0:g} to {high_days / 7.0:g} weeks"


def _trade_lines(stock: Acclimation, rule: AcclimationRule | None) -> tuple[list[str], list[str]]:
    """The line that sets the trade's rule beside the estimate, and what to trust for what."""
    if rule is None:
        return [], []
    span = _span_text(rule.low_days, rule.high_days)
    then: AcclimationDay | None = next((d for d in stock.course if d.days == rule.high_days), None)
    reached = then is not None and abs(stock.from_pct - stock.to_pct) > NEAR_PCT
    usual = f"The usual {span} of rest ({in_words(rule.basis)})"
    if reached and then and abs(then.mean_pct.expected - stock.to_pct) > NEAR_PCT:
        still = f"still {percent_text(then.mean_pct.expected)} after {then.days:g} days"
        middle = f"{percent_text(then.middle_pct.expected)} in the middle"
        line = f"{usual} is not enough here: {still}, {middle}."
    elif reached and then:
        line = (
            f"{usual} is enough: {percent_text(then.mean_pct.expected)} after {then.days:g} days."
        )
    else:
        line = f"{usual} is enough."
    trust = (
        f"Trust the trade's {span} for stock that arrives within 1 to 2 % of the room and is not "
        f"thick ({rule.note}): the outer layers come to rest, and planing meets no surprise. Trust "
        "the estimate where the whole board must change more, as wood for wide panels or thick "
        "parts from a yard in another climate: milled early it goes on moving, and cups once one "
        "face is planed further than the other."
    )
    return [line], [trust]


def acclimate_answer(
    wood: Wood,
    stock: Acclimation,
    rule: AcclimationRule | None,
    room: Room | None,
    month: int,
    taken: Sequence[str],
    units: str,
) -> Answer:
    """Days until stock comes near a room, beside the rule of the trade.

    Parameters: wood; stock; rule of the trade; room, None for a moisture content; month in it, 1
    to 12, 0 for the mean of its year; taken, what was not given and is assumed; units 'us' or 'si'.
    """
    in_month = MONTH_NAMES[month - 1] if month else None
    size = KINDS["size"].text(stock.board.thickness_mm, units)
    board = f"{sentence(wood.common_name)} {size} thick"
    ends = f"{percent_text(stock.from_pct)} to {percent_text(stock.to_pct)}"
    where = f" ({room.label}, {in_month or 'mean of the year'})" if room else ""
    if abs(stock.from_pct - stock.to_pct) <= NEAR_PCT:
        lead = f"{board}, {ends}{where}: within {NEAR_PCT:g} % of the room already."
    else:
        lead = (
            f"{board}, {ends}{where}: about {time_text(stock.mean_days)}{UNCHECKED_MARK} to come "
            f"within {NEAR_PCT:g} % of the room; its middle {time_text(stock.middle_days)}."
        )
    line, trust = _trade_lines(stock, rule)
    values = stock.board.density.values[:1]
    return Answer(
        headline=[lead, *line],
        names=sold_as(wood),
        facts=[
            *wood_facts(wood),
            (Column("thickness", "", "size"), stock.board.thickness_mm),
            (Column("basic_specific_gravity", "", "ratio"), stock.board.gravity),
            *room_facts(room),
            (Column("month", ""), in_month),
            (Column("from_moisture", "", "percent"), stock.from_pct),
            (Column("to_moisture", "", "percent"), stock.to_pct),
            *range_facts("mean_days", "tenths", stock.mean_days),
            *range_facts("middle_days", "tenths", stock.middle_days),
            (Column("trade_days_low", "", "tenths"), rule.low_days if rule else None),
            (Column("trade_days_high", "", "tenths"), rule.high_days if rule else None),
            (Column("trade_basis", ""), rule.basis if rule else None),
        ],
        sections=[
            Section.of(
                "course",
                "Moisture content of the stock",
                [
                    Column("days", "days", "count"),
                    *range_columns("mean_moisture", "mean", "percent"),
                    *range_columns("middle_moisture", "middle", "percent"),
                ],
                ((d.days, *d.mean_pct, *d.middle_pct) for d in stock.course),
            ),
            based_on(values),
        ],
        notes=[
            *identity(wood),
            *([f"Taken, as it was not given: {', '.join(taken)}."] if taken else []),
            *trust,
            "Either way weigh a board once a week: it is at rest when its weight no longer "
            "changes. Both faces are taken to be open to the air: stock on stickers, not in a "
            "closed pile.",
            *sentences(room.notes if room else (), units),
            *physics_notes(stock.board, (), units),
        ],
    )
