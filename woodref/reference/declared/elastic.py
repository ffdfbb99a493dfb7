"""Elastic constants, strength by specific gravity and by slope of grain."""

from __future__ import annotations

from woodref.reference.declared.declaring import (
    ORIGIN,
    PRINT,
    SOURCE_KEY,
    SPECIES_ID,
    SPECIES_KEY,
    Field,
    Table,
    number,
    string,
)

_REST = (*PRINT, string("note", "notes of the row"), *ORIGIN)
_DIRECTIONS = {"l": "along the grain", "r": "radial", "t": "tangential"}


def _ratio(name: str, description: str) -> Field:
    return number(name, description, minimum=0.0, maximum=1.0)


_WOOD = (
    SPECIES_ID,
    Field("for_group", "boolean", "true where it was printed for a group of woods", required=True),
    string("printed_name", "the name as printed", required=True),
    string("printed_botanical", "the botanical name beside it"),
    string("kind", "hardwood or softwood", enum=("hardwood", "softwood")),
)

ELASTIC_RATIOS = Table(
    "elastic_ratios",
    "Elastic ratios",
    "One row per printed wood, or member of a printed group, at about 12 % moisture content: "
    "moduli across the grain (ET, ER) and of rigidity (GLR, GLT, GRT) over that along it, EL.",
    (
        *_WOOD,
        _ratio("et_el", "tangential modulus over EL"),
        _ratio("er_el", "radial modulus over EL"),
        _ratio("glr_el", "modulus of rigidity in the plane along the grain and radial, over EL"),
        _ratio(
            "glt_el", "modulus of rigidity in the plane along the grain and tangential, over EL"
        ),
        _ratio("grt_el", "modulus of rigidity in the plane across the grain, over EL"),
        *_REST,
    ),
    ("species_id", "source_table", "source_line"),
    (*SPECIES_KEY, *SOURCE_KEY),
)

POISSONS_RATIOS = Table(
    "poissons_ratios",
    "Poisson's ratios",
    "One row per printed wood, or member of a printed group, at about 12 % moisture content: first "
    "letter the direction of the stress, second that of the strain across it.",
    (
        *_WOOD,
        *(
            _ratio(f"mu_{a}{b}", f"stress {_DIRECTIONS[a]}, strain {_DIRECTIONS[b]}")
            for a, b in ("lr", "lt", "rt", "tr", "rl", "tl")
        ),
        *_REST,
    ),
    ("species_id", "source_table", "source_line"),
    (*SPECIES_KEY, *SOURCE_KEY),
)

SPECIFIC_GRAVITY_FUNCTIONS = Table(
    "specific_gravity_functions",
    "Properties as functions of specific gravity",
    "One row per printed function: property = coefficient times specific gravity to the exponent. "
    "Averages over species, not for a board. Where the exponent is not known, there is no "
    "coefficient to compute from.",
    (
        string("property", "property as printed", required=True),
        string("property_id", "see the table properties", required=True),
        string("condition", "moisture condition, of the specific gravity too", required=True),
        string("kind", "hardwood or softwood", True, enum=("hardwood", "softwood")),
        number("coefficient", "value at specific gravity 1", "SI unit of the property"),
        number("exponent", "exponent of the specific gravity"),
        string("printed_coefficient", "the coefficient as printed", required=True),
        string("printed_unit", "its unit", required=True),
        *_REST,
    ),
    ("property_id", "condition", "kind", "source_table", "source_line"),
    (("property_id", "properties.property_id"), *SOURCE_KEY),
)

SLOPE_OF_GRAIN = Table(
    "slope_of_grain",
    "Strength by slope of grain",
    "One row per slope: strength left, in percent of a straight-grained member.",
    (
        string("maximum_slope", "slope as printed", required=True, unique=True),
        number("slope", "rise over run", required=True, minimum=0.0, maximum=1.0),
        *(
            number(f"{p}_pct", f"{p.replace('_', ' ')} left", "%", minimum=0.0, maximum=100.0)
            for p in ("modulus_of_rupture", "impact_bending", "compression_parallel")
        ),
        *_REST,
    ),
    ("maximum_slope",),
    SOURCE_KEY,
)
