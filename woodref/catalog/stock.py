"""The rough stock each part of a catalog is cut from, and what it costs.

As an estimate of a piece has it: a thickness by quarters is the stock itself; any other is a
finished one, cut from the least thickness sold of its wood that dresses to it.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from itertools import product

import duckdb

from woodref.catalog.inputs import Parts, quoted, run
from woodref.catalog.lookups import distinct, fill
from woodref.catalog.request import Given
from woodref.catalog.sized import stock_keys_sql, written_thickness
from woodref.choose.coefficients import Coefficients
from woodref.errors import InputError
from woodref.lumber.nominal import SAME_MM, SLACK_MM, parse_nominal
from woodref.lumber.price_rows import BY_AMOUNT
from woodref.lumber.prices import PriceList
from woodref.lumber.rough import sawn_thicknesses, usual
from woodref.lumber.yard import thicknesses_sold
from woodref.reference.library import Reference

#: What a name stands for: its coefficients and its species.
Known = Mapping[str, tuple[Coefficients, frozenset[str]]]


def offer_stock(
    connection: duckdb.DuckDBPyConnection,
    reference: Reference,
    known: Known,
    lists: Mapping[str, PriceList | None],
    units: str,
) -> None:
    """Tables ``offers``, what is sold of each wood by each list, and ``prices``, what that costs.

    Parameters: connection; reference; known woods by name; lists of prices by name, '' for rows
    that name none, None without one; units.
    """
    planing_mm = usual(reference, units).allowances.planing_mm
    sold = thicknesses_sold(reference, (), None, units, planing_mm)
    offers, rows = [], []
    for (name, (wood, ids)), (of_list, prices) in product(known.items(), lists.items()):
        listed = sawn_thicknesses(prices.nominals(ids), sold.dressed, planing_mm) if prices else ()
        stocked = sold.softwood if wood.kind == "softwood" else sold.hardwood
        for tier, sizes in enumerate((listed, stocked)):
            offers += [
                (name, of_list, tier, s.dressed_mm + SLACK_MM, s.rough_mm, s.nominal) for s in sizes
            ]
        ranked = [r for r in (prices.ranked(ids) if prices else ()) if r.per in BY_AMOUNT]
        rows += [
            (name, of_list, n, r.nominal and r.nominal.size_mm, *r.price, r.per)
            for n, r in enumerate(ranked)
        ]
    fill(
        connection,
        "offers",
        {"name": "varchar", "list": "varchar", "tier": "integer", "reach": "double"}
        | {"rough": "double", "label": "varchar"},
        offers,
    )
    fill(
        connection,
        "prices",
        {"name": "varchar", "list": "varchar", "place": "integer", "nominal": "double"}
        | {"price": "double", "low": "double", "high": "double", "per": "varchar"},
        rows,
    )


def look_up_lists(
    connection: duckdb.DuckDBPyConnection, parts: Parts, lists: Collection[str]
) -> None:
    """The table ``text_list`` of the price lists that the catalog names."""
    fill(connection, "text_list", {"__text": "varchar", "problem": "varchar"}, [("", "")])
    heading = parts.headings.columns.get(Given.PRICE_LIST)
    if heading is None:
        return
    rows = []
    for (text,) in distinct(connection, parts, [heading], f"{quoted(heading)} <> ''"):
        hint = f"; name it: --price-lists {text.strip()}=FILE"
        known = not text.strip() or text.strip() in lists
        rows.append((text, "" if known else f"no price list is called so{hint}"))
    fill(connection, "text_list", {"__text": "varchar", "problem": "varchar"}, rows)


def look_up_stocks(connection: duckdb.DuckDBPyConnection, parts: Parts, default_unit: str) -> None:
    """The table ``text_stock`` of the rough thicknesses that the catalog names."""
    types = {"__text": "varchar", "mm": "double", "label": "varchar", "problem": "varchar"}
    fill(connection, "text_stock", types, [("", None, None, "")])
    heading = parts.headings.columns.get(Given.STOCK)
    if heading is None:
        return
    rows: list[tuple[str, float | None, str | None, str]] = []
    for (text,) in distinct(connection, parts, [heading], f"{quoted(heading)} <> ''"):
        if not text.strip():
            rows.append((text, None, None, ""))
            continue
        try:
            nominal = parse_nominal(text, default_unit)
        except InputError as error:
            rows.append((text, None, None, str(error)))
        else:
            rows.append((text, nominal.size_mm, nominal.label, ""))
    fill(connection, "text_stock", types, rows)


def choose_stock(
    connection: duckdb.DuckDBPyConnection, parts: Parts, bare: Collection[Given]
) -> None:
    """The table ``chosen``: the stock of every wood and thickness, and its price.

    Parameters: connection, with what offer_stock and look_up_stocks make; parts; bare, as
    sized_sql takes it.
    """
    label = "case when __rough then trim(__written) end"
    if not written_thickness(parts):
        label = "null::varchar"
    run(
        connection,
        f"""
        create temp table chosen as
        with asked as (
            select __wood as name, __list as list, __thickness_mm as thickness, __rough as rough,
                coalesce(__stock_mm, -1.0) as given,
                min(coalesce(__stock_label, {label})) as label
            from ({stock_keys_sql(parts, bare)}) where __thickness_mm is not null group by all),
        least as (
            select a.name, a.list, a.thickness,
                min_by({{'mm': o.rough, 'label': o.label}}, o.tier * 1e6 + o.rough) as least
            from (select distinct name, list, thickness from asked
                where not rough and given < 0) a
            join offers o on o.name = a.name and o.list = a.list and o.reach >= a.thickness
            group by all),
        stocked as (
            select a.name, a.list, a.thickness, a.rough, a.given,
                case when given >= 0 then given when a.rough then a.thickness
                else least.mm end as stock_mm,
                case when given >= 0 or a.rough then a.label else least.label end as stock
            from asked a left join least l on l.name = a.name and l.list = a.list
                and l.thickness = a.thickness
                and not a.rough and a.given < 0),
        priced as (
            select c.name, c.list, c.stock_mm, min_by(
                {{'price': p.price, 'low': p.low, 'high': p.high, 'per': p.per}}, p.place) as best
            from (select distinct name, list, stock_mm from stocked
                where stock_mm is not null) c
            join prices p on p.name = c.name and p.list = c.list
                and (p.nominal is null or abs(p.nominal - c.stock_mm) < {SAME_MM})
            group by all)
        select s.*, best from stocked s left join priced using (name, list, stock_mm)
        """,
    )


def on_stock(parts: Parts) -> str:
    """What joins the rows of sized_sql, as ``s``, to ``chosen``."""
    conditions = [
        f"chosen.name = s.{quoted(parts.headings.columns[Given.WOOD])}",
        "chosen.thickness = s.__thickness_mm",
    ]
    if written_thickness(parts):
        conditions.append("chosen.rough = s.__rough")
    if Given.PRICE_LIST in parts.headings.columns:
        conditions.append("chosen.list = s.__list")
    if Given.STOCK in parts.headings.columns:
        conditions.append("chosen.given = coalesce(s.__stock_mm, -1.0)")
    return " and ".join(conditions)
