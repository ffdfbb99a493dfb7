"""The table of woods to choose from, filled in DuckDB: one row per wood, every column of COLUMNS.

Nothing here loops over woods: printed figures, the shop's own, classes, trade controls and
prices are joined in SQL, and what is computed runs the formulas of woodref.formulas on columns.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isfinite
from typing import Any

import duckdb

from woodref.choose.buyable import Buyable, stock_sql, tier_sql
from woodref.choose.columns import COLUMNS, RATED, ChoiceColumn
from woodref.choose.computed import HELPERS, computed
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.yard_lines import lines_sql
from woodref.reference.bases import IMPLIED, OWN, SECOND_HAND, UNCHECKED
from woodref.reference.densities import DENSITY_CLASSES, OTHER_DENSITIES, Printed, stand_ins
from woodref.reference.fiber_saturation import GENERAL_PCT
from woodref.reference.library import Reference, Values
from woodref.reference.look_words import NORTH_AMERICA
from woodref.reference.overlay import own_values, present, read_own
from woodref.reference.properties import PROPERTIES, wide_columns
from woodref.reference.query import locked_connection
from woodref.reference.woods import Value

#: Condition of a class printed for wood of young growth.
_YOUNG = "young growth"
#: SQL: whether a figure is the middle of a printed range, as Value.is_midpoint.
_MIDPOINT = "coalesce(abs(2.0 * m.value - m.value_low - m.value_high) < 1e-9 * m.value, false)"
#: The table's name on the connection, and that of the figures behind it.
TABLE, FIGURES = "candidates", "figures"
_IDENTITY = tuple(c.name for c in COLUMNS.values() if c.type == "text" and c.of_species)
#: Effects of dust on those who are allergic, as documents word them.
_ALLERGY = "sensitizer|allerg|asthma|dermatitis|nettle rash"
#: The columns that tell of movement, as a list in SQL.
_MOVEMENTS = (
    "['seasonal_change_mm_per_300mm', 'seasonal_change_quarter_mm_per_300mm', "
    "'tangential_over_radial']"
)
#: Standard deviation of a printed or estimated figure of a single board: between boards, of the
#: mean itself, and of a printed range.
_BOARDS = "(cv / 100.0 * value) ** 2 + coalesce(uncertainty, 0.0) ** 2"


def candidates_connection(
    reference: Reference,
    seasonal_range: SeasonalRange | None = None,
    prices_per_m3: Mapping[str, float] | None = None,
    buyable: Buyable | None = None,
) -> duckdb.DuckDBPyConnection:
    """A locked connection that holds the tables ``candidates`` and ``figures`` in memory.

    ``candidates`` has one row per wood and the columns of COLUMNS; ``unchecked`` and
    ``estimated``, the names of those of its columns that are recalled, and that no table prints;
    ``rough``, those estimated, second hand or the middle of a printed range, and a density that
    rests on an estimated shrinkage;
    ``sds``, the standard deviation of a single board by the name of the column, where it is
    known. ``figures`` has one row per printed, implied, estimated or own figure: species_id,
    name of the column, value, sd, basis.

    ``tier`` how far it is from the shop (woodref.choose.buyable); ``line``, ``line_name`` and
    ``is_meant`` what it is sold as (woodref.choose.yard_lines).

    Parameters: reference library, whose own figures go before printed ones where it uses them;
    seasonal_range, by default a year between 6 and 10 %; prices_per_m3 by species_id, none
    where there is no price list; buyable, whose region tells stock and plain names, that of the
    library where none is given.
    """
    where = buyable or Buyable(reference.region or NORTH_AMERICA)
    own = _own_values(reference) if reference.uses_own else {}

    def prepare(connection: duckdb.DuckDBPyConnection) -> None:
        _make_figures(connection, own)
        _make_candidates(connection, seasonal_range or SeasonalRange(), prices_per_m3 or {}, where)

    return locked_connection(reference.store.folder, prepare)


def _own_values(reference: Reference) -> Values:
    """The shop's own figures of every wood it has any of."""
    path = present("measurements")
    if path is None:
        return {}
    rows = read_own(reference.store, path, "select distinct species_id from {own}")
    return own_values(reference.store, [r["species_id"] for r in rows])


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


def _temporary(
    connection: duckdb.DuckDBPyConnection,
    table: str,
    types: Mapping[str, str],
    rows: list[tuple[Any, ...]],
) -> None:
    """Make a temporary table of rows; types by the names of its columns."""
    columns = ", ".join(f"unnest(?::{t}[]) as {name}" for name, t in types.items())
    held = [list(c) for c in zip(*rows, strict=True)] or [[] for _ in types]
    connection.execute(f"create temp table {table} as select {columns}", held)


