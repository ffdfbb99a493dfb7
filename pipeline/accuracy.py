"""The table ``accuracy``: what is computed where print is silent, tried where print is not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import numpy as np
import pandas as pd

from pipeline.compiled import tiers, uncertainties
from pipeline.cross_validation import handbook_gravities
from pipeline.markdown import table
from pipeline.relations import OTHER, UNITED_STATES, class_of, fitted_woods, implied_errors
from pipeline.strengths import Off
from woodref.formulas.spread import Z90
from woodref.reference.properties import PROPERTIES

#: Woods a check needs to tell what share its band holds.
_ENOUGH = 5
_GROUPS = {UNITED_STATES: "woods of North America", OTHER: "woods of other regions"}


def _held(off: np.ndarray, sd: np.ndarray) -> float | None:
    """Share of errors within the central 90 % [%], None for too few woods."""
    if len(off) < _ENOUGH:
        return None
    return round(float(100.0 * np.mean(np.abs(off) <= Z90 * sd)), 1)


def left_out_spread(off: np.ndarray, group: np.ndarray) -> np.ndarray:
    """Root mean square error of the other woods of each wood's group."""
    squares = off**2
    out = np.empty(len(off))
    for i, g in enumerate(group):
        same = group == g
        same[i] = False
        out[i] = np.sqrt(squares[same].mean()) if same.any() else np.sqrt(squares.mean())
    return out


def _row(
    property_id: str, check: str, unit: str, off: np.ndarray, held: float | None
) -> dict[str, Any]:
    return {
        "property_id": property_id,
        "check": check,
        "woods": len(off),
        "unit": unit,
        "bias": round(float(off.mean()), 4),
        "rms": round(float(np.sqrt((off**2).mean())), 4),
        "coverage_pct": held,
    }


def _compiled(m: pd.DataFrame, density: pd.DataFrame) -> Iterator[dict[str, Any]]:
    handbook = handbook_gravities(m)
    spread = uncertainties(handbook, density)
    for name, source_table, printed, used in tiers(handbook, density):
        for what, off in (("as printed", printed), ("as used", used)):
            errors = off.to_numpy(float)
            sd = np.full(len(errors), spread[source_table])
            check = f"compiled mean {what}, less the handbook's: {name}"
            yield _row("basic_specific_gravity", check, "g/cm3", errors, _held(errors, sd))


def _shrinkage(m: pd.DataFrame, point_of: Mapping[str, float]) -> Iterator[dict[str, Any]]:
    for group, words in _GROUPS.items():
        woods = fitted_woods(m, group)
        sd = left_out_spread(woods.off, class_of(woods.gravity))
        check = f"fitted line less print, each wood left out in turn: {words}"
        yield _row("shrinkage_volumetric", check, "%", woods.off, _held(woods.off, sd))
    errors = implied_errors(m, point_of)
    off = np.array([e for e, _ in errors])
    sd = left_out_spread(off, np.zeros(len(off)))
    check = "implied by basic and 12 % specific gravity, less print"
    yield _row("shrinkage_volumetric", check, "%", off, _held(off, sd))


def _strength(off: Iterable[Off]) -> Iterator[dict[str, Any]]:
    groups: dict[tuple[str, str, bool], list[Off]] = {}
    everyone: dict[tuple[str, str], list[Off]] = {}
    for o in off:
        groups.setdefault((o.property_id, o.kind, o.imported), []).append(o)
        everyone.setdefault((o.property_id, o.kind), []).append(o)
    for (property_id, kind, imported), woods in sorted(groups.items()):
        errors = -np.array([o.log_ratio for o in woods])
        squares = {o.species_id: o.log_ratio**2 for o in everyone[property_id, kind]}
        total, n = sum(squares.values()), len(squares)
        sd = np.array([np.sqrt((total - squares[o.species_id]) / (n - 1)) for o in woods])
        where = "imported woods" if imported else "woods of North America"
        check = f"function of specific gravity less print, {kind}s, {where}"
        yield _row(property_id, check, "% (log)", 100.0 * errors, _held(errors, sd))


def accuracy_table(
    m: pd.DataFrame, density: pd.DataFrame, off: Iterable[Off], point_of: Mapping[str, float]
) -> pd.DataFrame:
    """All checks, one row each.

    Parameters: m the reconciled measurements; density the table; off as off_the_functions;
    point_of each wood its fiber saturation point [%].
    """
    return pd.DataFrame([*_compiled(m, density), *_shrinkage(m, point_of), *_strength(off)])


def accuracy_quality(frames: Mapping[str, pd.DataFrame]) -> list[str]:
    """Lines of QUALITY.md."""
    return [
        "## Accuracy",
        "",
        "What is computed where print is silent, on woods where print is not: computed less "
        "printed. Held: the share of woods whose printed mean lies within the central 90 % of "
        "the estimate, its spread found on the other woods.",
        "",
        *table(
            ("property", "check", "woods", "unit", "bias", "RMS", "held %"),
            [
                (
                    PROPERTIES[r.property_id].label,
                    r.check,
                    r.woods,
                    r.unit,
                    f"{r.bias:+.3g}",
                    f"{r.rms:.3g}",
                    "" if pd.isna(r.coverage_pct) else f"{r.coverage_pct:.0f}",
                )
                for r in frames["accuracy"].itertuples()
            ],
        ),
    ]
