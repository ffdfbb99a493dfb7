"""The printed figures of a wood as tables: green beside 12 %, and whatever stands alone."""

from __future__ import annotations

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import (
    boards_likely,
    exact,
    figure_label,
    mark_of,
    marks,
    number,
    unit_of,
)
from woodref.formulas.spread import likely_range
from woodref.reference.bases import ESTIMATED, OWN, in_words
from woodref.reference.fiber_saturation import FiberSaturation
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value, Wood

#: Properties tested green and at 12 %, in the order of the table.
_STRENGTH = (
    "side_hardness",
    "modulus_of_elasticity",
    "modulus_of_rupture",
    "work_to_maximum_load",
    "impact_bending",
    "compression_parallel",
    "compression_perpendicular",
    "shear_parallel",
    "tension_perpendicular",
)


def _text(value: Value | None, units: str) -> str:
    if value is None:
        return "-"
    own = f" [{in_words(OWN)}]" if value.basis == OWN else ""
    return number(value.property_id, value.in_units(units).value, units) + marks(value) + own


def _strength_section(wood: Wood, units: str) -> Section:
    rows = []
    for property_id in _STRENGTH:
        green, dry = wood.value(property_id, "green"), wood.value(property_id, "12pct")
        estimate = wood.estimate(property_id)
        if dry is None and estimate and estimate.basis == ESTIMATED:
            dry = estimate
        if green or dry:
            used = dry or green
            assert used is not None
            rows.append(
                (
                    PROPERTIES[property_id].label,
                    _text(green, units),
                    _text(dry, units),
                    unit_of(property_id, units),
                    boards_likely(used, units) + ("" if dry else " (green)"),
                )
            )
    return Section.of(
        "strength",
        "Strength, stiffness and hardness",
        [
            Column("property", "property"),
            Column("green", "green"),
            Column("dry", "at 12 %"),
            Column("unit", "unit"),
            Column("likely", "single boards likely"),
        ],
        rows,
    )


def _other_section(wood: Wood, units: str) -> Section:
    """Density, shrinkage, moisture, and strengths at another moisture condition."""
    rows = []
    for property_id, p in PROPERTIES.items():
        for (held, condition), value in wood.values.items():
            if held != property_id:
                continue
            if property_id in _STRENGTH and condition in ("green", "12pct"):
                continue
            label = figure_label(property_id, condition)
            if value.moisture_content_pct is not None and condition == "other":
                label = f"{p.label} ({value.moisture_content_pct:g} %)"
            rows.append(
                (
                    label,
                    _text(value, units),
                    unit_of(property_id, units),
                    boards_likely(value, units),
                )
            )
    rows.append(_fiber_saturation_row(wood.fiber_saturation))
    return Section.of(
        "density_and_shrinkage",
        "Density, shrinkage and moisture",
        [
            Column("property", "property"),
            Column("value", "value"),
            Column("unit", "unit"),
            Column("likely", "single boards likely"),
        ],
        rows,
    )


def _fiber_saturation_row(point: FiberSaturation) -> tuple[str, str, str, str]:
    """The moisture content below which the wood moves: implied by its print, or general."""
    low, high = likely_range(point.pct, point.sd_pct)
    known = f"{point.pct:.3g}{mark_of(point.basis) or f' [{in_words(point.basis)}]'}"
    return "fiber saturation point", known, "%", f"{low:.3g} to {high:.3g}"


def figure_sections(wood: Wood, units: str) -> list[Section]:
    """The tables of figures for people.

    Parameters: wood; units 'us' or 'si'.
    """
    return [_strength_section(wood, units), _other_section(wood, units)]


def figures_for_programs(wood: Wood, units: str) -> Section:
    """One row per property and condition: the value used, its unit, range and origin.

    Estimates stand where print is silent; their basis says so.
    """
    columns = (
        *("property_id", "condition", "value", "unit", "value_low", "value_high"),
        *("printed_low", "printed_high", "printed", "basis", "source", "member_count", "note"),
    )
    order = list(PROPERTIES)
    known = (*wood.estimates.values(), *wood.values.values())
    return Section(
        "figures",
        "",
        [Column(c, "") for c in columns],
        [
            _row(v.in_units(units), units)
            for v in sorted(
                {(v.property_id, v.condition): v for v in known}.values(),
                key=lambda v: (order.index(v.property_id), v.condition),
            )
        ],
    )


def _row(v: Value, units: str) -> dict[str, object]:
    low, high = v.likely or (None, None)
    return {
        "property_id": v.property_id,
        "condition": v.condition,
        "value": exact(v.property_id, v.value, units),
        "unit": unit_of(v.property_id, units),
        "value_low": exact(v.property_id, low, units),
        "value_high": exact(v.property_id, high, units),
        "printed_low": exact(v.property_id, v.printed_low, units),
        "printed_high": exact(v.property_id, v.printed_high, units),
        "printed": v.printed,
        "basis": v.basis,
        "source": v.source,
        "member_count": v.members,
        "note": "; ".join(n for n in (v.note, v.sample) if n),
    }
