"""A wood with the shrinkage its owner gives, in place of what the tables hold."""

from __future__ import annotations

from dataclasses import replace

from woodref.errors import InputError
from woodref.formulas.density import volumetric_shrinkage
from woodref.reference.bases import OWN
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import SpreadParts, Value, Wood

_CONDITION = "range"


def parse_shrinkage(text: str) -> tuple[float, float]:
    """(tangential, radial) shrinkage [%] from '9.9,4.8'.

    Raises: InputError for anything else, and for figures no wood has.
    """
    first, comma, second = text.partition(",")
    try:
        tangential, radial = (float(x.strip().removesuffix("%")) for x in (first, second))
    except ValueError:
        comma = ""
        tangential = radial = 0.0
    low, high = PROPERTIES["shrinkage_radial"].low, PROPERTIES["shrinkage_tangential"].high
    if not comma:
        raise InputError(
            f"'{text}' is not a shrinkage; write tangential,radial in percent green to ovendry, "
            "for example 9.9,4.8"
        )
    if not (low <= radial <= high and low <= tangential <= high):
        raise InputError(f"a shrinkage of {text} % cannot be; each is {low:g} to {high:g} %")
    return tangential, radial


def with_shrinkage(wood: Wood, tangential_pct: float, radial_pct: float) -> Wood:
    """The wood with its owner's tangential and radial shrinkage, and the volumetric they give.

    Parameters: wood; tangential_pct, radial_pct green to ovendry [% of green size].
    Returns: the wood, the three figures of basis 'own', with the published coefficient of
    variation between boards.
    Source: volumetric shrinkage from the two, geometry.
    """
    figures = {
        "shrinkage_tangential": tangential_pct,
        "shrinkage_radial": radial_pct,
        "shrinkage_volumetric": float(volumetric_shrinkage(radial_pct, tangential_pct)),
    }
    own = {
        (property_id, _CONDITION): Value(
            property_id=property_id,
            condition=_CONDITION,
            value=value,
            unit="%",
            sd=(PROPERTIES[property_id].cv_pct or 0.0) / 100.0 * value,
            spread_parts=SpreadParts((PROPERTIES[property_id].cv_pct or 0.0) / 100.0 * value),
            basis=OWN,
            source="given with the question",
            printed=f"{value:.3g} %",
        )
        for property_id, value in figures.items()
    }
    return replace(wood, values=wood.values | own, estimates={})
