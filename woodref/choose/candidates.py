"""The table of woods to choose from, filled in DuckDB: one row per wood, every column of COLUMNS.

Nothing here loops over woods: printed figures, the shop's own, classes, trade controls and
prices are joined in SQL, and what is computed runs the formulas of woodref.formulas on columns.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import duckdb

from woodref.choose.columns import CHANGE_WIDTH_MM, COLUMNS, RATED, ChoiceColumn
from woodref.choose.overview import AIR_DRY_PCT
from woodref.choose.seasonal_range import SeasonalRange
from woodref.formulas.density import (
    basic_specific_gravity_from,
    density_at,
    specific_gravity_at,
    specific_gravity_at_general,
)
from woodref.formulas.shrinkage import (
    share_of_green_size_on_curve,
    shrinkage_at_ring_angle,
    shrinkage_of_coefficient,
    size_at,
    size_by_change_per_pct,
)
from woodref.reference.bases import IMPLIED, OWN, UNCHECKED
from woodref.reference.fiber_saturation import GENERAL_PCT
from woodref.reference.library import Reference
from woodref.reference.overlay import own_values, present, read_own
from woodref.reference.properties import PROPERTIES, wide_columns
from woodref.reference.query import locked_connection
from woodref.units import BOARD_FOOT_M3

#: Condition of a class printed for wood of young growth.
_YOUNG = "young growth"
#: Columns that only serve to compute others.
_HELPERS = [
    "pair_t",
    "pair_r",
    "point",
    "coefficient_t",
    "coefficient_r",
    "only_coefficient_t",
    "only_coefficient_r",
    "change_t",
    "change_r",
    "gravity",
    "volume",
    "gravity_at",
    "gravity_moisture",
]
#: The table's name on the connection, and that of the figures behind it.
TABLE, FIGURES = "candidates", "figures"
_DENSITIES = ("specific_gravity_12pct", "density_12pct_kg_m3", "density_air_dry_kg_m3")
_IDENTITY = tuple(c.name for c in COLUMNS.values() if c.type == "text" and c.of_species)


def candidates_connection(
    reference: Reference,
    seasonal_range: SeasonalRange | None = None,
    prices_per_m3: Mapping[str, float] | None = None,
) -> duckdb.DuckDBPyConnection:
    """A locked connection that holds the tables ``candidates`` and ``figures`` in memory.

    ``candidates`` has one row per wood and the columns of COLUMNS, and ``unchecked``, the names
    of those of its columns that are recalled. ``figures`` has one row per printed or own
    figure: species_id, name of the column, value, sd, basis.

    Parameters: reference library, whose own figures go before printed ones where it uses them;
    seasonal_range, by default a year between 6 and 10 %; prices_per_m3 by species_id, none
    where there is no price list.
    """
    own = _own_rows(reference) if reference.uses_own else []

    def prepare(connection: duckdb.DuckDBPyConnection) -> None:
        _make_figures(connection, own)
        _make_candidates(connection, seasonal_range or SeasonalRange(), prices_per_m3 or {})

    return locked_connection(reference.store.folder, prepare)


def _own_rows(reference: Reference) -> list[tuple[Any, ...]]:
    """The shop's own figures as rows of ``figures``."""
    path = present("measurements")
    if path is None:
        return []
    names = {(p, c): column for p, c, column in wide_columns()}
    ids = [
        r["species_id"]
        for r in read_own(reference.store, path, "select distinct species_id from {own}")
    ]
    return [
        (species_id, names[key], v.value, v.sd, v.basis, v.source_id)
        for species_id, values in own_values(reference.store, ids).items()
        for key, v in values.items()
        if key in names
    ]


def _columns_of(rows: list[tuple[Any, ...]], width: int) -> list[list[Any]]:
    return [list(c) for c in zip(*rows, strict=True)] or [[] for _ in range(width)]


def _make_figures(connection: duckdb.DuckDBPyConnection, own: list[tuple[Any, ...]]) -> None:
    known = [(p, c, column, PROPERTIES[p].cv_pct) for p, c, column in wide_columns()]
    connection.execute(
        "create temp table offered as select unnest(?::varchar[]) as property_id, "
        "unnest(?::varchar[]) as condition, unnest(?::varchar[]) as name, "
        "unnest(?::double[]) as cv",
        _columns_of(known, 4),
    )
    connection.execute(
        f"create table {FIGURES} as select species_id, name, value, "
        "sqrt((cv / 100.0 * value) ** 2 + coalesce(uncertainty, 0.0) ** 2 "
        "+ coalesce(value_high - value_low, 0.0) ** 2 / 12.0) as sd, basis, source_id, "
        "false as estimated "
        "from measurements join offered using (property_id, condition) where preferred"
    )
    connection.execute(
        f"insert into {FIGURES} select species_id, name, value, "
        "sqrt((cv / 100.0 * value) ** 2 + coalesce(uncertainty, 0.0) ** 2), "
        f"'{IMPLIED}', '', false from implied join offered using (property_id, condition) "
        "where property_id = 'basic_specific_gravity'"
    )
    connection.execute(
        f"insert into {FIGURES} select species_id, name, value, "
        "sqrt((cv / 100.0 * value) ** 2 + coalesce(uncertainty, 0.0) ** 2), basis, '', true "
        "from estimates join offered using (property_id, condition)"
    )
    if own:
        connection.execute(
            "create temp table own_figures as select unnest(?::varchar[]) as species_id, "
            "unnest(?::varchar[]) as name, unnest(?::double[]) as value, "
            "unnest(?::double[]) as sd, unnest(?::varchar[]) as basis, "
            "unnest(?::varchar[]) as source_id",
            _columns_of(own, 6),
        )
        connection.execute(
            f"delete from {FIGURES} where (species_id, name) in "
            "(select species_id, name from own_figures)"
        )
        connection.execute(f"insert into {FIGURES} select *, false from own_figures")


