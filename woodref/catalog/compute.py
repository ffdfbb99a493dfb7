"""The query that computes a catalog: every row by the formulas that one board is computed by.

Columns that begin with two underscores are ours; woodref.catalog.results names the answers.
"""

from __future__ import annotations

from typing import Any

import duckdb

from woodref.catalog.request import SIZES, Request, Want
from woodref.catalog.sized import BAD, Sized, double
from woodref.formulas.density import density_at, greatest_density, mass_of, specific_gravity_at
from woodref.formulas.lumber import board_feet
from woodref.formulas.movement import cv_of_size_change, share_of_green_size_across
from woodref.formulas.shrinkage import (
    shrinkage_at_ring_angle,
    size_by_change_per_pct,
)
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
    request: Request,
    want: tuple[Want, ...],
    wood: str,
    facts: ShippingFacts | None,
) -> str:
    """The rows that can be computed, with what is computed of them.

    Parameters: rows as sized_sql gives them; request; want; wood, the column of names as SQL;
    facts of shipping where they are wanted.
    """
    sized = rows.sql
    steps: list[dict[str, Any]] = [
        {"volume": "__length_mm * __width_mm * __thickness_mm * 1e-9::double"}
    ]
    if {Want.WEIGHT, Want.SHIPPING} & set(want):
        steps += _weight_steps(request.ranges)
    if Want.MOVEMENT in want:
        steps += _movement_steps(request.ranges)
    if {Want.BOARD_FEET, Want.COST} & set(want):
        best = ", chosen.best as __best" if Want.COST in want else ""
        sized = (
            f"select s.*, chosen.stock as __stock, chosen.stock_mm as __bought_mm{best} "
            f"from (select * from ({sized}) where {BAD} is null) s left join chosen on "
            f"chosen.name = s.{wood} and chosen.thickness = s.__thickness_mm "
            "and chosen.rough = s.__rough and chosen.given = coalesce(s.__stock_mm, -1.0)"
        )
        steps += _stock_steps(Want.COST in want, request.ranges)
    if facts:
        steps += _shipping_steps(request, facts)
    query = f"select * from ({sized}) where {BAD} is null"
    for step in steps:
        named = ", ".join(f"{sql} as __{name}" for name, sql in step.items())
        query = f"select *, {named} from ({query})"
    return query


def _weight_steps(ranges: bool) -> list[dict[str, Any]]:
    moisture, volume = column("moisture"), column("volume")
    gravity = specific_gravity_at(
        column("basic_specific_gravity"),
        moisture,
        column("volumetric_pct"),
        column("fiber_saturation_pct"),
    )
    steps: list[dict[str, Any]] = [
        {"density": density_at(gravity, moisture)},
        {"mass": mass_of(volume, column("density"))},
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


def _movement_steps(ranges: bool) -> list[dict[str, Any]]:
    """From the size at the build to that at the first moisture content, and on to the second."""
    angle = column("angle")
    curve = (
        column("tangential"),
        column("radial"),
        column("fiber_saturation_pct"),
        column("tangential_per_pct"),
        column("radial_per_pct"),
    )
    shares = {
        f"share_{name}": share_of_green_size_across(column(name), angle, *curve)
        for name in ("moisture", "start", "end")
    }
    mixed = shrinkage_at_ring_angle(column("tangential"), column("radial"), angle)
    width = column("width_mm")
    at_start = size_by_change_per_pct(width, column("moisture"), column("start"), mixed)
    at_end = size_by_change_per_pct(column("width_start"), column("start"), column("end"), mixed)
    steps: list[dict[str, Any]] = [
        shares,
        {
            "width_start": f"case when __by_change then {at_start} "
            "else __width_mm * __share_start / __share_moisture end"
        },
        {
            "change": f"case when __by_change then {at_end} "
            "else __width_start * __share_end / __share_start end - __width_start"
        },
    ]
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
