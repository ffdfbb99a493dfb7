"""Judge the rows of a table of the shop's in DuckDB: what is at fault in each, and why.

Every check is one expression over all rows; names of woods and properties are looked up
once each.
"""

from __future__ import annotations

import csv
import io
import tempfile
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import duckdb

from woodref.errors import InputError
from woodref.own.tables import Table
from woodref.reference.properties import PROPERTIES, Property

if TYPE_CHECKING:
    from woodref.reference.library import Reference

#: Columns of a table of measurements that may be left out.
MEASURED_OPTIONAL = ("condition", "moisture_content_pct", "date", "note")
#: Units a figure may come in besides those of its property, as a factor to the SI unit.
_MORE_UNITS: dict[str, dict[str, float]] = {
    "kg/m3": {"g/cm3": 1000.0, "lb/ft3": 16.01846337396014},
    "1": {"g/cm3": 1.0, "": 1.0, "kg/m3": 0.001, "lb/ft3": 0.01601846337396014},
    "%": {"": 1.0, "pct": 1.0},
    "N": {"kN": 1000.0, "kgf": 9.80665},
    "MPa": {"N/mm2": 1.0, "GPa": 1000.0, "kPa": 0.001, "psi": 0.006894757293168361},
    "mm": {"cm": 10.0, "in": 25.4},
}
#: A name that means no wood gets its nearest names while there are at most so many of them.
_SUGGESTED = 25
#: A moisture content a measured board can have [%].
_MOISTURE_LIMIT = 300.0


def _conditions(p: Property) -> tuple[str, ...]:
    return tuple(condition for condition, _ in p.columns)


def units_of(p: Property) -> dict[str, float]:
    """Units a property may come in, each with its factor to the SI unit."""
    return {p.si_unit: 1.0, p.us_unit: p.factor, **_MORE_UNITS.get(p.si_unit, {})}


def property_words() -> dict[str, str]:
    """Words a property may be called, to its identifier."""
    words = {p.property_id: p.property_id for p in PROPERTIES.values()}
    words.update({p.label.lower(): p.property_id for p in PROPERTIES.values()})
    words.update(
        {
            p.label.partition(",")[0].lower(): p.property_id
            for p in PROPERTIES.values()
            if "shrinkage" in p.property_id
        }
    )
    return words


def _species(reference: Reference, names: Iterable[str]) -> dict[str, tuple[str, str]]:
    """(species_id, '') of each name, or ('', why it means no single wood)."""
    out: dict[str, tuple[str, str]] = {}
    unknown = 0
    for name in names:
        rows = reference.name_rows(name) if name else []
        ids = {r["species_id"] for r in rows}
        if len(ids) == 1:
            out[name] = (rows[0]["species_id"], "")
        elif rows and rows[0]["name_kind"] == "group":
            out[name] = ("", "is a trade group; name the wood that was measured")
        elif rows:
            out[name] = ("", f"is sold as several woods; name one of {', '.join(sorted(ids))}")
        else:
            unknown += 1
            near = reference.nearest(name) if name and unknown <= _SUGGESTED else ()
            hint = f"; nearest: {', '.join(near)}" if near else ""
            out[name] = ("", f"is no wood of the dataset{hint}" if name else "is empty")
    return out