def _rated_sql(column: ChoiceColumn) -> str:
    """The class or share of a scale as an aggregate over the ratings of a wood.

    Of two classes printed for one wood the poorer holds, of two shares the mean; a class of wood
    of young growth holds only where print has no other.
    """
    here = f"filter (starts_with(scale, '{column.scale}'))"
    if column.type == "text":
        return f"string_agg(distinct class, ' or ' order by class) {here} as {column.name}"
    if not column.classes:
        return f"avg(share_pct) {here} as {column.name}"
    cases = " ".join(f"when '{c}' then {n}" for c, n in column.classes.items())
    number = f"{column.worst}(case class {cases} end) {here}"
    return f"{number} {'= 1' if column.type == 'boolean' else ''} as {column.name}"


def _general_points() -> str:
    """The general fiber saturation point of either region as cases."""
    return " ".join(f"when '{region}' then {pct}" for region, pct in GENERAL_PCT.items())


def _wide_sql() -> str:
    pivot = ", ".join(f"max(value) filter (name = '{c}') as {c}" for _, _, c in wide_columns())
    rated = ", ".join(_rated_sql(c) for c in RATED)
    scale = " ".join(f"when starts_with(scale, '{c.scale}') then '{c.name}'" for c in RATED)
    densities = ", ".join(f"'{c}'" for c in _DENSITIES)
    # An own density goes before a printed gravity. A change per 1 % is used as a pair of one
    # publication alone. Both as in a look-up.
    return f"""
    with wide as (
        select species_id, {pivot},
            list(name) filter (basis = '{UNCHECKED}') as unchecked_figures,
            list(name) filter (estimated) as estimated_figures,
            bool_or(basis = '{OWN}' and name in ({densities}))
            and not bool_or(basis = '{OWN}' and name = 'basic_specific_gravity') as own_density,
            max(basis) filter (name = 'basic_specific_gravity') as own_basis,
            bool_or(basis = '{OWN}' and starts_with(name, 'shrinkage_')) as own_shrinkage,
            max(source_id) filter (name = 'change_per_pct_tangential_pct_per_pct')
            = max(source_id) filter (name = 'change_per_pct_radial_pct_per_pct') as one_source
        from {FIGURES} group by species_id),
    rated as (
        select species_id, {rated},
            list(distinct case {scale} end) filter (basis = '{UNCHECKED}') as unchecked_ratings
        from (
            select *, count(*) filter (condition is distinct from '{_YOUNG}')
                over (partition by species_id, scale) as others
            from ratings)
        where condition is distinct from '{_YOUNG}' or others = 0
        group by species_id),
    turned_back as (
        select species_id, from_gravity, from_moisture_pct from implied
        where property_id = 'basic_specific_gravity'),
    implied_shrinkage as (
        select species_id, value as implied_volumetric from implied
        where property_id = 'shrinkage_volumetric'),
    controls as (
        select species_id, string_agg(distinct effect, ', ' order by effect) as control
        from cautions where kind = 'trade control' and shown group by species_id)
    select s.*,
        wide.* exclude (species_id, unchecked_figures, estimated_figures, one_source,
            own_density, own_basis, own_shrinkage),
        rated.* exclude (species_id, unchecked_ratings),
        control is not null as controlled, coalesce(control, '') as control,
        list_concat(coalesce(unchecked_figures, []), coalesce(unchecked_ratings, [])) as unchecked,
        coalesce(estimated_figures, []) as estimated,
        case when shrinkage_radial_pct is not null then shrinkage_tangential_pct end as pair_t,
        case when shrinkage_tangential_pct is not null then shrinkage_radial_pct end as pair_r,
        coalesce(s.fiber_saturation_pct, case s.shrinkage_relation {_general_points()} end)
            as point,
        case when shrinkage_tangential_pct is null or own_shrinkage then null
            else dimensional_change_coefficient_tangential_per_pct end as coefficient_t,
        case when shrinkage_radial_pct is null or own_shrinkage then null
            else dimensional_change_coefficient_radial_per_pct end as coefficient_r,
        case when dimensional_change_coefficient_radial_per_pct is not null
            then dimensional_change_coefficient_tangential_per_pct end as only_coefficient_t,
        case when dimensional_change_coefficient_tangential_per_pct is not null
            then dimensional_change_coefficient_radial_per_pct end as only_coefficient_r,
        case when one_source then change_per_pct_tangential_pct_per_pct end as change_t,
        case when one_source then change_per_pct_radial_pct_per_pct end as change_r,
        case when not own_density then basic_specific_gravity end as gravity,
        case when not own_density and own_basis = '{IMPLIED}' then from_gravity end as gravity_at,
        from_moisture_pct as gravity_moisture,
        coalesce(shrinkage_volumetric_pct, pair_t + pair_r - pair_t * pair_r / 100.0,
            implied_volumetric, intercept_pct
            + slope_pct * least(basic_specific_gravity, greatest_gravity)) as volume,
        price_per_m3
    from (select {", ".join(_IDENTITY)}, fiber_saturation_pct from species) s
    left join wide using (species_id) left join rated using (species_id)
    left join shrinkage_relations on relation_id = s.shrinkage_relation
    left join turned_back using (species_id) left join implied_shrinkage using (species_id)
    left join controls using (species_id) left join prices using (species_id)
    """


