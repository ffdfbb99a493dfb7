"""The species table: one row per wood, its preferred values side by side."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd

from pipeline.identify import GROUP, WoodRegistry, is_ambiguous, slug
from pipeline.means import Means, kind_of
from pipeline.read import read_table
from pipeline.relations import relation_of
from woodref.reference.bases import DENSITY_ONLY, FULL, IMPLIED, NO_DATA, PARTIAL
from woodref.reference.properties import PROPERTIES, wide_columns

#: Columns a wood of full coverage has a value in.
_FULL_COLUMNS = (
    "basic_specific_gravity",
    "shrinkage_radial_pct",
    "shrinkage_tangential_pct",
    "shrinkage_volumetric_pct",
    "side_hardness_n",
    "modulus_of_elasticity_mpa",
    "modulus_of_rupture_mpa",
)
_DENSITIES = ("basic_specific_gravity", "specific_gravity_12pct", "density_")
#: Attributes of species_names.csv and the column of the species table they fill.
_ATTRIBUTES = {
    "family": "family",
    "kind": "kind",
    "group": "trade_group",
    "origin_region": "origin",
}


def _data_coverage(properties: set[str], columns: set[str]) -> str:
    if not properties:
        return NO_DATA
    if set(_FULL_COLUMNS) <= columns:
        return FULL
    other = [p for p in properties if not p.startswith(_DENSITIES)]
    return PARTIAL if other else DENSITY_ONLY


def species_table(
    registry: WoodRegistry,
    m: pd.DataFrame,
    implied: pd.DataFrame,
    fiber_saturation: pd.DataFrame,
) -> pd.DataFrame:
    """One row per wood of the registry, with the preferred values of the measurements.

    Parameters: registry; m measurements; implied values and fiber_saturation, what printed figures
    imply.

    A basic specific gravity that no table prints of the wood itself is the implied one.
    A wood whose only density has no stated moisture condition is still 'density only'.
    """
    columns = {(p, c): column for p, c, column in wide_columns()}
    preferred = m[m["preferred"]]
    keys = zip(preferred["property_id"], preferred["condition"], strict=True)
    wide = preferred.assign(column=[columns.get(k, "") for k in keys])
    wide = wide[wide["column"].ne("")].pivot_table(
        index="species_id", columns="column", values="value", aggfunc="first"
    )
    rows = pd.DataFrame(registry.woods.values())
    out = rows.merge(wide, left_on="species_id", right_index=True, how="left")
    out["shrinkage_relation"] = out["origin"].map(relation_of)
    points = fiber_saturation[fiber_saturation["used"]].set_index("species_id")
    out["fiber_saturation_pct"] = out["species_id"].map(points["fiber_saturation_pct"])
    properties = m.groupby("species_id")["property_id"].agg(set).to_dict()
    gravity = "basic_specific_gravity"
    turned_back = implied[implied["property_id"].eq(gravity)].set_index("species_id")["value"]
    known = preferred[preferred["property_id"].eq(gravity)].set_index("species_id")["basis"]
    wide[gravity] = wide[gravity].fillna(turned_back)
    out[gravity] = out["species_id"].map(wide[gravity])
    out[f"{gravity}_basis"] = [
        IMPLIED if s in turned_back.index else known.get(s, "") for s in out["species_id"]
    ]
    known_of = {
        species_id: {c for c, known in zip(wide.columns, row, strict=True) if known}
        for species_id, row in zip(wide.index, wide.notna().to_numpy(), strict=True)
    }
    out["data_coverage"] = [
        _data_coverage(properties.get(s, set()), known_of.get(s, set())) for s in out["species_id"]
    ]
    return out.sort_values("species_id")


def rejected_attributes(registry: WoodRegistry) -> pd.DataFrame:
    """Cells of species_names.csv that a wood takes from another row of the same wood.

    Two printed names of one wood may give unlike groups or regions; the wood keeps one.
    """
    names = read_table("species_names")
    rows = []
    for r in names[~is_ambiguous(names)].to_dict("records"):
        joined = registry.join("species_names.csv", r["common_name"], r["botanical"])
        species_id = joined[0] if joined else slug(registry.present(r["botanical"]))
        for column, field in _ATTRIBUTES.items():
            if not r[column]:
                continue
            if species_id.startswith(GROUP):
                reason = "a trade group, not a wood: its members have rows of their own"
            elif registry.woods[species_id][field] != r[column]:
                reason = f"the wood {species_id} takes its {field} from another row"
            else:
                continue
            rows.append(
                {
                    "source_table": r["source_table"],
                    "source_line": r["source_line"],
                    "source_column": column,
                    "printed_value": r[column],
                    "reason": reason,
                }
            )
    synonyms = read_table("synonyms")
    for r in synonyms[synonyms["kind"].str.startswith("group")].to_dict("records"):
        for column in ("name_in_a_table", "present_name"):
            rows.append(
                {
                    "source_table": r["source_table"],
                    "source_line": r["source_line"],
                    "source_column": column,
                    "printed_value": r[column],
                    "reason": "a remark on a group; wood_joins.csv says which rows it means",
                }
            )
    return pd.DataFrame(rows)


def properties_table(means: Mapping[str, Means]) -> pd.DataFrame:
    """The declared properties as a table, with the spread of the printed means."""
    spread = {p: means[kind_of(p)] if kind_of(p) else None for p in PROPERTIES}
    return pd.DataFrame(
        [
            {
                "property_id": p.property_id,
                "label": p.label,
                "si_unit": p.si_unit,
                "us_unit": p.us_unit,
                "factor": p.factor,
                "definition": p.definition,
                "test_standard": p.test_standard,
                "coefficient_of_variation_pct": p.cv_pct,
                "coefficient_of_variation_source": p.cv_basis,
                "coefficient_of_variation_of_mean_pct": s.cv_pct if s else None,
                "woods_behind_it": s.woods if s else None,
                "sane_low": p.low,
                "sane_high": p.high,
            }
            for p, s in zip(PROPERTIES.values(), spread.values(), strict=True)
        ]
    )


def groups_table(registry: WoodRegistry, m: pd.DataFrame) -> pd.DataFrame:
    """Members of the trade groups that have numbers of their own."""
    known = set(m["species_id"])
    return pd.DataFrame(
        [
            {
                "group_id": slug(name),
                "group_name": name,
                "species_id": member,
                "note": registry.group_notes[name],
            }
            for name, members in sorted(registry.groups.items())
            for member in members
            if member in known
        ]
    )
