"""Hardness, stiffness and strength at 12 % that no table prints of a wood.

A figure printed at another or an unstated moisture content of dry wood is used as it is, and
says so. Without one, the mean that goes with the specific gravity of the wood, by the printed
functions of Table 5-11; how far woods are off them was found on the printed woods.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import expm1, hypot
from typing import Any, NamedTuple

from woodref.formulas.density import specific_gravity_at, volumetric_shrinkage
from woodref.formulas.strength import property_from_gravity
from woodref.reference.bases import ESTIMATED
from woodref.reference.densities import COMPARED_PCT
from woodref.reference.properties import CONDITIONS, PROPERTIES
from woodref.reference.woods import SpreadParts, Value, Wood

#: What is estimated where print is silent.
ESTIMATED_PROPERTIES = (
    "side_hardness",
    "modulus_of_elasticity",
    "modulus_of_rupture",
    "compression_parallel",
)
#: Conditions of dry wood whose figure serves where none is printed at 12 %, in this order.
STAND_IN_CONDITIONS = ("15pct", "air_dry", "other", "unstated")
_CONDITION = "12pct"


class StrengthEstimate(NamedTuple):
    """A mean by the printed function, and its standard deviation from the relation alone."""

    value: float
    sd: float


def estimate_by_function(
    function: Mapping[str, Any], gravity: float, gravity_sd: float
) -> StrengthEstimate:
    """The mean of a property by its function of specific gravity, with its spread.

    Parameters: function a row of the table strength_functions; gravity at 12 % [1], and its
    standard deviation, single boards aside.
    Returns: the mean; its standard deviation joins that of woods about the function, found
    where both are printed, and that of the gravity.
    """
    value = float(property_from_gravity(function["coefficient"], gravity, function["exponent"]))
    of_gravity = function["exponent"] * gravity_sd / gravity
    return StrengthEstimate(value, value * expm1(hypot(function["log_sd"], of_gravity)))


def gravity_at_12(basic: float, volumetric_pct: float, fiber_saturation_pct: float) -> float:
    """Specific gravity at 12 % from the basic one, volumetric shrinkage and fiber saturation."""
    return float(specific_gravity_at(basic, COMPARED_PCT, volumetric_pct, fiber_saturation_pct))


def lacks_strength(wood: Wood) -> bool:
    """True where no table prints one of ESTIMATED_PROPERTIES of a wood at 12 %."""
    return any(wood.value(p, _CONDITION) is None for p in ESTIMATED_PROPERTIES)


def _gravity(wood: Wood, estimates: Mapping[tuple[str, str], Value]) -> tuple[float, Value] | None:
    """Specific gravity at 12 % and the figure it rests on, None where no density is known."""
    printed = wood.value("specific_gravity_12pct")
    if printed:
        return printed.value, printed
    key = ("basic_specific_gravity", "green")
    basic = wood.values.get(key) or estimates.get(key)
    shrinkage = ("shrinkage_volumetric", "range")
    volumetric = wood.values.get(shrinkage) or estimates.get(shrinkage)
    if basic is None:
        return None
    point = wood.fiber_saturation.pct
    if volumetric:
        return gravity_at_12(basic.value, volumetric.value, point), basic
    radial, tangential = wood.value("shrinkage_radial"), wood.value("shrinkage_tangential")
    if radial is None or tangential is None:
        return None
    total_pct = float(volumetric_shrinkage(radial.value, tangential.value))
    return gravity_at_12(basic.value, total_pct, point), basic


def _stand_in(wood: Wood, property_id: str) -> Value | None:
    """The figure of dry wood printed at another moisture content, marked as such."""
    for condition in STAND_IN_CONDITIONS:
        value = wood.value(property_id, condition)
        if value:
            moisture_pct = value.moisture_content_pct
            at = CONDITIONS[condition] if moisture_pct is None else f"at {moisture_pct:g} %"
            return replace(value, note="; ".join(n for n in (f"printed {at}", value.note) if n))
    return None


def strength_estimates(
    wood: Wood,
    estimates: Mapping[tuple[str, str], Value],
    functions: Sequence[Mapping[str, Any]],
) -> dict[tuple[str, str], Value]:
    """Hardness, stiffness and strength at 12 % of a wood that no table prints there.

    Parameters: wood; estimates of it made so far, for its gravity and shrinkage; functions the
    rows of the table strength_functions.
    Returns: values by (property, '12pct'): one printed at another moisture content, which keeps
    its basis, else the estimate, basis 'estimated'.
    Source: FPL-GTR-282 (2021), Table 5-11, p. 5-29.
    """
    by_property = {f["property_id"]: f for f in functions if f["kind"] == wood.kind}
    found: tuple[float, Value] | None = None
    out: dict[tuple[str, str], Value] = {}
    for property_id in ESTIMATED_PROPERTIES:
        if wood.value(property_id, _CONDITION):
            continue
        value = _stand_in(wood, property_id)
        if value is None and property_id in by_property:
            found = found or _gravity(wood, estimates)
            value = found and _estimate(by_property[property_id], *found)
        if value:
            out[property_id, _CONDITION] = value
    return out


def _estimate(function: Mapping[str, Any], gravity: float, used: Value) -> Value:
    p = PROPERTIES[function["property_id"]]
    share = used.known_parts.of_mean / used.value
    estimate = estimate_by_function(function, gravity, share * gravity)
    parts = SpreadParts((p.cv_pct or 0.0) / 100.0 * estimate.value, estimate=estimate.sd)
    return Value(
        property_id=p.property_id,
        condition=_CONDITION,
        value=estimate.value,
        unit=p.si_unit,
        sd=parts.sd,
        spread_parts=parts,
        basis=ESTIMATED,
        source=f"estimated: {function['method']}; {PROPERTIES[used.property_id].label} from "
        f"{used.source}",
        printed=f"from specific gravity {gravity:.2f} at 12 %",
        note="an estimate, not a measurement of this wood",
    )
