"""Mechanical properties from specific gravity: how far woods are off the printed functions.

The functions of Table 5-11 (2021, which prints the exponents; the 2010 edition does not) are
compared with the woods of Tables 5-3, 5-4 and 5-5 that have the property at 12 % and a specific
gravity in print. The handbook fitted the functions to woods of its own, so that the imported
ones are the test of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import log
from typing import Any, NamedTuple

import numpy as np
import pandas as pd

from pipeline.fiber_saturation import point_of_row
from pipeline.implied import uncertainty
from woodref.formulas.strength import property_from_gravity
from woodref.reference.bases import ESTIMATED
from woodref.reference.properties import PROPERTIES
from woodref.reference.strengths import (
    ESTIMATED_PROPERTIES,
    STAND_IN_CONDITIONS,
    estimate_by_function,
    gravity_at_12,
)

_EDITION, _TABLE, _CONDITION = "FPL-GTR-282 (2021)", "5-11a", "12pct"
_KINDS = ("hardwood", "softwood")
_COLUMNS = {p: dict(PROPERTIES[p].columns)[_CONDITION] for p in ESTIMATED_PROPERTIES}


class Off(NamedTuple):
    """A wood's printed figure over that of the function, as a logarithm."""

    species_id: str
    property_id: str
    kind: str
    imported: bool
    log_ratio: float


def _functions(frame: pd.DataFrame) -> pd.DataFrame:
    """The functions in use: metric, of the edition that prints exponents, at 12 %."""
    return frame[
        frame["edition"].eq(_EDITION)
        & frame["printed_table"].eq(_TABLE)
        & frame["condition"].eq(_CONDITION)
        & frame["property_id"].isin(ESTIMATED_PROPERTIES)
        & frame["exponent"].notna()
    ]


def _gravity(row: Any, shrinkages: Mapping[str, float]) -> float | None:
    if not pd.isna(row.specific_gravity_12pct):
        return float(row.specific_gravity_12pct)
    if pd.isna(row.basic_specific_gravity) or row.species_id not in shrinkages:
        return None
    basic, total_pct = float(row.basic_specific_gravity), shrinkages[row.species_id]
    return gravity_at_12(basic, total_pct, point_of_row(row))


def off_the_functions(
    m: pd.DataFrame,
    species: pd.DataFrame,
    functions: pd.DataFrame,
    shrinkages: Mapping[str, float],
) -> list[Off]:
    """How far the woods of the handbook's strength tables are off the printed functions."""
    rules = {(r.property_id, r.kind): r for r in _functions(functions).itertuples()}
    woods = {r.species_id: r for r in species.itertuples()}
    tested = m[
        m["preferred"].astype(bool)
        & m["condition"].eq(_CONDITION)
        & m["property_id"].isin(ESTIMATED_PROPERTIES)
        & m["source_table"].str.startswith("strength_")
    ]
    out = []
    for r in tested.sort_values(["species_id", "property_id"]).itertuples():
        wood = woods[r.species_id]
        rule, gravity = rules.get((r.property_id, wood.kind)), _gravity(wood, shrinkages)
        if rule is None or gravity is None:
            continue
        mean = property_from_gravity(float(rule.coefficient), gravity, float(rule.exponent))
        imported = "imported" in r.source_table
        ratio = log(float(r.value) / float(mean))
        out.append(Off(r.species_id, r.property_id, wood.kind, imported, ratio))
    return out


def functions_table(functions: pd.DataFrame, off: list[Off]) -> pd.DataFrame:
    """The functions in use with the spread of woods about them, one row a property and kind."""
    rows = []
    for r in _functions(functions).itertuples():
        ratios = np.array(
            [o.log_ratio for o in off if (o.property_id, o.kind) == (r.property_id, r.kind)]
        )
        rows.append(
            {
                "property_id": r.property_id,
                "kind": r.kind,
                "coefficient": float(r.coefficient),
                "exponent": float(r.exponent),
                "log_bias": round(float(ratios.mean()), 4),
                "log_sd": round(float(np.sqrt((ratios**2).mean())), 4),
                "woods": len(ratios),
                "method": f"mean of {r.kind}s at specific gravity, Wood Handbook {r.edition}, "
                f"Table {r.printed_table}, p. {r.page}",
                "source_id": r.source_id,
                "printed_table": r.printed_table,
                "page": r.page,
                "basis": r.basis,
            }
        )
    return pd.DataFrame(rows).sort_values(["property_id", "kind"])


def _stand_in(figures: pd.DataFrame) -> Any | None:
    """The row of a wood and property printed at another moisture content of dry wood."""
    rows = {r.condition: r for r in figures.itertuples()}
    return next((rows[c] for c in STAND_IN_CONDITIONS if c in rows), None)


def estimates_table(
    m: pd.DataFrame,
    species: pd.DataFrame,
    table: pd.DataFrame,
    shrinkages: Mapping[str, float],
    gravity_sds: Mapping[str, float],
    wanted: set[str],
) -> pd.DataFrame:
    """Hardness, stiffness and strength at 12 % that no table prints of the woods wanted.

    Parameters: m; species; table as functions_table; shrinkages volumetric by species_id [%];
    gravity_sds standard deviation of the gravity of a wood, boards aside, as a share of it;
    wanted the species_id of the woods.
    """
    rules = {(r["property_id"], r["kind"]): r for r in table.to_dict("records")}
    known = m[m["preferred"].astype(bool) & m["property_id"].isin(ESTIMATED_PROPERTIES)]
    groups = dict(iter(known.groupby(["species_id", "property_id"])))

    def rows() -> Iterator[dict[str, Any]]:
        for wood in species[species["species_id"].isin(wanted)].itertuples():
            for property_id, column in _COLUMNS.items():
                if not pd.isna(getattr(wood, column)):
                    continue
                key = {"species_id": wood.species_id, "property_id": property_id}
                figures = groups.get((wood.species_id, property_id))
                printed = None if figures is None else _stand_in(figures)
                if printed is not None:
                    yield {
                        **key,
                        "condition": _CONDITION,
                        "value": float(printed.value),
                        "uncertainty": uncertainty(printed),
                        "basis": printed.basis,
                        "printed_at": printed.condition,
                        "computed_from": printed.measurement_id,
                    }
                    continue
                rule, gravity = rules.get((property_id, wood.kind)), _gravity(wood, shrinkages)
                if rule is None or gravity is None:
                    continue
                sd = gravity_sds.get(wood.species_id, 0.0) * gravity
                estimate = estimate_by_function(rule, gravity, sd)
                yield {
                    **key,
                    "condition": _CONDITION,
                    "value": estimate.value,
                    "uncertainty": estimate.sd,
                    "basis": ESTIMATED,
                    "computed_from": rule["method"],
                }

    return pd.DataFrame(list(rows()))
