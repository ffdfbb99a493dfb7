"""Markdown pieces shared by the generated pages."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def table(headings: Sequence[str], rows: Iterable[Sequence[object]]) -> list[str]:
    """The lines of a Markdown table; numbers to the right, an empty line behind it."""
    body = [[_cell(c) for c in row] for row in rows]
    numeric = [bool(body) and all(_is_number(row[i]) for row in body) for i in range(len(headings))]
    lines = [
        "| " + " | ".join(headings) + " |",
        "| " + " | ".join("---:" if n else "---" for n in numeric) + " |",
    ]
    lines += ["| " + " | ".join(row) + " |" for row in body]
    return [*lines, ""]


def _cell(value: object) -> str:
    return " ".join(str(value).split()).replace("|", "\\|")


def _is_number(text: str) -> bool:
    return text.replace(".", "", 1).lstrip("+-").isdigit()
