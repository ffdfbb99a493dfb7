"""What other printed figures of a wood imply where one is missing.

Basic specific gravity is turned back from a density at a moisture content, by the wood's own
volumetric shrinkage or, without one, by the fitted line. Volumetric shrinkage follows from
basic and 12 % specific gravity where both are printed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import hypot
from typing import Any

import pandas as pd

from pipeline.compiled import COMPILED
from woodref.formulas.density import basic_specific_gravity_from, volumetric_shrinkage
from woodref.formulas.spread import sd_of_range
from woodref.reference.densities import (
    OTHER_DENSITIES,
    Printed,
    basic_by_line,
    implied_shrinkage,
    shrinkage_by_line,
    stand_ins,
)
from woodref.reference.properties import PROPERTIES

#: Preferred figures of one wood by property, at its usual condition.
Figures = dict[str, Any]


def preferred_figures(m: pd.DataFrame) -> dict[str, Figures]:
    """The preferred figures of each wood: species_id to property_id to row."""
    usual = {p.property_id: p.columns[0][0] for p in PROPERTIES.values()}
    figures: dict[str, Figures] = {}
    for r in m[m["preferred"].astype(bool)].itertuples():
        if r.condition == usual[str(r.property_id)]:
            figures.setdefault(str(r.species_id), {})[str(r.property_id)] = r
    return figures


def own_shrinkage(figures: Figures) -> float | None:
    """Volumetric shrinkage in print: its own, else from its two directions [%]."""
    if "shrinkage_volumetric" in figures:
        return float(figures["shrinkage_volumetric"].value)
    if "shrinkage_radial" in figures and "shrinkage_tangential" in figures:
        radial, tangential = (
            float(figures[f"shrinkage_{d}"].value) for d in ("radial", "tangential")
        )
        return float(volumetric_shrinkage(radial, tangential))
    return None


def printed_densities(figures: Figures) -> tuple[list[Any], list[Printed]]:
    """The rows of OTHER_DENSITIES among the figures, and what is needed of them."""
    rows = [figures[p] for p in OTHER_DENSITIES if p in figures]
    return rows, [
        Printed(
            r.property_id,
            float(r.value),
            None if pd.isna(r.moisture_content_pct) else float(r.moisture_content_pct),
            r.sample or "",
        )
        for r in rows
    ]


def implied_gravity(
    figures: Figures, relation: Mapping[str, Any], fiber_saturation_pct: float
) -> dict[str, Any] | None:
    """The basic specific gravity another printed density implies, None where none does."""
    rows, printed = printed_densities(figures)
    found = stand_ins(printed)
    if not found:
        return None
    best, used = found[0], rows[found[0].which]
    total_pct = own_shrinkage(figures)
    if total_pct is None:
        basic = basic_by_line(best.gravity, best.moisture_pct, relation, fiber_saturation_pct)
        by = "the fitted line"
    else:
        basic = float(
            basic_specific_gravity_from(
                best.gravity, best.moisture_pct, total_pct, fiber_saturation_pct
            )
        )
        by = "the printed shrinkage"
    share = uncertainty(used) / float(used.value)
    return {
        "property_id": "basic_specific_gravity",
        "condition": "green",
        "value": round(basic, 4),
        "uncertainty": round(share * basic, 4),
        "from_gravity": best.gravity,
        "from_moisture_pct": best.moisture_pct,
        "computed_from": used.measurement_id,
        "method": f"{PROPERTIES[used.property_id].label} turned back to green volume by {by}",
    }


def uncertainty(row: Any) -> float:
    """Standard deviation of a printed value itself: that of the mean, and its printed range."""
    mean = 0.0 if pd.isna(row.uncertainty) else float(row.uncertainty)
    if pd.isna(row.value_low) or pd.isna(row.value_high):
        return mean
    return hypot(mean, sd_of_range(float(row.value_low), float(row.value_high)))


def implied_volumetric(
    figures: Figures, relation: Mapping[str, Any], fiber_saturation_pct: float
) -> dict[str, Any] | None:
    """The volumetric shrinkage two printed gravities imply, None where they imply none."""
    both = [figures.get(p) for p in ("basic_specific_gravity", "specific_gravity_12pct")]
    if own_shrinkage(figures) is not None or any(
        r is None or r.source_table in COMPILED for r in both
    ):
        return None
    basic, at_12pct = (float(r.value) for r in both if r)
    implied = implied_shrinkage(basic, at_12pct, relation, fiber_saturation_pct)
    if implied is None:
        return None
    return {
        "property_id": "shrinkage_volumetric",
        "condition": "range",
        "value": round(implied.volumetric_pct, 4),
        "uncertainty": round(implied.sd_pct, 4),
        "computed_from": "; ".join(r.measurement_id for r in both if r),
        "method": "implied by basic specific gravity and that at 12 %",
    }


def implied_table(
    m: pd.DataFrame,
    relation_of: Mapping[str, str],
    relations: pd.DataFrame,
    point_of: Mapping[str, float],
) -> pd.DataFrame:
    """The implied values of all woods.

    Parameters: m the reconciled measurements; relation_of each wood the relation_id that
    serves it; relations the table shrinkage_relations; point_of each wood its fiber saturation
    point [%].
    """
    rules = relations.set_index("relation_id").to_dict("index")

    def rows() -> Iterator[dict[str, Any]]:
        for species_id, figures in sorted(preferred_figures(m).items()):
            relation = rules[relation_of[species_id]]
            point = point_of[species_id]
            values = [implied_volumetric(figures, relation, point)]
            if "basic_specific_gravity" not in figures:
                values.append(implied_gravity(figures, relation, point))
            for value in values:
                if value is not None:
                    yield {"species_id": species_id, **value}

    return pd.DataFrame(list(rows()))


def shrinkages_of(
    species: pd.DataFrame,
    relations: pd.DataFrame,
    implied: pd.DataFrame,
    known: Mapping[str, Figures],
) -> dict[str, float]:
    """Volumetric shrinkage of each wood: printed, implied, or by the fitted line [%].

    Parameters: species, relations, implied as tables; known as preferred_figures.
    """
    rules = relations.set_index("relation_id").to_dict("index")
    volumetric = implied[implied["property_id"].eq("shrinkage_volumetric")]
    given = dict(zip(volumetric["species_id"], volumetric["value"].astype(float), strict=True))
    out: dict[str, float] = {}
    for r in species.itertuples():
        own = own_shrinkage(known.get(r.species_id, {}))
        if own is not None:
            out[r.species_id] = own
        elif r.species_id in given:
            out[r.species_id] = given[r.species_id]
        elif not pd.isna(r.basic_specific_gravity):
            gravity, relation = float(r.basic_specific_gravity), rules[r.shrinkage_relation]
            out[r.species_id] = shrinkage_by_line(gravity, relation)
    return out


def gravity_spreads(implied: pd.DataFrame, known: Mapping[str, Figures]) -> dict[str, float]:
    """How unsure the specific gravity of a wood is, single boards aside, as a share of it."""
    out: dict[str, float] = {}
    for r in implied[implied["property_id"].eq("basic_specific_gravity")].itertuples():
        out[r.species_id] = float(r.uncertainty) / float(r.value)
    for species_id, figures in known.items():
        row = figures.get("specific_gravity_12pct", figures.get("basic_specific_gravity"))
        if row is not None:
            out[species_id] = uncertainty(row) / float(row.value)
    return out
