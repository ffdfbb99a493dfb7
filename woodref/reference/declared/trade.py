"""Sizes, shipping, rules of the trade, worked examples."""

from __future__ import annotations

from woodref.reference.declared.declaring import (
    BASIS,
    ORIGIN,
    PRINT,
    SOURCE_KEY,
    Table,
    number,
    string,
)

LUMBER_SIZES = Table(
    "lumber_sizes",
    "Lumber sizes and grades",
    "One row per nominal size or hardwood grade.",
    (
        string("system", "size system or grade rule", required=True),
        string("nominal", "nominal size or grade", required=True),
        number("rough_in", "rough size", "in"),
        number("dressed_in", "dressed size", "in"),
        number("dressed_green_in", "dressed size, green", "in"),
        number("min_width_in", "least width of a board", "in"),
        number("min_length_ft", "least length of a board", "ft"),
        number("clear_face_yield_pct", "clear face yield", "%", minimum=0.0, maximum=100.0),
        string("min_cutting", "least cutting"),
        string("cuttings_formula", "number of cuttings allowed"),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)

SHIPPING = Table(
    "shipping_facts",
    "Shipping facts",
    "One row per fact: density classes of freight, divisors, lifting limits, parcel limits.",
    (
        string("topic", "topic", required=True),
        string("item", "item", required=True),
        number("value", "value", "see unit"),
        string("text", "value that is not a number"),
        string("unit", "unit"),
        number("range_min", "low end of the range it holds for", "see unit"),
        number("range_max", "high end of the range it holds for", "see unit"),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
    SOURCE_KEY,
)

PRACTICE = Table(
    "practice",
    "Rules of the trade",
    "One row per rule of common practice; none has a source.",
    (
        string("topic", "topic", required=True),
        string("rule", "rule", required=True),
        number("value_low", "low end", "see unit"),
        number("value_high", "high end", "see unit"),
        string("text", "rule in words where it is not a number"),
        string("unit", "unit"),
        BASIS,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("source_table", "source_line"),
)

WORKED_EXAMPLES = Table(
    "worked_examples",
    "Worked examples",
    "One row per printed example, for checking the formulas.",
    (
        string("id", "identifier", required=True),
        string("inputs", "inputs", required=True),
        number("expected", "printed result", "see unit"),
        string("unit", "unit of the result", required=True),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("id",),
    SOURCE_KEY,
)
