"""What the cells of a frame say, each collected once and looked up where the program runs."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING, Any, NamedTuple

import duckdb
import pyarrow
from pyspark.sql import DataFrame, types

from woodref.catalog.inputs import read_table
from woodref.catalog.prepare import LookedUp, look_up
from woodref.catalog.request import Given, Request
from woodref.errors import InputError
from woodref.reference.library import Reference

if TYPE_CHECKING:
    from woodref.catalog.headings import Headings

#: What messages call the frame.
FRAME = "the frame"
#: Columns looked up together: stock is chosen by all three, a room by both.
_TOGETHER = (
    (Given.WOOD, Given.THICKNESS, Given.STOCK, Given.PRICE_LIST),
    (Given.LENGTH,),
    (Given.WIDTH,),
    (Given.CUT,),
    (Given.PLACE, Given.SETTING),
)
#: Distinct cells that one machine still looks up.
_MOST_CELLS = 2_000_000
_TYPES = {
    types.StringType: "VARCHAR",
    types.ByteType: "TINYINT",
    types.ShortType: "SMALLINT",
    types.IntegerType: "INTEGER",
    types.LongType: "BIGINT",
    types.FloatType: "FLOAT",
    types.DoubleType: "DOUBLE",
}


class Tables(NamedTuple):
    """The tables a frame is joined to, by name, and what was settled with them."""

    tables: dict[str, pyarrow.Table]
    settled: LookedUp


def types_of(frame: DataFrame) -> dict[str, str]:
    """The columns of a frame and their types, in the words of a catalog."""
    return {
        field.name: next(
            (word for kind, word in _TYPES.items() if isinstance(field.dataType, kind)),
            field.dataType.simpleString().upper(),
        )
        for field in frame.schema.fields
    }


def look_up_cells(
    frame: DataFrame, headings: Headings, reference: Reference, request: Request
) -> Tables:
    """Collect the distinct cells of a frame, and look up what they say.

    Raises: InputError where there are too many, and as woodref.catalog.prepare.look_up.
    """
    cells = _distinct_cells(frame, headings)
    with closing(duckdb.connect(":memory:")) as connection:
        parts = read_table(connection, cells, request)
        settled = look_up(connection, parts, reference, request, FRAME)
        names = [r[0] for r in connection.execute("show tables").fetchall()]
        tables = {
            name: connection.sql(f"select * from {name}").to_arrow_table()
            for name in names
            if name in ("names", "cuts", "places", "fits") or name.startswith("text_")
        }
    return Tables(tables, settled)


def _distinct_cells(frame: DataFrame, headings: Headings) -> pyarrow.Table:
    """A table of all columns of the frame that holds every distinct cell that is looked up."""
    kinds = types_of(frame)
    held: dict[str, list[Any]] = {name: [] for name in kinds}
    for group in _TOGETHER:
        columns = [headings.columns[c] for c in group if c in headings.columns]
        if not columns or (len(columns) == 1 and kinds[columns[0]] != "VARCHAR"):
            continue
        rows = frame.select(*columns).distinct().limit(_MOST_CELLS + 1).collect()
        if len(rows) > _MOST_CELLS:
            listed = ", ".join(columns)
            raise InputError(
                f"{FRAME}: more than {_MOST_CELLS} different cells of {listed}; give numbers"
            )
        for row in rows:
            for name, column in held.items():
                column.append(row[name] if name in columns else None)
    return pyarrow.table({name: _array(held[name], kind) for name, kind in kinds.items()})


def _array(values: list[Any], kind: str) -> pyarrow.Array:
    if kind == "VARCHAR":
        return pyarrow.array(values, pyarrow.string())
    if kind in _TYPES.values() or kind.startswith("DECIMAL"):
        return pyarrow.array([None if v is None else float(v) for v in values], pyarrow.float64())
    return pyarrow.array([None] * len(values), pyarrow.string())
