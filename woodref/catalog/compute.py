"""What is computed of every row of a catalog, by the formulas that one board is computed by.

Steps are columns of whatever engine computes the catalog: those of DuckDB for files and tables,
those of Spark on a cluster. Each step may use the columns of the rows and of the steps before it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from woodref.catalog.request import SIZES, Request, Want
from woodref.catalog.sized import Sized
from woodref.formulas.density import greatest_density, mass_of
from woodref.formulas.engine import choose, is_known, larger, smaller
from woodref.formulas.folded import (
    SIZE_COEFFICIENTS,
    across_by_share,
    density_by_coefficients,
    share_by_coefficients,
    tangential_share,
)
from woodref.formulas.lumber import board_feet
from woodref.formulas.movement import cv_of_size_change
from woodref.formulas.spread import cv_of_boards, likely_range
from woodref.reference.shipping import ShippingFacts
from woodref.shipping.crate import USUAL_PADDING_MM
from woodref.units import LB_FT3_TO_KG_M3, MM_PER_INCH

#: A column of an engine.
Column: TypeAlias = Any
#: Gives the column of a name.
Row: TypeAlias = Callable[[str], Column]
#: Columns by name.
Step: TypeAlias = Mapping[str, Column]

_M3_PER_MM3 = 1e-9


def steps_of(
    row: Row,
    request: Request,
    want: tuple[Want, ...],
    rows: Sized,
    facts: ShippingFacts | None,
) -> list[Step]:
    """The steps that compute a catalog, in their order.

    Parameters: row; request; want; rows they are computed of; facts of shipping where they are
    wanted.
    """
    steps: list[Step] = [
        {"volume": row("length_mm") * row("width_mm") * row("thickness_mm") * _M3_PER_MM3}
    ]
    if Want.VOLUME in want:
        steps.append({"whole_volume": row("volume") * row("quantity")})
    if {Want.WEIGHT, Want.SHIPPING} & set(want):
        steps += _weights(row, request.ranges)
    if Want.MOVEMENT in want:
        if not rows.has_share:
            steps.append({"share": tangential_share(row("angle"))})
        steps += _movements(row, request.ranges, rows.through_a_year)
    if {Want.BOARD_FEET, Want.COST} & set(want):
        steps += _stocks(row, Want.COST in want, request.ranges)
    if facts:
        steps += _shipping(row, request, facts)
    return steps


def _where_known(known: Column, value: Column) -> Column:
    """A value where another is known; the least of a null and a number is a number elsewhere."""
    return choose(is_known(known), value, None)


def _weights(row: Row, ranges: bool) -> list[Step]:
    moisture, volume = row("moisture"), row("volume")
    density = density_by_coefficients(
        moisture, row("middle_m3_per_kg"), row("m3_per_kg_per_pct"), row("fiber_saturation_pct")
    )
    steps: list[Step] = [
        {"mass": mass_of(volume, density)},
        {"total_mass": row("mass") * row("quantity")},
    ]
    if ranges:
        most = greatest_density(moisture) * volume
        mass, total, count = row("mass"), row("total_mass"), row("quantity")
        cv = row("gravity_cv")
        one = likely_range(mass, mass * cv, 0.0, most)
        many = likely_range(total, total * cv_of_boards(cv, count), 0.0, most * count)
        steps.append(
            {
                f"{name}_{end}": _where_known(mass, value)
                for name, both in (("mass", one), ("total_mass", many))
                for end, value in zip(("low", "high"), both, strict=True)
            }
        )
    return steps


def _movements(row: Row, ranges: bool, through_a_year: bool) -> list[Step]:
    """From the size at the build to that at the first moisture content, and on to the second.

    Without a year both sizes are at the same moisture content.
    """
    share = row("share")
    steps: list[Step] = [
        {
            f"line_{n}": across_by_share(row(f"tangential_{n}"), row(f"radial_{n}"), share)
            for n in SIZE_COEFFICIENTS
        }
    ]
    line = [row(f"line_{n}") for n in SIZE_COEFFICIENTS] + [row("moves_to_pct")]
    ends = ("moisture", "start", "end") if through_a_year else ("start", "end")
    steps.append({f"size_{name}": share_by_coefficients(row(name), *line) for name in ends})
    grown = row("size_end") - row("size_start")
    if through_a_year:
        by_change = 1.0 + row("size_start") - row("size_moisture")
        by_shrinkage = 1.0 / row("size_moisture")
        grown = grown * choose(row("by_change"), by_change, by_shrinkage)
    else:
        grown = grown * choose(row("by_change"), 1.0, 1.0 / row("size_start"))
    steps.append({"change": row("width_mm") * grown})
    if ranges:
        cv = cv_of_size_change(
            row("tangential"),
            row("radial"),
            row("tangential_sd"),
            row("radial_sd"),
            row("angle"),
            row("point_cv"),
        )
        change = row("change")
        one, other = (change * end for end in likely_range(1.0, row("change_cv")))
        steps += [
            {"change_cv": cv},
            {
                "change_low": _where_known(change, smaller(one, other)),
                "change_high": _where_known(change, larger(one, other)),
            },
        ]
    return steps


def _stocks(row: Row, cost: bool, ranges: bool) -> list[Step]:
    length, width, bought = row("length_mm"), row("width_mm"), row("bought_mm")
    feet = board_feet(bought / MM_PER_INCH, width / MM_PER_INCH, length / (12.0 * MM_PER_INCH))
    steps: list[Step] = [{"board_feet": _where_known(bought, feet * row("quantity"))}]
    if cost:
        volume = bought * width * length * _M3_PER_MM3 * row("quantity")
        ends = ("", "_low", "_high") if ranges else ("",)
        steps += [
            {"amount": choose(row("priced_by_volume"), volume, row("board_feet"))},
            {f"cost{end}": row("amount") * row(f"price{end}") for end in ends},
        ]
    return steps


def _shipping(row: Row, request: Request, facts: ShippingFacts) -> list[Step]:
    """A carton, as woodref.shipping.crate has it: padding all around, its usual weight."""
    padding = USUAL_PADDING_MM if request.padding_mm is None else request.padding_mm
    added = (facts.packing_pct.low + facts.packing_pct.high) / 200.0
    length, width, thickness = (row(f"{size}_mm") + 2.0 * padding for size in SIZES)
    limit, divisor = facts.ceiling, facts.divisors[0]
    # The ends as a crate has them: of the wood and of the packing at once.
    spread = {
        "_low": 1.0 + facts.packing_pct.low / 100.0,
        "_high": 1.0 + facts.packing_pct.high / 100.0,
    }
    if not request.ranges:
        spread = {}
    ends = ("", *spread)
    freight = _class_of(row("gross_density"), facts)
    return [
        {
            "gross": row("mass") * (1.0 + added),
            **{f"gross{e}": row(f"mass{e}") * packing for e, packing in spread.items()},
            "outer": length * width * thickness * _M3_PER_MM3,
            "longest": larger(larger(length, width), thickness),
            "around": length + width + thickness,
        },
        {
            "gross_density": row("gross") / row("outer") / LB_FT3_TO_KG_M3,
            "girth": 2.0 * row("around") - row("longest"),
            "dimensional": row("outer") * divisor.kg_per_m3,
        },
        {
            "freight_class": _where_known(row("gross"), freight),
            **{f"chargeable{e}": larger(row(f"gross{e}"), row("dimensional")) for e in ends},
            "over_limit": (row("gross") > limit.mass_kg)
            | (row("longest") > limit.length_mm)
            | (row("girth") > limit.length_and_girth_mm),
        },
    ]


def _class_of(density_lb_ft3: Column, facts: ShippingFacts) -> Column:
    """The class of the lightest kind that a density is not beyond."""
    classes = sorted(facts.classes, key=lambda c: c.low_lb_ft3)
    name: Column = classes[-1].name
    for one in reversed(classes):
        if one.high_lb_ft3 is not None:
            name = choose(density_lb_ft3 < one.high_lb_ft3, one.name, name)
    return name
