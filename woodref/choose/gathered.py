"""The figures of the woods, printed, implied, estimated and the shop's own, gathered in SQL.

What is computed of many woods at once stands on these: the woods to choose from, and the
coefficients that a catalog is computed with.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isfinite
from typing import Any

import duckdb

from woodref.board.movement_basis import MovementMethod
from woodref.formulas.shrinkage import (
    COEFFICIENT_GOVERNS_SHARE,
    coefficient_off_shrinkage,
    shrinkage_of_coefficient,
)
from woodref.reference.bases import IMPLIED, OWN, SECOND_HAND, UNCHECKED
from woodref.reference.densities import DENSITY_CLASSES, OTHER_DENSITIES, Printed, stand_ins
from woodref.reference.fiber_saturation import GENERAL_PCT
from woodref.reference.library import Reference, Values
from woodref.reference.overlay import own_values, present, read_own
from woodref.reference.properties import PROPERTIES, wide_columns
from woodref.reference.woods import Value

#: SQL: whether a figure is the middle of a printed range, as Value.is_midpoint.
MIDPOINT = "coalesce(abs(2.0 * m.value - m.value_low - m.value_high) < 1e-9 * m.value, false)"
#: The table of the figures on the connection.
FIGURES = "figures"
#: The tables of the dataset that the figures of woods are gathered from.
GATHERED_FROM = ("species", "measurements", "implied", "estimates", "shrinkage_relations")
#: Standard deviation of a printed or estimated figure of a single board: between boards, of the
#: mean itself, and of a printed range.
_BOARDS = "(cv / 100.0 * value) ** 2 + coalesce(uncertainty, 0.0) ** 2"


def own_values_of(reference: Reference) -> Values:
    """The shop's own figures of every wood it has any of."""
    files = present("measurements")
    if not files:
        return {}
    rows = read_own(reference.store, files, "select distinct species_id from {own}")
    return own_values(reference.store, [r["species_id"] for r in rows], texts=False)


def _own_rows(own: Values) -> list[tuple[Any, ...]]:
    """The shop's own figures as rows of ``figures``."""
    names = {(p, c): column for p, c, column in wide_columns()}
    return [
        (species_id, names[key], v.value, v.sd, v.basis, v.source_id)
        for species_id, values in own.items()
        for key, v in values.items()
        if key in names
    ]


def _own_densities(own: Values) -> list[tuple[str, float, float, float]]:
    """Own densities that go before any printed one: species, gravity, its moisture, spread.

    As in a look-up, of woods without an own basic specific gravity.
    """
    return [
        (species_id, *best)
        for species_id, values in own.items()
        if ("basic_specific_gravity", "green") not in values
        and (best := _first_density(v for v in values.values() if v.property_id in OTHER_DENSITIES))
    ]


def _first_density(values: Iterable[Value]) -> tuple[float, float, float] | None:
    """Specific gravity, moisture content [%] and coefficient of variation of the best density."""
    known = list(values)
    figures = [Printed(v.property_id, v.value, v.moisture_content_pct, v.sample) for v in known]
    for best in stand_ins(figures):
        used = known[best.which]
        return best.gravity, best.moisture_pct, (used.sd or 0.0) / used.value
    return None


def table_of(
    connection: duckdb.DuckDBPyConnection,
    table: str,
    types: Mapping[str, str],
    rows: list[tuple[Any, ...]],
    temporary: str = "",
) -> None:
    """Make a table of rows; types by the names of its columns; temporary 'temp' for one that is."""
    columns = ", ".join(f"unnest(?::{t}[]) as {name}" for name, t in types.items())
    held = [list(c) for c in zip(*rows, strict=True)] or [[] for _ in types]
    connection.execute(f"create {temporary} table {table} as select {columns}", held)


