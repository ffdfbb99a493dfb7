"""The shop's own price list, for estimates that name none."""

from __future__ import annotations

import csv
import io

from woodref.estimate.prices import COLUMNS, PriceList, Resolve, parse_prices
from woodref.own.storage import rows_of
from woodref.reference.overlay import present

#: What the list is called in messages and answers.
NAME = "your own prices"


def own_prices(resolve: Resolve) -> PriceList | None:
    """The price list of the overlay, the latest price of a wood and thickness; None without one.

    Raises: WoodrefError where the overlay cannot be read.
    """
    if present("prices") is None:
        return None
    latest: dict[tuple[str, str], dict[str, object]] = {}
    for row in rows_of("prices"):
        latest[str(row["species"]).lower(), str(row["thickness"]).lower()] = row
    if not latest:
        return None
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows([row[c] or "" for c in COLUMNS] for row in latest.values())
    return parse_prices(out.getvalue(), NAME, resolve)
