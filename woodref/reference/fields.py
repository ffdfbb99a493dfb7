"""Every field of every table of the reference dataset, declared once.

The pandera schemas, the Parquet field metadata, ``datapackage.json``, the data
dictionary page and the column names offered by queries are generated from here.
Plain Python, light to import.
"""

from __future__ import annotations

from dataclasses import dataclass

from woodref.reference.bases import BASES, DATA_COVERAGE
from woodref.reference.properties import CONDITIONS, PROPERTIES, wide_columns

#: The version of the data, printed by ``woodref --version``.
DATASET_VERSION = "2.0.0"


@dataclass(frozen=True)
class Field:
    """One column: its name, type (string, integer, number, boolean), unit and limits."""

    name: str
    type: str
    description: str
    unit: str = ""
    required: bool = False
    unique: bool = False
    minimum: float | None = None
    maximum: float | None = None
    enum: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """One table: its fields and keys; ``foreign_keys`` maps a field to 'table.field'."""

    name: str
    title: str
    description: str
    fields: tuple[Field, ...]
    primary_key: tuple[str, ...] = ()
    foreign_keys: tuple[tuple[str, str], ...] = ()

    @property
    def columns(self) -> tuple[str, ...]:
        """The column names, in order."""
        return tuple(f.name for f in self.fields)


def _string(name: str, description: str, required: bool = False, **more: object) -> Field:
    return Field(name, "string", description, required=required, **more)  # type: ignore[arg-type]


def _number(name: str, description: str, unit: str = "", **more: object) -> Field:
    return Field(name, "number", description, unit, **more)  # type: ignore[arg-type]


def _integer(name: str, description: str, **more: object) -> Field:
    return Field(name, "integer", description, **more)  # type: ignore[arg-type]


SPECIES_ID = _string(
    "species_id",
    "identifier of the wood: botanical name as a slug, plus a qualifier where needed",
    required=True,
)
BASIS = _string("basis", "how the printed value is known", required=True, enum=tuple(BASES))
#: Where in datasets/sources a row comes from.
ORIGIN = (
    _string("source_table", "file of datasets/sources the row stands in", required=True),
    _integer("source_line", "line of that file, the header being line 1", required=True, minimum=2),
)
#: Where in print a row stands.
PRINT = (
    _string("source_id", "publication, see the table sources", required=True),
    _string("edition", "edition or report number as recorded"),
    _string("printed_table", "number or name of the printed table"),
    _string("page", "page of the publication"),
    BASIS,
)
_SOURCE_KEY = (("source_id", "sources.source_id"),)
_SPECIES_KEY = (("species_id", "species.species_id"),)


def _species_fields() -> tuple[Field, ...]:
    identity = (
        Field(
            "species_id",
            "string",
            SPECIES_ID.description,
            required=True,
            unique=True,
        ),
        _string("common_name", "standard commercial name, natural word order", required=True),
        _string("botanical_name", "present botanical name or names", required=True),
        _string("family", "botanical family"),
        _string("kind", "hardwood or softwood", enum=("hardwood", "softwood")),
        _string("trade_group", "group of woods the trade sells together"),
        _string("origin", "region of origin"),
        _string("data_coverage", "how much is known", required=True, enum=tuple(DATA_COVERAGE)),
        _string("qualifier", "what sets this wood apart from others of the botanical name"),
        _string("note", "what a user of the row must know"),
        _string(
            "shrinkage_relation",
            "relation of the table shrinkage_relations that serves where no shrinkage is printed",
            required=True,
        ),
    )
    values = []
    for property_id, condition, column in wide_columns():
        p = PROPERTIES[property_id]
        values.append(
            _number(
                column,
                f"preferred value: {p.label}, {CONDITIONS[condition]}; {p.definition}",
                p.si_unit,
                minimum=0.0,
            )
        )
    return identity + tuple(values)