def make_figures(connection: duckdb.DuckDBPyConnection, own: Values) -> None:
    """Make the table FIGURES: one row per figure of a wood, with its spread and its basis."""
    table_of(
        connection,
        "offered",
        dict.fromkeys(("property_id", "condition", "name"), "varchar") | {"cv": "double"},
        [(p, c, column, PROPERTIES[p].cv_pct) for p, c, column in wide_columns()],
    )
    table_of(
        connection,
        "own_densities",
        {"species_id": "varchar"}
        | dict.fromkeys(("own_gravity", "own_moisture_pct", "own_cv"), "double"),
        _own_densities(own),
    )
    connection.execute(
        f"create table {FIGURES} as select species_id, name, value, "
        f"sqrt({_BOARDS} + coalesce(value_high - value_low, 0.0) ** 2 / 12.0) as sd, basis, "
        "source_id, false as estimated, "
        f"{MIDPOINT} as is_midpoint "
        "from measurements m join offered using (property_id, condition) where preferred"
    )
    connection.execute(
        f"insert into {FIGURES} select species_id, name, value, sqrt({_BOARDS}), "
        f"'{IMPLIED}', '', false, false from implied join offered using (property_id, condition) "
        "where property_id = 'basic_specific_gravity'"
    )
    connection.execute(
        f"insert into {FIGURES} select species_id, name, value, sqrt({_BOARDS}), basis, '', true, "
        "false from estimates join offered using (property_id, condition)"
    )
    table_of(
        connection,
        "own_figures",
        {"species_id": "varchar", "name": "varchar", "value": "double", "sd": "double"}
        | {"basis": "varchar", "source_id": "varchar"},
        _own_rows(own),
    )
    connection.execute(
        f"delete from {FIGURES} where (species_id, name) in "
        "(select species_id, name from own_figures)"
    )
    connection.execute(f"insert into {FIGURES} select *, false, false from own_figures")


def _general_points() -> str:
    """The general fiber saturation point of either region as cases."""
    return " ".join(f"when '{region}' then {pct}" for region, pct in GENERAL_PCT.items())


def _pair_sql() -> list[str]:
    """The helpers of figures that are used as a pair, null where the other is not known.

    A change per 1 % is used as a pair of one publication alone, as in a look-up.
    """
    change = "change_per_pct_{}_pct_per_pct"
    coefficient = "dimensional_change_coefficient_{}_per_pct"
    shrinkage = "shrinkage_{}_pct"
    columns = []
    for d, here, there in (("t", "tangential", "radial"), ("r", "radial", "tangential")):
        for helper, column, holds in (
            ("pair", shrinkage, f"{shrinkage.format(there)} is not null"),
            ("only_coefficient", coefficient, f"{coefficient.format(there)} is not null"),
            ("change", change, "one_source"),
        ):
            name = column.format(here)
            columns.append(f"case when {holds} then {name} end as {helper}_{d}")
            columns.append(f"case when {holds} then wide.sds['{name}'] end as {helper}_{d}_sd")
        # What the shop has measured of shrinkage goes before a printed coefficient.
        columns.append(
            f"case when {shrinkage.format(here)} is not null and not own_shrinkage "
            f"then {coefficient.format(here)} end as coefficient_{d}"
        )
    return columns


def _estimated_pair_sql() -> list[str]:
    """Shrinkages along and across the rings as shares of the volumetric one, with their spread.

    For a wood without the pair in print: as woodref.reference.estimated.estimated_shrinkage.
    """
    cv = (PROPERTIES["shrinkage_volumetric"].cv_pct or 0.0) / 100.0
    of_line = " ".join(
        f"when basic_specific_gravity < {below!r} then residual_sd_{name}_pct"
        for name, below in DENSITY_CLASSES.items()
        if isfinite(below)
    )
    last = list(DENSITY_CLASSES)[-1]
    columns = [
        f"case when implied_volumetric is not null then implied_uncertainty else sqrt(pow(case "
        f"{of_line} else residual_sd_{last}_pct end, 2) + pow(case when basic_specific_gravity "
        "< greatest_gravity then slope_pct else 0.0 end "
        "* coalesce(wide.sds['basic_specific_gravity'], 0.0), 2)) end as volume_estimate_sd",
        "case when shrinkage_volumetric_pct is not null "
        "then wide.sds['shrinkage_volumetric_pct'] "
        f"else sqrt(pow({cv!r} * volume, 2) + pow(volume_estimate_sd, 2)) end as volume_sd",
    ]
    for d, name in (("t", "tangential"), ("r", "radial")):
        share, sd = f"{name}_share", f"{name}_share_sd"
        known = f"basic_specific_gravity is not null and pair_{d} is null"
        columns.append(f"case when {known} then {share} * volume end as share_{d}")
        columns.append(
            f"case when {known} then sqrt(pow({share} * volume_sd, 2) + pow({sd} * volume, 2)) "
            f"end as share_{d}_sd"
        )
    return columns


