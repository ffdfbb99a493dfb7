"""Nails, screws and lag screws: sizes, average loads in tests, factors. No design values."""

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

_REST = (*PRINT, string("note", "notes of the row"), *ORIGIN)

FASTENERS = Table(
    "fasteners",
    "Sizes of nails and wood screws",
    "One row per kind and size of nail, or gauge of wood screw.",
    (
        string("kind", "kind of fastener", required=True),
        string("size", "pennyweight of a nail, gauge of a screw", required=True),
        string("gauge", "wire or screw gauge as printed"),
        number("length_mm", "length", "mm", minimum=0.0),
        string("printed_length_in", "length as printed in inches"),
        number("diameter_mm", "diameter of the shank", "mm", required=True, minimum=0.0),
        number("diameter_in", "diameter of the shank as printed", "in", minimum=0.0),
        *_REST,
    ),
    ("kind", "size"),
    SOURCE_KEY,
)

FASTENER_LOADS = Table(
    "fastener_loads",
    "Loads of fasteners by specific gravity, diameter and length",
    "One row per printed equation, or coefficient of one: load = k times the powers of specific "
    "gravity G, shank diameter D and length L that its exponents give; in N with D and L in mm, or "
    "in lb with inches. Averages of tests of clear wood, never allowable loads.",
    (
        string("fastener", "kind of fastener", required=True),
        string("load", "withdrawal, lateral, bearing strength or slip modulus", required=True),
        string("wood", "wood or panel it holds for", required=True),
        number("specific_gravity_min", "lowest specific gravity of the class", minimum=0.0),
        number("specific_gravity_max", "highest specific gravity of the class", minimum=0.0),
        number("k_metric", "coefficient for mm", required=True, minimum=0.0),
        number("k_inch_pound", "coefficient for inches and pounds", required=True, minimum=0.0),
        string("unit", "unit of what the metric form gives", required=True),
        number("specific_gravity_exponent", "exponent of G; empty where G has no part"),
        number("diameter_exponent", "exponent of D; empty where D has no part"),
        number("length_exponent", "exponent of L; empty where L has no part"),
        string("formula", "the equation in its letters", required=True),
        string("load_is", "which load it gives", required=True),
        string("equation", "number of the equation, where it has one"),
        *_REST,
        string("source_column", "columns of that file", required=True),
    ),
    ("source_table", "source_line", "source_column"),
    SOURCE_KEY,
)

SCREW_LENGTH_LIMITS = Table(
    "screw_length_limits",
    "Gauges of wood screws the withdrawal equation holds for",
    "One row per length of screw.",
    (
        number("screw_length_mm", "length", "mm", required=True, minimum=0.0),
        string("printed_screw_length_in", "length as printed in inches", required=True),
        integer("gauge_min", "smallest gauge", required=True, minimum=0),
        integer("gauge_max", "largest gauge", required=True, minimum=0),
        *_REST,
    ),
    ("screw_length_mm",),
    SOURCE_KEY,
)

LAG_SCREW_FACTORS = Table(
    "lag_screw_factors",
    "Factors on the lateral load of lag screws",
    "One row per factor: what the load is multiplied by, for a thickness, a diameter or a "
    "penetration.",
    (
        string("adjustment", "what is adjusted for", required=True),
        string("argument", "what the factor depends on", required=True),
        number("argument_value", "its value", "see argument_unit", required=True, minimum=0.0),
        string("argument_unit", "its unit, 1 for a ratio", required=True),
        string("printed_argument_in", "the value as printed in inches, where it is"),
        number("factor", "what the load is multiplied by", required=True, minimum=0.0),
        string("printed_value", "the cell as printed", required=True),
        string("printed_unit", "factor, or percent more load", required=True),
        *_REST,
    ),
    ("adjustment", "argument_value"),
    SOURCE_KEY,
)
