"""QUALITY.md: general relations by group, and the handbook against independent densities."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pandas as pd

from pipeline.markdown import table

_HANDBOOK = (
    "strength_us_hardwoods_si.csv",
    "strength_us_hardwoods_us.csv",
    "strength_us_softwoods_si.csv",
    "strength_us_softwoods_us.csv",
    "strength_imported_si.csv",
    "strength_imported_us.csv",
)


def handbook_gravities(m: pd.DataFrame) -> pd.DataFrame:
    """Basic specific gravity of the handbook's strength tables: the mean of its sound printings.

    Columns: species_id, gravity, imported.
    """
    rows = m[
        m["source_table"].isin(_HANDBOOK)
        & m["property_id"].eq("basic_specific_gravity")
        & m["plausibility_flag"].isna()
    ]
    out = rows.groupby("species_id", as_index=False).agg(
        gravity=("value", "mean"), imported=("source_table", lambda t: "imported" in t.iloc[0])
    )
    return out


def compared(handbook: pd.DataFrame, density: pd.DataFrame, column: str) -> pd.DataFrame:
    """The difference of a density column from the handbook, one row per wood."""
    other = density.dropna(subset=[column]).groupby("species_id", as_index=False)[column].mean()
    both = handbook.merge(other, on="species_id")
    return both.assign(difference=both[column] - both["gravity"])


def summary(rows: pd.DataFrame) -> tuple[int, str, str]:
    """(woods, bias, root mean square) of the differences [g/cm3]."""
    d = rows["difference"].to_numpy(float)
    if not len(d):
        return 0, "", ""
    return len(d), f"{d.mean():+.3f}", f"{np.sqrt((d**2).mean()):.3f}"


def cross_validation(frames: Mapping[str, pd.DataFrame]) -> list[str]:
    """Lines of QUALITY.md on the compiled densities and the general shrinkage relations."""
    handbook = handbook_gravities(frames["measurements"])
    us, imported = handbook[~handbook["imported"]], handbook[handbook["imported"]]
    density = frames["density"]
    world = density[density["source_table"].eq("world_wood_density.csv")]
    tropical = density[density["source_table"].eq("tropical_wood_density.csv")]
    pairs = [
        (
            "woods of the United States, records that do not repeat the handbook",
            compared(us, world, "independent_mean_g_cm3"),
        ),
        ("imported woods, Global Wood Density Database", compared(imported, world, "mean_g_cm3")),
        ("imported woods, Reyes and others 1992", compared(imported, tropical, "mean_g_cm3")),
    ]
    relations = frames["shrinkage_relations"]
    return [
        "## The world's woods against the handbook",
        "",
        "Compiled basic density less the handbook's basic specific gravity, in g/cm3. Records "
        "that repeat the handbook are left out for the woods of the United States: they would "
        "check it against itself. Handbook cells with a plausibility flag are left out.",
        "",
        *table(
            ("comparison", "woods", "bias", "RMS"),
            [(text, *summary(rows)) for text, rows in pairs],
        ),
        "## Shrinkage from density",
        "",
        "Volumetric shrinkage of the relation less the printed one, in points of percent. The "
        "first relation serves the woods of North America, the second all others; the third "
        "shows why the handbook's relation does not serve abroad.",
        "",
        *table(
            ("relation", "method", "woods", "bias", "RMS", "bias above gravity 0.7"),
            [
                (
                    r.relation_id,
                    r.method,
                    r.woods,
                    f"{r.bias_pct:+.1f}",
                    f"{r.rms_pct:.1f}",
                    "" if pd.isna(r.bias_above_0_7_pct) else f"{r.bias_above_0_7_pct:+.1f}",
                )
                for r in relations.itertuples()
            ],
        ),
        *table(
            ("relation", "tangential over volumetric", "radial over volumetric"),
            [
                (
                    r.relation_id,
                    f"{r.tangential_share:.2f} (SD {r.tangential_share_sd:.2f})",
                    f"{r.radial_share:.2f} (SD {r.radial_share_sd:.2f})",
                )
                for r in relations.itertuples()
                if r.relation_id != "other-by-handbook"
            ],
        ),
    ]
