"""How far the printed mean of a wood is off the mean of the wood: the spread between publications.

A publication tests some trees; another tests others. Where two that are independent print the
same quantity of one wood, their difference tells how far a printed mean is off. Figures that
agree within printed rounding, or within half a percent, are taken for one figure carried from
one publication into the other, and count once; so does each test series of Agriculture Handbook
607. Compiled means, repeated tables, narrow samples and implausible cells are left out.
"""

from __future__ import annotations

from itertools import groupby
from math import log, sqrt
from operator import itemgetter
from typing import Any, NamedTuple

import pandas as pd

from pipeline.compiled import COMPILED
from woodref.reference.densities import DENSITIES
from woodref.reference.properties import PROPERTIES

_HANDBOOK = "wood-handbook"
_SERIES = "tropical-timbers-1984"
_OTHER_SPECIMENS = ("2-cm", "1-in.")
#: Difference below which two figures are taken for one that was carried over.
_SAME = 0.005
#: Woods with independent figures that a kind of quantity must have for a spread of its own.
_ENOUGH = 10
#: Kinds of quantity whose means are as sure as each other; the first serves where one has too
#: few woods.
STRENGTH, DENSITY, SHRINKAGE, CHANGE = "strength", "density", "shrinkage", "change per 1 %"
KINDS = (STRENGTH, DENSITY, SHRINKAGE, CHANGE)


def kind_of(property_id: str) -> str:
    """The kind of a property, '' for one of which no spread of the mean is told."""
    if PROPERTIES[property_id].cv_pct is None:
        return ""
    if property_id in DENSITIES or property_id == "density_unstated":
        return DENSITY
    if property_id.startswith(("shrinkage_", "dimensional_change_coefficient_")):
        return SHRINKAGE
    return CHANGE if property_id.startswith("change_per_pct_") else STRENGTH


class Means(NamedTuple):
    """Spread of the means of a kind of quantity [%], and the woods it was found on."""

    kind: str
    cv_pct: float
    woods: int


def _publication(row: Any) -> str:
    """What counts as one publication: editions together, test series apart."""
    if row.source_id.startswith(_HANDBOOK):
        return _HANDBOOK
    return f"{row.source_id} {row.test_standard}" if row.source_id == _SERIES else row.source_id


def independent_figures(rows: list[Any]) -> list[float]:
    """The figures of one wood, property and condition that do not repeat each other."""
    kept: list[tuple[str, Any]] = []
    for row in rows:
        publication = _publication(row)
        repeats = any(
            publication == other
            or abs(row.value - r.value) <= (row.rounding + r.rounding) / 2.0 + _SAME * r.value
            for other, r in kept
        )
        if not repeats:
            kept.append((publication, row))
    return [float(row.value) for _, row in kept]


def _variance(figures: list[float]) -> float:
    logs = [log(f) for f in figures]
    mean = sum(logs) / len(logs)
    return sum((x - mean) ** 2 for x in logs)


def means_of_woods(m: pd.DataFrame) -> dict[str, Means]:
    """The spread of the printed mean of a wood, by kind of quantity.

    Pooled variance of the logarithms within woods, over the woods with two or more independent
    figures.
    Parameters: m the normalized cells with their plausibility flags.
    """
    sound = m[
        m["plausibility_flag"].eq("")
        & m["sample"].eq("")
        & m["value"].gt(0)
        & ~m["repeats"].astype(bool)
        & ~m["source_table"].isin(COMPILED)
        & ~m["test_standard"].str.startswith(_OTHER_SPECIMENS)
        & m["condition"].ne("unstated")
    ].sort_values(["species_id", "property_id", "condition", "source_id", "measurement_id"])
    key = itemgetter("species_id", "property_id", "condition")
    squares: dict[str, list[tuple[float, int, str]]] = {kind: [] for kind in KINDS}
    records = [{**r._asdict(), "row": r} for r in sound.itertuples()]
    for (species_id, property_id, _), group in groupby(records, key=key):
        kind = kind_of(property_id)
        figures = independent_figures([r["row"] for r in group])
        if kind and len(figures) > 1:
            squares[kind].append((_variance(figures), len(figures) - 1, species_id))
    found: dict[str, Means] = {}
    for kind in KINDS:
        rows = squares[kind]
        woods = len({s for _, _, s in rows})
        if woods < _ENOUGH and found:
            found[kind] = found[STRENGTH]._replace(kind=kind)
            continue
        spread = sqrt(sum(v for v, _, _ in rows) / sum(n for _, n, _ in rows))
        found[kind] = Means(kind, round(100.0 * spread, 1), woods)
    return found


def with_means(m: pd.DataFrame, means: dict[str, Means]) -> pd.DataFrame:
    """The cells with the uncertainty of their mean, where the kind of quantity has one."""
    share = m["property_id"].map(
        lambda p: means[kind_of(p)].cv_pct / 100.0 if kind_of(p) else float("nan")
    )
    return m.assign(uncertainty=(share * m["value"]).round(6))
