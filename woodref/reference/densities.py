"""The printed densities of a wood, and how one stands in for its basic specific gravity.

Where no basic specific gravity of the wood itself is printed, one of these is turned back to
it: the first of OTHER_DENSITIES, those of broad samples first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot, inf, sqrt
from typing import Any, NamedTuple

from woodref.formulas.density import (
    basic_specific_gravity_from,
    density_at,
    specific_gravity_at,
    specific_gravity_from_density,
    volumetric_shrinkage_implied,
)

#: Moisture content an air-dry density is taken to have where none is printed
#: (common practice, no source) [%].
AIR_DRY_PCT = 12.0
#: Moisture content the printed densities of woods are compared at [%].
COMPARED_PCT = 12.0
#: Densities and specific gravities that are no basic specific gravity, in the order in which
#: they are tried, with the moisture content they are known to have; None where print says.
OTHER_DENSITIES: dict[str, float | None] = {
    "specific_gravity_12pct": 12.0,
    "density_12pct": 12.0,
    "density_ovendry": 0.0,
    "density_air_dry": None,
    "density_at_test_moisture": None,
}
#: Classes of basic specific gravity the spread of estimated shrinkage is told for, and the end
#: of each.
DENSITY_CLASSES: dict[str, float] = {"below_0_5": 0.5, "0_5_to_0_7": 0.7, "above_0_7": inf}
#: Volumetric shrinkage that two printed gravities can imply [%] (common practice, no source).
IMPLIED_LIMITS_PCT = (4.0, 25.0)
#: Step of the last printed digit of a specific gravity in the tables [1].
PRINTED_STEP = 0.01
_ITERATIONS = 12
#: All figures of stated moisture condition that say how heavy a wood is.
DENSITIES = ("basic_specific_gravity", *OTHER_DENSITIES)


def moisture_of(property_id: str, printed_pct: float | None) -> float | None:
    """Moisture content of a density of OTHER_DENSITIES [%], None where it is not known.

    Parameters: property_id; printed_pct the moisture content of its row, None where none is.
    """
    known = OTHER_DENSITIES[property_id]
    if known is not None:
        return known
    if printed_pct is None and property_id == "density_air_dry":
        return AIR_DRY_PCT
    return printed_pct


def order_of(property_id: str, sample: str) -> tuple[bool, int]:
    """Sort key of the densities of a wood: broad samples first, then OTHER_DENSITIES."""
    return bool(sample), list(OTHER_DENSITIES).index(property_id)


def gravity_of(property_id: str, value: float, moisture_pct: float) -> float:
    """Specific gravity at its moisture content of a figure of OTHER_DENSITIES [1]."""
    if property_id == "specific_gravity_12pct":
        return value
    return float(specific_gravity_from_density(value, moisture_pct))


def density_compared(
    property_id: str,
    value: float,
    moisture_pct: float,
    volumetric_pct: float,
    fiber_saturation_pct: float,
) -> float:
    """Density at COMPARED_PCT that a figure of DENSITIES means [kg/m3].

    Parameters: property_id; value; moisture_pct of an other than basic one [%];
    volumetric_pct shrinkage of the wood, green to ovendry [% of green volume];
    fiber_saturation_pct of the wood [%].
    """
    basic = value
    if property_id != "basic_specific_gravity":
        gravity = gravity_of(property_id, value, moisture_pct)
        basic = float(
            basic_specific_gravity_from(gravity, moisture_pct, volumetric_pct, fiber_saturation_pct)
        )
    at = specific_gravity_at(basic, COMPARED_PCT, volumetric_pct, fiber_saturation_pct)
    return float(density_at(at, COMPARED_PCT))


class Printed(NamedTuple):
    """A printed density: property, value, moisture content of its row [%], narrow sample."""

    property_id: str
    value: float
    printed_pct: float | None = None
    sample: str = ""


class StandIn(NamedTuple):
    """The density that stands in for the basic specific gravity.

    ``which`` of the figures offered it is; ``gravity`` its specific gravity [1] at
    ``moisture_pct`` [%].
    """

    which: int
    gravity: float
    moisture_pct: float


def stand_ins(figures: Sequence[Printed]) -> list[StandIn]:
    """The figures that can stand in for the basic specific gravity of their wood, best first.

    Parameters: figures of properties of OTHER_DENSITIES, all of one wood.
    """
    known = [
        (order_of(f.property_id, f.sample), i, f, moisture_pct)
        for i, f in enumerate(figures)
        if (moisture_pct := moisture_of(f.property_id, f.printed_pct)) is not None
    ]
    return [
        StandIn(i, gravity_of(f.property_id, f.value, moisture_pct), moisture_pct)
        for _, i, f, moisture_pct in sorted(known)
    ]


def basic_by_line(
    gravity: float,
    moisture_pct: float,
    relation: Mapping[str, Any],
    fiber_saturation_pct: float,
) -> float:
    """Basic specific gravity from that at a moisture content, shrinkage by a fitted line.

    Parameters: gravity [1] at moisture_pct [%]; relation a row of shrinkage_relations;
    fiber_saturation_pct of the wood [%].
    Returns: the basic specific gravity [1] that gives, by the shrinkage the line has for it,
    the gravity; by iteration, which contracts for any gravity of wood.
    """
    basic = gravity
    for _ in range(_ITERATIONS):
        shrinkage = shrinkage_by_line(basic, relation)
        basic = float(
            basic_specific_gravity_from(gravity, moisture_pct, shrinkage, fiber_saturation_pct)
        )
    return basic


def shrinkage_by_line(basic: float, relation: Mapping[str, Any]) -> float:
    """Volumetric shrinkage that a row of shrinkage_relations has for a basic gravity [%].

    Beyond the densest wood the line was fitted to, its shrinkage holds.
    """
    within = min(basic, relation["greatest_gravity"])
    return float(relation["intercept_pct"] + relation["slope_pct"] * within)


def line_sd(basic: float, relation: Mapping[str, Any]) -> float:
    """Standard deviation of the shrinkage of one wood about its line, by density class [%]."""
    name = next(name for name, below in DENSITY_CLASSES.items() if basic < below)
    return float(relation[f"residual_sd_{name}_pct"])


class ImpliedShrinkage(NamedTuple):
    """Volumetric shrinkage that two printed gravities imply, and its standard deviation [%]."""

    volumetric_pct: float
    sd_pct: float


def implied_shrinkage(
    basic: float, at_12pct: float, relation: Mapping[str, Any], fiber_saturation_pct: float
) -> ImpliedShrinkage | None:
    """Volumetric shrinkage that basic specific gravity and that at 12 % imply together.

    Parameters: basic, at_12pct both as printed [1]; relation the row of shrinkage_relations
    that would serve without them; fiber_saturation_pct of the wood [%].
    Returns: the shrinkage; its spread joins that of the rounding of both and that found on
    woods where the shrinkage is printed too. None outside IMPLIED_LIMITS_PCT, and where the
    line is the better guess.
    Source: FPL-GTR-282 (2021), Eq. 4-9 and 4-11, solved for the shrinkage.
    """
    volumetric = implied_pct(basic, at_12pct, fiber_saturation_pct)
    low, high = IMPLIED_LIMITS_PCT
    sd = hypot(rounding_sd(basic, at_12pct, fiber_saturation_pct), relation["implied_sd_pct"])
    if not low <= volumetric <= high or sd >= line_sd(basic, relation):
        return None
    return ImpliedShrinkage(volumetric, sd)


def implied_pct(basic: float, at_12pct: float, fiber_saturation_pct: float) -> float:
    """Volumetric shrinkage that basic specific gravity and that at 12 % imply, as it comes [%]."""
    return float(volumetric_shrinkage_implied(basic, at_12pct, COMPARED_PCT, fiber_saturation_pct))


def rounding_sd(basic: float, at_12pct: float, fiber_saturation_pct: float) -> float:
    """Standard deviation of an implied shrinkage from the rounding of both gravities [%]."""
    off = PRINTED_STEP / sqrt(12.0)
    here = implied_pct(basic, at_12pct, fiber_saturation_pct)
    return hypot(
        implied_pct(basic + off, at_12pct, fiber_saturation_pct) - here,
        implied_pct(basic, at_12pct + off, fiber_saturation_pct) - here,
    )


class Compared(NamedTuple):
    """The density at COMPARED_PCT a printed figure means, and how unsure that mean is [kg/m3]."""

    density_kg_m3: float
    sd_kg_m3: float


def disagreeing(figures: Sequence[Compared]) -> list[Compared]:
    """Those of the printed densities of a wood that do not go with the first.

    Two figures disagree where they differ by more than the standard deviation of their
    difference, that is by more than two publications of one wood usually do.
    """
    first, *others = figures
    return [
        f
        for f in others
        if abs(f.density_kg_m3 - first.density_kg_m3) > hypot(f.sd_kg_m3, first.sd_kg_m3)
    ]