SPECIES = Table(
    "species",
    "Woods",
    "One row per wood as traded, with the preferred value of each property. Derived from "
    "measurements, which says where each value comes from.",
    _species_fields(),
    ("species_id",),
)

NAME_KINDS = ("commercial", "botanical", "synonym", "group", "trade")
NAMES = Table(
    "names",
    "Names",
    "Any name a person may type, one row per name and wood it can mean.",
    (
        _string("name", "the name as written", required=True),
        _string("name_key", "the name folded for look-up", required=True),
        _string("species_id", "the wood it can mean", required=True),
        _string("name_kind", "commercial, botanical, synonym, group, trade", True, enum=NAME_KINDS),
        Field(
            "ambiguous", "boolean", "true where the name covers several unlike woods", required=True
        ),
        _string("note", "what tells the candidates apart, or why this wood answers to the name"),
        _integer("position", "order among the woods of one name", required=True, minimum=0),
        BASIS,
        *ORIGIN,
    ),
    ("name_key", "name_kind", "species_id"),
    _SPECIES_KEY,
)

GROUPS = Table(
    "groups",
    "Trade groups",
    "Woods sold together under one name, one row per member.",
    (
        _string("group_id", "slug of the group name", required=True),
        _string("group_name", "name of the group", required=True),
        SPECIES_ID,
        _string("note", "where the grouping comes from"),
    ),
    ("group_id", "species_id"),
    _SPECIES_KEY,
)

PROPERTY_TABLE = Table(
    "properties",
    "Properties",
    "One row per measured quantity.",
    (
        Field("property_id", "string", "identifier of the property", required=True, unique=True),
        _string("label", "name of the property", required=True),
        _string("si_unit", "unit of every stored value", required=True),
        _string("us_unit", "US customary unit", required=True),
        _number("factor", "SI value = US value times this factor", required=True, minimum=0.0),
        _string("definition", "what was measured", required=True),
        _string("test_standard", "standard of the test, where there is one"),
        _number(
            "coefficient_of_variation_pct", "between single pieces of one wood", "%", minimum=0.0
        ),
        _string("coefficient_of_variation_source", "where that coefficient comes from"),
        _number("sane_low", "smallest value of physical sense", "SI unit", required=True),
        _number("sane_high", "largest value of physical sense", "SI unit", required=True),
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
        _string("property_id", "see the table properties", required=True, enum=tuple(PROPERTIES)),
        _string("condition", "moisture condition", required=True, enum=tuple(CONDITIONS)),
        _number("moisture_content_pct", "moisture content where printed", "%", minimum=0.0),
        _number("value", "in the SI unit of the property; midpoint of a printed range", "SI unit"),
        _number("value_low", "low end of a printed range", "SI unit"),
        _number("value_high", "high end of a printed range", "SI unit"),
        _number(
            "uncertainty",
            "standard deviation of the value itself, beyond the spread of single boards",
            "SI unit",
            minimum=0.0,
        ),
        _string("printed_value", "the cell as printed", required=True),
        _string("printed_unit", "its unit", required=True),
        _number("rounding", "half of it is the printed rounding", "SI unit", minimum=0.0),
        Field("preferred", "boolean", "true for the value to use", required=True),
        _string("gives_way_to", "measurement_id of the figure used in its place, if any"),
        _string("preference", "why it is preferred, or why another is", required=True),
        _string(
            "plausibility_flag", "why the value is outside physical sense; empty where it is not"
        ),
        _string("sample", "what the sample is where it is narrow; empty for a broad one"),
        _string("test_standard", "specimen or standard where printed"),
        _string("printed_spread", "standard deviation or coefficient of variation as printed"),
        _string("trade_name", "the wood's name as printed"),
        _string("unit_counterpart_id", "the same cell in the other unit system"),
        *PRINT,
        _string("basis_reason", "for a corroborated value, the table that repeats it"),
        _string("note", "notes of the row"),
        *ORIGIN,
        _string("source_column", "column of that file", required=True),
    ),
    ("measurement_id",),
    (*_SPECIES_KEY, ("property_id", "properties.property_id"), *_SOURCE_KEY),
)

