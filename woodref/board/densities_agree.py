"""One wood, one density: where the printed densities of a wood tell different weights."""

from __future__ import annotations

from woodref.note import Note
from woodref.reference.bases import OWN
from woodref.reference.densities import (
    COMPARED_PCT,
    DENSITIES,
    Compared,
    density_compared,
    disagreeing,
    moisture_of,
)
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value, Wood


def _compared(value: Value, volumetric_pct: float, point_pct: float) -> Compared | None:
    """What a printed density means at COMPARED_PCT, None where its moisture is not known."""
    moisture_pct: float | None = COMPARED_PCT
    if value.property_id != "basic_specific_gravity":
        moisture_pct = moisture_of(value.property_id, value.moisture_content_pct)
    if moisture_pct is None:
        return None
    density = density_compared(
        value.property_id, value.value, moisture_pct, volumetric_pct, point_pct
    )
    return Compared(density, density * value.known_parts.of_mean / value.value)


def _told(value: Value) -> str:
    unit = "" if value.unit == "1" else f" {value.unit}"
    sample = f"; {value.sample}" if value.sample else ""
    return f"{PROPERTIES[value.property_id].label} {value.value:g}{unit} ({value.source}{sample})"


def disagreement_notes(wood: Wood, used: Value, volumetric_pct: float) -> tuple[Note, ...]:
    """A note where other printed densities of a wood are further off than publications are.

    Parameters: wood; used the density figure that is used; volumetric_pct shrinkage of the
    wood, green to ovendry [%]. Nothing is said of a group, nor of the shop's own figures.
    """
    if wood.is_group or used.basis == OWN:
        return ()
    others = [v for p in DENSITIES if (v := wood.value(p)) and v is not used]
    printed = [used, *(v for v in others if v.basis != OWN)]
    point_pct = wood.fiber_saturation.pct
    pairs = [(v, c) for v in printed if (c := _compared(v, volumetric_pct, point_pct))]
    first = pairs[0][1]
    off = disagreeing([c for _, c in pairs])
    told = [
        f"{_told(v)} means {abs(100.0 * (c.density_kg_m3 / first.density_kg_m3 - 1.0)):.0f} % "
        f"{'more' if c.density_kg_m3 > first.density_kg_m3 else 'less'}"
        for v, c in pairs
        if c in off
    ]
    if not told:
        return ()
    text = (
        f"the printed densities of this wood disagree by more than publications usually do: "
        f"beside {_told(used)}, which is used, {'; '.join(told)}"
    )
    return (Note("densities-disagree", text),)
