"""The fiber saturation point that the printed shrinkage and coefficient of a wood imply."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pandas as pd

from woodref.formulas.shrinkage import implied_fiber_saturation
from woodref.reference.fiber_saturation import HIGHEST_PCT, LOWEST_PCT, fiber_saturation_of

_DIRECTIONS = ("tangential", "radial")
#: Half the last printed digit of a shrinkage [%] and of a coefficient [1 per %].
_SHRINKAGE_STEP, _COEFFICIENT_STEP = 0.05, 0.000005


def _ends(shrinkage_pct: float, coefficient: float) -> tuple[float, float]:
    """The lowest and highest point that two figures imply within their printed rounding [%]."""
    return (
        implied_fiber_saturation(shrinkage_pct - _SHRINKAGE_STEP, coefficient + _COEFFICIENT_STEP),
        implied_fiber_saturation(shrinkage_pct + _SHRINKAGE_STEP, coefficient - _COEFFICIENT_STEP),
    )


def _whole(pct: float, ends: list[tuple[float, float]]) -> float:
    """The point, as a whole number where the printed digits leave that open in both directions."""
    nearest = float(round(pct))
    return nearest if all(low <= nearest <= high for low, high in ends) else round(pct, 1)


def fiber_saturation_table(m: pd.DataFrame) -> pd.DataFrame:
    """One row per wood with shrinkage and coefficient in print: what the two imply.

    Taken are the preferred figures of Tables 4-3, 4-4 and 13-5. The point of the wood is the mean
    of both directions; outside LOWEST_PCT to HIGHEST_PCT it is set aside.

    Parameters: m measurements with the column preferred.
    Returns: species_id, shrinkage and coefficient of either direction, the point each implies,
    their mean, and whether it is used.
    """
    names = {
        f"{kind}_{d}": f"{short}_{d}"
        for kind, short in (
            ("shrinkage", "shrinkage"),
            ("dimensional_change_coefficient", "coefficient"),
        )
        for d in _DIRECTIONS
    }
    chosen = m[
        m["preferred"]
        & m["property_id"].isin(names)
        & (m["sample"].isna() | m["sample"].eq(""))
        & m["source_table"].isin(
            (
                "shrinkage_domestic.csv",
                "shrinkage_imported.csv",
                "dimensional_change_coefficients.csv",
            )
        )
    ]
    wide = chosen.pivot_table(
        index="species_id", columns="property_id", values="value", aggfunc="first"
    ).rename(columns=names)
    wide = wide.reindex(columns=list(names.values()))
    rows = []
    for species_id, r in wide.dropna().iterrows():
        ends = [_ends(r[f"shrinkage_{d}"], r[f"coefficient_{d}"]) for d in _DIRECTIONS]
        points = [
            implied_fiber_saturation(r[f"shrinkage_{d}"], r[f"coefficient_{d}"])
            for d in _DIRECTIONS
        ]
        pct = _whole(sum(points) / len(points), ends)
        rows.append(
            {
                "species_id": species_id,
                **{
                    f"{kind}_{d}_{unit}": r[f"{kind}_{d}"]
                    for d in _DIRECTIONS
                    for kind, unit in (("shrinkage", "pct"), ("coefficient", "per_pct"))
                },
                **{
                    f"implied_{d}_pct": round(p, 2)
                    for d, p in zip(_DIRECTIONS, points, strict=True)
                },
                "fiber_saturation_pct": pct,
                "used": LOWEST_PCT <= pct <= HIGHEST_PCT,
            }
        )
    return pd.DataFrame(rows)


def point_of_each(table: pd.DataFrame, relation_of: Mapping[str, str]) -> dict[str, float]:
    """Fiber saturation point of every wood: the one its print implies, else that of its region [%].

    Parameters: table as fiber_saturation_table; relation_of each wood the relation_id that
    serves it.
    """
    used = table[table["used"]]
    implied = dict(zip(used["species_id"], used["fiber_saturation_pct"], strict=True))
    return {i: fiber_saturation_of(implied.get(i), r).pct for i, r in relation_of.items()}


def point_of_row(row: Any) -> float:
    """Fiber saturation point of a wood from its row of the species table [%]."""
    implied = None if pd.isna(row.fiber_saturation_pct) else float(row.fiber_saturation_pct)
    return fiber_saturation_of(implied, row.shrinkage_relation).pct