def _make_figures(connection: duckdb.DuckDBPyConnection, own: Values) -> None:
    _temporary(
        connection,
        "offered",
        dict.fromkeys(("property_id", "condition", "name"), "varchar") | {"cv": "double"},
        [(p, c, column, PROPERTIES[p].cv_pct) for p, c, column in wide_columns()],
    )
    _temporary(
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
        f"{_MIDPOINT} as is_midpoint "
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
    _temporary(
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


def _wide_sql(buyable: Buyable) -> str:
    pivot = ", ".join(f"max(value) filter (name = '{c}') as {c}" for _, _, c in wide_columns())
    rated = ", ".join(_rated_sql(c) for c in RATED)
    scale = " ".join(f"when starts_with(scale, '{c.scale}') then '{c.name}'" for c in RATED)
    # An own density goes before a printed gravity, as in a look-up.
    return f"""
    with wide as (
        select species_id, {pivot},
            map_from_entries(list((name, sd)) filter (sd is not null)) as sds,
            list(name) filter (basis = '{UNCHECKED}') as unchecked_figures,
            list(name) filter (estimated) as estimated_figures,
            list(name) filter (estimated or is_midpoint or basis = '{SECOND_HAND}')
                as rough_figures,
            max(basis) filter (name = 'basic_specific_gravity') as gravity_basis,
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
        select i.species_id, from_gravity, from_moisture_pct, m.basis = '{UNCHECKED}' as unsure,
            m.basis = '{SECOND_HAND}' or {_MIDPOINT} as roughly
        from implied i left join measurements m on m.measurement_id = i.computed_from
        where i.property_id = 'basic_specific_gravity'),
    implied_shrinkage as (
        select species_id, value as implied_volumetric,
            coalesce(uncertainty, 0.0) as implied_uncertainty from implied
        where property_id = 'shrinkage_volumetric'),
    controls as (
        select species_id, string_agg(distinct effect, ', ' order by effect) as control
        from cautions where kind = 'trade control' and shown group by species_id),
    dusts as (
        select species_id from cautions
        where kind = 'dust' and regexp_matches(effect, '{_ALLERGY}')
            and not starts_with(effect, 'unspecified') group by species_id),
    seen as (
        select species_id, coalesce(sold_as_hue, heartwood_hue) as hue,
            coalesce(sold_as_lightness, heartwood_lightness) as lightness from looks)
    select s.*,
        wide.* exclude (species_id, unchecked_figures, estimated_figures, rough_figures,
            one_source, gravity_basis, own_shrinkage),
        rated.* exclude (species_id, unchecked_ratings),
        control is not null as controlled, coalesce(control, '') as control,
        list_concat(coalesce(unchecked_figures, []), coalesce(unchecked_ratings, []),
            case when own_gravity is null and gravity_basis = '{IMPLIED}' and unsure
            then ['density_kg_m3'] else [] end) as unchecked,
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
        {", ".join(_estimated_pair_sql())},
        coalesce(pair_t, change_t, only_coefficient_t) is null and share_t is not null
            as moves_by_share,
        list_concat(coalesce(estimated_figures, []),
            case when moves_by_share then {_MOVEMENTS} else [] end) as estimated,
        list_concat(coalesce(rough_figures, []), case when
            (own_gravity is null and gravity_basis = '{IMPLIED}' and roughly)
            or (coalesce(gravity, gravity_at) is not null
            and coalesce(shrinkage_volumetric_pct, pair_t, implied_volumetric) is null)
            then ['density_kg_m3'] else [] end,
            case when moves_by_share then {_MOVEMENTS} else [] end) as rough,
        dusts.species_id is not null as allergen, hue, lightness,
        price_per_m3, stock, yard.species_id is not null as in_yard,
        {tier_sql(buyable)} as tier, line, line_name, is_meant
    from (select {", ".join(_IDENTITY)}, fiber_saturation_pct from species) s
    left join wide using (species_id) left join rated using (species_id)
    left join shrinkage_relations on relation_id = s.shrinkage_relation
    left join own_densities using (species_id)
    left join turned_back using (species_id) left join implied_shrinkage using (species_id)
    left join controls using (species_id) left join prices using (species_id)
    left join ({stock_sql(buyable.region)}) using (species_id)
    left join ({lines_sql(buyable.region)}) using (species_id)
    left join yard using (species_id)
    left join dusts using (species_id) left join seen using (species_id)
    """


def _make_candidates(
    connection: duckdb.DuckDBPyConnection,
    seasonal_range: SeasonalRange,
    prices_per_m3: Mapping[str, float],
    buyable: Buyable,
) -> None:
    _temporary(
        connection,
        "prices",
        {"species_id": "varchar", "price_per_m3": "double"},
        list(prices_per_m3.items()),
    )
    _temporary(
        connection, "yard", {"species_id": "varchar"}, [(i,) for i in buyable.yard or frozenset()]
    )
    connection.execute(f"create temp table gathered as {_wide_sql(buyable)}")
    columns = computed(seasonal_range)
    told = {f"sd_of_{name}": c.sd for name, c in columns.items() if c.sd is not None}
    woods = connection.table("gathered").select(
        duckdb.StarExpression(exclude=list(HELPERS)),
        *(c.value.alias(name) for name, c in columns.items()),
        *(sd.alias(name) for name, sd in told.items()),
    )
    entries = ", ".join(f"('{name.removeprefix('sd_of_')}', {name})" for name in told)
    woods.create_view("computed")
    connection.execute(
        f"create table {TABLE} as select * exclude (sds, {', '.join(told)}), "
        f"map_concat(sds, map_from_entries([{entries}])) as sds from computed"
    )
