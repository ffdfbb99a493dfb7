"""How far apart woods are in the work a use asks of them: SQL over all woods at once.

Each criterion of the profile is standardised over single boards of all woods, in logarithms
where it is a measured property, and weighted as the profile says; the distance is the root of
the weighted mean of squares, in standard deviations. A criterion one of the two is not known
in counts as one.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot
from typing import Any

import duckdb

from woodref.choose.candidates import KNOWN, moved_sql
from woodref.choose.columns import COLUMNS, PRICED, Marked, valued_sql
from woodref.choose.profile import Criterion, Profile
from woodref.choose.screening import WELL_KNOWN, rows_of
from woodref.choose.seasonal_range import SeasonalRange
from woodref.errors import NoDataError
from woodref.record import record
from woodref.reference.store import literal
from woodref.reference.woods import Wood

#: Share of the weights two woods must both be known in to be compared.
ENOUGH = 0.75
#: How far apart two woods count where one of them is not known [standard deviations]: about as
#: far as two woods taken at random.
UNKNOWN_DISTANCE = 1.0


@record
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


def axes_of(
    connection: duckdb.DuckDBPyConnection, profile: Profile, seasonal_range: SeasonalRange
) -> tuple[Axis, ...]:
    """Each criterion with the spread of all woods; prices are told apart and are no axis."""
    criteria = [
        (c, share)
        for c, share in zip(profile.criteria, profile.weights, strict=True)
        if share and not c.column.priced
    ]
    if not criteria:
        return ()
    # Measured properties spread as factors; classes, shares and truths as differences.
    spreads = []
    for c, _ in criteria:
        value = f"{c.column.name}::double"
        spreads.append(
            f"stddev_samp(ln({value})) filter (where {value} > 0)"
            if c.column.is_measured
            else f"stddev_samp({value})"
        )
    sds = connection.execute(
        f"select {', '.join(spreads)} from ({moved_sql(seasonal_range)})"
    ).fetchall()[0]
    axes = []
    for (c, share), sd in zip(criteria, sds, strict=True):
        if sd:
            log = c.column.is_measured
            boards = (c.column.cv_pct or 0.0) / 100.0 if log else 0.0
            axes.append(Axis(c, share, log, hypot(sd, boards)))
    return tuple(axes)


def _valued(axes: Sequence[Axis]) -> str:
    """A query of the woods with value and spread of each axis; no logarithm of 0 or less."""
    columns = [
        valued_sql(n, a.criterion.column, "> 0" if a.log else "") for n, a in enumerate(axes)
    ]
    return f"select {', '.join(['*', *columns])} from {KNOWN}"


def _quoted(wood: Wood) -> str:
    return ", ".join(map(literal, wood.species_ids))


def target_of(
    connection: duckdb.DuckDBPyConnection, wood: Wood, axes: Sequence[Axis]
) -> dict[str, Any]:
    """The figures of the wood; of a group the means, with the spread between its members.

    As in a look-up of the group, members of which a figure is estimated count where it is
    printed of none. ``marked`` says by column how sure it is, of a group of any of its members.
    """
    values = [_pooled(n, axis) for n, axis in enumerate(axes)]
    told = [
        f"avg({name}) as {name}"
        for name in ("density_kg_m3", "seasonal_change_mm_per_300mm", *PRICED)
    ]
    rest = "flatten(list(unchecked)) as unchecked, flatten(list(estimated)) as estimated, "
    rest += "bool_or(controlled) as controlled"
    query = f"select {', '.join([*values, *told, rest])} from ({_valued(axes)})"
    where = f"where species_id in ({_quoted(wood)})"
    target = rows_of(connection, f"{query} {where}")[0]
    members = rows_of(connection, f"select * from {KNOWN} {where}")
    target["marked"] = {
        name: Marked.of(column.marked(row) for row in members) for name, column in COLUMNS.items()
    }
    return target


def _pooled(n: int, axis: Axis) -> str:
    """Mean and spread of the n-th axis over the members of a group, those printed first."""
    name = axis.criterion.column.name
    means, spreads = [], []
    for which in (f" filter (not list_contains(estimated, '{name}'))", ""):
        between = f"coalesce(var_samp(v{n}){which}, 0.0)"
        means.append(f"avg(v{n}){which}")
        spreads.append(f"sqrt(avg(s{n} * s{n}){which} + {between})")
    return f"coalesce({', '.join(means)}) as v{n}, coalesce({', '.join(spreads)}) as s{n}"


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


def judged_sql(axes: Sequence[Axis], target: dict[str, Any], wood: Wood) -> str:
    """A query of the woods, each with its distance in work from one and what it lacks.

    ``in_work`` is null where too little is known, ``score`` its negative; ``is_first`` true of
    the wood itself, or of the members of a group; ``lacking`` the criteria that cannot be
    compared; ``v0``, ``s0`` value and spread of the first axis, and so on.
    """
    squares, weights, lacking = [], [], []
    for n, axis in enumerate(axes):
        value = target[f"v{n}"]
        first = "null" if value is None else axis.sql(repr(float(value)))
        distance = f"{axis.sql(f'v{n}')} - {first}"
        squares.append(f"{axis.share!r} * coalesce(({distance}) ** 2, {UNKNOWN_DISTANCE**2!r})")
        weights.append(f"case when {distance} is null then 0.0 else {axis.share!r} end")
        lacking.append(f"case when {distance} is null then '{axis.criterion.column.name}' end")
    known, total = " + ".join(weights), sum(a.share for a in axes)
    return (
        "select *, "
        f"case when known >= {ENOUGH * total!r} then sqrt(squares / {total!r}) end as in_work, "
        "-in_work as score from ("
        f"select *, {' + '.join(squares)} as squares, {known} as known, "
        f"list_filter([{', '.join(lacking)}], lambda x: x is not null) as lacking, "
        f"species_id in ({_quoted(wood)}) as is_first from ({_valued(axes)})) "
        f"where {WELL_KNOWN} or is_first"
    )
