"""The table [quote] of a piece: what a shop asks beside the materials."""

from __future__ import annotations

from woodref.record import record
from woodref.toml_reader import PERCENT, TomlTable

#: Keys of the table [quote].
QUOTE = (
    *("rate", "hours", "hours_once", "finishing", "overhead_pct", "markup_pct", "tax_pct"),
    *("deposit_pct", "quantity"),
)
_MOST_HOURS, _MOST_MONEY = 10_000.0, 1e9


@record
class QuoteSpec:
    """What a shop asks beside the materials.

    ``rate`` of an hour; ``hours`` of each kind of work for one piece, and ``hours_once`` for the
    whole order; ``finishing`` of one piece, beside the finish itself; shares in percent: overhead
    of materials, work and finishing, markup of that and overhead, tax of the price, deposit of
    the price with tax; ``quantity`` of pieces.
    """

    rate: float
    hours: tuple[tuple[str, float], ...] = ()
    hours_once: tuple[tuple[str, float], ...] = ()
    finishing: float = 0.0
    overhead_pct: float = 0.0
    markup_pct: float = 0.0
    tax_pct: float = 0.0
    deposit_pct: float = 0.0
    quantity: int = 1


def read_quote(table: TomlTable) -> QuoteSpec:
    """The table [quote].

    Raises: InputError naming file, table, key and problem.
    """
    if "hours" not in table and "hours_once" not in table:
        table.tell(table.error("hours", "is missing; write for example hours = { joinery = 8 }"))

    def percent(key: str, most: float) -> float:
        return table.number(key, 0.0, most, PERCENT) if key in table else 0.0

    return QuoteSpec(
        rate=table.number("rate", 0.0, 1e6),
        hours=_hours(table, "hours"),
        hours_once=_hours(table, "hours_once"),
        finishing=table.number("finishing", 0.0, _MOST_MONEY) if "finishing" in table else 0.0,
        overhead_pct=percent("overhead_pct", 1000.0),
        markup_pct=percent("markup_pct", 1000.0),
        tax_pct=percent("tax_pct", 100.0),
        deposit_pct=percent("deposit_pct", 100.0),
        quantity=table.integer("quantity", 1, 10_000) if "quantity" in table else 1,
    )


def _hours(table: TomlTable, key: str) -> tuple[tuple[str, float], ...]:
    """Hours by the kind of work, whose names are the shop's own."""
    if key not in table:
        return ()
    given = table.data[key]
    kinds = table.table(key, list(given) if isinstance(given, dict) else ())
    return tuple((work, kinds.number(work, 0.0, _MOST_HOURS, "hours")) for work in kinds.data)
