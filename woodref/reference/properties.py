"""Every measured quantity of the dataset, declared once.

A property is named by what was measured, never by the table it stands in.
Quantities that only look alike are properties of their own: Janka and Brinell
hardness; basic specific gravity and the densities at a moisture content;
shrinkage from green to ovendry and the change per 1 % moisture content.

Coefficients of variation: Wood Handbook FPL-GTR-190 (2010), Table 5-6, p. 5-26, and the
text of chapter 4, pp. 4-5, 4-7 and 4-9, all read (property_variability.csv).
"""

from __future__ import annotations

from typing import NamedTuple

from woodref.errors import InputError
from woodref.reference.bases import CHECKED, COMMON_PRACTICE
from woodref.units import KINDS

#: Moisture conditions a value can be printed for, with what they mean.
CONDITIONS: dict[str, str] = {
    "green": "green: above fiber saturation",
    "12pct": "air-dried to 12 % moisture content",
    "15pct": "air-dried to 15 % moisture content",
    "air_dry": "air-dry, moisture content not printed",
    "ovendry": "ovendry: 0 % moisture content",
    "other": "at the moisture content printed in the row",
    "unstated": "moisture condition not stated",
    "range": "between two moisture contents, see the definition of the property",
}


class Property(NamedTuple):
    """One measured quantity.

    ``kind`` says in which units it is measured and how it prints (woodref.units.KINDS).
    ``low`` and ``high`` are limits of physical sense in SI, not of quality.
    ``cv_pct`` is the coefficient of variation between single pieces [%].
    """

    property_id: str
    label: str
    kind: str
    definition: str
    test_standard: str
    cv_pct: float | None
    cv_basis: str
    low: float
    high: float
    #: (condition, column of the wide species table); the first is the usual one.
    columns: tuple[tuple[str, str], ...]

    @property
    def label_has_condition(self) -> bool:
        """True where the label names the usual moisture condition: 'density at 12 %'."""
        return f"_{self.columns[0][0]}" in self.property_id

    @property
    def si_unit(self) -> str:
        """The unit of every stored value, '1' for a pure number."""
        return KINDS[self.kind].label("si") or "1"

    @property
    def us_unit(self) -> str:
        """The US customary unit, '1' for a pure number."""
        return KINDS[self.kind].label("us") or "1"

    @property
    def factor(self) -> float:
        """SI value = US value times this."""
        return KINDS[self.kind].factor

    @property
    def cv_known(self) -> str:
        """How surely its coefficient of variation is known, a word of BASES; '' without one."""
        return _CV_KNOWN.get(self.cv_basis, "")


_CV_TABLE = "FPL-GTR-190 (2010), Table 5-6 (checked)"
_CV_SHRINKAGE = (
    "FPL-GTR-190 (2010), pp. 4-5 and 4-7 (checked), for test pieces of pure ring orientation; "
    '"probably somewhat greater in commercial lumber"'
)
_CV_DENSITY = "FPL-GTR-190 (2010), p. 4-9 (checked)"
_CV_OF_SIDE_HARDNESS = "taken as that of side hardness (common practice, no source)"
#: How surely the sources of coefficients of variation are known.
_CV_KNOWN = {
    _CV_TABLE: CHECKED,
    _CV_SHRINKAGE: CHECKED,
    _CV_DENSITY: CHECKED,
    _CV_OF_SIDE_HARDNESS: COMMON_PRACTICE,
}
_ASTM = "ASTM D143 small clear specimens"


def _strength(
    property_id: str, label: str, definition: str, cv: float, stem: str, high: float
) -> Property:
    """A strength in MPa (psi in the US system), green and at 12 %."""
    return Property(
        property_id,
        label,
        "stress",
        definition,
        _ASTM,
        cv,
        _CV_TABLE,
        0.05,
        high,
        (("12pct", f"{stem}_mpa"), ("green", f"{stem}_green_mpa")),
    )


