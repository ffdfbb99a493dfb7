"""Weight, board feet, movement, cost and shipping of every row of a Spark frame."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from pyspark.sql import Column, DataFrame, functions

from woodref.api.shared import reference
from woodref.catalog.compute import steps_of
from woodref.catalog.inputs import OURS, Parts, checked_headings
from woodref.catalog.request import SIZES, Request, Want, given, parse_want
from woodref.catalog.results import ABSENT, Result
from woodref.catalog.sized import Sized, failed_sql, sized_sql
from woodref.catalog.stock import with_stock_sql
from woodref.spark.cells import FRAME, look_up_cells, types_of

if TYPE_CHECKING:
    import pyarrow

    from woodref.catalog.headings import Headings

#: What a row that fails a check says of it.
REJECTED = ("rejected_column", "rejected_value", "rejected_reason")
#: What is computed of a row, and would be of one that fails a check.
_OF_A_GOOD_ROW = (*(f"{size}_mm" for size in SIZES), "quantity", "moisture", "start", "end")


def estimate(
    frame: DataFrame,
    *,
    want: str | Iterable[str] = (),
    columns: Mapping[str, str] | None = None,
    units: str = "si",
    unit: str = "",
    moisture_pct: float = 8.0,
    to_moisture_pct: float | None = None,
    place: str = "",
    setting: str = "",
    cut: str = "flat",
    prices: str | Path | None = None,
    price_lists: Mapping[str, str | Path] | None = None,
    padding_mm: float | None = None,
    ranges: bool = False,
) -> DataFrame:
    """Compute weight, board feet, movement, cost and shipping of every row of a Spark frame.

    Parameters
    ----------
    frame : pyspark.sql.DataFrame
        Columns as :func:`woodref.batch` takes them.
    want : str or iterable of str, optional
        As woodref.batch.
    columns : mapping of str to str, optional
        Your heading by the name of the column: ``{"wood": "Species"}``.
    units, unit : str, optional
        As woodref.batch.
    moisture_pct, to_moisture_pct : float, optional
        As woodref.batch [%].
    place, setting, cut : str, optional
        As woodref.batch.
    prices : str or Path, optional
        A price list where this program runs; by default the shop's own.
    price_lists : mapping of str to str or Path, optional
        As woodref.batch.
    padding_mm : float, optional
        Room on each side in a carton [mm].
    ranges : bool, optional
        Add the ends of the likely ranges as columns.

    Returns
    -------
    pyspark.sql.DataFrame
        Every row, with the answers, ``unanswered`` and, for a row that cannot be computed,
        ``rejected_column``, ``rejected_value`` and ``rejected_reason``; null for the others.

    Raises
    ------
    InputError
        Where the frame or the request cannot be used.

    Notes
    -----
    The formulas, the coefficients and the checks are those of woodref.batch. The distinct names,
    written sizes, cuts and places are collected once and looked up where this program runs; the
    tables that come of it are small, and go to every worker. Rows stay where they are.
    """
    request = Request(
        want=parse_want(want) if want else (),
        columns={given(name): heading for name, heading in (columns or {}).items()},
        units=units,
        unit=unit,
        cut=cut,
        moisture_pct=moisture_pct,
        to_moisture_pct=to_moisture_pct,
        place=place,
        setting=setting,
        prices=Path(prices) if prices else None,
        price_lists={name: Path(file) for name, file in (price_lists or {}).items()},
        padding_mm=padding_mm,
        ranges=ranges,
    )
    request.check()
    headings = checked_headings(types_of(frame), request, FRAME)
    tables, settled = look_up_cells(frame, headings, reference(), request)
    ours = {name: f"{OURS}c{n}" for n, name in enumerate(frame.columns)}
    parts = _renamed(frame, headings, ours)
    sized = _with_headings(sized_sql(parts, request, settled.want, settled.bare), ours)
    joined = _Joined(frame.toDF(*ours.values()), tables)
    rows = joined.sql(sized.sql.replace(f"from {parts.table} p", "from {rows} p"))
    rows = _checked(rows, sized)
    if "fits" in tables:
        cost = Want.COST in settled.want
        rows = joined.sql(
            with_stock_sql("{rows}", parts, settled.bare, settled.reaches, cost), rows
        )
    for step in steps_of(_column, request, settled.want, sized, settled.facts):
        rows = rows.withColumns({f"{OURS}{name}": value for name, value in step.items()})
    return rows.select(
        *(functions.col(mine).alias(name) for name, mine in ours.items()),
        *(_answer(result) for result in settled.made),
        _unanswered(settled.want),
        *(functions.col(f"{OURS}{name}").alias(name) for name in REJECTED),
    )


def _column(name: str) -> Column:
    return functions.col(f"{OURS}{name}")


def _renamed(frame: DataFrame, headings: Headings, ours: Mapping[str, str]) -> Parts:
    """The frame as a catalog whose columns have names that stand in any SQL as they are."""
    kinds = {ours[name]: kind for name, kind in types_of(frame).items()}
    columns = {column: ours[name] for column, name in headings.columns.items()}
    renamed = headings._replace(columns=columns)
    return Parts(
        f"{OURS}frame", tuple(kinds), kinds, renamed, rows=0, folder=False, name="the table"
    )


def _with_headings(sized: Sized, ours: Mapping[str, str]) -> Sized:
    """The checks with the headings as the user wrote them."""
    written = {mine: name for name, mine in ours.items()}
    return sized._replace(
        checks=[c._replace(heading=written.get(c.heading, c.heading)) for c in sized.checks]
    )


class _Joined:
    """Runs SQL over the rows and the tables that were looked up, these at every worker."""

    def __init__(self, rows: DataFrame, tables: Mapping[str, pyarrow.Table]) -> None:
        self._rows, self._session = rows, rows.sparkSession
        self._tables = {
            name: functions.broadcast(self._session.createDataFrame(table))
            for name, table in tables.items()
        }

    def sql(self, query: str, rows: DataFrame | None = None) -> DataFrame:
        """The rows of a query from {rows}, whose joins name tables."""
        joined = re.sub(r"left join (\w+) on", lambda m: f"left join {{{m[1]}}} {m[1]} on", query)
        named = set(re.findall(r"{(\w+)}", joined)) - {"rows"}
        used = {name: self._tables[name] for name in named}
        return self._session.sql(joined, rows=self._rows if rows is None else rows, **used)


def _checked(rows: DataFrame, sized: Sized) -> DataFrame:
    """The rows with what is wrong with them, and no sizes where something is."""
    failed = failed_sql(sized.checks)
    rows = rows.withColumn(f"{OURS}failed", functions.expr(failed.number))
    told = (failed.column, failed.value, failed.reason)
    rows = rows.withColumns(
        {f"{OURS}{name}": functions.expr(sql) for name, sql in zip(REJECTED, told, strict=True)}
    )
    good = _column("failed").isNull()
    # A null goes through every formula, and a division by nothing would end the whole run.
    held = [name for name in _OF_A_GOOD_ROW if f"{OURS}{name}" in rows.columns]
    return rows.withColumns({f"{OURS}{n}": functions.when(good, _column(n)) for n in held})


def _answer(result: Result) -> Column:
    value = _column(result.step)
    if result.factor != 1.0:
        value = value / result.factor
    return functions.when(_column("failed").isNull(), value).alias(result.name)


def _unanswered(want: tuple[Want, ...]) -> Column:
    """The answers a good row has no figure for."""
    missing = [functions.when(_column(ABSENT[w]).isNull(), str(w)) for w in want if w in ABSENT]
    listed = functions.concat_ws(",", *missing) if missing else functions.lit("")
    return functions.when(_column("failed").isNull(), listed).alias("unanswered")
