"""A quote: what a shop asks for a piece, line by line, each line to the cent.

Every line is rounded by itself, half a cent up, and the price is the sum of the lines, so that
what a shop reads adds up. The order of overhead, markup, tax and deposit is common practice, no
source.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from math import isfinite

from woodref.errors import InputError
from woodref.piece.quote_table import QuoteSpec
from woodref.record import record


class Charge(StrEnum):
    """What a line of a quote is for."""

    MATERIALS = "materials"
    WORK = "work"
    WORK_ONCE = "work once for the order"
    FINISHING = "finishing"
    OVERHEAD = "overhead"
    MARKUP = "markup"


@record
class QuoteLine:
    """One line: what it is for, the kind of work, its hours or its share [%], and the amount."""

    charge: Charge
    amount: float
    work: str = ""
    hours: float | None = None
    pct: float | None = None


@record
class Quote:
    """What a shop asks for an order.

    ``price`` is the sum of the lines, ``total`` that with ``tax``; ``deposit`` is due with the
    order and ``balance`` at the end. ``without`` says what has no price and is not in it.
    """

    spec: QuoteSpec
    lines: tuple[QuoteLine, ...]
    price: float
    tax: float
    total: float
    deposit: float
    balance: float
    without: tuple[str, ...] = ()

    @property
    def complete(self) -> bool:
        """True where nothing is left out for want of a price."""
        return not self.without


def _cents(amount: Decimal) -> int:
    return int((amount * 100).to_integral_value(ROUND_HALF_UP))


def _share(cents: int, pct: float) -> int:
    """A share of an amount, to the cent."""
    return _cents(Decimal(cents) / 100 * _decimal(pct) / 100)


def _decimal(value: float) -> Decimal:
    """A number as it is written, not as it is held: 0.1 is a tenth."""
    return Decimal(repr(value))


def quote(spec: QuoteSpec, materials: float, without: tuple[str, ...] = ()) -> Quote:
    """The quote of an order.

    Parameters: spec; materials, what those of one piece cost; without, what has no price.
    Returns: Quote, each line to the cent and for the whole order.
    Raises: InputError where materials are no amount of money.
    Source: common practice, no source.
    """
    if not (isfinite(materials) and materials >= 0.0):
        raise InputError(f"the cost of materials must be 0 or more, not {materials:g}")
    n, rate = spec.quantity, _decimal(spec.rate)
    charged: list[tuple[Charge, str, float | None, int]]
    charged = [(Charge.MATERIALS, "", None, _cents(_decimal(materials) * n))]
    for charge, works, times in (
        (Charge.WORK, spec.hours, n),
        (Charge.WORK_ONCE, spec.hours_once, 1),
    ):
        charged += [
            (charge, work, hours * times, _cents(_decimal(hours) * times * rate))
            for work, hours in works
        ]
    if spec.finishing:
        charged.append((Charge.FINISHING, "", None, _cents(_decimal(spec.finishing) * n)))
    lines = [QuoteLine(c, cents / 100, work, hours) for c, work, hours, cents in charged]
    sum_cents = sum(cents for *_, cents in charged)
    for charge, pct in ((Charge.OVERHEAD, spec.overhead_pct), (Charge.MARKUP, spec.markup_pct)):
        if pct:
            added = _share(sum_cents, pct)
            lines.append(QuoteLine(charge, added / 100, pct=pct))
            sum_cents += added
    tax = _share(sum_cents, spec.tax_pct)
    deposit = _share(sum_cents + tax, spec.deposit_pct)
    return Quote(
        spec,
        tuple(lines),
        price=sum_cents / 100,
        tax=tax / 100,
        total=(sum_cents + tax) / 100,
        deposit=deposit / 100,
        balance=(sum_cents + tax - deposit) / 100,
        without=without,
    )
