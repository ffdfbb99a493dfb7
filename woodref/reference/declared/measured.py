"""What was measured on woods: properties, figures, densities, relations, spreads."""

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
from woodref.reference.properties import CONDITIONS, PROPERTIES

PROPERTY_TABLE = Table(
    "properties",
    "Properties",
    "One row per measured quantity.",
    (
        Field("property_id", "string", "identifier of the property", required=True, unique=True),
        string("label", "name of the property", required=True),
        string("si_unit", "unit of every stored value", required=True),
        string("us_unit", "US customary unit", required=True),
        number("factor", "SI value = US value times this factor", required=True, minimum=0.0),
        string("definition", "what was measured", required=True),
        string("test_standard", "standard of the test, where there is one"),
        number(
            "coefficient_of_variation_pct", "between single pieces of one wood", "%", minimum=0.0
        ),
        string("coefficient_of_variation_source", "where that coefficient comes from"),
        number(
            "coefficient_of_variation_of_mean_pct",
            "how far the printed mean of a wood is off that of another publication: spread "
            "between independent publications of one wood",
            "%",
            minimum=0.0,
        ),
        integer("woods_behind_it", "woods that spread was found on", minimum=1),
        number("sane_low", "smallest value of physical sense", "SI unit", required=True),
        number("sane_high", "largest value of physical sense", "SI unit", required=True),
    ),
    ("property_id",),
)

MEASUREMENTS = Table(
    "measurements",
    "Measurements",
    "One row per printed number, in SI and as printed, with where it stands in print, how it is "
    "known, and whether it is the preferred value for the wood, property and condition.",
    (
        Field(
            "measurement_id",
            "string",
            "source table, line and column: one printed cell",
            required=True,
            unique=True,
        ),
        SPECIES_ID,
        string("property_id", "see the table properties", required=True, enum=tuple(PROPERTIES)),
        string("condition", "moisture condition", required=True, enum=tuple(CONDITIONS)),
        number("moisture_content_pct", "moisture content where printed", "%", minimum=0.0),
        number("value", "in the SI unit of the property; midpoint of a printed range", "SI unit"),
        number("value_low", "low end of a printed range", "SI unit"),
        number("value_high", "high end of a printed range", "SI unit"),
        number(
            "uncertainty",
            "standard deviation of the value itself, beyond the spread of single boards",
            "SI unit",
            minimum=0.0,
        ),
        string("printed_value", "the cell as printed", required=True),
        string("printed_unit", "its unit", required=True),
        number("rounding", "half of it is the printed rounding", "SI unit", minimum=0.0),
        Field("preferred", "boolean", "true for the value to use", required=True),
        string("gives_way_to", "measurement_id of the figure used in its place, if any"),
        string("preference", "why it is preferred, or why another is", required=True),
        string(
            "plausibility_flag", "why the value is outside physical sense; empty where it is not"
        ),
        string("sample", "what the sample is where it is narrow; empty for a broad one"),
        string(
            "grown_in",
            "country of the samples, where a table prints those of another country beside the "
            "woods of the United States",
        ),
        string("test_standard", "specimen or standard where printed"),
        string("printed_spread", "standard deviation or coefficient of variation as printed"),
        string("trade_name", "the wood's name as printed"),
        string("unit_counterpart_id", "the same cell in the other unit system"),
        *PRINT,
        string(
            "basis_reason",
            "for a corroborated value, the table that repeats it; for a compiled mean that is not "
            "used as printed, why",
        ),
        string("note", "notes of the row"),
        *ORIGIN,
        string("source_column", "column of that file", required=True),
    ),
    ("measurement_id",),
    (*SPECIES_KEY, ("property_id", "properties.property_id"), *SOURCE_KEY),
)

