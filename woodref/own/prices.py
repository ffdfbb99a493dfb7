"""The shop's own price list, for estimates that name none."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from woodref.errors import InputError, WoodrefError
from woodref.lumber.price_rows import COLUMNS, Resolve, price_of
from woodref.lumber.prices import PriceList, PricesByWood, read_prices, resolver
from woodref.own.storage import rows_of
from woodref.reference.library import Reference
from woodref.reference.overlay import present
from woodref.rows import rejected

#: What the list is called in messages and answers.
NAME = "your own prices"


def price_list(reference: Reference, *files: Path | None) -> PriceList | None:
    """The first price list that is named, else the shop's own; None where there is neither.

    Raises: as woodref.lumber.prices.read_prices and own_prices.
    """
    named = next((file for file in files if file), None)
    resolve = resolver(reference)
    return read_prices(named, resolve) if named else own_prices(resolve)


def own_prices(resolve: Resolve) -> PriceList | None:
    """The price list of the overlay; None without one.

    Of several prices for a wood and thickness, under whatever names, the one added last holds.

    Raises: WoodrefError where the overlay cannot be read, or names a wood that is no longer
    known.
    """
    if not present("prices"):
        return None
    listed = PricesByWood()
    kept = []
    rows = rows_of("prices")
    currency = _currency(rows)
    for row in reversed(rows):
        cells = [str(row.get(c) or "") for c in COLUMNS]
        line = int(row["line"])
        try:
            price = price_of(COLUMNS, cells, line, resolve)
        except InputError as error:
            raise WoodrefError(
                f"{NAME}, {row['batch']} of {row['file']}: {rejected(line, error)}; take it out "
                f"with woodref own remove {row['batch']}, or go on without: --no-own"
            ) from None
        if listed.same(price) is None:
            listed.add(price)
            kept.append(replace(price, currency=currency))
    return PriceList(NAME, tuple(reversed(kept)), currency) if kept else None


def own_currency() -> str:
    """The currency of the stored prices, '' where none is named."""
    return _currency(rows_of("prices"))


def _currency(rows: list[dict[str, object]]) -> str:
    return next((str(r["currency"]) for r in rows if r["currency"]), "")
