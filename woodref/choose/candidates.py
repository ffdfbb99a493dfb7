"""The table of woods to choose from, filled in DuckDB: one row per wood, every column of COLUMNS.

Nothing here loops over woods: printed figures, the shop's own, classes, trade controls and
prices are joined in SQL, and what is computed runs the formulas of woodref.formulas on columns.
"""

from __future__ import annotations

from collections.abc import Mapping

import duckdb

from woodref.choose.buyable import Buyable, stock_sql, tier_sql
from woodref.choose.columns import COLUMNS, RATED, ChoiceColumn
from woodref.choose.computed import HELPERS, computed
from woodref.choose.gathered import (
    figures_sql,
    make_figures,
    movement_figures_sql,
    own_values_of,
    temporary_table,
)
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.yard_lines import lines_sql
from woodref.reference.bases import IMPLIED, UNCHECKED
from woodref.reference.library import Reference
from woodref.reference.look_words import NORTH_AMERICA
from woodref.reference.query import locked_connection

#: Condition of a class printed for wood of young growth.
_YOUNG = "young growth"
#: The table's name on the connection.
TABLE = "candidates"
_IDENTITY = tuple(c.name for c in COLUMNS.values() if c.type == "text" and c.of_species)
#: Effects of dust on those who are allergic, as documents word them.
_ALLERGY = "sensitizer|allerg|asthma|dermatitis|nettle rash"
#: The columns that tell of movement, as a list in SQL.
_MOVEMENTS = (
    "['seasonal_change_mm_per_300mm', 'seasonal_change_quarter_mm_per_300mm', "
    "'tangential_over_radial']"
)


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
    own = own_values_of(reference) if reference.uses_own else {}

    def prepare(connection: duckdb.DuckDBPyConnection) -> None:
        make_figures(connection, own)
        _make_candidates(connection, seasonal_range or SeasonalRange(), prices_per_m3 or {}, where)

    return locked_connection(reference.store.folder, prepare)


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


def _wide_sql(buyable: Buyable) -> str:
    rated = ", ".join(_rated_sql(c) for c in RATED)
    scale = " ".join(f"when starts_with(scale, '{c.scale}') then '{c.name}'" for c in RATED)
    return f"""
    with {figures_sql()},
    rated as (
        select species_id, {rated},
            list(distinct case {scale} end) filter (basis = '{UNCHECKED}') as unchecked_ratings
        from (
            select *, count(*) filter (condition is distinct from '{_YOUNG}')
                over (partition by species_id, scale) as others
            from ratings)
        where condition is distinct from '{_YOUNG}' or others = 0
        group by species_id),
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
        wide.* exclude (species_id, bases, unchecked_figures, estimated_figures, rough_figures,
            one_source, gravity_basis, own_shrinkage),
        rated.* exclude (species_id, unchecked_ratings),
        control is not null as controlled, coalesce(control, '') as control,
        list_concat(coalesce(unchecked_figures, []), coalesce(unchecked_ratings, []),
            case when own_gravity is null and gravity_basis = '{IMPLIED}' and unsure
            then ['density_kg_m3'] else [] end) as unchecked,
        {movement_figures_sql()},
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
    temporary_table(
        connection,
        "prices",
        {"species_id": "varchar", "price_per_m3": "double"},
        list(prices_per_m3.items()),
    )
    temporary_table(
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
