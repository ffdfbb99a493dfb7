"""CSV that a spreadsheet reads as it was meant: no row broken, no text taken for a formula."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

#: What a cell begins with that a spreadsheet computes, and a number, which it may; both are
#: regular expressions for Python and DuckDB alike.
FORMULA = r"^[=+\-@\t\r\x{FF0B}\x{FF0D}\x{FF1D}\x{FF20}]"
NUMBER = r"[+-]?[0-9]+([.,][0-9]+)*([eE][+-]?[0-9]+)?"
_FORMULA = re.compile(re.sub(r"\\x\{(\w+)\}", r"\\u\1", FORMULA))
_NUMBER = re.compile(NUMBER)


class _Lines(list[str]):
    def write(self, row: str) -> None:
        """Take a row without the end of its line."""
        self.append(row.removesuffix("\r\n"))


def csv_text(rows: Iterable[Sequence[object]]) -> str:
    """Rows as CSV, a line feed behind each; a cell that holds a return is quoted too."""
    import csv

    lines = _Lines()
    # The module quotes a return in a cell only where it ends lines as well.
    csv.writer(lines, lineterminator="\r\n").writerows(rows)
    return "".join(f"{line}\n" for line in lines)


def as_cell(text: str) -> str:
    """The text with an apostrophe before it where a spreadsheet would compute it.

    It begins with = + - @, their wide forms, a tab or a return, and is no plain number.
    """
    return f"'{text}" if _FORMULA.match(text) and not _NUMBER.fullmatch(text) else text


def as_cell_sql(column: str) -> str:
    """The same in SQL, of a column of text."""
    return (
        f"case when regexp_matches({column}, '{FORMULA}') "
        f"and not regexp_full_match({column}, '{NUMBER}') then '''' || {column} else {column} end"
    )
