"""The table of woods to choose from, filled in DuckDB: one row per wood, every column of COLUMNS.

Nothing here loops over woods: printed figures, the shop's own, classes, trade controls and
prices are joined in SQL, and what is computed runs the formulas of woodref.formulas on columns.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import duckdb

from woodref.choose.buyable import Buyable, tier_sql
from woodref.choose.computed import ENDS, OF_MOVEMENT, seasonal_changes, shares_of_green_sql
from woodref.choose.filters import quoted
from woodref.choose.gathered import own_values_of, temporary_table
from woodref.choose.ready import SOLD, WOODS, make_sold, make_woods, published
from woodref.choose.seasonal_range import SeasonalRange
from woodref.reference.library import Reference, Values
from woodref.reference.look_words import NORTH_AMERICA
from woodref.reference.query import locked_connection
from woodref.units import BOARD_FOOT_M3

#: The table's name on the connection.
TABLE = "candidates"


def candidates_connection(
    reference: Reference,
    seasonal_range: SeasonalRange | None = None,
    prices_per_m3: Mapping[str, float] | None = None,
    buyable: Buyable | None = None,
    with_dataset: bool = True,
) -> duckdb.DuckDBPyConnection:
    """A locked connection that holds the table ``candidates`` in memory.

    ``candidates`` has one row per wood and the columns of COLUMNS; ``unchecked`` and
    ``estimated``, the names of those of its columns that are recalled, and that no table prints;
    ``rough``, those estimated, second hand or the middle of a printed range, and a density that
    rests on an estimated shrinkage;
    ``sds``, the standard deviation of a single board by the name of the column, where it is
    known.

    ``tier`` how far it is from the shop (woodref.choose.buyable); ``line``, ``line_name`` and
    ``is_meant`` what it is sold as (woodref.choose.yard_lines).

    Parameters: reference library, whose own figures go before printed ones where it uses them;
    seasonal_range, by default a year between 6 and 10 %; prices_per_m3 by species_id, none
    where there is no price list; buyable, whose region tells stock and plain names, that of the
    library where none is given; with_dataset false where nobody asks for the tables of the
    dataset beside it.
    """
    where = buyable or Buyable(reference.region or NORTH_AMERICA)
    own = own_values_of(reference) if reference.uses_own else {}
    folder = reference.folder
    ready = not own and all(published(folder, table) for table in (WOODS, SOLD))
    views = with_dataset or not ready

    def prepare(connection: duckdb.DuckDBPyConnection) -> None:
        _prepare(connection, folder, own)
        _make_candidates(connection, seasonal_range or SeasonalRange(), prices_per_m3 or {}, where)

    return locked_connection(folder, prepare, views)


def _prepare(connection: duckdb.DuckDBPyConnection, folder: Path, own: Values) -> None:
    """Put the tables WOODS and SOLD on a connection, as published where nothing is the shop's."""
    for table in (WOODS, SOLD):
        path = None if own and table == WOODS else published(folder, table)
        if path is not None:
            quoted_path = str(path).replace("'", "''")
            connection.execute(
                f"create view {table} as select * from read_parquet('{quoted_path}')"
            )
        elif table == WOODS:
            make_woods(connection, own)
        else:
            make_sold(connection)


def _make_candidates(
    connection: duckdb.DuckDBPyConnection,
    seasonal_range: SeasonalRange,
    prices_per_m3: Mapping[str, float],
    buyable: Buyable,
) -> None:
    temporary_table(
        connection,
        "prices",
        {"species_id": "varchar", "price_per_m3": "double"},
        list(prices_per_m3.items()),
    )
    temporary_table(
        connection, "yard", {"species_id": "varchar"}, [(i,) for i in buyable.yard or frozenset()]
    )
    changes = seasonal_changes(seasonal_range)
    values = ", ".join(f"{c.value} as {name}" for name, c in changes.items())
    sds = ", ".join(f"('{name}', {c.sd})" for name, c in changes.items())
    shares = ", ".join(f"{end}_{d}" for end in ENDS for d in ("t", "r"))
    sold = f"select * exclude (region) from {SOLD} where region = {quoted(buyable.region)}"
    connection.execute(
        f"create table {TABLE} as select "
        f"* exclude (sds, group_said, plain_name, {shares}, {', '.join(OF_MOVEMENT)}) "
        f"replace (coalesce(is_meant, false) as is_meant), "
        "coalesce(plain_name, group_said) as line_name, yard.species_id is not null as in_yard, "
        f"{tier_sql(buyable)} as tier, price_per_m3 * {BOARD_FOOT_M3!r} as price_per_board_foot, "
        f"{values}, map_concat(sds, map_from_entries([{sds}])) as sds "
        f"from (select *, {shares_of_green_sql(seasonal_range)} from {WOODS}) "
        f"left join ({sold}) using (species_id) "
        "left join prices using (species_id) left join yard using (species_id)"
    )
