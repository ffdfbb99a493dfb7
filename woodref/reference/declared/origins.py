"""Where figures come from: publications, and the printed cells left out."""

from __future__ import annotations

from woodref.reference.declared.declaring import Field, Table, integer, string

SOURCES = Table(
    "sources",
    "Sources",
    "One row per publication.",
    (
        Field("source_id", "string", "identifier of the publication", required=True, unique=True),
        string("title", "title", required=True),
        string("short", "short citation, printed beside a value", required=True),
        string("authors", "authors"),
        string("publisher", "publisher"),
        string("report_number", "report number or edition"),
        integer("year", "year of publication"),
        string("license", "license or copyright status of the figures", required=True),
        string("url", "identifier or address"),
        string("how", "how the figures came here", required=True),
        integer("rank", "order of precedence among publications, 1 first", required=True),
    ),
    ("source_id",),
)

REJECTED = Table(
    "rejected",
    "Rejected cells",
    "One row per printed cell that is not in another table, with the reason.",
    (
        string("source_table", "file of datasets/sources", required=True),
        integer("source_line", "line of that file", required=True, minimum=2),
        string("source_column", "column of that file", required=True),
        string("printed_value", "the cell as printed", required=True),
        string("reason", "why it is not in another table", required=True),
    ),
    ("source_table", "source_line", "source_column"),
)
