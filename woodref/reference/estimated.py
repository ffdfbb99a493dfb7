"""Shrinkage of a wood that has none in print, estimated from its density."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt
from typing import Any

from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value

_CONDITION = "range"


def _value(property_id: str, value: float, sd: float, source: str, printed: str) -> Value:
    return Value(
        property_id=property_id,
        condition=_CONDITION,
        value=value,
        unit=PROPERTIES[property_id].si_unit,
        sd=sd,
        basis="estimated",
        source=source,
        printed=printed,
        note="an estimate, not a measurement of this wood",
    )


def estimated_shrinkage(
    gravity: Value, relation: Mapping[str, Any]
) -> dict[tuple[str, str], Value]:
    """Volumetric, tangential and radial shrinkage from basic specific gravity, with spread.

    Volumetric shrinkage is ``intercept + slope Gb``; tangential and radial are shares of it.
    The standard deviation joins that of the relation, of the gravity and of the share.

    Parameters: gravity the basic specific gravity of the wood; relation a row of the table
    shrinkage_relations.
    Returns: values by (property, condition), basis 'estimated'.
    Source: the method of the relation; bias and spread stand in QUALITY.md.
    """
    volumetric = relation["intercept_pct"] + relation["slope_pct"] * gravity.value
    sd = sqrt(relation["residual_sd_pct"] ** 2 + (relation["slope_pct"] * (gravity.sd or 0.0)) ** 2)
    source = f"estimated: {relation['method']}; basic specific gravity from {gravity.source}"
    printed = f"from basic specific gravity {gravity.value:.2f}"
    out = {
        ("shrinkage_volumetric", _CONDITION): _value(
            "shrinkage_volumetric", volumetric, sd, source, printed
        )
    }
    for direction in ("tangential", "radial"):
        share, share_sd = relation[f"{direction}_share"], relation[f"{direction}_share_sd"]
        property_id = f"shrinkage_{direction}"
        out[property_id, _CONDITION] = _value(
            property_id,
            share * volumetric,
            sqrt((share * sd) ** 2 + (share_sd * volumetric) ** 2),
            source,
            f"{share:.2f} of the volumetric shrinkage {printed}",
        )
    return out
