"""The rough stock each part of a catalog is cut from, and what it costs.

As an estimate of a piece has it: a thickness by quarters is the stock itself; any other is a
finished one, cut from the least thickness sold of its wood that dresses to it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from itertools import product

import duckdb

from woodref.catalog.inputs import Parts, is_text, quoted, run
from woodref.catalog.lookups import distinct, fill
from woodref.catalog.request import Given
from woodref.catalog.sized import double, stock_keys_sql
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

    ``sold`` has every wood with every list.

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
        "sold",
        {"name": "varchar", "list": "varchar"},
        list(product(known, lists)),
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
    types |= {"slot": "integer"}
    fill(connection, "text_stock", types, [("", None, None, "", None)])
    heading = parts.headings.columns.get(Given.STOCK)
    if heading is None:
        return
    rows: list[tuple[str, float | None, str | None, str, None]] = []
    for (text,) in distinct(connection, parts, [heading], f"{quoted(heading)} <> ''"):
        if not text.strip():
            rows.append((text, None, None, "", None))
            continue
        try:
            nominal = parse_nominal(text, default_unit)
        except InputError as error:
            rows.append((text, None, None, str(error), None))
        else:
            rows.append((text, nominal.size_mm, nominal.label, "", None))
    fill(connection, "text_stock", types, rows)


def choose_stock(
    connection: duckdb.DuckDBPyConnection, parts: Parts, bare: Collection[Given]
) -> list[float]:
    """The table ``fits``: the stock of every slot of thickness of a wood, and its price.

    A slot is a span of finished thicknesses that one stock serves, or a stock that the catalog
    names itself; ``text_thickness`` and ``text_stock`` get theirs.

    Parameters: connection, with what offer_stock and look_up_stocks make; parts; bare, as
    sized_sql takes it.
    Returns: the thicknesses at which a span ends, in order [mm].
    """
    run(
        connection,
        f"""
        create temp table ends as
            select reach, (row_number() over (order by reach) - 1)::integer as slot
            from (select distinct reach from offers union all select 'infinity'::double);
        create temp table named as
            select mm, label, (select count(*) from ends)::integer
                + (row_number() over (order by mm, label))::integer as slot
            from (select mm, trim(__text) as label from text_thickness where rough
                union select mm, label from text_stock where mm is not null);
        update text_thickness set slot = case
            when rough then (select slot from named where named.mm = text_thickness.mm
                and named.label = trim(text_thickness.__text))
            else (select min(slot) from ends where text_thickness.mm <= ends.reach) end;
        update text_stock set slot = (select slot from named
            where named.mm = text_stock.mm and named.label = text_stock.label);
        create temp table stocks as
        select name, list, slot, least.mm as stock_mm, least.label as stock
        from (sold cross join ends) left join (
            select name, list, slot,
                min_by({{'mm': o.rough, 'label': o.label}}, o.tier * 1e6 + o.rough) as least
            from ends e join offers o on o.reach >= e.reach
            group by all) using (name, list, slot)
        union all
        select name, list, slot, mm, label from (
            select distinct __wood as name, __list as list,
                coalesce(__stock_slot, __thickness_slot) as slot
            from ({stock_keys_sql(parts, bare)})) join named using (slot);
        create temp table fits as {_with_prices_sql("stocks")};
        """,
        parts.name,
    )
    rows = run(connection, "select reach from ends where isfinite(reach) order by reach")
    return [reach for (reach,) in rows]


def _with_prices_sql(table: str) -> str:
    """The rows of a table of stocks, each with ``best``, the price that ranks first for it."""
    return f"""
        select * from {table} left join (
            select c.name, c.list, c.stock_mm, min_by(
                {{'price': p.price, 'low': p.low, 'high': p.high, 'per': p.per}}, p.place) as best
            from (select distinct name, list, stock_mm from {table}
                where stock_mm is not null) c
            join prices p on p.name = c.name and p.list = c.list
                and (p.nominal is null or abs(p.nominal - c.stock_mm) < {SAME_MM})
            group by all) using (name, list, stock_mm)
        """


def with_stock_sql(
    rows: str,
    parts: Parts,
    bare: Collection[Given],
    reaches: Iterable[float],
    cost: bool,
) -> str:
    """The rows of sized_sql with the stock they are cut from.

    With its price too where the cost is wanted.

    Parameters: rows as SQL takes them in a join; parts; bare as sized_sql takes it; reaches as
    choose_stock gives them; cost.
    """
    headings = parts.headings.columns
    slots = []
    if Given.STOCK in headings:
        slots.append("s.__stock_slot")
    thickness = headings.get(Given.THICKNESS)
    written = thickness is not None and is_text(parts, thickness)
    if written:
        slots.append("s.__thickness_slot")
    if not written or Given.THICKNESS in bare:
        # A join to spans by their ends would put the rows out of their order.
        passed = [f"cast(s.__thickness_mm > {double(r)} as integer)" for r in reaches]
        slots.append(" + ".join(passed) or "0")
    slot = f"coalesce({', '.join(slots)})" if len(slots) > 1 else slots[0]
    conditions = [f"fits.name = s.{quoted(headings[Given.WOOD])}", f"fits.slot = {slot}"]
    if Given.PRICE_LIST in headings:
        conditions.append("fits.list = s.__list")
    told = "fits.stock as __stock, fits.stock_mm as __bought_mm"
    if cost:
        told += (
            ", fits.best.price as __price, fits.best.low as __price_low, "
            "fits.best.high as __price_high, "
            "coalesce(fits.best.per = 'm3', false) as __priced_by_volume"
        )
    return f"select s.*, {told} from {rows} s left join fits on {' and '.join(conditions)}"