DENSITY = Table(
    "density",
    "Basic density of the world's woods",
    "One row per species and compilation: mean basic density of its records, their spread and "
    "number.",
    (
        SPECIES_ID,
        _string("botanical_as_printed", "the name of the compilation", required=True),
        _string("family", "botanical family"),
        _string("regions", "regions the records come from"),
        _integer("records", "number of records", required=True, minimum=1),
        _number("mean_g_cm3", "mean of the records", "g/cm3", required=True, minimum=0.0),
        _number("standard_deviation_g_cm3", "of the records, empty for one", "g/cm3", minimum=0.0),
        _number("minimum_g_cm3", "least record", "g/cm3", minimum=0.0),
        _number("maximum_g_cm3", "greatest record", "g/cm3", minimum=0.0),
        _integer(
            "independent_records",
            "records that do not repeat the handbook, given where some do",
            minimum=0,
        ),
        _number("independent_mean_g_cm3", "mean of those records", "g/cm3", minimum=0.0),
        _string("values_as_printed", "the single values, where they are printed"),
        Field(
            "converted_from_12pct",
            "boolean",
            "true where the compilers converted from density at 12 %",
        ),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    (*_SPECIES_KEY, *_SOURCE_KEY),
)

SHRINKAGE_RELATIONS = Table(
    "shrinkage_relations",
    "General relations of shrinkage to basic specific gravity",
    "One row per relation: volumetric shrinkage [%] = intercept + slope times basic specific "
    "gravity, for woods without printed shrinkage, with how well it does on the woods that "
    "have one. Tangential and radial shrinkage are shares of the volumetric one.",
    (
        Field("relation_id", "string", "identifier of the relation", required=True, unique=True),
        _string("method", "where the relation comes from", required=True),
        _number("intercept_pct", "volumetric shrinkage at gravity 0", "%", required=True),
        _number("slope_pct", "volumetric shrinkage per unit of gravity", "%", required=True),
        _number("residual_sd_pct", "standard deviation about the relation", "%", required=True),
        _integer("woods", "number of woods compared", required=True, minimum=1),
        _number("bias_pct", "mean of relation less printed", "%", required=True),
        _number("rms_pct", "root mean square of relation less printed", "%", required=True),
        _number("bias_above_0_7_pct", "bias of the woods above gravity 0.7", "%"),
        _number("tangential_share", "tangential over volumetric shrinkage, mean", required=True),
        _number("tangential_share_sd", "its standard deviation", required=True),
        _number("radial_share", "radial over volumetric shrinkage, mean", required=True),
        _number("radial_share_sd", "its standard deviation", required=True),
    ),
    ("relation_id",),
)

RATINGS = Table(
    "ratings",
    "Ratings",
    "One row per printed class or share: decay resistance, gluing, paintability, pores, color, "
    "machining. Scales differ between publications and are never mixed.",
    (
        SPECIES_ID,
        _string("scale", "what is rated, and on which scale", required=True),
        _string("class", "the class as printed", required=True),
        _number("share_pct", "for machining: percent of pieces", "%", minimum=0.0, maximum=100.0),
        _string("condition", "what the class means, or where it holds"),
        _string("footnote", "footnote of the class, in our words"),
        _string("printed_name", "the name the class was printed for", required=True),
        _string("printed_botanical", "the botanical name or group beside it"),
        _string("section", "part of the table the row stands in: domestic, imported, softwood"),
        Field(
            "for_group", "boolean", "true where the class was printed for a group", required=True
        ),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
        _string("source_column", "column of that file", required=True),
    ),
    ("species_id", "source_table", "source_line", "source_column"),
    (*_SPECIES_KEY, *_SOURCE_KEY),
)

SOURCES = Table(
    "sources",
    "Sources",
    "One row per publication.",
    (
        Field("source_id", "string", "identifier of the publication", required=True, unique=True),
        _string("title", "title", required=True),
        _string("short", "short citation, printed beside a value", required=True),
        _string("authors", "authors"),
        _string("publisher", "publisher"),
        _string("report_number", "report number or edition"),
        _integer("year", "year of publication"),
        _string("license", "license or copyright status of the figures", required=True),
        _string("url", "identifier or address"),
        _string("how", "how the figures came here", required=True),
        _integer("rank", "order of precedence among publications, 1 first", required=True),
    ),
    ("source_id",),
)

CAUTIONS = Table(
    "cautions",
    "Cautions",
    "One row per hazard or trade control and wood; rows for all woods have the species_id '*'.",
    (
        SPECIES_ID,
        _string("kind", "dust or trade control", required=True, enum=("dust", "trade control")),
        _string("text", "the caution in our words", required=True),
        _string("effect", "effect or listing as recorded", required=True),
        _string("severity", "severity, or annotation of a listing"),
        _string("effective", "date from which a trade control holds"),
        _string("products_covered", "products a trade control covers"),
        _string("finished_furniture_covered", "whether it covers finished furniture"),
        Field(
            "shown",
            "boolean",
            "false for rows on dust that are recalled and unchecked: kept, never shown",
            required=True,
        ),
        _string("printed_name", "the name the caution was printed for", required=True),
        _string("document", "the document that says so", required=True),
        _string("source_id", "publication, see the table sources", required=True),
        BASIS,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("species_id", "source_table", "source_line"),
    _SOURCE_KEY,
)

REJECTED = Table(
    "rejected",
    "Rejected cells",
    "One row per printed cell that is not in another table, with the reason.",
    (
        _string("source_table", "file of datasets/sources", required=True),
        _integer("source_line", "line of that file", required=True, minimum=2),
        _string("source_column", "column of that file", required=True),
        _string("printed_value", "the cell as printed", required=True),
        _string("reason", "why it is not in another table", required=True),
    ),
    ("source_table", "source_line", "source_column"),
)

DISAGREEMENTS = Table(
    "disagreements",
    "Disagreements",
    "One row per pair of printed values of one wood, property and condition that differ by more "
    "than their printed rounding.",
    (
        SPECIES_ID,
        _string("property_id", "see the table properties", required=True),
        _string("condition", "moisture condition", required=True),
        _string("preferred_id", "measurement that is used", required=True),
        _number("preferred_value", "its value", "SI unit"),
        _string("preferred_from", "where it stands", required=True),
        _string("other_id", "measurement that is not", required=True),
        _number("other_value", "its value", "SI unit"),
        _string("other_from", "where it stands", required=True),
        _number("difference_pct", "other over preferred, less 100 %", "%"),
        _string(
            "between",
            "unit_counterpart, edition, series or source",
            required=True,
            enum=("unit_counterpart", "edition", "series", "source"),
        ),
    ),
    ("preferred_id", "other_id"),
    _SPECIES_KEY,
)

EMC = Table(
    "equilibrium_moisture_content",
    "Equilibrium moisture content",
    "One row per printed cell of the table of moisture content by temperature and humidity.",
    (
        _number("temperature_c", "temperature", "degC", required=True),
        _number("temperature_f", "temperature as printed", "degF", required=True),
        _number("relative_humidity_pct", "relative humidity", "%", minimum=0.0, maximum=100.0),
        _number("emc_pct", "equilibrium moisture content", "%", minimum=0.0, maximum=40.0),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    _SOURCE_KEY,
)

FINISHES = Table(
    "finishes",
    "Moisture-excluding effectiveness of finishes",
    "One row per finish, number of coats and days of exposure.",
    (
        _string("finish", "finish", required=True),
        _integer("coats", "number of coats", required=True, minimum=0),
        _integer("days", "days of exposure", required=True, minimum=0),
        _number("moisture_excluded_pct", "share of moisture kept out", "%", maximum=100.0),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    _SOURCE_KEY,
)

VARIABILITY = Table(
    "variability",
    "Variability",
    "One row per coefficient of variation, averaged over woods or printed for one.",
    (
        _string("property", "property as printed", required=True),
        _string("property_id", "the property it stands for, where there is one"),
        _string("species", "wood as printed", required=True),
        _string("botanical_name", "its botanical name"),
        _string("species_id", "the wood, where it is one"),
        _string("condition", "condition as printed"),
        _number("mean", "mean as printed", "printed unit"),
        _number("standard_deviation", "standard deviation as printed", "printed unit"),
        _string("printed_unit", "unit of mean and standard deviation"),
        _number("coefficient_of_variation_pct", "coefficient of variation", "%", minimum=0.0),
        _string("cv_is", "printed, or derived from mean and standard deviation"),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    _SOURCE_KEY,
)

LUMBER_SIZES = Table(
    "lumber_sizes",
    "Lumber sizes and grades",
    "One row per nominal size or hardwood grade.",
    (
        _string("system", "size system or grade rule", required=True),
        _string("nominal", "nominal size or grade", required=True),
        _number("rough_in", "rough size", "in"),
        _number("dressed_in", "dressed size", "in"),
        _number("dressed_green_in", "dressed size, green", "in"),
        _number("min_width_in", "least width of a board", "in"),
        _number("min_length_ft", "least length of a board", "ft"),
        _number("clear_face_yield_pct", "clear face yield", "%", minimum=0.0, maximum=100.0),
        _string("min_cutting", "least cutting"),
        _string("cuttings_formula", "number of cuttings allowed"),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    _SOURCE_KEY,
)

SHIPPING = Table(
    "shipping_facts",
    "Shipping facts",
    "One row per fact: density classes of freight, divisors, lifting limits, parcel limits.",
    (
        _string("topic", "topic", required=True),
        _string("item", "item", required=True),
        _number("value", "value", "see unit"),
        _string("text", "value that is not a number"),
        _string("unit", "unit"),
        _number("range_min", "low end of the range it holds for", "see unit"),
        _number("range_max", "high end of the range it holds for", "see unit"),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    _SOURCE_KEY,
)

PRACTICE = Table(
    "practice",
    "Rules of the trade",
    "One row per rule of common practice; none has a source.",
    (
        _string("topic", "topic", required=True),
        _string("rule", "rule", required=True),
        _number("value_low", "low end", "see unit"),
        _number("value_high", "high end", "see unit"),
        _string("text", "rule in words where it is not a number"),
        _string("unit", "unit"),
        BASIS,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
)

INSTALLATION = Table(
    "installation_moisture_content",
    "Recommended moisture content at installation",
    "One row per use and region.",
    (
        _string("use", "use", required=True),
        _string("items", "what is installed"),
        _string("region", "region", required=True),
        _number("average_mc_pct", "average moisture content", "%", minimum=0.0),
        _number("individual_min_mc_pct", "least of single pieces", "%", minimum=0.0),
        _number("individual_max_mc_pct", "most of single pieces", "%", minimum=0.0),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    _SOURCE_KEY,
)

WORKED_EXAMPLES = Table(
    "worked_examples",
    "Worked examples",
    "One row per printed example, for checking the formulas.",
    (
        _string("id", "identifier", required=True),
        _string("inputs", "inputs", required=True),
        _number("expected", "printed result", "see unit"),
        _string("unit", "unit of the result", required=True),
        *PRINT,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("id",),
    _SOURCE_KEY,
)

PLACE_FLAGS = ("humidity looks low", "short record", "no independent check")
PLACES = Table(
    "places",
    "Places",
    "One row per town with monthly temperature and humidity: US stations, and towns elsewhere "
    "with the nearest station.",
    (
        Field("place_id", "string", "identifier of the place", required=True, unique=True),
        _string("name", "name of the town", required=True),
        _string("other_names", "other names it answers to, parted by semicolons"),
        _string("name_keys", "all its names folded for look-up, parted by '|'", required=True),
        _string("region", "state or province"),
        _string("region_code", "postal code of the state"),
        _string("country", "country or territory", required=True),
        _number("latitude", "latitude", "degrees north", required=True, minimum=-90, maximum=90),
        _number("longitude", "longitude", "degrees east", required=True, minimum=-180, maximum=180),
        _number("elevation_m", "elevation of the station", "m", required=True),
        _string("station_id", "number of the station", required=True),
        _string("station", "name of the station as printed", required=True),
        _number("station_latitude", "its latitude", "degrees north", minimum=-90, maximum=90),
        _number("station_longitude", "its longitude", "degrees east", minimum=-180, maximum=180),
        _number("distance_km", "from the town to the station; 0 in the US", "km", minimum=0.0),
        _integer("population", "population of the town, where known", minimum=0),
        _string("temperature_period", "years of the temperatures", required=True),
        _string("humidity_period", "months or years of the humidities", required=True),
        _string("flag", f"what weakens the record: {', '.join(PLACE_FLAGS)}"),
        _string("source_id", "publication, see the table sources", required=True),
        _string("edition", "edition as recorded"),
        _string("printed_table", "name of the printed table"),
        BASIS,
        _string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("place_id",),
    _SOURCE_KEY,
)

CLIMATE = Table(
    "climate",
    "Climate by month",
    "One row per place and month: mean outdoor temperature and relative humidity, and the "
    "moisture content wood comes to in that air.",
    (
        _string("place_id", "see the table places", required=True),
        _integer("month", "1 January to 12 December", required=True, minimum=1, maximum=12),
        _number("temperature_c", "mean temperature", "degC", required=True),
        _number("temperature_max_c", "mean daily maximum", "degC"),
        _number("temperature_min_c", "mean daily minimum", "degC"),
        _number("temperature_f", "mean temperature as printed", "degF"),
        _number("temperature_max_f", "mean daily maximum as printed", "degF"),
        _number("temperature_min_f", "mean daily minimum as printed", "degF"),
        _number(
            "relative_humidity_pct",
            "mean relative humidity, over water; in the US the mean of morning and afternoon",
            "%",
            required=True,
            minimum=0.0,
            maximum=100.0,
        ),
        _number("relative_humidity_morning_pct", "as printed", "%", minimum=0.0, maximum=100.0),
        _number("relative_humidity_afternoon_pct", "as printed", "%", minimum=0.0, maximum=100.0),
        _number("vapor_pressure_hpa", "mean vapor pressure", "hPa", minimum=0.0),
        _number("emc_pct", "equilibrium moisture content", "%", required=True, minimum=0.0),
        Field(
            "extrapolated",
            "boolean",
            "true below 30 degF, where the printed table of equilibrium moisture content ends",
            required=True,
        ),
        _string("flag", "weakness of the record of the place"),
        _integer("years", "years in the mean", minimum=1),
        _integer("first_year", "first year in the mean"),
        _integer("last_year", "last year in the mean"),
        _string("station_id", "number of the station", required=True),
        _string("source_id", "publication, see the table sources", required=True),
        BASIS,
        *ORIGIN,
    ),
    ("place_id", "month"),
    (("place_id", "places.place_id"), *_SOURCE_KEY),
)

TABLES: dict[str, Table] = {
    t.name: t
    for t in (
        SPECIES,
        NAMES,
        GROUPS,
        PROPERTY_TABLE,
        MEASUREMENTS,
        DENSITY,
        SHRINKAGE_RELATIONS,
        RATINGS,
        SOURCES,
        CAUTIONS,
        REJECTED,
        DISAGREEMENTS,
        EMC,
        FINISHES,
        VARIABILITY,
        LUMBER_SIZES,
        SHIPPING,
        PRACTICE,
        INSTALLATION,
        WORKED_EXAMPLES,
        PLACES,
        CLIMATE,
    )
}
