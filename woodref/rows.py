"""Rows of tables that people wrote: each is used, or rejected with its reason; none is lost."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

from woodref.errors import InputError
from woodref.files import csv_header, csv_rows, holds, one_line, write_text
from woodref.record import record
from woodref.spreadsheet import csv_text

#: Hint for a row of too many cells, where its columns hold numbers.
DECIMAL_COMMA = "; a decimal comma? write 7.40"
#: Longest reason of a rejected row in a message [characters]; a name in it may be endless.
_LONGEST = 300
_Used = TypeVar("_Used")


class CellError(InputError):
    """A cell that cannot be used: its column, the value as written, '' where it is told in why."""

    def __init__(self, column: str, value: str, reason: str) -> None:
        self.column, self.value = column, value
        super().__init__(reason)


@record
class RejectedRow:
    """A row that cannot be used: its line, what is at fault, and its cells as they stand.

    ``column`` at fault, 'row' where it is the row as a whole; ``value`` of that cell as written,
    '' where the reason tells it.
    """

    line: int
    column: str
    value: str
    reason: str
    cells: tuple[str, ...] = ()

    def __str__(self) -> str:
        """'line 4, price '7,40': a decimal comma ...'."""
        value = f" '{one_line(self.value)}'" if self.value else ""
        return f"line {self.line}, {self.column}{value}: {one_line(self.reason, _LONGEST)}"


def rejected(
    line: int, error: InputError, cells: Sequence[str] = (), units: str = ""
) -> RejectedRow:
    """The rejected row of an error that was raised while it was read, told in some units."""
    at = (error.column, error.value) if isinstance(error, CellError) else ("row", "")
    return RejectedRow(line, *at, error.told(units), tuple(cells))


def open_rows(
    text: str | Iterable[str],
    file: str,
    required: Sequence[str],
    optional: Sequence[str],
    skipped: Sequence[str] = (),
) -> tuple[list[str], Iterator[tuple[int, list[str]]]]:
    """The column names of a CSV table, and its rows, each with the line it begins on.

    Parameters: text, or its lines; file, its name in messages; required and optional columns, in
    any order; skipped, columns that are left out of a table that begins with them.
    Raises: InputError, one line, where there is nothing but remarks, the heading is wrong, or
    the text is no CSV.
    """
    rows = csv_rows(text, file)
    first = next(rows, None)
    if first is None:
        raise InputError(f"{file}: holds remarks only; the first line is {','.join(required)}")
    line, cells = first
    left_out = len(skipped) if cells[: len(skipped)] == list(skipped) else 0
    header = csv_header(cells[left_out:], f"{file}: line {line}", required, optional)
    return header, ((n, row[left_out:]) for n, row in rows)


def check_length(header: Sequence[str], cells: Sequence[str], too_many: str = "") -> None:
    """Refuse a row of another length than its heading; parameters and errors as by_column."""
    if len(cells) != len(header):
        hint = too_many if len(cells) > len(header) else ""
        raise InputError(f"has {len(cells)} values, the heading {len(header)} columns{hint}")


def by_column(header: Sequence[str], cells: Sequence[str], too_many: str = "") -> dict[str, str]:
    """The cells of a row by column, without needless spaces.

    Parameters: header; cells; too_many, a hint for a row of more cells than columns.
    Raises: InputError for another number of cells.
    """
    check_length(header, cells, too_many)
    return {name: " ".join(cell.split()) for name, cell in zip(header, cells, strict=True)}


def sort_rows(
    rows: Iterable[tuple[int, Sequence[str]]],
    use: Callable[[int, Sequence[str]], _Used],
    units: str = "",
) -> tuple[list[_Used], list[RejectedRow]]:
    """What rows turn into, and the rows that are rejected.

    Parameters: rows with the line each begins on; use, what a row turns into, which raises
    InputError, or CellError where one cell is at fault; units of the reasons, '' for both.
    """
    used: list[_Used] = []
    rejects: list[RejectedRow] = []
    for line, cells in rows:
        try:
            used.append(use(line, cells))
        except InputError as error:
            rejects.append(rejected(line, error, cells, units))
    return used, rejects


def write_rejects(
    target: Path,
    header: Sequence[str],
    rejects: Iterable[RejectedRow],
    what: Sequence[str] = ("line", "reason"),
    overwrite: bool = False,
) -> Path:
    """Write rejected rows as a CSV file, what is at fault before the cells; returns its path.

    A file that holds these rows already stays as it is.

    Parameters: target; header of the cells; rejects; what is told of each of them: fields of
    RejectedRow; overwrite, whether a file of other rows, corrected ones perhaps, may be replaced.
    Raises: InputError where a file of other rows may not be replaced; as
    woodref.files.write_text.
    """
    rows = ([*(getattr(row, field) for field in what), *row.cells] for row in rejects)
    text = csv_text([[*what, *header], *rows])
    if holds(target, text):
        return target
    if os.path.isfile(target) and not overwrite:
        raise InputError(
            f"{target}: holds rejected rows that you may have corrected; move it away, or add "
            "--force to replace it"
        )
    write_text(target, text, overwrite)
    return target
