"""What is said of woods in classes and in words: ratings, cautions."""

from __future__ import annotations

from woodref.reference.declared.declaring import (
    BASIS,
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

RATINGS = Table(
    "ratings",
    "Ratings",
    "One row per printed class or share: decay resistance, gluing, paintability, pores, color, "
    "machining. Scales differ between publications and are never mixed.",
    (
        SPECIES_ID,
        string("scale", "what is rated, and on which scale", required=True),
        string("class", "the class as printed", required=True),
        number("share_pct", "for machining: percent of pieces", "%", minimum=0.0, maximum=100.0),
        string("condition", "what the class means, or where it holds"),
        string("footnote", "footnote of the class, in our words"),
        string("printed_name", "the name the class was printed for", required=True),
        string("printed_botanical", "the botanical name or group beside it"),
        string("section", "part of the table the row stands in: domestic, imported, softwood"),
        Field(
            "for_group", "boolean", "true where the class was printed for a group", required=True
        ),
        *PRINT,
        string("note", "notes of the row"),
        *ORIGIN,
        string("source_column", "column of that file", required=True),
    ),
    ("species_id", "source_table", "source_line", "source_column"),
    (*SPECIES_KEY, *SOURCE_KEY),
)

CAUTIONS = Table(
    "cautions",
    "Cautions",
    "One row per hazard or trade control and wood; rows for all woods have the species_id '*'.",
    (
        SPECIES_ID,
        string("kind", "dust or trade control", required=True, enum=("dust", "trade control")),
        string("text", "the caution in our words", required=True),
        string("effect", "effect or listing as recorded", required=True),
        string("severity", "severity, or annotation of a listing"),
        string("effective", "date from which a trade control holds"),
        string("products_covered", "products a trade control covers"),
        string("finished_furniture_covered", "whether it covers finished furniture"),
        Field(
            "shown",
            "boolean",
            "false for rows on dust that are recalled and unchecked: kept, never shown",
            required=True,
        ),
        string("printed_name", "the name the caution was printed for", required=True),
        string("document", "the document that says so", required=True),
        string("source_id", "publication, see the table sources", required=True),
        BASIS,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("species_id", "source_table", "source_line"),
    SOURCE_KEY,
)
