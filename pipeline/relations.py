"""General relations between basic specific gravity and shrinkage, for woods without figures.

A straight line is fitted to the printed volumetric shrinkages of each group of regions and
judged by leaving each wood out in turn. The handbook's Eq. 4-12 (26.5 Gb) overstates dense
woods, and fails abroad. Tangential and radial shrinkage are taken as shares of the volumetric
one.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

import numpy as np
import pandas as pd

from pipeline.compiled import COMPILED
from woodref.formulas.density import volumetric_shrinkage_general
from woodref.reference.densities import (
    DENSITY_CLASSES,
    IMPLIED_LIMITS_PCT,
    implied_pct,
    rounding_sd,
)

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
_FITTED = {
    UNITED_STATES: "straight line fitted by us to the volumetric shrinkages of Table 4-3",
    OTHER: "straight line fitted by us to the volumetric shrinkages of Table 4-4 and of "
    "Agriculture Handbook 607",
}
_HANDBOOK = "S0 = 26.5 Gb, Wood Handbook FPL-GTR-282 (2021), Eq. 4-12, p. 4-12; for comparison only"
#: Woods a density class must have for a spread of its own.
_ENOUGH = 10
#: Basic specific gravity above which a wood counts as dense.
_DENSE = 0.7


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
    chosen = m[m["preferred"].astype(bool) & m["species_id"].isin(woods)]
    chosen = chosen[~chosen["source_table"].isin(COMPILED)]
    wide = chosen.pivot_table(
        index="species_id", columns="property_id", values="value", aggfunc="first"
    )
    return wide.dropna(subset=["basic_specific_gravity", "shrinkage_volumetric"])


def leave_one_out(gravity: np.ndarray, volumetric: np.ndarray) -> np.ndarray:
    """Estimate less printed shrinkage of each wood, by a line fitted to the others [%].

    Beyond the densest of the others the line is held, as it is where it is used.
    """
    off = np.empty(len(gravity))
    for i in range(len(gravity)):
        others = np.arange(len(gravity)) != i
        line = np.polyfit(gravity[others], volumetric[others], 1)
        within = min(gravity[i], gravity[others].max())
        off[i] = np.polyval(line, within) - volumetric[i]
    return off


def _rms(off: np.ndarray) -> float:
    return float(np.sqrt((off**2).mean()))


def class_of(gravity: np.ndarray) -> np.ndarray:
    """The density class of each wood."""
    ends = list(DENSITY_CLASSES.values())
    return np.array([next(i for i, end in enumerate(ends) if g < end) for g in gravity])


def class_spreads(
    gravity: np.ndarray, off: np.ndarray, all_gravity: np.ndarray, all_off: np.ndarray
) -> dict[str, float]:
    """Root mean square of the errors by density class; of all woods where a class has few [%]."""
    here, everywhere = class_of(gravity), class_of(all_gravity)
    return {
        name: _rms(off[here == i] if (here == i).sum() >= _ENOUGH else all_off[everywhere == i])
        for i, name in enumerate(DENSITY_CLASSES)
    }


def implied_errors(m: pd.DataFrame, point_of: Mapping[str, float]) -> list[tuple[float, float]]:
    """(shrinkage that two gravities imply less the printed one, its SD from rounding) [%].

    One pair for each wood that has all three in print and an implied shrinkage within limits.
    """
    chosen = m[m["preferred"].astype(bool) & ~m["source_table"].isin(COMPILED)]
    wide = chosen.pivot_table(
        index="species_id", columns="property_id", values="value", aggfunc="first"
    ).dropna(subset=["basic_specific_gravity", "specific_gravity_12pct", "shrinkage_volumetric"])
    low, high = IMPLIED_LIMITS_PCT
    errors = []
    for r in wide.itertuples():
        basic, at = float(r.basic_specific_gravity), float(r.specific_gravity_12pct)
        point = point_of[str(r.Index)]
        implied = implied_pct(basic, at, point)
        if low <= implied <= high:
            off = implied - float(r.shrinkage_volumetric)
            errors.append((off, rounding_sd(basic, at, point)))
    return errors


def implied_spread(m: pd.DataFrame, point_of: Mapping[str, float]) -> float:
    """Spread of the shrinkage that two gravities imply about the printed one [%].

    The root mean square difference over the woods that have all three in print, less what the
    rounding of the gravities explains.
    """
    squares = [off**2 - rounding**2 for off, rounding in implied_errors(m, point_of)]
    return float(np.sqrt(np.mean(squares)))


class FittedWoods(NamedTuple):
    """The woods a relation is fitted to, and the errors of the line without each [%]."""

    woods: pd.DataFrame
    gravity: np.ndarray
    volumetric: np.ndarray
    off: np.ndarray


def fitted_woods(m: pd.DataFrame, group: str) -> FittedWoods:
    """The woods the line of a group of regions is fitted to, each with its error left out.

    Parameters: m the reconciled measurements; group UNITED_STATES or OTHER.
    """
    woods = _points(m, _SOURCES[group])
    gravity, volumetric = (
        woods[c].to_numpy(float) for c in ("basic_specific_gravity", "shrinkage_volumetric")
    )
    return FittedWoods(woods, gravity, volumetric, leave_one_out(gravity, volumetric))


def _shares(woods: pd.DataFrame) -> dict[str, float]:
    """Tangential and radial over volumetric shrinkage, mean and standard deviation."""
    out = {}
    for direction in ("tangential", "radial"):
        share = (woods[f"shrinkage_{direction}"] / woods["shrinkage_volumetric"]).dropna()
        out[f"{direction}_share"] = round(float(share.mean()), 4)
        out[f"{direction}_share_sd"] = round(float(share.std(ddof=1)), 4)
    return out


def _row(
    relation_id: str,
    method: str,
    line: tuple[float, float],
    points: FittedWoods,
    off: np.ndarray,
    spreads: dict[str, float],
    implied_sd: float,
) -> dict[str, Any]:
    """The relation with its spread and how well it does on woods it was not fitted to."""
    dense = points.gravity > _DENSE
    return {
        "relation_id": relation_id,
        "method": method,
        "intercept_pct": round(line[1], 4),
        "slope_pct": round(line[0], 4),
        "greatest_gravity": float(points.gravity.max()),
        "woods": len(points.gravity),
        "bias_pct": round(float(off.mean()), 4),
        "rms_pct": round(_rms(off), 4),
        "bias_above_0_7_pct": round(float(off[dense].mean()), 4) if dense.any() else None,
        **{f"residual_sd_{name}_pct": round(sd, 4) for name, sd in spreads.items()},
        "implied_sd_pct": round(implied_sd, 4),
        **_shares(points.woods),
    }


def relations_table(m: pd.DataFrame, point_of: Mapping[str, float]) -> pd.DataFrame:
    """The relations in use, and the handbook's tried on both groups for comparison.

    Parameters: m the reconciled measurements; point_of each wood its fiber saturation point [%].
    """
    groups = {g: fitted_woods(m, g) for g in (UNITED_STATES, OTHER)}
    everywhere = [
        np.concatenate([getattr(p, c) for p in groups.values()]) for c in ("gravity", "off")
    ]
    implied_sd = implied_spread(m, point_of)
    slope = float(volumetric_shrinkage_general(1.0))
    rows = []
    for group, points in groups.items():
        fitted = tuple(float(v) for v in np.polyfit(points.gravity, points.volumetric, 1))
        by_handbook = slope * points.gravity - points.volumetric
        for relation_id, method, line, off in (
            (group, _FITTED[group], (fitted[0], fitted[1]), points.off),
            (f"{group}-by-handbook", _HANDBOOK, (slope, 0.0), by_handbook),
        ):
            spreads = class_spreads(points.gravity, off, everywhere[0], everywhere[1])
            rows.append(_row(relation_id, method, line, points, off, spreads, implied_sd))
    return pd.DataFrame(rows)
