"""Read a CSV table of the shop's, row by row, with the line each begins on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from woodref.errors import InputError
from woodref.files import csv_header, csv_rows, read_text
from woodref.lumber.prices import BadRow as PriceRow

#: Columns a rejects file begins with; they are left out where one is taken in again.
REJECTED = ("line", "column", "reason")


@dataclass(frozen=True)
class BadRow(PriceRow):
    """A row that cannot be used, as in a price list, with its cells."""

    cells: tuple[str, ...] = ()


@dataclass(frozen=True)
class OwnTable:
    """The rows of a table under their header; rows of a wrong length are in ``bad``."""

    file: str
    header: tuple[str, ...]
    rows: list[tuple[int, tuple[str, ...]]]
    bad: list[BadRow]


def read_own_table(path: Path, required: Sequence[str], optional: Sequence[str]) -> OwnTable:
    """A CSV table with the columns asked for, or a rejects file of such a table, corrected.

    Blank lines and remarks, which begin with #, are skipped.

    Raises: InputError, one line, for a file that cannot be read, is not comma-separated
    UTF-8, lacks a column, or has no rows.
    """
    found = csv_rows(read_text(path, "table"), str(path))
    first = next(found, None)
    if first is None:
        raise InputError(f"{path}: holds remarks only; the first line is {','.join(required)}")
    line, cells = first
    skipped = len(REJECTED) if tuple(cells[: len(REJECTED)]) == REJECTED else 0
    header = csv_header(cells[skipped:], f"{path}: line {line}", required, optional)
    rows: list[tuple[int, tuple[str, ...]]] = []
    bad: list[BadRow] = []
    for line, cells in found:
        row = tuple(c.strip() for c in cells[skipped:])
        if len(row) == len(header):
            rows.append((line, row))
        else:
            hint = "; a decimal comma? write 7.40" if len(row) > len(header) else ""
            reason = f"has {len(row)} values, the heading {len(header)} columns{hint}"
            bad.append(BadRow(line, "row", "", reason, row))
    if not rows and not bad:
        raise InputError(f"{path}: has a heading but no rows")
    return OwnTable(str(path), tuple(header), rows, bad)
