"""The table of woods to choose from, filled in DuckDB: one row per wood, every column of COLUMNS.

Nothing here loops over woods: printed figures, the shop's own, classes, trade controls and
prices are joined in SQL, and what is computed runs the formulas of woodref.formulas on columns.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import NamedTuple

import duckdb

from woodref.choose.buyable import Buyable, tier_sql
from woodref.choose.computed import OF_MOVEMENT, SHARES, seasonal_changes, shares_of_green_sql
from woodref.choose.gathered import own_values_of, table_of
from woodref.choose.ready import SOLD, WOODS, make_sold, make_woods, published
from woodref.choose.screening import WELL_KNOWN
from woodref.choose.seasonal_range import SeasonalRange
from woodref.reference.library import Reference, Values
from woodref.reference.look_words import NORTH_AMERICA
from woodref.reference.overlay import present
from woodref.reference.query import locked_connection
from woodref.reference.store import file_sql, literal
from woodref.units import BOARD_FOOT_M3

#: The names on the connection: every wood, and those worth choosing from.
TABLE, KNOWN = "candidates", "known"


def candidates_connection(
    reference: Reference,
    seasonal_range: SeasonalRange | None = None,
    prices_per_m3: Mapping[str, float] | None = None,
    buyable: Buyable | None = None,
    also: Collection[str] = (),
    known_alone: bool = False,
) -> duckdb.DuckDBPyConnection:
    """A connection that holds the woods to choose from, ``candidates`` and ``known``.

    It is locked (woodref.reference.query.locked_connection), but where ``known_alone`` says that
    no SQL of a user's own is run on it: then it is one of the library's, with tables of its own.

    ``candidates`` has one row per wood and the columns of COLUMNS; ``unchecked`` and
    ``estimated``, the names of those of its columns that are recalled, and that no table prints;
    ``rough``, those estimated, second hand or the middle of a printed range, and a density that
    rests on an estimated shrinkage;
    ``sds``, the standard deviation of a single board by the name of the column, where it is
    known. ``known`` has its rows of woods for which WELL_KNOWN holds, in memory: a tenth of them.

    ``tier`` how far it is from the shop (woodref.choose.buyable); ``line``, ``line_name`` and
    ``is_meant`` what it is sold as (woodref.choose.yard_lines).

    Parameters: reference library, whose own figures go before printed ones where it uses them;
    seasonal_range, by default a year between 6 and 10 %; prices_per_m3 by species_id, none
    where there is no price list; buyable, whose region tells stock and plain names, that of the
    library where none is given; also, species_id of woods that are in ``known`` whatever is known
    of them; known_alone where nobody asks for ``candidates``, or for the tables of the dataset
    beside them.
    """
    where = buyable or Buyable(reference.region or NORTH_AMERICA)
    folder, own = reference.folder, _own_woods(reference)
    made = {WOODS: own.path if own else published(folder, WOODS), SOLD: published(folder, SOLD)}
    ready = [path for path in made.values() if path]
    year = seasonal_range or SeasonalRange()

    def prepare(connection: duckdb.DuckDBPyConnection, temporary: str = "") -> None:
        _prepare(connection, made, own, temporary)
        _make_prices_and_yard(connection, prices_per_m3 or {}, where, temporary)
        if not known_alone:
            connection.execute(f"create view {TABLE} as {_candidates_sql(year, where)}")
        # Woods worth a look come first in the file, and alone are read where no other is named.
        named = f" or species_id in ({', '.join(map(literal, also))})" if also else ""
        few = _candidates_sql(year, where, f"where worth_a_look{named}")
        connection.execute(
            f"create {temporary} table {KNOWN} as from ({few}) where {WELL_KNOWN}{named}"
        )

    if known_alone and len(ready) == len(made):
        connection = reference.store.connection.cursor()
        prepare(connection, "temp")
        return connection
    return locked_connection(folder, prepare, files=ready)


class _OwnWoods(NamedTuple):
    """The shop's own figures, or the table of woods that was made with them before."""

    key: str
    path: Path | None
    values: Values


def _own_woods(reference: Reference) -> _OwnWoods | None:
    """What there is of the shop's own, None where nothing is."""
    if not reference.uses_own or not present("measurements"):
        return None
    from woodref.choose.kept_woods import kept_woods, woods_key

    key = woods_key(reference.folder)
    path = kept_woods(key)
    if path is not None:
        return _OwnWoods(key, path, {})
    values = own_values_of(reference)
    return _OwnWoods(key, None, values) if values else None


def _prepare(
    connection: duckdb.DuckDBPyConnection,
    made: Mapping[str, Path | None],
    own: _OwnWoods | None,
    temporary: str,
) -> None:
    """Put the tables WOODS and SOLD on a connection, as they were made where they were."""
    for table, path in made.items():
        if path is not None:
            connection.execute(f"create {temporary} view {table} as from {file_sql(path)}")
        elif table == SOLD:
            make_sold(connection)
        else:
            make_woods(connection, own.values if own else {})
            if own:
                from woodref.choose.kept_woods import keep_woods

                keep_woods(connection, WOODS, own.key)


def _make_prices_and_yard(
    connection: duckdb.DuckDBPyConnection,
    prices_per_m3: Mapping[str, float],
    buyable: Buyable,
    temporary: str,
) -> None:
    types = {"species_id": "varchar", "price_per_m3": "double"}
    table_of(connection, "prices", types, list(prices_per_m3.items()), temporary)
    yard = [(i,) for i in sorted(buyable.yard or ())]
    table_of(connection, "yard", {"species_id": "varchar"}, yard, temporary)


def moved_sql(seasonal_range: SeasonalRange, among: str = "") -> str:
    """The query of every wood with the change of a year, over WOODS, helpers left out.

    That of the usual year is in WOODS.

    Parameters: seasonal_range; among, a WHERE over WOODS.
    """
    helpers = ", ".join(("worth_a_look", *OF_MOVEMENT))
    if seasonal_range == SeasonalRange():
        return f"select * exclude ({helpers}) from {WOODS} {among}"
    changes = seasonal_changes(seasonal_range)
    values = ", ".join(f"{c.value} as {name}" for name, c in changes.items())
    sds = ", ".join(f"('{name}', {c.sd})" for name, c in changes.items())
    left = ", ".join((helpers, "sds", *changes, *SHARES))
    return (
        f"select * exclude ({left}), {values}, "
        f"map_concat(sds, map_from_entries([{sds}])) as sds "
        f"from (select *, {shares_of_green_sql(seasonal_range)} from {WOODS} {among})"
    )


def _candidates_sql(seasonal_range: SeasonalRange, buyable: Buyable, among: str = "") -> str:
    """The query of the candidates, over WOODS, SOLD, prices and yard.

    Parameters: seasonal_range; buyable; among, a WHERE over WOODS.
    """
    sold = f"select * exclude (region) from {SOLD} where region = {literal(buyable.region)}"
    return (
        "select * exclude (group_said, plain_name) "
        "replace (coalesce(is_meant, false) as is_meant), "
        "coalesce(plain_name, group_said) as line_name, yard.species_id is not null as in_yard, "
        f"{tier_sql(buyable)} as tier, price_per_m3 * {BOARD_FOOT_M3!r} as price_per_board_foot "
        f"from ({moved_sql(seasonal_range, among)}) left join ({sold}) using (species_id) "
        "left join prices using (species_id) left join yard using (species_id)"
    )
