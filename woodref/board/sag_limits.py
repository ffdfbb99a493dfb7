"""Limits of sag, each a fraction of the span: that of the trade, and a finer one of our own."""

from __future__ import annotations

import re
from enum import Enum

from woodref.errors import InputError
from woodref.record import record
from woodref.reference.sag_rules import SagRules

#: A line that looks straight: a sag of 1/360 of the span (our choice).
STRAIGHT_DIVISOR = 360.0
#: The coarsest and the finest limit that may be asked for, as n of L/n.
COARSEST, FINEST = 50.0, 5000.0
_FRACTION = re.compile(r"\s*(?:[Ll1]\s*/\s*)([0-9]{1,6}(?:\.[0-9]*)?)\s*")


class LimitKind(Enum):
    """Whose limit it is."""

    TRADE = "trade"
    STRAIGHT = "straight"
    OWN = "own"


@record
class SagLimit:
    """A limit L/n of the span L."""

    kind: LimitKind
    divisor: float

    @property
    def written(self) -> str:
        """'L/144'."""
        return f"L/{self.divisor:g}"

    def sag_mm(self, span_mm: float) -> float:
        """The sag it allows over a span [mm]."""
        return span_mm / self.divisor


def parse_limit(text: str) -> SagLimit:
    """A limit of one's own: 'L/240' or '1/240' of the span.

    Raises: InputError for anything else, and for a fraction outside 1/50 to 1/5000.
    """
    match = _FRACTION.fullmatch(text)
    if not match:
        raise InputError(
            f"'{text}' is not a limit of sag; write a fraction of the span, L/240 or 1/240"
        )
    divisor = float(match[1])
    if not COARSEST <= divisor <= FINEST:
        raise InputError(
            f"a limit of sag is L/{COARSEST:g} to L/{FINEST:g} of the span, not L/{divisor:g}"
        )
    return SagLimit(LimitKind.OWN, divisor)


def limits_of(rules: SagRules, own: SagLimit | None) -> tuple[SagLimit, ...]:
    """The limits a span is held against: one's own, where there is one, first."""
    usual = (
        SagLimit(LimitKind.TRADE, rules.trade_divisor),
        SagLimit(LimitKind.STRAIGHT, STRAIGHT_DIVISOR),
    )
    return (own, *usual) if own else usual