def _make_candidates(
    connection: duckdb.DuckDBPyConnection,
    seasonal_range: SeasonalRange,
    prices_per_m3: Mapping[str, float],
) -> None:
    connection.execute(
        "create temp table prices as select unnest(?::varchar[]) as species_id, "
        "unnest(?::double[]) as price_per_m3",
        [list(prices_per_m3), list(prices_per_m3.values())],
    )
    connection.execute(f"create temp table gathered as {_wide_sql()}")
    woods = connection.table("gathered")
    woods.select(
        duckdb.StarExpression(exclude=_HELPERS),
        *(e.alias(name) for name, e in _computed(seasonal_range).items()),
    ).create(TABLE)


def _first(*expressions: duckdb.Expression) -> duckdb.Expression:
    """The first that is known, as coalesce, which is no function in DuckDB."""
    *others, last = expressions
    for e in reversed(others):
        last = duckdb.CaseExpression(e.isnotnull(), e).otherwise(last)
    return last


def _computed(seasonal_range: SeasonalRange) -> dict[str, duckdb.Expression]:
    """The computed columns as expressions over the gathered table."""
    column = duckdb.ColumnExpression
    t, r, ct, cr = (column(c) for c in ("pair_t", "pair_r", "change_t", "change_r"))
    of_t, of_r = (column(c) for c in ("only_coefficient_t", "only_coefficient_r"))

    point = column("point")
    dry, wet = seasonal_range.driest_pct, seasonal_range.wettest_pct

    def share(moisture_pct: float, angle: float) -> duckdb.Expression:
        of_green = (
            share_of_green_size_on_curve(moisture_pct, total, point, column(coefficient))
            for total, coefficient in ((t, "coefficient_t"), (r, "coefficient_r"))
        )
        tangential, radial = of_green
        expression: duckdb.Expression = shrinkage_at_ring_angle(tangential, radial, angle)
        return expression

    def change(angle: float) -> duckdb.Expression:
        by_shrinkage = share(wet, angle) / share(dry, angle) * CHANGE_WIDTH_MM
        by_change = size_by_change_per_pct(
            CHANGE_WIDTH_MM, dry, wet, shrinkage_at_ring_angle(ct, cr, angle)
        )
        of_both = (shrinkage_of_coefficient(c, point) for c in (of_t, of_r))
        tangential, radial = of_both
        total = shrinkage_at_ring_angle(tangential, radial, angle)
        by_coefficient = size_at(CHANGE_WIDTH_MM, dry, wet, total, point)
        return _first(by_shrinkage, by_change, by_coefficient) - CHANGE_WIDTH_MM

    gravity, volume = column("gravity"), column("volume")
    at = (column("gravity_at"), column("gravity_moisture"))
    gravity = _first(basic_specific_gravity_from(*at, volume, point), gravity)
    own, general = (
        density_at(g, AIR_DRY_PCT)
        for g in (
            specific_gravity_at(gravity, AIR_DRY_PCT, volume, point),
            specific_gravity_at_general(gravity, AIR_DRY_PCT, point),
        )
    )
    return {
        "seasonal_change_mm_per_300mm": change(0.0),
        "seasonal_change_quarter_mm_per_300mm": change(90.0),
        "tangential_over_radial": _first(t / r, ct / cr, of_t / of_r),
        "density_kg_m3": _first(
            own,
            general,
            density_at(column("specific_gravity_12pct"), AIR_DRY_PCT),
            column("density_12pct_kg_m3"),
            column("density_air_dry_kg_m3"),
        ),
        "price_per_board_foot": column("price_per_m3") * BOARD_FOOT_M3,
    }
