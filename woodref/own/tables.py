"""Read a CSV table of the shop's, row by row, with the line each begins on."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from woodref.errors import InputError
from woodref.files import read_text
from woodref.record import record
from woodref.rows import DECIMAL_COMMA, RejectedRow, check_length, open_rows, sort_rows

#: Columns a rejects file begins with; they are left out where one is taken in again.
REJECTED = ("line", "column", "reason")


@record
class OwnTable:
    """The rows of a table under their header; rows of a wrong length are in ``bad``."""

    file: str
    header: tuple[str, ...]
    rows: list[tuple[int, tuple[str, ...]]]
    bad: list[RejectedRow]


def read_own_table(path: Path, required: Sequence[str], optional: Sequence[str]) -> OwnTable:
    """A CSV table with the columns asked for, or a rejects file of such a table, corrected.

    Blank lines and remarks, which begin with #, are skipped.

    Raises: InputError, one line, for a file that cannot be read, is not comma-separated
    UTF-8, lacks a column, or has no rows.
    """
    header, listed = open_rows(
        read_text(path, "table"), str(path), required, optional, skipped=REJECTED
    )

    def use(line: int, cells: Sequence[str]) -> tuple[int, tuple[str, ...]]:
        check_length(header, cells, DECIMAL_COMMA)
        return line, tuple(cells)

    stripped = ((line, [c.strip() for c in cells]) for line, cells in listed)
    rows, bad = sort_rows(stripped, use)
    if not rows and not bad:
        raise InputError(f"{path}: has a heading but no rows")
    return OwnTable(str(path), tuple(header), rows, bad)
