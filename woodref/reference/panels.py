"""Common wood panels: density and stiffness, as print gives them for a range of products."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from woodref.quantity import Range
from woodref.record import record
from woodref.reference.panel_names import PANELS
from woodref.reference.woods import Value, citation
from woodref.units import PSI_TO_MPA

if TYPE_CHECKING:
    from woodref.reference.library import Reference

_PRODUCTS = "range of products"
_MODULUS, _GRAVITY = "modulus_of_elasticity", "specific_gravity"
_WATER_KG_M3 = 1000.0


@record
class PanelFigures:
    """What print says of a panel.

    ``density`` [kg/m3] is its specific gravity times that of water, with the ends of the printed
    range, and ``density_printed`` the words of print; ``modulus_mpa`` the modulus of elasticity
    with its ends, ``modulus`` the figure itself.
    """

    name: str
    density: Range
    density_printed: str
    density_basis: str
    density_source: str
    modulus_mpa: Range
    modulus: Value


def panel_figures(reference: Reference, panel: str) -> PanelFigures:
    """The density and the modulus of elasticity of a panel of PANELS.

    Where print gives one number for all products, the ends are those of the single products it
    lists elsewhere.
    """
    rows = reference.store.rows(
        "select p.*, s.short from {panels} p join {sources} s using (source_id) "
        "where p.material = ? and list_contains(?, p.property) order by p.source_line",
        [PANELS[panel], [_MODULUS, _GRAVITY]],
    )
    gravities, moduli = ([r for r in rows if r["property"] == p] for p in (_GRAVITY, _MODULUS))
    gravity, modulus = (
        next(r for r in of if r["detail"] == _PRODUCTS) for of in (gravities, moduli)
    )
    return PanelFigures(
        panel,
        _ends(gravity, gravities).scaled(_WATER_KG_M3),
        gravity["printed_value"],
        gravity["basis"],
        citation(gravity),
        _ends(modulus, moduli),
        _value(modulus),
    )


def _ends(general: dict[str, Any], every: Sequence[dict[str, Any]]) -> Range:
    if general["value_low"] is not None:
        return Range(general["value"], general["value_low"], general["value_high"])
    values = [row["value"] for row in every]
    return Range(general["value"], min(values), max(values))


def _value(row: dict[str, Any]) -> Value:
    """The modulus as a figure, in both its printings."""
    metric = Value(
        property_id=_MODULUS,
        condition="other",
        value=row["value"],
        unit="MPa",
        sd=None,
        basis=row["basis"],
        source=citation(row),
        printed=f"{row['printed_value']} {row['printed_unit']}",
        printed_low=row["value_low"],
        printed_high=row["value_high"],
        source_id=row["source_id"],
    )
    ends = [float(end) * PSI_TO_MPA * 1e6 for end in row["printed_value_us"].split("-")]
    low, high = ends[0], ends[-1]
    inch_pound = replace(
        metric,
        value=(low + high) / 2.0,
        printed=f"{row['printed_value_us']} {row['printed_unit_us']}",
        printed_low=None if low == high else low,
        printed_high=None if low == high else high,
    )
    return replace(metric, in_other_units={"us": inch_pound})
