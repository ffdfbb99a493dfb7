"""Read a CSV table of the shop's, row by row, with the line each begins on."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from woodref.errors import InputError
from woodref.files import MAX_BYTES, read_text, text_lines
from woodref.record import record
from woodref.rows import DECIMAL_COMMA, RejectedRow, check_length, open_rows, rejected

#: Columns a rejects file begins with; they are left out where one is taken in again.
REJECTED = ("line", "column", "reason")


@record
class OwnTable:
    """The rows of a table under their header; rows of a wrong length are in ``bad``.

    Rows that are read in a stream can be gone through once, and bad ones are there after that.
    """

    file: str
    header: tuple[str, ...]
    rows: Iterable[tuple[int, tuple[str, ...]]]
    bad: list[RejectedRow]


def read_own_table(
    path: Path, required: Sequence[str], optional: Sequence[str], stream: bool = False
) -> OwnTable:
    """A CSV table with the columns asked for, or a rejects file of such a table, corrected.

    Blank lines and remarks, which begin with #, are skipped.

    Parameters: path; required and optional columns; stream, whether a large file is read row by
    row in place of being refused.
    Raises: InputError, one line, for a file that cannot be read, is not comma-separated
    UTF-8, or lacks a column.
    """
    large = stream and os.path.isfile(path) and path.stat().st_size > MAX_BYTES
    text = text_lines(path, "table") if large else read_text(path, "table")
    header, listed = open_rows(text, str(path), required, optional, skipped=REJECTED)
    bad: list[RejectedRow] = []

    def good() -> Iterator[tuple[int, tuple[str, ...]]]:
        for line, cells in listed:
            stripped = tuple(c.strip() for c in cells)
            try:
                check_length(header, stripped, DECIMAL_COMMA)
            except InputError as error:
                bad.append(rejected(line, error, stripped))
            else:
                yield line, stripped

    return OwnTable(str(path), tuple(header), good() if large else list(good()), bad)
