"""Read a CSV table of the shop's, row by row, with the line each stands on."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from woodref.errors import InputError
from woodref.estimate.prices import BadRow as PriceRow
from woodref.files import did_you_mean, read_text

_DELIMITERS = {";": "semicolons", "\t": "tabs", "|": "bars"}


@dataclass(frozen=True)
class BadRow(PriceRow):
    """A row that cannot be used, as in a price list, with its cells."""

    cells: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """The rows of a table under their header; rows of a wrong length are in ``bad``."""

    file: str
    header: tuple[str, ...]
    rows: list[tuple[int, tuple[str, ...]]]
    bad: list[BadRow]


def read_own_table(path: Path, required: Sequence[str], optional: Sequence[str]) -> Table:
    """A CSV table with the columns asked for.

    Blank lines and remarks, which begin with #, are skipped.

    Raises: InputError, one line, for a file that cannot be read, is not comma-separated
    UTF-8, or lacks a column.
    """
    text = read_text(path, "table")
    lines = [
        "" if s.lstrip().startswith("#") else s for s in text.replace("\r\n", "\n").split("\n")
    ]
    reader = csv.reader(io.StringIO("\n".join(lines)), strict=True)
    header: tuple[str, ...] = ()
    rows: list[tuple[int, tuple[str, ...]]] = []
    bad: list[BadRow] = []
    try:
        for cells in reader:
            if not any(c.strip() for c in cells):
                continue
            row = tuple(c.strip() for c in cells)
            if not header:
                header = _header(row, path, reader.line_num, required, optional)
            elif len(row) != len(header):
                hint = "; a decimal comma? write 7.40" if len(row) > len(header) else ""
                reason = f"has {len(row)} values, the heading {len(header)} columns{hint}"
                bad.append(BadRow(reader.line_num, "row", "", reason, row))
            else:
                rows.append((reader.line_num, row))
    except csv.Error as error:
        raise InputError(f"{path}: line {reader.line_num}: not CSV: {error}") from None
    if not header:
        raise InputError(f"{path}: holds remarks only; the first line is {','.join(required)}")
    return Table(str(path), header, rows, bad)


def _header(
    cells: tuple[str, ...], path: Path, line: int, required: Sequence[str], optional: Sequence[str]
) -> tuple[str, ...]:
    where = f"{path}: line {line}"
    if len(cells) == 1:
        for delimiter, words in _DELIMITERS.items():
            if delimiter in cells[0]:
                raise InputError(
                    f"{where}: columns are separated by {words}; separate them by commas and "
                    "write decimals with a point"
                )
    names = tuple(" ".join(c.split()).lower() for c in cells)
    known = (*required, *optional)
    for name in names:
        if name not in known:
            raise InputError(f"{where}: unknown column '{name}'{did_you_mean(name, known)}")
        if names.count(name) > 1:
            raise InputError(f"{where}: the column '{name}' is there twice")
    for name in required:
        if name not in names:
            raise InputError(
                f"{where}: the column '{name}' is missing; needed are {', '.join(required)}"
            )
    return names
