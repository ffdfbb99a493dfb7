"""What is computed where print is silent, and how well it does."""

from __future__ import annotations

from woodref.reference.bases import BASES
from woodref.reference.declared.declaring import (
    BASIS,
    SOURCE_KEY,
    SPECIES_ID,
    SPECIES_KEY,
    Table,
    integer,
    number,
    string,
)
from woodref.reference.properties import CONDITIONS, PROPERTIES

STRENGTH_FUNCTIONS = Table(
    "strength_functions",
    "Functions of specific gravity in use",
    "One row per property and kind: mean at 12 % = coefficient times specific gravity at 12 % to "
    "the exponent, as printed, with how far the printed woods are off it.",
    (
        string("property_id", "see the table properties", required=True, enum=tuple(PROPERTIES)),
        string("kind", "hardwood or softwood", True, enum=("hardwood", "softwood")),
        number("coefficient", "value at specific gravity 1", "SI unit", required=True),
        number("exponent", "exponent of the specific gravity", required=True),
        number("log_bias", "mean of the logarithm of printed over function", required=True),
        number("log_sd", "root mean square of that logarithm", required=True, minimum=0.0),
        integer("woods", "number of woods compared", required=True, minimum=1),
        string("method", "what it is, in words", required=True),
        string("source_id", "publication", required=True),
        string("printed_table", "table in print"),
        string("page", "page in print"),
        BASIS,
    ),
    ("property_id", "kind"),
    SOURCE_KEY,
)

ESTIMATES = Table(
    "estimates",
    "Hardness, stiffness and strength that no table prints at 12 %",
    "One row per value, for the woods that have a look or a stock class: a figure printed at "
    "another or an unstated moisture content of dry wood, else the mean that goes with the "
    "specific gravity of the wood.",
    (
        SPECIES_ID,
        string("property_id", "see the table properties", required=True, enum=tuple(PROPERTIES)),
        string(
            "condition", "moisture condition it stands for", required=True, enum=tuple(CONDITIONS)
        ),
        number("value", "in the SI unit of the property", "SI unit", required=True, minimum=0.0),
        number(
            "uncertainty",
            "standard deviation of the value itself, beyond the spread of single boards",
            "SI unit",
            minimum=0.0,
        ),
        string("basis", "estimated, or that of the printed figure", True, enum=tuple(BASES)),
        string(
            "printed_at",
            "moisture condition a printed figure stands for; empty for an estimate",
            enum=tuple(CONDITIONS),
        ),
        string("computed_from", "measurement_id of a printed figure, or the function used"),
    ),
    ("species_id", "property_id", "condition"),
    SPECIES_KEY,
)

ACCURACY = Table(
    "accuracy",
    "How well what is computed does",
    "One row per check: what is computed less what is printed, on woods that have both; where "
    "something was fitted, each wood left out in turn.",
    (
        string("property_id", "see the table properties", required=True, enum=tuple(PROPERTIES)),
        string("check", "what is compared with what", required=True),
        integer("woods", "woods that have both", required=True, minimum=0),
        string("unit", "unit of bias and rms", required=True),
        number("bias", "mean of computed less printed", required=True),
        number("rms", "root mean square of it", required=True, minimum=0.0),
        number(
            "coverage_pct",
            "share of woods whose printed figure lies in the central 90 % of the estimate",
            "%",
            minimum=0.0,
            maximum=100.0,
        ),
    ),
    ("property_id", "check"),
)