DENSITY = Table(
    "density",
    "Basic density of the world's woods",
    "One row per species and compilation: mean basic density of its records, their spread and "
    "number.",
    (
        SPECIES_ID,
        string("botanical_as_printed", "the name of the compilation", required=True),
        string("family", "botanical family"),
        string("regions", "regions the records come from"),
        integer("records", "number of records", required=True, minimum=1),
        number("mean_g_cm3", "mean of the records", "g/cm3", required=True, minimum=0.0),
        number(
            "used_mean_g_cm3",
            "the mean without the expected slip of the compilers' conversion, as measurements "
            "holds it",
            "g/cm3",
            required=True,
            minimum=0.0,
        ),
        number("standard_deviation_g_cm3", "of the records, empty for one", "g/cm3", minimum=0.0),
        number("minimum_g_cm3", "least record", "g/cm3", minimum=0.0),
        number("maximum_g_cm3", "greatest record", "g/cm3", minimum=0.0),
        integer(
            "independent_records",
            "records that do not repeat the handbook, given where some do",
            minimum=0,
        ),
        number("independent_mean_g_cm3", "mean of those records", "g/cm3", minimum=0.0),
        string("values_as_printed", "the single values, where they are printed"),
        Field(
            "converted_from_12pct",
            "boolean",
            "true where the compilers converted from density at 12 %",
        ),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    (*SPECIES_KEY, *SOURCE_KEY),
)

IMPLIED = Table(
    "implied",
    "Implied values",
    "One row per value that no table prints and that other printed figures of the same wood "
    "imply: basic specific gravity turned back from a density at a moisture content, volumetric "
    "shrinkage from basic and 12 % specific gravity. Basis: implied.",
    (
        SPECIES_ID,
        string("property_id", "see the table properties", required=True, enum=tuple(PROPERTIES)),
        string("condition", "moisture condition", required=True, enum=tuple(CONDITIONS)),
        number("value", "in the SI unit of the property", "SI unit", required=True),
        number(
            "uncertainty",
            "standard deviation of the value itself, beyond the spread of single boards",
            "SI unit",
            minimum=0.0,
        ),
        number("from_gravity", "specific gravity it is turned back from", minimum=0.0),
        number("from_moisture_pct", "moisture content of that gravity", "%", minimum=0.0),
        string("computed_from", "measurement_id of the figures used", required=True),
        string("method", "how it is computed", required=True),
    ),
    ("species_id", "property_id", "condition"),
    SPECIES_KEY,
)

FIBER_SATURATION = Table(
    "fiber_saturation",
    "Fiber saturation points that printed figures imply",
    "One row per wood whose shrinkage (Tables 4-3 and 4-4 of the Wood Handbook) and dimensional "
    "change coefficient (Table 13-5) are both printed: C = S / (100 F - S (F - 10)) solved for F "
    "in both directions. A whole number stands where the printed digits leave it open.",
    (
        Field("species_id", "string", "the wood", required=True, unique=True),
        *(
            number(f"{name}_{direction}_{unit}", f"{text}, {direction}", shown, required=True)
            for direction in ("tangential", "radial")
            for name, unit, text, shown in (
                ("shrinkage", "pct", "printed shrinkage", "%"),
                ("coefficient", "per_pct", "printed dimensional change coefficient", "per %"),
                ("implied", "pct", "fiber saturation point the two imply", "%"),
            )
        ),
        number("fiber_saturation_pct", "mean of both directions", "%", required=True),
        Field(
            "used",
            "boolean",
            "true where it lies from 20 to 32 %, and stands for the wood; outside it is set aside",
            required=True,
        ),
    ),
)

SHRINKAGE_RELATIONS = Table(
    "shrinkage_relations",
    "General relations of shrinkage to basic specific gravity",
    "One row per relation: volumetric shrinkage [%] = intercept + slope times basic specific "
    "gravity, for woods without printed shrinkage, with how well it does on woods it was not "
    "fitted to. Tangential and radial shrinkage are shares of the volumetric one.",
    (
        Field("relation_id", "string", "identifier of the relation", required=True, unique=True),
        string("method", "where the relation comes from", required=True),
        number("intercept_pct", "volumetric shrinkage at gravity 0", "%", required=True),
        number("slope_pct", "volumetric shrinkage per unit of gravity", "%", required=True),
        number(
            "greatest_gravity",
            "basic specific gravity of the densest wood compared; beyond it the shrinkage there "
            "holds",
            required=True,
        ),
        *(
            number(
                f"residual_sd_{name}_pct",
                "root mean square of relation less printed, each wood left out of the fit in "
                f"turn, basic specific gravity {words}",
                "%",
                required=True,
            )
            for name, words in (
                ("below_0_5", "below 0.5"),
                ("0_5_to_0_7", "from 0.5 to 0.7"),
                ("above_0_7", "from 0.7"),
            )
        ),
        number(
            "implied_sd_pct",
            "spread, beyond rounding, of the volumetric shrinkage implied by basic and 12 % "
            "specific gravity about the printed one",
            "%",
            required=True,
        ),
        integer("woods", "number of woods compared", required=True, minimum=1),
        number("bias_pct", "mean of relation less printed", "%", required=True),
        number("rms_pct", "root mean square of relation less printed", "%", required=True),
        number("bias_above_0_7_pct", "bias of the woods above gravity 0.7", "%"),
        number("tangential_share", "tangential over volumetric shrinkage, mean", required=True),
        number("tangential_share_sd", "its standard deviation", required=True),
        number("radial_share", "radial over volumetric shrinkage, mean", required=True),
        number("radial_share_sd", "its standard deviation", required=True),
    ),
    ("relation_id",),
)

DISAGREEMENTS = Table(
    "disagreements",
    "Disagreements",
    "One row per pair of printed values of one wood, property and condition that differ by more "
    "than their printed rounding.",
    (
        SPECIES_ID,
        string("property_id", "see the table properties", required=True),
        string("condition", "moisture condition", required=True),
        string("preferred_id", "measurement that is used", required=True),
        number("preferred_value", "its value", "SI unit"),
        string("preferred_from", "where it stands", required=True),
        string("other_id", "measurement that is not", required=True),
        number("other_value", "its value", "SI unit"),
        string("other_from", "where it stands", required=True),
        number("difference_pct", "other over preferred, less 100 %", "%"),
        string(
            "between",
            "unit_counterpart, sample (of two countries), edition, series or source",
            required=True,
            enum=("unit_counterpart", "sample", "edition", "series", "source"),
        ),
    ),
    ("preferred_id", "other_id"),
    SPECIES_KEY,
)

VARIABILITY = Table(
    "variability",
    "Variability",
    "One row per coefficient of variation, averaged over woods or printed for one.",
    (
        string("property", "property as printed", required=True),
        string("property_id", "the property it stands for, where there is one"),
        string("species", "wood as printed", required=True),
        string("botanical_name", "its botanical name"),
        string("species_id", "the wood, where it is one"),
        string("condition", "condition as printed"),
        number("mean", "mean as printed", "printed unit"),
        number("standard_deviation", "standard deviation as printed", "printed unit"),
        string("printed_unit", "unit of mean and standard deviation"),
        number("coefficient_of_variation_pct", "coefficient of variation", "%", minimum=0.0),
        string("cv_is", "printed, or derived from mean and standard deviation"),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)
