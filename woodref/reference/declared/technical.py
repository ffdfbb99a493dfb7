"""Facts and tables for the shop: shelves, panels, drying, finishes outdoors."""

from __future__ import annotations

from woodref.reference.declared.declaring import (
    ORIGIN,
    PRINT,
    SOURCE_KEY,
    SPECIES_ID,
    SPECIES_KEY,
    Field,
    Table,
    integer,
    number,
    string,
)

_REST = (*PRINT, string("note", "notes of the row"), *ORIGIN)

SUBJECTS = (
    "fasteners",
    "deflection",
    "drying and storage",
    "gluing",
    "steam bending",
    "wood character",
)
FACTS = Table(
    "facts",
    "Printed facts by subject",
    "One row per fact of a text: fasteners, deflection, drying and storage, gluing, steam bending, "
    "wood character. Loads and creep are for serviceability, nothing is a structural design value.",
    (
        string("subject", "what the fact is about", required=True, enum=SUBJECTS),
        string("topic", "topic", required=True),
        string("item", "what is said of it", required=True),
        number("value", "the printed number or simple fraction, 'about' left out", "see unit"),
        number("value_low", "low end of a printed range, or the least printed", "see unit"),
        number("value_high", "high end of a printed range, or the most printed", "see unit"),
        string("printed_value", "as printed: number, range, formula or words", required=True),
        string("unit", "unit"),
        *_REST,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)

BEAM_CONSTANTS = Table(
    "beam_constants",
    "Constants of beam deflection",
    "One row per load, support and point: deflection = kb W L^3/(E I) + ks W L/(G A'), W the whole "
    "load, A' 5/6 of a rectangle; the second term is shear.",
    (
        string("load", "load", required=True),
        string("support", "support", required=True),
        string("deflection_at", "where the deflection is", required=True),
        number("kb", "constant of bending", required=True, minimum=0.0),
        number("ks", "constant of shear", required=True, minimum=0.0),
        string("printed_kb", "kb as printed", required=True),
        string("printed_ks", "ks as printed", required=True),
        *_REST,
    ),
    ("load", "support", "deflection_at"),
    SOURCE_KEY,
)

SHELF_LENGTHS = Table(
    "shelf_lengths",
    "Longest shelves as printed",
    "One row per material, thickness and load: the longest shelf a standard of architectural "
    "woodwork prints, whose limit is a sag of 1/144 of the length.",
    (
        string("material", "material", required=True),
        number("modulus_of_elasticity_mpa", "modulus of elasticity", "MPa", required=True),
        number("thickness_mm", "thickness", "mm", required=True, minimum=0.0),
        number("load_kpa", "load, spread evenly", "kPa", required=True, minimum=0.0),
        number("longest_mm", "longest shelf", "mm", required=True, minimum=0.0),
        number("modulus_of_elasticity_psi", "as printed", "lbf/in2", required=True),
        string("printed_thickness_in", "thickness as printed in inches", required=True),
        number("load_lb_ft2", "load as printed", "lb/ft2", required=True),
        number("longest_in", "longest shelf as printed", "in", required=True),
        *_REST,
    ),
    ("material", "modulus_of_elasticity_mpa", "thickness_mm", "load_kpa"),
    SOURCE_KEY,
)

PANEL_PROPERTIES = (
    "specific_gravity",
    "modulus_of_elasticity",
    "modulus_of_rupture",
    "tensile_stress",
    "internal_bond",
)
PANELS = Table(
    "panels",
    "Properties of wood panels and composites",
    "One row per material and property, with both printings; clear woods stand there to compare. A "
    "value for a range of products is the middle of a printed range.",
    (
        string("material", "material", required=True),
        string("detail", "mill, product or wood", required=True),
        string("property", "what was measured", required=True, enum=PANEL_PROPERTIES),
        number("value", "in the unit; middle of a printed range", "see unit", required=True),
        number("value_low", "low end of a printed range", "see unit"),
        number("value_high", "high end of a printed range", "see unit"),
        string("unit", "SI unit, 1 for specific gravity", required=True),
        string("printed_value", "the metric cell as printed", required=True),
        string("printed_unit", "its unit", required=True),
        string("printed_value_us", "the inch-pound cell as printed"),
        string("printed_unit_us", "its unit"),
        number("moisture_content_pct", "moisture content of the test, where printed", "%"),
        *_REST,
        string("source_column", "columns of that file", required=True),
    ),
    ("source_table", "source_line", "property"),
    SOURCE_KEY,
)

OUTDOOR_MOISTURE = Table(
    "outdoor_moisture",
    "Equilibrium moisture content outdoors by month, as printed",
    "One row per US city and month, from weather before 1997; the table climate holds what newer "
    "weather gives.",
    (
        string("place_id", "the town in the table places, where it is there"),
        string("region_code", "postal code of the state", required=True),
        string("city", "city as printed", required=True),
        integer("month", "1 January to 12 December", required=True, minimum=1, maximum=12),
        number(
            "emc_pct",
            "equilibrium moisture content of wood outdoors under cover",
            "%",
            required=True,
            minimum=0.0,
            maximum=30.0,
        ),
        *_REST,
    ),
    ("region_code", "city", "month"),
    (("place_id", "places.place_id"), *SOURCE_KEY),
)

STORAGE_HEATING = Table(
    "storage_heating",
    "How much warmer a storage room must be",
    "One row per outdoor humidity and moisture content to hold: how much warmer than outdoors the "
    "room is kept; empty where print has a dash.",
    (
        number("outside_relative_humidity_pct", "relative humidity outdoors", "%", required=True),
        number("wood_moisture_pct", "moisture content to hold", "%", required=True),
        number("warmer_by_c", "how much warmer the room is", "K", minimum=0.0),
        *_REST,
    ),
    ("outside_relative_humidity_pct", "wood_moisture_pct"),
    SOURCE_KEY,
)

KILN_SCHEDULES = Table(
    "kiln_schedules",
    "Kiln schedules as printed",
    "One row per step of a schedule; an example of print, for one wood and thickness.",
    (
        SPECIES_ID,
        string("printed_name", "the name as printed", required=True),
        string("printed_botanical", "the botanical name"),
        string("schedule", "thickness and final moisture content", required=True),
        string("step", "moisture content of the lumber, %, or the name of the step", required=True),
        number("dry_bulb_c", "dry-bulb temperature", "degC", required=True),
        number("wet_bulb_c", "wet-bulb temperature", "degC", required=True),
        number("relative_humidity_pct", "relative humidity", "%", required=True),
        number("emc_pct", "equilibrium moisture content", "%", required=True),
        *_REST,
    ),
    ("species_id", "schedule", "step"),
    (*SPECIES_KEY, *SOURCE_KEY),
)

SUITABILITIES = ("Low", "Moderate", "High", "Excellent")
FINISH_LIFE = Table(
    "finish_coverage_life",
    "Coverage and life of finishes outdoors",
    "One row per finish, surface and item: coverage, thickness, service life, waiting times.",
    (
        string("finish", "finish", required=True),
        string("surface", "surface", required=True),
        string("item", "what is said", required=True),
        string("suitability", "suitability of the finish for the surface", enum=SUITABILITIES),
        number("value_low", "low end", "see unit"),
        number("value_high", "high end", "see unit"),
        string("text", "value that is not a number"),
        string("unit", "unit", required=True),
        *_REST,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)

WOODS_NAMED = Table(
    "woods_named",
    "Woods named by rows of other tables",
    "One row per wood that a row of a table without woods of its own names; joined to it by "
    "source_table and source_line.",
    (
        *ORIGIN,
        string("printed_name", "the words of that row", required=True),
        SPECIES_ID,
        Field("for_group", "boolean", "true where the words name several woods", required=True),
    ),
    ("source_table", "source_line", "printed_name", "species_id"),
    SPECIES_KEY,
)