def load(connection: duckdb.DuckDBPyConnection, table: Table) -> None:
    """The rows of a table as the DuckDB table ``raw``: line and the cells by name, as text."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writerow(["line", *table.header])
    writer.writerows([line, *cells] for line, cells in table.rows)
    columns = ", ".join(f"'{c}': 'varchar'" for c in ["line", *table.header])
    with tempfile.TemporaryDirectory(prefix="woodref-own-") as folder:
        path = Path(folder) / "rows.csv"
        path.write_text(out.getvalue(), encoding="utf-8")
        quoted = str(path).replace("'", "''")
        connection.execute(
            "create table raw as select * replace (line::bigint as line) from "
            f"read_csv('{quoted}', header=true, delim=',', quote='\"', escape='\"', "
            f"auto_detect=false, nullstr='\\N', columns={{{columns}}})"
        )


def _map(
    connection: duckdb.DuckDBPyConnection, name: str, columns: str, rows: list[tuple[object, ...]]
) -> None:
    """A small look-up table."""
    connection.execute(f"create table {name} ({columns})")
    if rows:
        marks = ", ".join("?" for _ in rows[0])
        connection.executemany(f"insert into {name} values ({marks})", rows)


_NUMBER = r"^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?$"
_COMMA = r"^[+-]?[0-9]+,[0-9]+$"


def _number_reason(column: str) -> str:
    """SQL: why a cell is not a number, null where it is one."""
    return (
        f"case when {column} = '' then 'is empty' "
        f"when regexp_matches({column}, '{_COMMA}') "
        "then 'has a decimal comma; write a point' "
        f"when not regexp_matches({column}, '{_NUMBER}') then 'is not a number' end"
    )


def judge_measurements(
    connection: duckdb.DuckDBPyConnection, table: Table, reference: Reference
) -> str:
    """Make ``judged``: line, at_fault, reason, and what a good row holds. Returns the query of
    the good rows, without origin, day, file and batch.
    """
    names = [r[0] for r in connection.execute("select distinct species from raw").fetchall()]
    found = _species(reference, names)
    _map(
        connection,
        "woods",
        "name varchar, species_id varchar, why varchar",
        [(n, s, w) for n, (s, w) in found.items()],
    )
    _map(
        connection,
        "props",
        "word varchar, property_id varchar, low double, high double, usual varchar, "
        "conditions varchar, moisture boolean",
        [
            (
                word,
                p.property_id,
                p.low,
                p.high,
                _conditions(p)[0],
                "|".join(_conditions(p)),
                p.property_id == "density_at_test_moisture",
            )
            for word, i in property_words().items()
            for p in (PROPERTIES[i],)
        ],
    )
    _map(
        connection,
        "units",
        "property_id varchar, unit varchar, factor double",
        [
            (p.property_id, unit.lower(), factor)
            for p in PROPERTIES.values()
            for unit, factor in units_of(p).items()
        ],
    )
    optional = {c: (c if c in table.header else f"'' as {c}") for c in MEASURED_OPTIONAL}
    connection.execute(
        "create table judged as "
        f"with r as (select line, species, property, value, unit, {', '.join(optional.values())} "
        "from raw), "
        "j as (select r.*, w.species_id, w.why, p.property_id, p.low, p.high, p.moisture, "
        "  p.conditions, case when r.condition = '' then p.usual else r.condition end as state, "
        f"  u.factor, {_number_reason('r.value')} as no_number, "
        "  try_cast(r.value as double) as number, "
        "  case when r.moisture_content_pct <> '' then "
        f"   {_number_reason('r.moisture_content_pct')} end as no_moisture, "
        "  try_cast(nullif(r.moisture_content_pct, '') as double) as moisture_pct "
        " from r left join woods w on w.name = r.species "
        " left join props p on p.word = lower(r.property) "
        " left join units u on u.property_id = p.property_id and u.unit = lower(r.unit)) "
        "select *, number * factor as si, "
        " case when why <> '' then 'species' when property_id is null then 'property' "
        "  when no_number is not null then 'value' when factor is null then 'unit' "
        "  when not list_contains(string_split(conditions, '|'), state) then 'condition' "
        "  when no_moisture is not null or moisture_pct < 0 "
        f"   or moisture_pct > {_MOISTURE_LIMIT} or (moisture and moisture_pct is null) "
        "   then 'moisture_content_pct' "
        "  when not (number * factor between low and high) then 'value' end as at_fault, "
        " case when why <> '' then why "
        "  when property_id is null then 'is no property of the dataset' "
        "  when no_number is not null then no_number "
        "  when factor is null then 'is not a unit of this property' "
        "  when not list_contains(string_split(conditions, '|'), state) "
        "   then 'is not a condition of this property; use ' || replace(conditions, '|', ' or ') "
        "  when no_moisture is not null then no_moisture "
        "  when moisture and moisture_pct is null then 'is needed for this property' "
        f"  when moisture_pct < 0 or moisture_pct > {_MOISTURE_LIMIT} "
        f"   then 'must be 0 to {_MOISTURE_LIMIT:g} %' "
        "  when not (number * factor between low and high) then 'is outside ' || low || ' to ' "
        "   || high || ' (SI), the limits of physical sense' end as reason from j"
    )
    return (
        "select line, species_id, species, property_id, state as condition, "
        "moisture_pct as moisture_content_pct, si as value, value as printed_value, "
        "unit as printed_unit, concat_ws('; ', nullif(date, ''), nullif(note, '')) as note "
        "from judged where reason is null"
    )


def judge_places(connection: duckdb.DuckDBPyConnection, table: Table) -> str:
    """As judge_measurements, for months of places of the shop's own."""
    from woodref.estimate.seasons import MONTH_NAMES
    from woodref.units import parse_temperature

    temperatures = connection.execute("select distinct temperature from raw").fetchall()
    rows: list[tuple[object, ...]] = []
    for (text,) in temperatures:
        try:
            rows.append((text, parse_temperature(text, "C"), None))
        except InputError as error:
            rows.append((text, None, str(error)))
    _map(connection, "air", "text varchar, celsius double, why varchar", rows)
    months = [(str(n), n) for n in range(1, 13)]
    months += [
        (form, n)
        for n, name in enumerate(MONTH_NAMES, 1)
        for form in {name.lower(), name[:3].lower()}
    ]
    _map(connection, "months", "word varchar, number bigint", list(months))
    note = "note" if "note" in table.header else "'' as note"
    connection.execute(
        "create table judged as with j as (select r.*, m.number as month_number, a.celsius, "
        f"a.why, {_number_reason('r.humidity_pct')} as no_number, "
        "try_cast(r.humidity_pct as double) as humidity, "
        "count(*) over (partition by lower(place), m.number) as same, "
        "count(distinct m.number) over (partition by lower(place)) as given "
        f"from (select line, place, month, temperature, humidity_pct, {note} from raw) r "
        "left join months m on m.word = lower(r.month) left join air a on a.text = r.temperature) "
        "select *, case when place = '' then 'place' when month_number is null or same > 1 "
        " then 'month' when why is not null then 'temperature' "
        " when no_number is not null or humidity < 0 or humidity > 100 then 'humidity_pct' "
        " when given < 12 then 'month' end as at_fault, "
        "case when place = '' then 'is empty' "
        " when month_number is null then 'is not a month; write 1 to 12, or a name such as Jan' "
        " when same > 1 then 'is there more than once for this place' "
        " when why is not null then why when no_number is not null then no_number "
        " when humidity < 0 or humidity > 100 then 'must be 0 to 100 %' "
        " when given < 12 then 'the place has ' || given || ' of 12 months' end as reason from j"
    )
    return (
        "select line, place, month_number as month, celsius as temperature_c, "
        "humidity as relative_humidity_pct, note from judged where place not in "
        "(select place from judged where reason is not null)"
    )


def reject_incomplete(connection: duckdb.DuckDBPyConnection) -> None:
    """A place with one bad month is rejected whole: twelve months or none."""
    connection.execute(
        "update judged set at_fault = 'place', "
        "reason = 'another month of this place is at fault; a place needs all twelve' "
        "where reason is null and place in (select place from judged where reason is not null)"
    )
