"""QUALITY.md: general relations by group, and the handbook against independent densities."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd

from pipeline.compiled import tier_checks
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
        & m["plausibility_flag"].fillna("").eq("")
    ]
    out = rows.groupby("species_id", as_index=False).agg(
        gravity=("value", "mean"), imported=("source_table", lambda t: "imported" in t.iloc[0])
    )
    return out


def cross_validation(frames: Mapping[str, pd.DataFrame]) -> list[str]:
    """Lines of QUALITY.md on the compiled densities and the general shrinkage relations."""
    handbook = handbook_gravities(frames["measurements"])
    relations = frames["shrinkage_relations"]
    return [
        "## The world's woods against the handbook",
        "",
        "Compiled basic density less the handbook's basic specific gravity, in g/cm3. Records "
        "that repeat the handbook are left out for the woods of the United States: they would "
        "check it against itself. Handbook cells with a plausibility flag are left out. As used: "
        "without the expected slip of the database's conversion; the RMS over the imported woods "
        "is the uncertainty of a compiled mean.",
        "",
        *table(
            ("comparison", "woods", "bias as printed", "RMS", "bias as used", "RMS as used"),
            [
                (
                    name,
                    printed.woods,
                    f"{printed.bias:+.3f}",
                    f"{printed.rms:.3f}",
                    f"{used.bias:+.3f}",
                    f"{used.rms:.3f}",
                )
                for name, printed, used in tier_checks(handbook, frames["density"])
            ],
        ),
        "## Shrinkage from density",
        "",
        "Volumetric shrinkage of the relation less the printed one, in points of percent, each "
        "wood left out of the fit in turn. The first line serves the woods of North America, the "
        "second all others; those by the handbook show why its relation does not serve. Beyond "
        "the densest wood of its fit a line is held. Spread: by basic specific gravity below "
        "0.5, from there to 0.7, and above; that of all woods where a class has fewer than ten.",
        "",
        *table(
            (
                *("relation", "method", "woods", "bias", "RMS", "bias above gravity 0.7"),
                *("spread below 0.5", "0.5 to 0.7", "above 0.7", "densest wood"),
            ),
            [
                (
                    r.relation_id,
                    r.method,
                    r.woods,
                    f"{r.bias_pct:+.1f}",
                    f"{r.rms_pct:.1f}",
                    "" if pd.isna(r.bias_above_0_7_pct) else f"{r.bias_above_0_7_pct:+.1f}",
                    f"{r.residual_sd_below_0_5_pct:.1f}",
                    f"{r.residual_sd_0_5_to_0_7_pct:.1f}",
                    f"{r.residual_sd_above_0_7_pct:.1f}",
                    f"{r.greatest_gravity:.2f}",
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
                if not r.relation_id.endswith("-by-handbook")
            ],
        ),
        "Basic and 12 % specific gravity together imply a volumetric shrinkage; where the printed "
        f"one is known, the two differ by {relations['implied_sd_pct'].iloc[0]:.1f} points beyond "
        "what the rounding of the gravities explains. It is used where no shrinkage is printed "
        "and the line is worse.",
        "",
    ]
