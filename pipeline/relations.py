"""General relations between basic specific gravity and shrinkage, for woods without figures.

The handbook's Eq. 4-12 (26.5 Gb) fits the woods of North America and fails elsewhere;
for the others a straight line is fitted to the volumetric shrinkages of imported woods.
Tangential and radial shrinkage are taken as shares of the volumetric one.
"""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pandas as pd

from woodref.formulas.density import volumetric_shrinkage_general

UNITED_STATES, OTHER = "united-states", "other"
_AMERICA = re.compile(
    r"North ?America|United States|California|Oregon|Washington|Rocky Mountains|Appalachian"
    r"|Alaska|Lake States|Florida|Pacific coast|Pacific Northwest|Atlantic and Gulf",
    re.I,
)
_SOURCES = {
    UNITED_STATES: ("shrinkage_domestic.csv",),
    OTHER: ("shrinkage_imported.csv", "foreign_woods_other_reports.csv"),
}
_COMPILED = ("world_wood_density.csv", "tropical_wood_density.csv")


def relation_of(origin: str) -> str:
    """Which relation serves a wood of an origin."""
    return UNITED_STATES if _AMERICA.search(origin or "") else OTHER


def _points(m: pd.DataFrame, tables: tuple[str, ...]) -> pd.DataFrame:
    """Preferred basic specific gravity and shrinkages of woods with volumetric shrinkage in print.

    Densities of the compilations are left out.
    """
    woods = m.loc[
        m["source_table"].isin(tables) & m["property_id"].eq("shrinkage_volumetric"), "species_id"
    ]
    chosen = m[m["preferred"] & m["species_id"].isin(woods)]
    chosen = chosen[~chosen["source_table"].isin(_COMPILED)]
    wide = chosen.pivot_table(
        index="species_id", columns="property_id", values="value", aggfunc="first"
    )
    return wide.dropna(subset=["basic_specific_gravity", "shrinkage_volumetric"])


def _row(
    relation_id: str,
    points: pd.DataFrame,
    method: str,
    slope: float,
    intercept: float,
    parameters: int,
) -> dict[str, Any]:
    """The relation with its spread and how well it does on the points."""
    gravity = points["basic_specific_gravity"].to_numpy(float)
    volumetric = points["shrinkage_volumetric"].to_numpy(float)
    off = intercept + slope * gravity - volumetric
    tangential = (points["shrinkage_tangential"] / points["shrinkage_volumetric"]).dropna()
    radial = (points["shrinkage_radial"] / points["shrinkage_volumetric"]).dropna()
    dense = gravity > 0.7
    return {
        "relation_id": relation_id,
        "method": method,
        "intercept_pct": round(intercept, 4),
        "slope_pct": round(slope, 4),
        "residual_sd_pct": round(float(np.sqrt((off**2).sum() / (len(off) - parameters))), 4),
        "woods": len(points),
        "bias_pct": round(float(off.mean()), 4),
        "rms_pct": round(float(np.sqrt((off**2).mean())), 4),
        "bias_above_0_7_pct": round(float(off[dense].mean()), 4) if dense.any() else None,
        "tangential_share": round(float(tangential.mean()), 4),
        "tangential_share_sd": round(float(tangential.std(ddof=1)), 4),
        "radial_share": round(float(radial.mean()), 4),
        "radial_share_sd": round(float(radial.std(ddof=1)), 4),
    }


def relations_table(m: pd.DataFrame) -> pd.DataFrame:
    """The relations in use, and the handbook's tried on imported woods for comparison."""
    slope = float(volumetric_shrinkage_general(1.0))
    us, other = (_points(m, _SOURCES[g]) for g in (UNITED_STATES, OTHER))
    fitted_slope, fitted_intercept = (
        float(v)
        for v in np.polyfit(other["basic_specific_gravity"], other["shrinkage_volumetric"], 1)
    )
    handbook = "S0 = 26.5 Gb, Wood Handbook FPL-GTR-282 (2021), Eq. 4-12, p. 4-12"
    return pd.DataFrame(
        [
            _row(UNITED_STATES, us, handbook, slope, 0.0, 0),
            _row(
                OTHER,
                other,
                "straight line fitted by us to the volumetric shrinkages of Table 4-4 and of "
                "Agriculture Handbook 607",
                fitted_slope,
                fitted_intercept,
                2,
            ),
            _row("other-by-handbook", other, f"{handbook}; for comparison only", slope, 0.0, 0),
        ]
    )
