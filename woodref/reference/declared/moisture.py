"""Moisture content and finishes: tables of no wood in particular."""

from __future__ import annotations

from woodref.reference.declared.declaring import (
    ORIGIN,
    PRINT,
    SOURCE_KEY,
    Table,
    integer,
    number,
    string,
)

EMC = Table(
    "equilibrium_moisture_content",
    "Equilibrium moisture content",
    "One row per printed cell of the table of moisture content by temperature and humidity.",
    (
        number("temperature_c", "temperature", "degC", required=True),
        number("temperature_f", "temperature as printed", "degF", required=True),
        number("relative_humidity_pct", "relative humidity", "%", minimum=0.0, maximum=100.0),
        number("emc_pct", "equilibrium moisture content", "%", minimum=0.0, maximum=40.0),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)

FINISHES = Table(
    "finishes",
    "Moisture-excluding effectiveness of finishes",
    "One row per finish, number of coats and days of exposure.",
    (
        string("finish", "finish", required=True),
        integer("coats", "number of coats", required=True, minimum=0),
        integer("days", "days of exposure", required=True, minimum=0),
        number("moisture_excluded_pct", "share of moisture kept out", "%", maximum=100.0),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)

INSTALLATION = Table(
    "installation_moisture_content",
    "Recommended moisture content at installation",
    "One row per use and region.",
    (
        string("use", "use", required=True),
        string("items", "what is installed"),
        string("region", "region", required=True),
        number("average_mc_pct", "average moisture content", "%", minimum=0.0),
        number("individual_min_mc_pct", "least of single pieces", "%", minimum=0.0),
        number("individual_max_mc_pct", "most of single pieces", "%", minimum=0.0),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)
