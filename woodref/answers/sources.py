"""Answers about the data: the publications behind the numbers, and rows asked for in SQL."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count
from typing import Any

from woodref.answers.answer import Answer, Column, Section
from woodref.reference.sources import Source, SourceFigures

_LABELS = {
    "title": "Title",
    "authors": "Authors",
    "publisher": "Publisher",
    "report_number": "Report number or edition",
    "year": "Year",
    "license": "License",
    "url": "Address",
    "how": "How the figures came here",
}


def sources_answer(sources: Sequence[Source]) -> Answer:
    """Every publication, those that give printed figures first."""
    printed = [s for s in sources if s.measurements]
    others = [s for s in sources if not s.measurements]
    columns = [
        Column("short", "publication"),
        Column("measurements", "figures", "count"),
        Column("preferred", "used", "count"),
        Column("bases", "how known"),
        Column("other_rows", "other rows", "count"),
        Column("license", ""),
        Column("source_id", ""),
    ]
    rows = (
        (s.short, s.measurements, s.preferred, _bases(s), s.other_rows, s.license, s.source_id)
        for s in (*printed, *others)
    )
    return Answer(
        headline=[
            f"{sum(s.measurements for s in printed):,} printed figures from {len(printed)} "
            f"publications, {sum(s.preferred for s in printed):,} of them used; "
            f"{len(others)} more give classes, cautions and rules."
        ],
        sections=[Section.of("sources", "", columns, rows)],
        notes=[
            "woodref sources NAME tells about one of them, its license too; any part of the name "
            "of the publication will do. A figure marked unchecked is recalled, "
            "not seen in print."
        ],
    )


def _bases(source: Source) -> str:
    """'checked 512, unchecked 3'."""
    return ", ".join(f"{basis} {count}" for basis, count in source.bases.items())


def source_answer(source: Source, figures: Sequence[SourceFigures]) -> Answer:
    """One publication, and what it prints."""
    columns = [
        Column("property_id", "property"),
        Column("printed_table", "table"),
        Column("basis", "basis"),
        Column("measurements", "figures", "count"),
        Column("preferred", "used", "count"),
    ]
    row = vars(source)
    return Answer(
        headline=[
            f"{source.short}: {source.measurements:,} figures, "
            f"{source.preferred:,} of them used; {source.other_rows:,} other rows."
        ],
        facts=[(Column(key, ""), row[key]) for key in ("source_id", "short", *_LABELS)],
        sections=[Section.of("figure_counts", "", columns, figures)],
        notes=[f"{label}: {row[key]}" for key, label in _LABELS.items() if row[key]],
    )


def query_answer(names: Sequence[str], rows: Sequence[Sequence[Any]]) -> Answer:
    """The rows of a query under the names of its columns; a name that comes twice is numbered."""
    keys: list[str] = []
    for name in names:
        numbered = (f"{name}_{n}" for n in count(2) if f"{name}_{n}" not in names)
        keys.append(name if name not in keys else next(k for k in numbered if k not in keys))
    columns = [Column(key, name) for key, name in zip(keys, names, strict=True)]
    section = Section.of("rows", "", columns, rows)
    return Answer(sections=[section], notes=[] if rows else ["No rows."])