def figures_sql() -> str:
    """The figures of a wood in one row, as parts of a WITH: wide, turned_back, implied_shrinkage.

    On a connection that make_figures prepared.
    """
    pivot = ", ".join(f"max(value) filter (name = '{c}') as {c}" for _, _, c in wide_columns())
    return f"""
    wide as (
        select species_id, {pivot},
            map_from_entries(list((name, sd) order by name) filter (sd is not null)) as sds,
            map_from_entries(list((name, basis) order by name)) as bases,
            list(name order by name) filter (basis = '{UNCHECKED}') as unchecked_figures,
            list(name order by name) filter (estimated) as estimated_figures,
            list(name order by name) filter (estimated or is_midpoint or basis = '{SECOND_HAND}')
                as rough_figures,
            max(basis) filter (name = 'basic_specific_gravity') as gravity_basis,
            bool_or(basis = '{OWN}' and starts_with(name, 'shrinkage_')) as own_shrinkage,
            max(source_id) filter (name = 'change_per_pct_tangential_pct_per_pct')
            = max(source_id) filter (name = 'change_per_pct_radial_pct_per_pct') as one_source
        from {FIGURES} group by species_id),
    turned_back as (
        select i.species_id, from_gravity, from_moisture_pct, m.basis as from_basis,
            m.basis = '{UNCHECKED}' as unsure,
            m.basis = '{SECOND_HAND}' or {MIDPOINT} as roughly
        from implied i left join measurements m on m.measurement_id = i.computed_from
        where i.property_id = 'basic_specific_gravity'),
    implied_shrinkage as (
        select species_id, value as implied_volumetric,
            coalesce(uncertainty, 0.0) as implied_uncertainty from implied
        where property_id = 'shrinkage_volumetric')
    """


def movement_figures_sql() -> str:
    """The columns that density and movement are computed from, of the woods as ``s``.

    Expects figures_sql, the rows of shrinkage_relations and own_densities joined to them.
    """
    # An own density goes before a printed gravity, as in a look-up.
    return f"""
        coalesce(s.fiber_saturation_pct, case s.shrinkage_relation {_general_points()} end)
            as point,
        {", ".join(_pair_sql())},
        case when own_gravity is null then basic_specific_gravity end as gravity,
        case when own_gravity is null
            then wide.sds['basic_specific_gravity'] / basic_specific_gravity
            else own_cv end as gravity_cv,
        coalesce(own_gravity, case when gravity_basis = '{IMPLIED}' then from_gravity end)
            as gravity_at,
        coalesce(own_moisture_pct, from_moisture_pct) as gravity_moisture,
        coalesce(shrinkage_volumetric_pct, pair_t + pair_r - pair_t * pair_r / 100.0,
            implied_volumetric, intercept_pct
            + slope_pct * least(basic_specific_gravity, greatest_gravity)) as volume,
        {", ".join(_estimated_pair_sql())}
    """


#: What movement is computed from in the order it is chosen in, the order of
#: woodref.board.movement_basis: the method, and the pair of columns that must be known.
_METHODS = {
    MovementMethod.SHRINKAGE: "pair",
    MovementMethod.CHANGE_PER_PCT: "change",
    MovementMethod.COEFFICIENT: "only_coefficient",
    MovementMethod.ESTIMATED: "share",
}


def chosen_movement_sql() -> str:
    """The figures a wood moves by, over the columns of movement_figures_sql.

    ``method`` a value of MovementMethod; ``moving_t``, ``moving_r`` shrinkage [%], or change per
    1 % [%/%], along and across the rings, and their standard deviations ``moving_t_sd`` and
    ``moving_r_sd``; null where print tells neither of the pairs. ``governing_t``,
    ``governing_r`` the printed coefficients that go before a printed shrinkage from 6 to 14 %
    [1/%], null where none does.
    """
    point = duckdb.ColumnExpression("point")
    methods = " ".join(
        f"when {pair}_t is not null and {pair}_r is not null then '{method.value}'"
        for method, pair in _METHODS.items()
    )
    columns = [f"case {methods} end as method"]
    for d in ("t", "r"):
        by_coefficient = shrinkage_of_coefficient(
            duckdb.ColumnExpression(f"only_coefficient_{d}"), point
        )
        figures = {m: (f"{pair}_{d}", f"{pair}_{d}_sd") for m, pair in _METHODS.items()}
        figures[MovementMethod.COEFFICIENT] = (
            f"{by_coefficient}",
            f"{by_coefficient} * only_coefficient_{d}_sd / only_coefficient_{d}",
        )
        for n, name in enumerate((f"moving_{d}", f"moving_{d}_sd")):
            cases = " ".join(f"when '{m.value}' then {f[n]}" for m, f in figures.items())
            columns.append(f"case method {cases} end as {name}")
        coefficient = duckdb.ColumnExpression(f"coefficient_{d}")
        off = coefficient_off_shrinkage(coefficient, duckdb.ColumnExpression(f"pair_{d}"), point)
        columns.append(
            f"case when method = '{MovementMethod.SHRINKAGE.value}' "
            f"and {off} > {COEFFICIENT_GOVERNS_SHARE} then coefficient_{d} end as governing_{d}"
        )
    return ", ".join(columns)
