"""Rows of a table are used or rejected with a reason; none is lost."""

import csv

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError, WoodrefError
from woodref.rows import (
    CellError,
    RejectedRow,
    by_column,
    open_rows,
    rejected,
    sort_rows,
    write_rejects,
)

TABLE = "# ours\n\nname,size\na,1\nb,two\nc\n"


def opened(text=TABLE, skipped=()):
    return open_rows(text, "t.csv", ("name", "size"), ("note",), skipped)


def number(header):
    def use(_line, cells):
        cell = by_column(header, cells)
        if not cell["size"].isdigit():
            raise CellError("size", cell["size"], "is no number")
        return int(cell["size"])

    return use


def test_every_row_is_used_or_rejected_with_its_line_and_cells():
    header, rows = opened()
    used, rejects = sort_rows(rows, number(header))
    assert used == [1]
    assert rejects == [
        RejectedRow(5, "size", "two", "is no number", ("b", "two")),
        RejectedRow(6, "row", "", "has 1 values, the heading 2 columns", ("c",)),
    ]
    assert str(rejects[0]) == "line 5, size 'two': is no number"
    assert str(rejects[1]) == "line 6, row: has 1 values, the heading 2 columns"


def test_a_table_may_begin_with_the_columns_of_its_rejects():
    header, rows = opened("line,reason,name,size\n5,is no number,b,2\n", ("line", "reason"))
    assert (header, list(rows)) == (["name", "size"], [(2, ["b", "2"])])
    with pytest.raises(InputError, match="unknown column 'line'"):
        opened("line,reason,name,size\n", ("line", "why"))


def test_nothing_but_remarks_and_a_wrong_heading():
    with pytest.raises(InputError, match=r"t\.csv: holds remarks only; the first line is name,siz"):
        opened("# ours\n")
    with pytest.raises(InputError, match=r"t\.csv: line 1: unknown column 'siz'; did you mean 'si"):
        opened("name,siz\n")


def test_rejects_are_written_before_their_cells_and_can_be_read_again(tmp_path):
    header, rows = opened()
    _, rejects = sort_rows(rows, number(header))
    path = write_rejects(tmp_path / "r.csv", header, rejects, ("line", "column", "reason"))
    with path.open(encoding="utf-8", newline="") as file:
        table = list(csv.reader(file))
    assert table[:2] == [["line", "column", "reason", *header], ["5", "size", *table[1][2:]]]
    again, rows = opened(path.read_text(), skipped=("line", "column", "reason"))
    assert again == header
    assert [cells for _, cells in rows] == [["b", "two"], ["c"]]


def test_rejects_that_cannot_be_written_say_so(tmp_path):
    with pytest.raises(WoodrefError):
        write_rejects(tmp_path / "none" / "r.csv", ["name"], [])


@given(st.text(), st.text())
def test_a_message_is_one_short_line_whatever_the_cell(value, reason):
    message = str(rejected(3, CellError("size", value, reason)))
    assert len(message.splitlines()) == 1
    assert len(message) < 500
