"""Settle what is wanted of a catalog, and look up whatever its cells name."""

from __future__ import annotations

from typing import NamedTuple

import duckdb

from woodref.catalog.inputs import Parts, check_needed, refuse_clashes
from woodref.catalog.lookups import (
    look_up_cuts,
    look_up_places,
    look_up_sizes,
)
from woodref.catalog.names import look_up_names
from woodref.catalog.request import Given, Request, Want, needed_sizes
from woodref.catalog.results import Result, results
from woodref.catalog.stock import choose_stock, look_up_lists, look_up_stocks, offer_stock
from woodref.errors import InputError
from woodref.lumber.prices import PriceList
from woodref.own.prices import price_list
from woodref.reference.library import Reference
from woodref.reference.shipping import ShippingFacts, shipping_facts


class LookedUp(NamedTuple):
    """What is wanted of a catalog, with the tables of what its cells name on the connection.

    ``made`` the columns of the answers; ``bare`` the columns of sizes as look_up_sizes gives
    them; ``reaches`` as choose_stock gives them; ``facts`` of shipping, None where they are not
    wanted; ``currency`` of the price lists.
    """

    want: tuple[Want, ...]
    made: list[Result]
    bare: set[Given]
    reaches: list[float]
    facts: ShippingFacts | None
    currency: str


def look_up(
    connection: duckdb.DuckDBPyConnection,
    parts: Parts,
    reference: Reference,
    request: Request,
    file: str,
) -> LookedUp:
    """Make the tables of names, sizes, cuts, places and stocks that a catalog names.

    Parameters: connection, on which the catalog is; parts; reference; request; file, what the
    catalog is called in messages.
    Raises: InputError where a column that is needed is not there, or cannot be read.
    """
    lists = _price_lists(reference, request)
    want = _wanted(request, parts, any(lists.values()))
    headings = parts.headings.columns
    check_needed(parts.headings, needed_sizes(want), file)
    if Given.TO_MOISTURE in headings and Given.PLACE in headings and Want.MOVEMENT in want:
        raise InputError(f"{file}: has both to_moisture and place; leave one out")
    made = results(request, want)
    refuse_clashes(parts, [*(r.name for r in made), "unanswered"])
    bare = look_up_sizes(connection, parts, request)
    look_up_cuts(connection, parts, request)
    look_up_places(connection, parts, reference, request)
    look_up_lists(connection, parts, lists)
    look_up_stocks(connection, parts, request.bare_unit)
    known = look_up_names(connection, parts, reference)
    reaches: list[float] = []
    if {Want.BOARD_FEET, Want.COST} & set(want):
        offer_stock(connection, reference, known, lists, request.units)
        reaches = choose_stock(connection, parts, bare)
    facts = shipping_facts(reference) if Want.SHIPPING in want else None
    currency = next((p.currency for p in lists.values() if p and p.currency), "")
    return LookedUp(want, made, bare, reaches, facts, currency)


def _price_lists(reference: Reference, request: Request) -> dict[str, PriceList | None]:
    """The price lists of a catalog by name, '' for rows that name none.

    Raises: InputError where two are in different currencies.
    """
    usual = price_list(reference, request.prices)
    named = {name: price_list(reference, file) for name, file in request.price_lists.items()}
    lists = {"": usual} | named
    currencies = sorted({p.currency for p in lists.values() if p and p.currency})
    if len(currencies) > 1:
        raise InputError(
            f"the price lists are in {' and '.join(currencies)}; one catalog has one currency"
        )
    return lists


def _wanted(request: Request, parts: Parts, priced: bool) -> tuple[Want, ...]:
    """The answers asked for, else those that what is given allows.

    Raises: InputError where an answer asked for lacks what it needs.
    """
    columns = parts.headings.columns
    goes = request.to_moisture_pct is not None or bool(request.place)
    goes = goes or Given.TO_MOISTURE in columns or Given.PLACE in columns
    want = request.want
    if not want:
        want = (Want.WEIGHT, Want.VOLUME if request.units == "si" else Want.BOARD_FEET)
        want += (Want.MOVEMENT,) if goes else ()
        want += (Want.COST,) if priced else ()
    if Want.MOVEMENT in want and not goes:
        raise InputError(
            "movement needs to know where the wood goes: a column to_moisture or place, "
            "or --to 6 or --place Duluth"
        )
    if Want.COST in want and not priced:
        raise InputError("a cost needs a price list: --prices FILE, or your own stored prices")
    return want
