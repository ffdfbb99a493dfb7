"""Cells outside physical sense: kept, never preferred, each with its reason.

Every rule takes the printed cells as a list and yields (measurement_id, reason). The
rules here compare a cell with what physics or another printing says; those that compare
it with all woods stand in pipeline.scatter.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from statistics import median

import pandas as pd

from pipeline import printings, scatter
from pipeline.cells import RISING, Cell, Finding, grouped
from woodref.formulas.density import volumetric_shrinkage
from woodref.formulas.shrinkage import implied_fiber_saturation
from woodref.reference.properties import PROPERTIES

#: Volumetric shrinkage may differ from that of radial and tangential by so many points.
_VOLUMETRIC_POINTS = 3.0
#: A shrinkage and a coefficient that imply a fiber saturation point outside these are not of one
#: wood [%].
_LOWEST_POINT_PCT, _HIGHEST_POINT_PCT = 15.0, 40.0
_TOTAL_CHANGE_PCT = 28.0
_CHANGE_SHARE = 0.20


def outside_limits(cells: list[Cell]) -> Iterator[Finding]:
    """Values no wood can have."""
    for c in cells:
        p = PROPERTIES[c.property_id]
        if not p.low <= c.value <= p.high:
            yield (
                c.measurement_id,
                (
                    f"{c.printed_value} {c.printed_unit} is outside {p.low:g} to {p.high:g} "
                    f"{p.si_unit}, the limits of physical sense for {p.label}"
                ),
            )


def gravity_falls_on_drying(cells: list[Cell]) -> Iterator[Finding]:
    """Specific gravity at 12 % below the green one: wood shrinks on drying."""
    for green, dry in scatter.gravity_pairs(cells):
        if dry.value < green.value:
            yield (
                dry.measurement_id,
                (
                    f"specific gravity at 12 % {dry.printed_value} below the green "
                    f"{green.printed_value}: wood shrinks on drying"
                ),
            )


def shrinkage_order(cells: list[Cell]) -> Iterator[Finding]:
    """Tangential below radial, and volumetric far from radial and tangential together."""
    rows = [c for c in cells if c.property_id.startswith("shrinkage_")]
    for found in grouped(rows, lambda c: (c.source_table, c.source_line)).values():
        by = {c.property_id.removeprefix("shrinkage_"): c for c in found}
        if not {"radial", "tangential"} <= set(by):
            continue
        r, t = by["radial"].value, by["tangential"].value
        if t < r:
            for name in ("radial", "tangential"):
                yield by[name].measurement_id, f"tangential shrinkage {t:g} % below radial {r:g} %"
        if "volumetric" not in by:
            continue
        v, expected = by["volumetric"].value, float(volumetric_shrinkage(r, t))
        if abs(v - expected) <= _VOLUMETRIC_POINTS:
            continue
        # Where another table repeats the volumetric figure, the other two are the odd ones.
        repeated = any(
            c.property_id == "shrinkage_volumetric"
            and c.species_id == by["volumetric"].species_id
            and c.source_table != by["volumetric"].source_table
            and abs(c.value - v) <= c.rounding
            for c in rows
        )
        for name in ("radial", "tangential") if repeated else ("volumetric",):
            yield (
                by[name].measurement_id,
                (
                    f"volumetric shrinkage {v:g} % against {expected:.1f} % from radial {r:g} "
                    f"and tangential {t:g}: more than {_VOLUMETRIC_POINTS:g} points apart"
                    + ("; another table prints the same volumetric figure" if repeated else "")
                ),
            )


def dry_below_green(cells: list[Cell]) -> Iterator[Finding]:
    """A strength or hardness lower dry than green in one table and series."""
    rows = [c for c in cells if c.property_id in RISING]
    for found in grouped(
        rows,
        lambda c: (c.species_id, c.property_id, c.source_table, c.trade_name, c.test_standard),
    ).values():
        green = [c for c in found if c.condition == "green"]
        for dry in found:
            if dry.condition not in ("12pct", "15pct"):
                continue
            # A printed range overlaps rather than contradicts: its nearer end counts.
            high = dry.value if pd.isna(dry.value_high) else dry.value_high
            for wet in green:
                low = wet.value if pd.isna(wet.value_low) else wet.value_low
                if high < low - 1e-9:
                    yield (
                        dry.measurement_id,
                        (
                            f"{PROPERTIES[dry.property_id].label} {dry.printed_value} dry below "
                            f"{wet.printed_value} green"
                        ),
                    )
                    break


def coefficient_against_shrinkage(cells: list[Cell]) -> Iterator[Finding]:
    """A row of dimensional change coefficients that is not of the wood it stands under.

    With the wood's shrinkage one of them implies a fiber saturation point no wood has; the
    other of the row is then in doubt as well.
    """
    tables = ("shrinkage_domestic.csv", "shrinkage_imported.csv")
    total = {(c.species_id, c.property_id): c.value for c in cells if c.source_table in tables}
    coefficients = [c for c in cells if c.property_id.startswith("dimensional_change_")]
    for row in grouped(coefficients, lambda c: (c.source_table, c.source_line)).values():
        points = {}
        for c in row:
            s = total.get((c.species_id, f"shrinkage_{c.property_id.rsplit('_', 1)[1]}"))
            if s is not None:
                points[c.printed_value] = float(implied_fiber_saturation(s, c.value))
        off = [
            (printed, point)
            for printed, point in points.items()
            if not _LOWEST_POINT_PCT <= point <= _HIGHEST_POINT_PCT
        ]
        for c in row if off else ():
            printed, point = off[0]
            yield (
                c.measurement_id,
                f"coefficient {printed} of this row and the shrinkage of the wood imply a fiber "
                f"saturation point of {point:.0f} %, which no wood has",
            )


def change_per_pct_against_shrinkage(cells: list[Cell]) -> Iterator[Finding]:
    """A change per 1 % that times 28 exceeds the total shrinkage of the wood."""
    totals = {
        key: median(c.value for c in found)
        for key, found in grouped(
            [c for c in cells if c.property_id.startswith("shrinkage_") and not c.sample],
            lambda c: (c.species_id, c.property_id.removeprefix("shrinkage_")),
        ).items()
    }
    for c in cells:
        if not c.property_id.startswith("change_per_pct_") or not pd.isna(c.value_low):
            continue
        total = totals.get((c.species_id, c.property_id.removeprefix("change_per_pct_")))
        change = c.value * _TOTAL_CHANGE_PCT
        if total and change > total * (1.0 + _CHANGE_SHARE):
            yield (
                c.measurement_id,
                (
                    f"{c.printed_value} % per 1 % over 28 % moisture content is {change:.1f} %, "
                    f"more than the total shrinkage {total:.1f} % allows"
                ),
            )


RULES: tuple[Callable[[list[Cell]], Iterator[Finding]], ...] = (
    gravity_falls_on_drying,
    shrinkage_order,
    dry_below_green,
    printings.counterpart_differs,
    printings.same_as_another_wood,
    coefficient_against_shrinkage,
    change_per_pct_against_shrinkage,
    printings.other_moisture_elsewhere,
    printings.gravity_off_the_sheets,
    printings.off_the_test_series,
    scatter.gravity_against_shrinkage,
    scatter.off_the_gravity_line,
    scatter.off_another_property,
)


def plausibility_flags(m: pd.DataFrame) -> pd.Series:
    """The reasons why each measurement is outside physical sense, '' where it is not.

    Cells outside the limits are set aside before the other rules, so that one slip of
    print does not hide others. What is said of a cell holds for its unit counterpart where
    the two print one figure.
    """
    reasons: dict[str, list[str]] = defaultdict(list)
    cells = list(m.itertuples(index=False))
    for i, reason in outside_limits(cells):
        reasons[i].append(reason)
    sound = [c for c in cells if c.measurement_id not in reasons]
    for rule in RULES:
        for i, reason in rule(sound):
            if reason not in reasons[i]:
                reasons[i].append(reason)
    for c, other in printings.agreeing_counterparts(sound):
        if c.measurement_id in reasons and other.measurement_id not in reasons:
            reasons[other.measurement_id] = [
                f"its unit counterpart: {reasons[c.measurement_id][0]}"
            ]
    return m["measurement_id"].map(lambda i: "; ".join(reasons.get(i, [])))
