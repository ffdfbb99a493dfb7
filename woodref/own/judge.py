"""Judge the rows of a table of the shop's in DuckDB: what is at fault in each, and why.

Every check is one expression over all rows; names of woods and properties are looked up
once each.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from typing import TYPE_CHECKING

import duckdb

from woodref.aside import folder_aside
from woodref.errors import WoodrefError, system_reason
from woodref.own.tables import OwnTable
from woodref.reference.many_names import rows_of_names
from woodref.reference.properties import PROPERTIES, Property
from woodref.reference.store import literal
from woodref.units import KGF_TO_N, LB_FT3_TO_KG_M3, MM_PER_INCH, PSI_TO_MPA

if TYPE_CHECKING:
    from woodref.reference.library import Reference

#: Columns of a table of measurements that may be left out.
MEASURED_OPTIONAL = ("condition", "moisture_content_pct", "sample_size", "date", "note")
#: Units a figure may come in besides those of its property, as a factor to the SI unit.
_MORE_UNITS: dict[str, dict[str, float]] = {
    "kg/m3": {"g/cm3": 1000.0, "lb/ft3": LB_FT3_TO_KG_M3},
    "1": {"g/cm3": 1.0, "": 1.0, "kg/m3": 0.001, "lb/ft3": LB_FT3_TO_KG_M3 / 1000.0},
    "%": {"": 1.0, "pct": 1.0},
    "N": {"kN": 1000.0, "kgf": KGF_TO_N},
    "MPa": {"N/mm2": 1.0, "GPa": 1000.0, "kPa": 0.001, "psi": PSI_TO_MPA},
    "mm": {"cm": 10.0, "in": MM_PER_INCH},
}
#: A name that means no wood gets its nearest names while there are at most so many of them.
SUGGESTED = 25
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
    for name, rows in rows_of_names(reference, names).items():
        ids = {r["species_id"] for r in rows}
        if len(ids) == 1:
            out[name] = (rows[0]["species_id"], "")
        elif rows and rows[0]["name_kind"] == "group":
            out[name] = ("", "is a trade group; name the wood that was measured")
        elif rows:
            out[name] = ("", f"is sold as several woods; name one of {', '.join(sorted(ids))}")
        else:
            unknown += 1
            near = reference.nearest(name) if name and unknown <= SUGGESTED else ()
            hint = f"; nearest: {', '.join(near)}" if near else ""
            out[name] = ("", f"is no wood of the dataset{hint}" if name else "is empty")
    return out


def load(connection: duckdb.DuckDBPyConnection, table: OwnTable) -> None:
    """The rows of a table as the DuckDB table ``raw``: line and the cells by name, as text."""
    columns = ", ".join(f"'{c}': 'varchar'" for c in ["line", *table.header])
    with folder_aside() as folder:
        path = folder / "rows.csv"
        try:
            with path.open("w", encoding="utf-8", newline="") as file:
                writer = csv.writer(file, lineterminator="\n", quoting=csv.QUOTE_ALL)
                writer.writerow(["line", *table.header])
                writer.writerows([line, *cells] for line, cells in table.rows)
        except OSError as error:
            raise WoodrefError(
                f"{folder.parent}: rows cannot be kept there for a moment: {system_reason(error)}"
            ) from None
        connection.execute(
            "create table raw as select * replace (line::bigint as line) from "
            f"read_csv({literal(path)}, header=true, delim=',', quote='\"', escape='\"', "
            f"auto_detect=false, allow_quoted_nulls=false, columns={{{columns}}})"
        )


def look_up(
    connection: duckdb.DuckDBPyConnection, name: str, columns: str, rows: list[tuple[object, ...]]
) -> None:
    """A small table to look words up in."""
    connection.execute(f"create table {name} ({columns})")
    if rows:
        # One statement with a list for each column: a statement for each row takes minutes.
        lists = [list(column) for column in zip(*rows, strict=True)]
        marks = ", ".join("unnest(?)" for _ in lists)
        connection.execute(f"insert into {name} select {marks}", lists)


_NUMBER = r"^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?$"
_COMMA = r"^[+-]?[0-9]+(,[0-9]+)+(\.[0-9]*)?$"
_WHOLE = r"^[0-9]{1,9}$"
#: Units as people write them, to the form they are declared in: m³ is m3.
_UNIT = "translate(lower(r.unit), '²³', '23')"


def number_reason(column: str) -> str:
    """SQL: why a cell is not a number, null where it is one."""
    return (
        f"case when {column} = '' then 'is empty' "
        f"when regexp_matches({column}, '{_COMMA}') "
        "then 'has a comma; decimals take a point, thousands no mark' "
        f"when not regexp_matches({column}, '{_NUMBER}') then 'is not a number' end"
    )


def fraction(column: str) -> str:
    """SQL: whether a percentage may be meant as a fraction, as woodref.written.maybe_fraction."""
    return f"({column} > 0 and {column} < 1)"


def fraction_reason(column: str) -> str:
    """SQL: what to ask of such a percentage."""
    return (
        f"format('may mean {{0:.4g}} % or {{1:.4g}} %; write {{1:.4g}}', {column}, 100 * {column})"
    )


def judge_measurements(
    connection: duckdb.DuckDBPyConnection, table: OwnTable, reference: Reference
) -> str:
    """Make the table ``judged``: line, at_fault, reason, and what a good row holds.

    Returns: the query of the good rows, without origin, day, file and batch.
    """
    names = [r[0] for r in connection.execute("select distinct species from raw").fetchall()]
    by_name = _species(reference, names)
    look_up(
        connection,
        "woods",
        "name varchar, species_id varchar, why varchar",
        [(n, s, w) for n, (s, w) in by_name.items()],
    )
    look_up(
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
    look_up(
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
        f"  u.factor, {number_reason('r.value')} as no_number, "
        "  try_cast(r.value as double) as number, "
        "  case when r.moisture_content_pct <> '' then "
        f"   {number_reason('r.moisture_content_pct')} end as no_moisture, "
        "  try_cast(nullif(r.moisture_content_pct, '') as double) as moisture_pct, "
        f"  r.sample_size <> '' and not (regexp_matches(r.sample_size, '{_WHOLE}') "
        "   and try_cast(r.sample_size as bigint) > 0) as no_count, "
        "  r.date <> '' and try_strptime(r.date, '%Y-%m-%d') is null as no_date "
        " from r left join woods w on w.name = r.species "
        " left join props p on p.word = lower(r.property) "
        " left join units u on u.property_id = p.property_id "
        f"  and u.unit = {_UNIT}) "
        "select *, number * factor as si, "
        " case when why <> '' then 'species' when property_id is null then 'property' "
        "  when no_number is not null then 'value' when factor is null then 'unit' "
        "  when not list_contains(string_split(conditions, '|'), state) then 'condition' "
        f"  when no_moisture is not null or moisture_pct < 0 or {fraction('moisture_pct')} "
        f"   or moisture_pct > {_MOISTURE_LIMIT} or (moisture and moisture_pct is null) "
        "   then 'moisture_content_pct' "
        "  when not (number * factor between low and high) then 'value' "
        "  when no_count then 'sample_size' when no_date then 'date' end as at_fault, "
        " case when why <> '' then why "
        "  when property_id is null then 'is no property of the dataset' "
        "  when no_number is not null then no_number "
        "  when factor is null then 'is not a unit of this property' "
        "  when not list_contains(string_split(conditions, '|'), state) "
        "   then 'is not a condition of this property; use ' || replace(conditions, '|', ' or ') "
        "  when no_moisture is not null then no_moisture "
        "  when moisture and moisture_pct is null then 'is needed for this property' "
        f"  when {fraction('moisture_pct')} then {fraction_reason('moisture_pct')} "
        f"  when moisture_pct < 0 or moisture_pct > {_MOISTURE_LIMIT} "
        f"   then 'must be 0 to {_MOISTURE_LIMIT:g} %' "
        "  when not (number * factor between low and high) then format('is outside {:.4g} to "
        "{:.4g} {}, the limits of physical sense', low / factor, high / factor, unit) "
        "  when no_count then 'is not a count of boards; write 1 or more, or leave it empty' "
        "  when no_date then 'is not a date; write it as 2026-03-31' end as reason from j"
    )
    return (
        "select line, species_id, species, property_id, state as condition, "
        "moisture_pct as moisture_content_pct, try_cast(nullif(sample_size, '') as bigint) as "
        "sample_size, si as value, value as printed_value, unit as printed_unit, "
        "nullif(date, '') as measured, note "
        "from judged where reason is null"
    )
