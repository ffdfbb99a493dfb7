"""The query that computes a catalog: every row by the formulas that one board is computed by.

Columns that begin with two underscores are ours; woodref.catalog.results names the answers.
"""

from __future__ import annotations

from typing import Any

import duckdb

from woodref.catalog.inputs import Parts
from woodref.catalog.request import SIZES, Request, Want
from woodref.catalog.sized import Sized, double
from woodref.catalog.stock import on_stock
from woodref.formulas.density import greatest_density, mass_of
from woodref.formulas.folded import (
    SIZE_COEFFICIENTS,
    across_by_share,
    density_by_coefficients,
    share_by_coefficients,
)
from woodref.formulas.lumber import board_feet
from woodref.formulas.movement import cv_of_size_change
from woodref.formulas.spread import cv_of_boards, likely_range
from woodref.reference.shipping import ShippingFacts
from woodref.shipping.crate import USUAL_PADDING_MM
from woodref.units import (
    LB_FT3_TO_KG_M3,
    MM_PER_INCH,
)


def column(name: str) -> duckdb.Expression:
    """A column of ours as what a formula takes."""
    return duckdb.ColumnExpression(f"__{name}")


def computed_sql(
    rows: Sized,
    parts: Parts,
    request: Request,
    want: tuple[Want, ...],
    facts: ShippingFacts | None,
) -> str:
    """The rows that can be computed, with what is computed of them.

    Parameters: rows as sized_sql gives them; parts; request; want; facts of shipping where they
    are wanted.
    """
    good = rows.good_sql
    steps: list[dict[str, Any]] = [
        {"volume": "__length_mm * __width_mm * __thickness_mm * 1e-9::double"}
    ]
    if {Want.WEIGHT, Want.SHIPPING} & set(want):
        steps += _weight_steps(request.ranges)
    if Want.MOVEMENT in want:
        steps += _movement_steps(request.ranges, rows.through_a_year)
    if {Want.BOARD_FEET, Want.COST} & set(want):
        best = ", chosen.best as __best" if Want.COST in want else ""
        good = (
            f"select s.*, chosen.stock as __stock, chosen.stock_mm as __bought_mm{best} "
            f"from ({good}) s left join chosen on {on_stock(parts)}"
        )
        steps += _stock_steps(Want.COST in want, request.ranges)
    if facts:
        steps += _shipping_steps(request, facts)
    query = good
    for step in steps:
        named = ", ".join(f"{sql} as __{name}" for name, sql in step.items())
        query = f"select *, {named} from ({query})"
    return query


def _weight_steps(ranges: bool) -> list[dict[str, Any]]:
    moisture, volume = column("moisture"), column("volume")
    density = density_by_coefficients(
        moisture,
        column("ovendry_volume"),
        column("volume_per_pct"),
        column("fiber_saturation_pct"),
    )
    steps: list[dict[str, Any]] = [
        {"mass": mass_of(volume, density)},
        {"total_mass": "__mass * __quantity"},
    ]
    if ranges:
        most = greatest_density(moisture) * volume
        mass, total, count = column("mass"), column("total_mass"), column("quantity")
        cv = column("gravity_cv")
        one = likely_range(mass, mass * cv, 0.0, most)
        many = likely_range(total, total * cv_of_boards(cv, count), 0.0, most * count)
        # The least of a null and a number is the number in SQL.
        steps.append(
            {
                f"{name}_{end}": f"case when __mass is not null then {value} end"
                for name, both in (("mass", one), ("total_mass", many))
                for end, value in zip(("low", "high"), both, strict=True)
            }
        )
    return steps


def _movement_steps(ranges: bool, through_a_year: bool) -> list[dict[str, Any]]:
    """From the size at the build to that at the first moisture content, and on to the second.

    Without a year both sizes are at the same moisture content.
    """
    angle, share = column("angle"), column("share")
    steps: list[dict[str, Any]] = [
        {
            f"line_{n}": across_by_share(column(f"tangential_{n}"), column(f"radial_{n}"), share)
            for n in range(SIZE_COEFFICIENTS)
        }
    ]
    line = [column(f"line_{n}") for n in range(SIZE_COEFFICIENTS)] + [column("moves_to_pct")]
    ends = ("moisture", "start", "end") if through_a_year else ("start", "end")
    steps.append({f"size_{name}": share_by_coefficients(column(name), *line) for name in ends})
    first = "moisture" if through_a_year else "start"
    at_start = "1.0::double + __size_start - __size_moisture" if through_a_year else "1.0::double"
    steps.append(
        {
            "change": f"__width_mm * (__size_end - __size_start) * "
            f"case when __by_change then {at_start} else 1.0::double / __size_{first} end"
        }
    )
    if ranges:
        cv = cv_of_size_change(
            column("tangential"),
            column("radial"),
            column("tangential_sd"),
            column("radial_sd"),
            angle,
            column("point_cv"),
        )
        low, high = likely_range(1.0, column("change_cv"))
        ends = f"__change * {low}", f"__change * {high}"
        steps += [
            {"change_cv": cv},
            {
                f"change_{end}": f"case when __change is not null then {which}({ends[0]}, "
                f"{ends[1]}) end"
                for end, which in (("low", "least"), ("high", "greatest"))
            },
        ]
    return steps


def _stock_steps(cost: bool, ranges: bool) -> list[dict[str, Any]]:
    feet = board_feet(
        column("bought_mm") / MM_PER_INCH,
        column("width_mm") / MM_PER_INCH,
        column("length_mm") / (12.0 * MM_PER_INCH),
    )
    steps: list[dict[str, Any]] = [
        # The larger of a null and an inch is an inch in SQL.
        {"board_feet": f"case when __bought_mm is not null then ({feet}) * __quantity end"}
    ]
    if cost:
        amount = (
            "case when __best.per = 'm3' then __bought_mm * __width_mm * __length_mm "
            "* 1e-9::double * __quantity else __board_feet end"
        )
        ends = {"": "price", "_low": "low", "_high": "high"} if ranges else {"": "price"}
        steps.append({"amount": amount})
        steps.append({f"cost{e}": f"__amount * __best.{f}" for e, f in ends.items()})
    return steps


def _shipping_steps(request: Request, facts: ShippingFacts) -> list[dict[str, Any]]:
    """A carton, as woodref.shipping.crate has it: padding all around, its usual weight."""
    padding = USUAL_PADDING_MM if request.padding_mm is None else request.padding_mm
    added = (facts.packing_pct.low + facts.packing_pct.high) / 200.0
    sides = [f"(__{size}_mm + {double(2.0 * padding)})" for size in SIZES]
    return [
        {
            "gross": f"__mass * {double(1.0 + added)}",
            "outer": " * ".join([*sides, "1e-9::double"]),
            "longest": f"greatest({', '.join(sides)})",
            "around": f"({' + '.join(sides)})",
        },
        {
            "gross_density": f"__gross / __outer / {double(LB_FT3_TO_KG_M3)}",
            "girth": "2.0::double * __around - __longest",
        },
    ]
