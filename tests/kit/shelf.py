"""Woods written out here, so that printed answers can be compared letter by letter.

Sugar maple: Wood Handbook FPL-GTR-282 (2021), Table 4-3 (shrinkage 4.8, 9.9, 14.7 %) and
FPL-GTR-190 (2010), Table 5-3a (basic specific gravity 0.56). The recalled wood is invented.
"""

from woodref.reference.fiber_saturation import fiber_saturation_of
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value, Wood

PRINTED = "Wood Handbook FPL-GTR-282 (2021), Table 4-3, p. 4-8"


def value(property_id, number, basis="checked"):
    p = PROPERTIES[property_id]
    return Value(
        property_id=property_id,
        condition=p.columns[0][0],
        value=number,
        unit=p.si_unit,
        sd=(p.cv_pct or 0.0) / 100.0 * number,
        basis=basis,
        source=PRINTED if basis == "checked" else "an invented table",
        printed=f"{number:g} {p.us_unit}",
    )


def wood(name, botanical, basis, **figures):
    values = [value(k, v, basis) for k, v in figures.items()]
    return Wood(
        species_id=botanical.lower().replace(" ", "-"),
        common_name=name,
        botanical_name=botanical,
        family="",
        kind="hardwood",
        trade_group="",
        origin="",
        data_coverage="partial",
        fiber_saturation=fiber_saturation_of(None, "united-states"),
        values={(v.property_id, v.condition): v for v in values},
    )


SUGAR_MAPLE = wood(
    "sugar maple",
    "Acer saccharum",
    "checked",
    basic_specific_gravity=0.56,
    shrinkage_radial=4.8,
    shrinkage_tangential=9.9,
    shrinkage_volumetric=14.7,
)
UNCHECKED_WOOD = wood(
    "model wood",
    "Arbor exempli",
    "unchecked",
    basic_specific_gravity=0.5,
    shrinkage_radial=4.0,
    shrinkage_tangential=8.0,
    shrinkage_volumetric=12.0,
)


class Shelf:
    """Stands in for the reference library: two woods by name."""

    def wood(self, name):
        return {w.common_name: w for w in (SUGAR_MAPLE, UNCHECKED_WOOD)}[name]
