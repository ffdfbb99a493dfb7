"""QUALITY.md: woods whose printed densities disagree, and the spread of printed means."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pandas as pd

from pipeline.compiled import COMPILED
from pipeline.fiber_saturation import point_of_row
from pipeline.implied import Figures, preferred_figures, shrinkages_of, uncertainty
from pipeline.markdown import table
from woodref.reference.densities import (
    COMPARED_PCT,
    DENSITIES,
    Compared,
    density_compared,
    disagreeing,
    moisture_of,
)
from woodref.reference.properties import PROPERTIES


def _compared(figures: Figures, total_pct: float, point_pct: float) -> list[tuple[Any, Compared]]:
    """The printed densities of one wood at one moisture content, the one used first.

    Broad samples stand before narrow ones, as a look-up takes them; the basic gravity before
    all.
    """
    known: list[tuple[bool, bool, int, Any, float]] = []
    for order, property_id in enumerate(DENSITIES):
        row = figures.get(property_id)
        if row is None or row.source_table in COMPILED:
            continue
        printed = None if pd.isna(row.moisture_content_pct) else float(row.moisture_content_pct)
        basic = property_id == "basic_specific_gravity"
        moisture_pct = COMPARED_PCT if basic else moisture_of(property_id, printed)
        if moisture_pct is not None:
            narrow = isinstance(row.sample, str) and bool(row.sample)
            known.append((not basic, narrow, order, row, moisture_pct))
    out = []
    for *_, row, moisture_pct in sorted(known, key=lambda k: k[:3]):
        value = float(row.value)
        density = density_compared(row.property_id, value, moisture_pct, total_pct, point_pct)
        sd = density * uncertainty(row) / value
        out.append((row, Compared(density, sd)))
    return out


def disagreeing_woods(
    frames: Mapping[str, pd.DataFrame],
) -> list[tuple[Any, Any, Compared, Compared]]:
    """(row used, other row, what each means) of every printed density that is far off."""
    known = preferred_figures(frames["measurements"])
    shrinkages = shrinkages_of(
        frames["species"], frames["shrinkage_relations"], frames["implied"], known
    )
    points = {r.species_id: point_of_row(r) for r in frames["species"].itertuples()}
    out = []
    for species_id, figures in sorted(known.items()):
        if species_id not in shrinkages:
            continue
        pairs = _compared(figures, shrinkages[species_id], points[species_id])
        if not pairs:
            continue
        off = disagreeing([c for _, c in pairs])
        out += [(pairs[0][0], row, pairs[0][1], c) for row, c in pairs if c in off]
    return out


def _told(row: Any, compared: Compared) -> str:
    unit = "" if row.printed_unit == "1" else f" {row.printed_unit}"
    label = PROPERTIES[row.property_id].label
    sample = f" ({row.sample})" if isinstance(row.sample, str) and row.sample else ""
    return f"{label} {row.printed_value}{unit}{sample}: {compared.density_kg_m3:.0f}"


def densities_quality(frames: Mapping[str, pd.DataFrame]) -> list[str]:
    """Lines of QUALITY.md on the densities of one wood, and on how sure printed means are."""
    woods = disagreeing_woods(frames)
    spreads = frames["properties"].dropna(subset=["coefficient_of_variation_of_mean_pct"])
    return [
        "## One wood, one density",
        "",
        f"{len(woods)} printed densities mean, at 12 % moisture content, another weight than the "
        "density that is used for their wood: the two differ by more than the standard deviation "
        "of their difference. Figures in kg/m3 at 12 %.",
        "",
        *table(
            ("wood", "used", "other", "difference %"),
            [
                (
                    used.species_id,
                    _told(used, first),
                    _told(row, c),
                    f"{100.0 * (c.density_kg_m3 / first.density_kg_m3 - 1.0):+.0f}",
                )
                for used, row, first, c in woods
            ],
        ),
        "## How sure a printed mean is",
        "",
        "Spread between independent publications of one wood, pooled over the woods that have "
        "two or more; figures that agree within printed rounding or half a percent count as one "
        "that was carried over. It is part of every likely range, beside the spread of boards.",
        "",
        *table(
            ("property", "between boards %", "of the mean %", "woods"),
            [
                (
                    r.label,
                    f"{r.coefficient_of_variation_pct:g}",
                    f"{r.coefficient_of_variation_of_mean_pct:g}",
                    r.woods_behind_it,
                )
                for r in spreads.itertuples()
            ],
        ),
    ]
