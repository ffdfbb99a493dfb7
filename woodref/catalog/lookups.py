"""What the texts of a catalog mean, each looked up once: sizes, cuts, places and names."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

import duckdb

from woodref.board.movement import ring_angle
from woodref.catalog.inputs import Parts, is_text, quoted, run
from woodref.catalog.request import SIZES, Given, Request
from woodref.climate.rooms import room_of
from woodref.errors import InputError, NoDataError
from woodref.formulas.folded import tangential_share
from woodref.reference.library import Reference
from woodref.written import parse_length, parse_thickness, quarters

#: Distinct written sizes of a column from which bare decimals are left to SQL.
_MOST_TEXTS = 20_000
#: Quarters of an inch from which a thickness is one of rough lumber, as it is sold.
_LEAST_QUARTERS = 4
_METRIC = re.compile(r"[0-9.]\s*(mm|cm|m)\s*$")
_INCHES = re.compile(r"(in|inch|inches|ft|foot|feet|[\"'”’″′])\s*$", re.IGNORECASE)


def number_sql(column: str) -> str:
    """A cell that may be a bare number as one, null for any other text."""
    return f"try_cast({column} as double)"


def percent_sql(column: str) -> str:
    """A cell such as 8 or '8 %' as a number, null for any other text."""
    return f"try_cast(trim(trailing ' %' from {column}) as double)"


def distinct(
    connection: duckdb.DuckDBPyConnection, parts: Parts, headings: Sequence[str], where: str = ""
) -> list[tuple[Any, ...]]:
    """The distinct cells of some columns together, in order."""
    named = ", ".join(quoted(h) for h in headings)
    query = f"select distinct {named} from {parts.table} {where and 'where ' + where} order by all"
    return run(connection, query, parts.name)


def fill(
    connection: duckdb.DuckDBPyConnection,
    table: str,
    types: Mapping[str, str],
    rows: Iterable[Sequence[Any]],
) -> None:
    """Add rows to a temporary table, made where it is not there."""
    declared = ", ".join(f"{quoted(n)} {t}" for n, t in types.items())
    connection.execute(f"create temp table if not exists {table} ({declared})")
    held = [list(c) for c in zip(*rows, strict=True)]
    if held:
        columns = ", ".join(f"unnest(?::{t}[])" for t in types.values())
        connection.execute(f"insert into {table} select {columns}", held)


def look_up_sizes(
    connection: duckdb.DuckDBPyConnection, parts: Parts, request: Request
) -> set[Given]:
    """Tables ``text_length``, ``text_width``, ``text_thickness`` of written sizes.

    Each distinct text is read once; where a column has very many, bare decimals are left to SQL.

    Returns: the columns whose bare decimals are.
    Raises: InputError where bare numbers stand beside sizes of the other system of units, and
    nothing says what unit the bare ones are in.
    """
    bare_in_sql: set[Given] = set()
    for column in SIZES:
        heading = parts.headings.columns.get(column)
        table = f"text_{column}"
        types = {"__text": "varchar", "mm": "double", "problem": "varchar", "rough": "boolean"}
        types |= {"slot": "integer"}
        fill(connection, table, types, [("", None, "", False, None)])
        if heading is None or not is_text(parts, heading):
            continue
        unit = parts.headings.units[column]
        name = quoted(heading)
        texts = _texts(connection, parts, heading, f"{name} <> ''", _MOST_TEXTS)
        if len(texts) > _MOST_TEXTS:
            bare_in_sql.add(column)
            written = f"{name} <> '' and {number_sql(name)} is null"
            texts = _texts(connection, parts, heading, written)
        others = {s for t in texts if (s := _system(t))}
        fill(connection, table, types, [(t, *_size(t, column, unit), None) for t in texts])
        bare = "metric" if unit.endswith("m") else "inches"
        if others - {bare} and not request.unit and _holds_bare(connection, parts, name):
            other = (others - {bare}).pop()
            raise InputError(
                f"column '{heading}' mixes bare numbers and sizes in {other}; give every cell "
                "its unit, or say that of the bare ones: --unit mm"
            )
    return bare_in_sql


def _texts(
    connection: duckdb.DuckDBPyConnection, parts: Parts, heading: str, where: str, most: int = 0
) -> list[str]:
    """The distinct texts of a column, one more than the most at the most."""
    limit = f" limit {most + 1}" if most else ""
    query = f"select distinct {quoted(heading)} from {parts.table} where {where} {limit}"
    return sorted(row[0] for row in run(connection, query, parts.name))


def _holds_bare(connection: duckdb.DuckDBPyConnection, parts: Parts, name: str) -> bool:
    query = f"select 1 from {parts.table} where {number_sql(name)} is not null limit 1"
    return bool(run(connection, query, parts.name))


def _system(text: str) -> str:
    """The system of units a written size names, '' where it names none."""
    if _METRIC.search(text):
        return "metric"
    return "inches" if _INCHES.search(text) else ""


def _size(text: str, column: Given, unit: str) -> tuple[float | None, str, bool]:
    """A written size [mm], why it is none, and whether it is a thickness of rough lumber."""
    try:
        if column is Given.THICKNESS:
            rough = (quarters(text) or 0) >= _LEAST_QUARTERS
            return parse_thickness(text, unit), "", rough
        return parse_length(text, unit), "", False
    except InputError as error:
        return None, str(error), False


def look_up_cuts(connection: duckdb.DuckDBPyConnection, parts: Parts, request: Request) -> None:
    """The table ``cuts``: the ring angle of every cut that is written [degree], and its share.

    A cell without a cut has that of the request.
    """
    default = ring_angle(request.cut)
    types = {"__text": "varchar", "angle": "double", "share": "double", "problem": "varchar"}

    def row(text: str) -> tuple[Any, ...]:
        angle, problem = _tried(ring_angle, text) if text.strip() else (default, "")
        return text, angle, None if angle is None else tangential_share(angle), problem

    fill(connection, "cuts", types, [row("")])
    heading = parts.headings.columns.get(Given.CUT)
    if heading is None or not is_text(parts, heading):
        return
    cells = distinct(connection, parts, [heading], f"{quoted(heading)} <> ''")
    fill(connection, "cuts", types, [row(text) for (text,) in cells])


def _tried(read: Callable[[str], float], text: str) -> tuple[float | None, str]:
    try:
        return read(text), ""
    except InputError as error:
        return None, str(error)


def look_up_places(
    connection: duckdb.DuckDBPyConnection, parts: Parts, reference: Reference, request: Request
) -> None:
    """The table ``places``: the driest and the wettest moisture content of every room [%]."""
    types = {"place": "varchar", "setting": "varchar", "driest": "double", "wettest": "double"}
    types |= {"problem": "varchar"}
    fill(connection, "places", types, [])
    columns = parts.headings.columns
    headings = [columns[c] for c in (Given.PLACE, Given.SETTING) if c in columns]
    asked: set[tuple[str, str]] = set()
    if headings:
        for row in distinct(connection, parts, headings):
            cells = dict(zip(headings, row, strict=True))
            place = cells.get(columns.get(Given.PLACE, "")) or request.place
            asked.add((place, cells.get(columns.get(Given.SETTING, "")) or request.setting))
    elif request.place:
        asked.add((request.place, request.setting))
    rows = [(*pair, *_room(reference, *pair)) for pair in sorted(asked)]
    fill(connection, "places", types, rows)


def _room(reference: Reference, place: str, setting: str) -> tuple[Any, ...]:
    if not place:
        return None, None, "no place is named"
    try:
        design = room_of(reference, place, setting).season.design_pct
    except (InputError, NoDataError) as error:
        return None, None, str(error)
    return design.low, design.high, ""
