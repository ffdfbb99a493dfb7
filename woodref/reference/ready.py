"""Tables made ready of the others, so that a look-up joins nothing and reads little.

They stand in the folder ``ready`` beside the dataset; where a file is not there, its query stands
for it. A test holds both equal.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from woodref.reference.plain_names import PLAIN

if TYPE_CHECKING:
    import duckdb

#: Columns of the measurements table that make a Value.
VALUE_COLUMNS = (
    "species_id",
    "property_id",
    "condition",
    "value",
    "value_low",
    "value_high",
    "uncertainty",
    "moisture_content_pct",
    "printed_value",
    "printed_unit",
    "printed_table",
    "page",
    "source_id",
    "basis",
    "basis_reason",
    "sample",
    "note",
)
#: Columns of the measurements table that tell the same cell in the other system of units.
COUNTERPART_COLUMNS = ("measurement_id", "unit_counterpart_id", "rounding", "plausibility_flag")
_FIGURES = ", ".join(f"m.{c}" for c in (*VALUE_COLUMNS, *COUNTERPART_COLUMNS, "preferred"))
#: The query of each table, with ``{table}`` for those of the dataset.
READY: dict[str, str] = {
    # The names of the table of names, and the plain names of regions beside them.
    "ready_names": (
        "select *, null as region, null as means, null as group_name, null as candidates "
        "from {names} union all by name "
        "select name, name_key, region, means, species_id, group_name, candidates, note, basis, "
        f"'{PLAIN}' as name_kind, 0 as position from {{plain_names}} "
        "order by name_key, position, species_id, region"
    ),
    # The figures in use of each wood, and those that print gives of them in other units.
    "ready_figures": (
        f"select {_FIGURES}, s.short from {{measurements}} m join {{sources}} s using (source_id) "
        "where (m.preferred or m.unit_counterpart_id <> '') and m.value is not null "
        "order by m.species_id, m.property_id, m.condition, m.measurement_id"
    ),
    # What identifies a wood.
    "ready_identities": (
        "select species_id, common_name, botanical_name, family, kind, trade_group, origin, "
        "data_coverage, qualifier, note, shrinkage_relation, fiber_saturation_pct "
        "from {species} order by species_id"
    ),
    # What the species of a genus weigh.
    "ready_genera": (
        "select split_part(botanical_name, ' ', 1) as genus, count(*) as species, "
        "avg(basic_specific_gravity) as mean, stddev_samp(basic_specific_gravity) as sd, "
        "min(basic_specific_gravity) as low, max(basic_specific_gravity) as high from {species} "
        "where contains(botanical_name, ' ') and basic_specific_gravity is not null "
        "group by genus order by genus"
    ),
}


def ready_file(folder: Path, table: str) -> Path:
    """The file of a ready table beside the dataset of a folder, there or not."""
    return folder / "ready" / f"{table.removeprefix('ready_')}.parquet"


def write_ready(connection: duckdb.DuckDBPyConnection, query: str, path: Path) -> None:
    """Write the rows of a query; nothing of the machine or the time goes into the file."""
    path.parent.mkdir(exist_ok=True)
    quoted = str(path).replace("'", "''")
    # Groups of rows as small as DuckDB writes them: a look-up of one wood reads one or two.
    connection.execute(
        f"copy ({query}) to '{quoted}' (format parquet, compression zstd, "
        "compression_level 15, row_group_size 2048)"
    )