def _shrinkage(direction: str, high: float) -> Property:
    """A shrinkage from green to ovendry."""
    return Property(
        f"shrinkage_{direction}",
        f"{direction} shrinkage, green to ovendry",
        "percent",
        f"decrease in {'volume' if direction == 'volumetric' else 'size'} from green to ovendry, "
        "in percent of the green size",
        _ASTM,
        15.0,
        _CV_SHRINKAGE,
        0.3,
        high,
        (("range", f"shrinkage_{direction}_pct"),),
    )


def _density(name: str, label: str, definition: str, condition: str, column: str) -> Property:
    """A density in kg/m3 (lb/ft3)."""
    return Property(
        name,
        label,
        "density",
        definition,
        "",
        10.0,
        _CV_DENSITY,
        50.0,
        1500.0,
        ((condition, column),),
    )


_ALL: tuple[Property, ...] = (
    Property(
        "basic_specific_gravity",
        "basic specific gravity",
        "gravity",
        "ovendry mass over green volume, relative to water",
        "ASTM D2395",
        10.0,
        _CV_DENSITY,
        0.10,
        1.35,
        (("green", "basic_specific_gravity"),),
    ),
    Property(
        "specific_gravity_12pct",
        "specific gravity at 12 %",
        "gravity",
        "ovendry mass over volume at 12 % moisture content, relative to water",
        "ASTM D2395",
        10.0,
        _CV_DENSITY,
        0.10,
        1.45,
        (("12pct", "specific_gravity_12pct"),),
    ),
    _density(
        "density_12pct",
        "density at 12 %",
        "mass with its water over volume, both at 12 % moisture content",
        "12pct",
        "density_12pct_kg_m3",
    ),
    _density(
        "density_air_dry",
        "air-dry density",
        "mass with its water over volume of air-dry wood whose moisture content is not printed",
        "air_dry",
        "density_air_dry_kg_m3",
    ),
    _density(
        "density_ovendry",
        "ovendry density",
        "ovendry mass over ovendry volume",
        "ovendry",
        "density_ovendry_kg_m3",
    ),
    _density(
        "density_at_test_moisture",
        "density at the moisture content of the test",
        "mass with its water over volume, both at the moisture content printed in the row",
        "other",
        "density_at_test_moisture_kg_m3",
    ),
    _density(
        "density_unstated",
        "density, moisture condition not stated",
        "a density whose moisture condition the source does not state; never preferred",
        "unstated",
        "",
    ),
    _shrinkage("radial", 15.0),
    _shrinkage("tangential", 20.0),
    _shrinkage("volumetric", 30.0),
    *(
        Property(
            f"dimensional_change_coefficient_{direction}",
            f"dimensional change coefficient, {direction}",
            "per_pct",
            "change in size per 1 % change in moisture content, as a share of the size at the "
            "start; valid from 6 to 14 % moisture content",
            "",
            15.0,
            _CV_SHRINKAGE,
            0.0003,
            0.007,
            (("range", f"dimensional_change_coefficient_{direction}_per_pct"),),
        )
        for direction in ("radial", "tangential")
    ),
    *(
        Property(
            f"change_per_pct_{direction}",
            f"{direction} change per 1 % moisture content",
            "pct_per_pct",
            "change in size in percent per 1 % change in moisture content, as printed in Europe "
            "and Australia: D2 = D1 (1 + c (M2 - M1)/100); publications define it differently "
            "and are never mixed",
            "",
            15.0,
            _CV_SHRINKAGE,
            0.03,
            0.7,
            (("range", f"change_per_pct_{direction}_pct_per_pct"),),
        )
        for direction in ("radial", "tangential")
    ),
    _strength(
        "modulus_of_rupture",
        "modulus of rupture",
        "maximum bending stress of a small clear beam",
        16.0,
        "modulus_of_rupture",
        300.0,
    ),
    Property(
        "modulus_of_elasticity",
        "modulus of elasticity",
        "modulus",
        "apparent stiffness in static bending along the grain (shear deflection not removed)",
        _ASTM,
        22.0,
        _CV_TABLE,
        500.0,
        40000.0,
        (("12pct", "modulus_of_elasticity_mpa"), ("green", "modulus_of_elasticity_green_mpa")),
    ),
    Property(
        "work_to_maximum_load",
        "work to maximum load",
        "work",
        "energy taken up in bending to the maximum load, per volume",
        _ASTM,
        34.0,
        _CV_TABLE,
        1.0,
        600.0,
        (("12pct", "work_to_maximum_load_kj_m3"), ("green", "work_to_maximum_load_green_kj_m3")),
    ),
    Property(
        "impact_bending",
        "impact bending",
        "drop",
        "height of drop of a 22.7 kg (50 lb) hammer causing failure",
        _ASTM,
        25.0,
        _CV_TABLE,
        50.0,
        4000.0,
        (("12pct", "impact_bending_mm"), ("green", "impact_bending_green_mm")),
    ),
    _strength(
        "compression_parallel",
        "compression parallel to grain",
        "maximum crushing strength along the grain",
        18.0,
        "compression_parallel",
        160.0,
    ),
    _strength(
        "compression_perpendicular",
        "compression perpendicular to grain",
        "stress at the proportional limit across the grain",
        28.0,
        "compression_perpendicular",
        60.0,
    ),
    _strength(
        "shear_parallel",
        "shear parallel to grain",
        "maximum shearing strength along the grain",
        14.0,
        "shear_parallel",
        40.0,
    ),
    _strength(
        "tension_perpendicular",
        "tension perpendicular to grain",
        "maximum tensile strength across the grain",
        25.0,
        "tension_perpendicular",
        20.0,
    ),
    Property(
        "side_hardness",
        "side hardness",
        "force",
        "load that sinks an 11.3 mm (0.444 in) ball to half its diameter into the side grain "
        "(Janka)",
        _ASTM,
        20.0,
        _CV_TABLE,
        100.0,
        25000.0,
        (("12pct", "side_hardness_n"), ("green", "side_hardness_green_n")),
    ),
    Property(
        "brinell_hardness",
        "Brinell hardness",
        "stress",
        "load on a 10 mm ball over the curved area of its print; not comparable with Janka",
        "EN 1534",
        20.0,
        _CV_OF_SIDE_HARDNESS,
        2.0,
        100.0,
        (("unstated", "brinell_hardness_mpa"),),
    ),
    *(
        Property(
            f"green_moisture_content_{part}",
            f"green moisture content, {part}",
            "share",
            f"average moisture content of green {part}",
            "",
            None,
            "",
            15.0,
            400.0,
            (("green", f"green_moisture_content_{part}_pct"),),
        )
        for part in ("heartwood", "sapwood", "stemwood")
    ),
    Property(
        "intersection_moisture_content",
        "intersection moisture content",
        "share",
        "moisture content at which mechanical properties begin to change on drying (Mp)",
        "",
        None,
        "",
        15.0,
        32.0,
        (("range", "intersection_moisture_content_pct"),),
    ),
)

PROPERTIES: dict[str, Property] = {p.property_id: p for p in _ALL}


def known_property(property_id: str) -> Property:
    """The property of an identifier.

    Raises: InputError for one that does not exist, with the nearest.
    """
    if property_id in PROPERTIES:
        return PROPERTIES[property_id]
    from woodref.files import closest

    word = property_id.casefold()
    meant = (p.property_id for p in _ALL if word in f"{p.label} {p.definition}".casefold())
    near = closest(property_id, PROPERTIES) or next(meant, None)
    hint = f"did you mean '{near}'?" if near else "woodref.PROPERTIES lists them"
    raise InputError(f"no property is called '{property_id}'; {hint}")


def wide_columns() -> list[tuple[str, str, str]]:
    """The (property_id, condition, column) triples of the wide species table, in order."""
    return [
        (p.property_id, condition, column)
        for p in PROPERTIES.values()
        for condition, column in p.columns
        if column
    ]
