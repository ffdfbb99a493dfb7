"""What is told of every wood whatever is asked: one row a wood, made once for all rankings.

Printed figures, the shop's own, classes and trade controls, joined in SQL, with the columns
computed from them. What hangs on the year, on prices or on where the wood is bought is not in it.
The pipeline publishes the table for the figures in print; where the shop has figures of its own
it is made anew.
"""

from __future__ import annotations

from pathlib import Path

import duckdb

from woodref.choose.buyable import stock_sql
from woodref.choose.columns import COLUMNS, RATED, ChoiceColumn
from woodref.choose.computed import (
    OF_FIGURES,
    SHARES,
    computed_of_wood,
    seasonal_changes,
    shares_of_green_sql,
)
from woodref.choose.gathered import (
    chosen_movement_sql,
    figures_sql,
    make_figures,
    movement_figures_sql,
)
from woodref.choose.screening import MEASURED
from woodref.choose.seasonal_range import SeasonalRange
from woodref.choose.yard_lines import LINES_SQL, names_of_lines_sql
from woodref.reference.bases import IMPLIED, UNCHECKED
from woodref.reference.checksums import intact, is_published
from woodref.reference.fields import TABLES
from woodref.reference.library import Values
from woodref.reference.look_words import REGIONS
from woodref.reference.query import locked_connection
from woodref.reference.ready import READY, ready_file, write_ready
from woodref.reference.store import literal, ready_sql

#: The tables: what is told of each wood, and how each region sells it.
WOODS, SOLD = "woods", "sold"
#: Condition of a class printed for wood of young growth.
_YOUNG = "young growth"
_IDENTITY = tuple(c.name for c in COLUMNS.values() if c.type == "text" and c.of_species)
#: Effects of dust on those who are allergic, as documents word them.
_ALLERGY = "sensitizer|allerg|asthma|dermatitis|nettle rash"
#: The columns that tell of movement, as a list in SQL.
_MOVEMENTS = (
    "['seasonal_change_mm_per_300mm', 'seasonal_change_quarter_mm_per_300mm', "
    "'tangential_over_radial']"
)


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


def _wide_sql() -> str:
    """Everything told of each wood, with the figures that others are computed from."""
    rated = ", ".join(_rated_sql(c) for c in RATED)
    scale = " ".join(f"when starts_with(scale, '{c.scale}') then '{c.name}'" for c in RATED)
    return f"""
    with {figures_sql()},
    rated as (
        select species_id, {rated},
            list_sort(list(distinct case {scale} end) filter (basis = '{UNCHECKED}'))
                as unchecked_ratings
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
        line, group_said
    from (select {", ".join(_IDENTITY)}, fiber_saturation_pct from species) s
    left join wide using (species_id) left join rated using (species_id)
    left join shrinkage_relations on relation_id = s.shrinkage_relation
    left join own_densities using (species_id)
    left join turned_back using (species_id) left join implied_shrinkage using (species_id)
    left join controls using (species_id)
    left join dusts using (species_id) left join seen using (species_id)
    left join (select species_id, line, group_said from ({LINES_SQL})) using (species_id)
    """


def make_woods(connection: duckdb.DuckDBPyConnection, own: Values) -> None:
    """Make the table WOODS on a connection with the tables of the dataset.

    Its columns are those of COLUMNS that are told of the wood alone, the change of the usual year
    among them; ``unchecked``, ``estimated``, ``rough`` and ``sds`` as woodref.choose.candidates;
    and what the change of another year is computed from (woodref.choose.computed.OF_MOVEMENT).
    Woods ``worth_a_look`` come
    first: those with figures in print, and those that some region stocks.

    Parameters: own, the shop's own figures.
    """
    make_figures(connection, own)
    connection.execute(
        f"create temp table gathered as select *, {chosen_movement_sql()} from ({_wide_sql()})"
    )
    usual = SeasonalRange()
    columns = computed_of_wood() | seasonal_changes(usual)
    shares = ", ".join(SHARES)
    values = ", ".join(f"{c.value} as {name}" for name, c in columns.items())
    sds = ", ".join(f"('{name}', {c.sd})" for name, c in columns.items())
    connection.execute(
        f"create table {WOODS} as "
        f"select * exclude (sds, {shares}, {', '.join(OF_FIGURES)}), {values}, "
        f"map_concat(sds, map_from_entries([{sds}])) as sds, {MEASURED} "
        "or species_id in (select species_id from stock) as worth_a_look "
        f"from (select *, {shares_of_green_sql(usual)} from gathered) "
        "order by worth_a_look desc, species_id"
    )


def make_sold(connection: duckdb.DuckDBPyConnection) -> None:
    """Make the table SOLD: what a region knows of a wood, rows of nothing left out.

    By region and wood ``plain_name`` of its line, ``is_meant`` and the class of ``stock``.
    """
    regions = " union all ".join(
        f"select {literal(region)} as region, * "
        f"from ({names_of_lines_sql(region)}) full join ({stock_sql(region)}) using (species_id)"
        for region in REGIONS
    )
    connection.execute(
        f"create table {SOLD} as with lines as ({LINES_SQL}) "
        f"select * from ({regions}) order by region, species_id"
    )


def published(folder: Path, table: str) -> Path | None:
    """The published file of a table, None where the dataset is without.

    Raises: WoodrefError for a file that does not hold what was published.
    """
    path = ready_file(folder, table)
    return intact(path, folder) if is_published(path, folder) else None


def publish(folder: Path) -> bool:
    """Write the tables of READY, WOODS and SOLD beside the dataset of a folder.

    Returns: false for a folder that holds a part of the dataset alone, which has none.
    """
    if not all((folder / f"{table}.parquet").is_file() for table in TABLES):
        return False

    def write(connection: duckdb.DuckDBPyConnection) -> None:
        for table in READY:
            write_ready(connection, ready_sql(folder, table), ready_file(folder, table))
        make_woods(connection, {})
        make_sold(connection)
        for table in (WOODS, SOLD):
            write_ready(connection, f"from {table}", ready_file(folder, table))

    locked_connection(folder, write).close()
    return True
