"""Judge months of places of the shop's own in DuckDB: twelve months, or two seasons, or none."""

from __future__ import annotations

import duckdb

from woodref.climate.seasons import MONTH_NAMES
from woodref.errors import InputError
from woodref.own.judge import fraction, fraction_reason, look_up, number_reason
from woodref.own.tables import OwnTable
from woodref.reference.overlay import BETWEEN
from woodref.reference.places import COLDEST_C, HOTTEST_C
from woodref.written import parse_temperature

#: Words for the depth of the two seasons, as a month of their own: winter 101, summer 107.
SEASONS = {"winter": 101, "summer": 107}
#: Where a place lies, for the months of its two seasons; a place that does not say is northern.
HEMISPHERES = ("north", "south")
#: Rows of one place in any spelling of its name.
_PLACE = "lower(place)"


def _air(connection: duckdb.DuckDBPyConnection) -> None:
    """The table ``air``: each temperature in degC, or why it is none."""
    rows: list[tuple[object, ...]] = []
    for (text,) in connection.execute("select distinct temperature from raw").fetchall():
        celsius, why = None, None
        try:
            celsius = parse_temperature(text, "C")
            if not COLDEST_C <= celsius <= HOTTEST_C:
                why = (
                    f"must be {COLDEST_C:g} to {HOTTEST_C:g} C (-76 to 140 F) as the mean of a "
                    "month; check the unit"
                )
        except InputError as error:
            why = str(error)
        rows.append((text, celsius, why))
    look_up(connection, "air", "text varchar, celsius double, why varchar", rows)


def _months(connection: duckdb.DuckDBPyConnection) -> None:
    """The tables ``months`` of words for a month, and ``calendar`` of its names."""
    words = {str(n): n for n in range(1, 13)} | {f"0{n}": n for n in range(1, 10)} | SEASONS
    for n, name in enumerate(MONTH_NAMES, 1):
        words |= {name.lower(): n, name[:3].lower(): n}
    look_up(connection, "months", "word varchar, number bigint", list(words.items()))
    names = list(enumerate(MONTH_NAMES, 1))
    look_up(connection, "calendar", "number bigint, name varchar", list(names))


def _quoted(words: tuple[str, ...]) -> str:
    return ", ".join(f"'{word}'" for word in words)


def judge_places(connection: duckdb.DuckDBPyConnection, table: OwnTable) -> str:
    """Make ``judged`` from ``raw``: line, at_fault and reason of each month of a place.

    A place is kept whole or not at all: twelve months, or winter and summer. Winter is in January
    where no row of the place says that it lies in the south.

    Returns: the query of the months to store, without origin, day, file and batch; between
    two seasons they follow a cosine from January to July, as in seasons.two_seasons.
    """
    _air(connection)
    _months(connection)
    optional = ", ".join(c if c in table.header else f"'' as {c}" for c in ("hemisphere", "note"))
    # 1: each row by itself; 2: what its place lacks; 3: a place with any fault is at fault.
    connection.execute(
        "create table alone as select r.*, m.number as month_number, a.celsius, a.why, "
        f"{number_reason('r.humidity_pct')} as no_number, "
        "try_cast(r.humidity_pct as double) as humidity, "
        "lower(r.hemisphere) as half, "
        f"count(*) over (partition by {_PLACE}, m.number) as same, "
        f"count(distinct nullif(lower(r.hemisphere), '')) over (partition by {_PLACE}) as halves "
        f"from (select line, place, month, temperature, humidity_pct, {optional} from raw) r "
        "left join months m on m.word = lower(r.month) left join air a on a.text = r.temperature"
    )
    connection.execute(
        "create table lacking as with given as "
        f"(select {_PLACE} as key, list(distinct month_number) as months from alone "
        "where month_number is not null group by all) "
        "select key, case when len(list_intersect(months, [101, 107])) > 0 then "
        "  case when len(list_filter(months, lambda m: m < 100)) > 0 "
        "    then 'the place mixes months with winter and summer; give one or the other' "
        "   when len(months) < 2 then 'the place needs winter and summer both' end "
        " when len(months) < 12 then 'the place lacks ' || (select string_agg(name, ', ' order by "
        "  number) from calendar where not list_contains(months, number)) "
        "  || '; give all twelve months' end as lack from given"
    )
    connection.execute(
        "create table judged as with j as (select alone.*, lack, case when place = '' then 'place' "
        " when month_number is null or same > 1 then 'month' when why is not null "
        " then 'temperature' when no_number is not null or humidity < 0 or humidity > 100 "
        f" or {fraction('humidity')} "
        f" then 'humidity_pct' when half not in ('', {_quoted(HEMISPHERES)}) or halves > 1 "
        " then 'hemisphere' when lack is not null then 'month' end as column_at_fault, "
        "case when place = '' then 'is empty' when month_number is null "
        "  then 'is not a month; write 1 to 12, a name such as Jan, or winter and summer' "
        " when same > 1 then 'is there more than once for this place' "
        " when why is not null then why when no_number is not null then no_number "
        " when humidity < 0 or humidity > 100 then 'must be 0 to 100 %' "
        f" when {fraction('humidity')} then {fraction_reason('humidity')} "
        f" when half not in ('', {_quoted(HEMISPHERES)}) then 'must be {' or '.join(HEMISPHERES)}' "
        " when halves > 1 then 'a place lies in one hemisphere; its rows name two' "
        " else lack end as fault "
        f"from alone left join lacking on key = {_PLACE}) "
        "select *, coalesce(column_at_fault, case when spoilt then 'place' end) as at_fault, "
        "coalesce(fault, case when spoilt then 'another row of this place is at fault; a place is "
        "kept whole or not at all' end) as reason "
        f"from (select *, bool_or(fault is not null) over (partition by {_PLACE}) as spoilt from j)"
    )
    return (
        "with good as (select * from judged where reason is null), "
        "pairs as (select w.line, w.place, w.note, n, "
        " (1 - cos(2 * pi() * (n + if('south' in (w.half, s.half), 6, 0)) / 12)) / 2 as share, "
        " w.celsius as t0, s.celsius as t1, w.humidity as h0, s.humidity as h1 "
        " from good w join good s on lower(s.place) = lower(w.place) and w.month_number = 101 "
        " and s.month_number = 107 cross join range(12) as months(n)) "
        "select line, first_value(place) over (partition by lower(place) order by line) as place, "
        "month_number as month, celsius as temperature_c, humidity as relative_humidity_pct, note "
        "from good where month_number < 100 "
        "union all select line, place, n + 1, t0 + (t1 - t0) * share, h0 + (h1 - h0) * share, "
        f"concat_ws('; ', '{BETWEEN}', nullif(note, '')) from pairs"
    )
