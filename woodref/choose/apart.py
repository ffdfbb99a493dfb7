"""How far apart woods are in the work a use asks of them: SQL over all woods at once.

Each criterion of the profile is standardised over single boards of all woods, in logarithms
where it is a measured property, and weighted as the profile says; the distance is the root of
the weighted mean of squares, in standard deviations. A criterion one of the two is not known
in counts as one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import Any

import duckdb

from woodref.choose.candidates import FIGURES, TABLE
from woodref.choose.columns import PRICED
from woodref.choose.hurdles import Hurdle, nearest_sql
from woodref.choose.profile import Criterion, Profile
from woodref.errors import NoDataError
from woodref.reference.fields import SPECIES
from woodref.reference.woods import Wood

#: Share of the weights two woods must both be known in to be compared.
ENOUGH = 0.75
#: How far apart two woods count where one of them is not known [standard deviations]: about as
#: far as two woods taken at random.
UNKNOWN_APART = 1.0

#: What a wood must be known in to be a candidate at all.
_POOL = "tier in ('full', 'partial')"


@dataclass(frozen=True)
class Axis:
    """A criterion as a direction of the property space, standardised over all woods.

    ``share`` of the weights; ``log`` true where logarithms are standardised; ``sd`` of single
    boards of all woods, so that what boards hardly show hardly counts.
    """

    criterion: Criterion
    share: float
    log: bool
    sd: float

    def sql(self, value: str) -> str:
        """The SQL of a value, itself SQL, in standard deviations; null where it is not known."""
        scaled = f"ln({value})" if self.log else value
        return f"({scaled} / {self.sd!r})"


@dataclass(frozen=True)
class Left:
    """A wood left apart: too little is known, or a limit cannot be judged."""

    species_id: str
    common_name: str
    columns: tuple[str, ...]


@dataclass(frozen=True)
class Stopped:
    """How many woods a limit stops of those that come so far, and how many are left."""

    hurdle: Hurdle
    stopped: int
    left: int


def _is_log(criterion: Criterion) -> bool:
    """Measured properties spread as factors; classes, shares and truths as differences."""
    return criterion.column.type == "number" and not criterion.column.scale


def rows_of(connection: duckdb.DuckDBPyConnection, query: str) -> list[dict[str, Any]]:
    """The rows of a query as dicts by column."""
    cursor = connection.execute(query)
    names = [c[0] for c in cursor.description or ()]
    return [dict(zip(names, row, strict=True)) for row in cursor.fetchall()]


def axes_of(connection: duckdb.DuckDBPyConnection, profile: Profile) -> tuple[Axis, ...]:
    """Each criterion with the spread of all woods; prices are told apart and are no axis."""
    found = []
    for c, share in zip(profile.criteria, profile.weights, strict=True):
        if c.column.name in PRICED or not share:
            continue
        value = f"{c.column.name}::double"
        scaled = f"ln({value})" if _is_log(c) else value
        sd = connection.execute(
            f"select stddev_samp({scaled}) from {TABLE} where {value} > 0 or {not _is_log(c)}"
        ).fetchall()[0][0]
        if sd:
            boards = (c.column.cv_pct or 0.0) / 100.0 if _is_log(c) else 0.0
            found.append(Axis(c, share, _is_log(c), hypot(sd, boards)))
    return tuple(found)


def _value_sql(n: int, axis: Axis) -> tuple[str, str]:
    """(value and spread of single boards as v and s, the join they need) of the n-th axis."""
    column = axis.criterion.column
    value = f"c.{column.name}::double"
    if axis.log:
        value = f"case when {value} > 0 then {value} end"
    if column.name in SPECIES.columns:
        join = (
            f"left join {FIGURES} f{n} on f{n}.species_id = c.species_id "
            f"and f{n}.name = '{column.name}'"
        )
        return f"{value} as v{n}, coalesce(f{n}.sd, 0.0) as s{n}", join
    cv = (column.cv_pct or 0.0) / 100.0
    return f"{value} as v{n}, {cv!r} * {value} as s{n}", ""


def _valued(axes: Sequence[Axis]) -> str:
    pairs = [_value_sql(n, axis) for n, axis in enumerate(axes)]
    values = ", ".join(["c.*", *(value for value, _ in pairs)])
    return f"select {values} from {TABLE} c {' '.join(join for _, join in pairs)}"


def _quoted(wood: Wood) -> str:
    return ", ".join("'" + i.replace("'", "''") + "'" for i in wood.species_ids)


def target_of(
    connection: duckdb.DuckDBPyConnection, wood: Wood, axes: Sequence[Axis]
) -> dict[str, Any]:
    """The figures of the wood; of a group the means, with the spread between its members."""
    values = [
        f"avg(v{n}) as v{n}, sqrt(avg(s{n} * s{n}) + coalesce(var_samp(v{n}), 0.0)) as s{n}"
        for n in range(len(axes))
    ]
    told = [
        f"avg({name}) as {name}"
        for name in ("density_kg_m3", "seasonal_change_mm_per_300mm", *PRICED)
    ]
    recalled = "flatten(list(recalled)) as recalled, bool_or(controlled) as controlled"
    query = f"select {', '.join([*values, *told, recalled])} from ({_valued(axes)})"
    return rows_of(connection, f"{query} where species_id in ({_quoted(wood)})")[0]


def check_known(axes: Sequence[Axis], target: dict[str, Any], wood: Wood, profile: Profile) -> None:
    """Enough is known of the wood to compare it.

    Raises: NoDataError.
    """
    total = sum(a.share for a in axes)
    missing = [a for n, a in enumerate(axes) if target[f"v{n}"] is None]
    if not axes or total - sum(a.share for a in missing) < ENOUGH * total:
        labels = ", ".join(a.criterion.column.label for a in missing) or "properties"
        raise NoDataError(
            f"too little is known of {wood.common_name} to say what comes close for "
            f"{profile.title.lower()}: no table holds its {labels}"
        )


def judge(
    connection: duckdb.DuckDBPyConnection,
    axes: Sequence[Axis],
    target: dict[str, Any],
    hurdles: Sequence[Hurdle],
    wood: Wood,
) -> None:
    """The table judged: every wood with its distance in work, what it lacks and what it passes."""
    squares, weights, lacking = [], [], []
    for n, axis in enumerate(axes):
        value = target[f"v{n}"]
        first = "null" if value is None else axis.sql(repr(float(value)))
        apart = f"{axis.sql(f'v{n}')} - {first}"
        squares.append(f"{axis.share!r} * coalesce(({apart}) ** 2, {UNKNOWN_APART**2!r})")
        weights.append(f"case when {apart} is null then 0.0 else {axis.share!r} end")
        lacking.append(f"case when {apart} is null then '{axis.criterion.column.name}' end")
    known, total = " + ".join(weights), sum(a.share for a in axes)
    passes = "".join(f", {h.sql} as h{n}" for n, h in enumerate(hurdles))
    connection.execute(
        "create temp table judged as select *, "
        f"case when known >= {ENOUGH * total!r} then sqrt(squares / {total!r}) end as in_work, "
        "-in_work as score from ("
        f"select *, {' + '.join(squares)} as squares, {known} as known, "
        f"list_filter([{', '.join(lacking)}], lambda x: x is not null) as lacking, "
        f"species_id in ({_quoted(wood)}) as is_first{passes} from ({_valued(axes)})) "
        f"where {_POOL} or is_first"
    )


def count_of(connection: duckdb.DuckDBPyConnection, condition: str) -> int:
    """How many of the judged woods a condition, itself SQL, holds for."""
    query = f"select count(*) from judged where {condition}"
    return int(connection.execute(query).fetchall()[0][0])


def stops_of(
    connection: duckdb.DuckDBPyConnection, hurdles: Sequence[Hurdle]
) -> tuple[Stopped, ...]:
    """What each limit stops of the woods known well enough, in order."""
    let = ["not is_first", "in_work is not null"]
    before, found = count_of(connection, " and ".join(let)), []
    for n, hurdle in enumerate(hurdles):
        let.append(f"h{n}")
        left = count_of(connection, " and ".join(let))
        found.append(Stopped(hurdle, before - left, left))
        before = left
    return tuple(found)


def left_apart(
    connection: duckdb.DuckDBPyConnection, hurdles: Sequence[Hurdle]
) -> tuple[Left, ...]:
    """Woods no limit stops for sure, of which too little is known."""
    sure = " and ".join(["not is_first", *(f"h{n} is distinct from false" for n in _n(hurdles))])
    unknown = " or ".join(["in_work is null", *(f"h{n} is null" for n in _n(hurdles))])
    rows = rows_of(
        connection, f"select * from judged where {sure} and ({unknown}) order by common_name"
    )
    return tuple(
        Left(
            r["species_id"],
            r["common_name"],
            tuple(
                dict.fromkeys(
                    [
                        *(r["lacking"] if r["in_work"] is None else ()),
                        *(h.needed or h.text for n, h in enumerate(hurdles) if r[f"h{n}"] is None),
                    ]
                )
            ),
        )
        for r in rows
    )


def _n(items: Sequence[object]) -> range:
    return range(len(items))


def why_empty(
    connection: duckdb.DuckDBPyConnection,
    wood: Wood,
    profile: Profile,
    hurdles: Sequence[Hurdle],
    stops: Sequence[Stopped],
    left: Sequence[Left],
) -> str:
    """One line: which limit let no wood through, and the wood that came nearest."""
    lead = f"nothing can stand in for {wood.common_name} as {profile.title.lower()}"
    emptied = next((n for n, s in enumerate(stops) if not s.left), None)
    if emptied is None:
        return f"{lead}: too little is known of {len(left)} other woods"
    hurdle, known = hurdles[emptied], "not is_first and in_work is not null"
    for others in (set(_n(hurdles)) - {emptied}, set(range(emptied))):
        passed = " and ".join([known, f"not h{emptied}", *(f"h{n}" for n in sorted(others))])
        rows = rows_of(
            connection,
            f"select * from judged where {passed} order by {nearest_sql(hurdle)} limit 1",
        )
        if rows:
            break
    else:
        return f"{lead}: '{hurdle.text}' is not known of any"
    near, column = rows[0], hurdle.column
    miss = (
        f"nearest miss: {near['common_name']} ({column.name} {near[column.name]:.6g})"
        if column
        else f"the closest without it is {near['common_name']}"
    )
    return f"{lead}: '{hurdle.text}' stops the last {stops[emptied].stopped}; {miss}"
