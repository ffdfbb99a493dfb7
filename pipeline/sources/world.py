"""The world's woods: basic density of species that no handbook prints.

Two compilations (the Global Wood Density Database and Reyes and others 1992) give the
mean, spread and number of records of thousands of species. Each species becomes a wood
of its own where no other table has it; a compilation corroborates the tables it draws
from and is preferred only where they are silent.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import pandas as pd

from pipeline.compiled import DATABASE, LOWERED, Corrected, corrected
from pipeline.identify import GROUP, WoodRegistry, slug
from pipeline.read import read_table
from pipeline.sources.cells import rejected_frame, rejection
from woodref.reference.names import fold

TABLES = ("world_wood_density", "tropical_wood_density")
#: Families of softwoods; every other family of the compilations is a hardwood one.
_SOFTWOODS = frozenset(
    (
        "Araucariaceae",
        "Cephalotaxaceae",
        "Cupressaceae",
        "Ginkgoaceae",
        "Phyllocladaceae",
        "Pinaceae",
        "Podocarpaceae",
        "Sciadopityaceae",
        "Taxaceae",
        "Taxodiaceae",
    )
)
#: Marks of a name that is not one species: open naming, several species, whole genera.
_NOT_A_SPECIES = re.compile(r"\b(?:spp|sp|aff|cf|nr|indet)\b\.?|\+|\(")
_SPECIES = re.compile(
    r"^(?P<name>[A-Z][a-z-]+ (?:[xX] )?[a-z][a-z-]+"
    r"(?: (?:var|subsp|f|forma)\.? [a-z-]+)?)"
)
_COLUMNS = (
    "n",
    "basic_density_g_cm3",
    "sd_g_cm3",
    "min_g_cm3",
    "max_g_cm3",
    "independent_n",
    "independent_mean_g_cm3",
    "regions",
    "region",
    "values_g_cm3",
    "converted_from_12pct",
    "family",
)


@dataclass(frozen=True)
class World:
    """Woods of no other table, their names, the density table, measurements and rejections."""

    woods: dict[str, dict[str, str]]
    names: pd.DataFrame
    density: pd.DataFrame
    measurements: pd.DataFrame
    rejected: pd.DataFrame


def _identity(row: dict[str, Any], registry: WoodRegistry) -> tuple[str, str, str]:
    """(species_id, present botanical name, reason to reject) of a row."""
    printed = row["botanical"]
    joined = registry.one(printed)
    if joined and not joined.startswith(GROUP):
        return joined, "", ""
    match = _SPECIES.match(printed)
    if _NOT_A_SPECIES.search(printed) or not match:
        return "", "", "not the name of one species, nor of a trade wood of the dataset"
    present = registry.present(match["name"])
    species_id = registry.one(present) or slug(present)
    return species_id, present, ""


def _wood(species_id: str, botanical: str, row: dict[str, Any]) -> dict[str, str]:
    """The identity of a wood known from a compilation alone."""
    family = row.get("family", "")
    kind = ("softwood" if family in _SOFTWOODS else "hardwood") if family else ""
    return {
        "species_id": species_id,
        "common_name": botanical,
        "botanical_name": botanical,
        "family": family,
        "kind": kind,
        "trade_group": "",
        "origin": row.get("regions") or row.get("region") or "",
        "qualifier": "",
        "note": "",
    }


def _spread(row: dict[str, Any]) -> str:
    """Spread and number of records in words."""
    records = f"{row['n']} record{'' if row['n'] == '1' else 's'}"
    if row.get("sd_g_cm3"):
        ends = f"{row['min_g_cm3']} to {row['max_g_cm3']}"
        return f"SD {row['sd_g_cm3']} between {records}, {ends}"
    if row.get("values_g_cm3", "").count(";"):
        return f"{records}: {row['values_g_cm3']}"
    return records


def _number(text: str) -> float | None:
    return float(text) if text else None


def _used(row: dict[str, Any]) -> Corrected:
    """The mean as it is used: that of the database without the expected slip of conversion."""
    mean, records = float(row["basic_density_g_cm3"]), int(row["n"])
    if row["source_table"] != DATABASE:
        return Corrected(mean, 0.0)
    if row["independent_n"]:  # the others repeat the handbook, and were not converted
        independent_mean = _number(row["independent_mean_g_cm3"]) or 0.0
        return corrected(mean, int(row["independent_n"]), independent_mean, records)
    return corrected(mean, records, mean, records)


def _density_row(species_id: str, source_id: str, row: dict[str, Any]) -> dict[str, Any]:
    """A row of the density table."""
    values = [float(v) for v in row.get("values_g_cm3", "").split(";") if v.strip()]
    low = _number(row.get("min_g_cm3", "")) or (min(values) if values else None)
    high = _number(row.get("max_g_cm3", "")) or (max(values) if values else None)
    return {
        "species_id": species_id,
        "botanical_as_printed": row["botanical"],
        "family": row.get("family", ""),
        "regions": row.get("regions") or row.get("region"),
        "records": int(row["n"]),
        "mean_g_cm3": float(row["basic_density_g_cm3"]),
        "used_mean_g_cm3": round(_used(row).mean, 4),
        "standard_deviation_g_cm3": _number(row.get("sd_g_cm3", "")),
        "minimum_g_cm3": low,
        "maximum_g_cm3": high,
        "independent_records": int(row["independent_n"]) if row.get("independent_n") else None,
        "independent_mean_g_cm3": _number(row.get("independent_mean_g_cm3", "")),
        "values_as_printed": row.get("values_g_cm3", ""),
        "converted_from_12pct": {"1": True, "0": False}.get(row.get("converted_from_12pct", "")),
        "source_id": source_id,
        "edition": row["edition"],
        "printed_table": row["table"],
        "page": row["page"],
        "basis": row["basis"],
        "note": row["note"],
        "source_table": row["source_table"],
        "source_line": row["source_line"],
    }


def _measurement(species_id: str, source_id: str, row: dict[str, Any]) -> dict[str, Any]:
    """The mean as a basic specific gravity (g/cm3 relative to water), as it is used.

    Its uncertainty is here that of the correction alone.
    """
    printed, used = row["basic_density_g_cm3"], _used(row)
    decimals = len(printed.partition(".")[2])
    return {
        "measurement_id": f"{row['source_table']}:{row['source_line']}:basic_density_g_cm3",
        "species_id": species_id,
        "property_id": "basic_specific_gravity",
        "condition": "green",
        "value": round(used.mean, 4),
        "printed_value": printed,
        "printed_unit": "g/cm3",
        "rounding": 10.0 ** -max(decimals, 2),
        "uncertainty": used.sd,
        "printed_spread": _spread(row),
        "trade_name": row["botanical"],
        "botanical": row["botanical"],
        "source_id": source_id,
        "edition": row["edition"],
        "printed_table": row["table"],
        "page": row["page"],
        "basis": row["basis"],
        "basis_reason": LOWERED if used.sd else "",
        "note": row["note"],
        "source_table": row["source_table"],
        "source_line": row["source_line"],
        "source_column": "basic_density_g_cm3",
        "repeats": True,
    }


def _name(name: str, kind: str, species_id: str, row: dict[str, Any], note: str) -> dict[str, Any]:
    return {
        "name": name,
        "name_key": fold(name),
        "species_id": species_id,
        "name_kind": kind,
        "ambiguous": False,
        "note": note,
        "position": 0,
        "basis": row["basis"],
        "source_table": row["source_table"],
        "source_line": row["source_line"],
    }


def _most_records(pair: tuple[dict[str, Any], dict[str, Any]]) -> int:
    return -int(pair[0]["records"])


def world(registry: WoodRegistry, origins: dict[str, Any]) -> World:
    """The two compilations as woods, names, a density table and measurements.

    Parameters: registry of the woods of the other tables; origins as read from origins.toml.
    """
    woods: dict[str, dict[str, str]] = {}
    names: dict[tuple[str, str, str], dict[str, Any]] = {}
    density: list[dict[str, Any]] = []
    measured: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    for table in TABLES:
        for row in read_table(table).to_dict("records"):
            source_id = origins["editions"][row["edition"]]
            species_id, present, reason = _identity(row, registry)
            if reason:
                rejected += [rejection(row, c, reason) for c in _COLUMNS if row.get(c)]
                continue
            if species_id not in registry.woods and species_id not in woods:
                woods[species_id] = _wood(species_id, present, row)
            for name, kind in ((present, "botanical"), (row["botanical"], "synonym")):
                if not name or (kind == "synonym" and fold(name) == fold(present)):
                    continue
                note = "" if kind == "botanical" else "as printed in a compilation of densities"
                key = (fold(name), kind, species_id)
                names.setdefault(key, _name(name, kind, species_id, row, note))
            density.append(_density_row(species_id, source_id, row))
            measured.append(_measurement(species_id, source_id, row))
    # Of two species sold as one wood, the one with more records comes first.
    measured = [m for _, m in sorted(zip(density, measured, strict=True), key=_most_records)]
    return World(
        woods,
        pd.DataFrame(names.values()),
        pd.DataFrame(density),
        pd.DataFrame(measured),
        rejected_frame(rejected),
    )
