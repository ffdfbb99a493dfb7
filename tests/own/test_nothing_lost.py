"""Whatever is in a table: its rows are those kept and those in the rejects file, cell by cell."""

import csv

import pytest
from examples import FEW_OF_A_FIXTURE
from hypothesis import given
from hypothesis import strategies as st

from woodref.own.intake import OPTIONAL, REQUIRED, take_in
from woodref.own.storage import remove_batch, rows_of
from woodref.reference.store import Store

NOT_IN_A_CELL = "\x00\r"  # no CSV holds the one, and the other ends lines
CELL = st.text(st.characters(codec="utf-8", exclude_characters=NOT_IN_A_CELL), max_size=12)
WORDS = {
    "measurements": ["teak", "side_hardness", "density_12pct", "1000", "640", "lbf", "kg/m3", ""],
    "prices": ["white ash", "teak", "4/4", "any", "27 mm", "6.5", "board foot", "m3", "USD", ""],
    "yard": ["cherry", "white oak", "oka", "4/4", ""],
    "places": ["Here", "here", "1", "Jan", "winter", "summer", "10C", "60", "160", "south", ""],
}


def rows_for(kind):
    columns = len(REQUIRED[kind]) + len(OPTIONAL[kind])
    cell = st.one_of(st.sampled_from(WORDS[kind]), CELL)
    return st.lists(st.lists(cell, min_size=columns - 1, max_size=columns + 1), max_size=8)


def is_row(cells):
    """Blank rows are no rows; a line that begins with # is a remark."""
    return any(c.strip() for c in cells)


def is_remark(text):
    return any(line.lstrip().startswith("#") for line in text.split("\n"))


def stripped(cells):
    return [c.strip() for c in cells]


@pytest.mark.parametrize("kind", list(REQUIRED))
@FEW_OF_A_FIXTURE
@given(data=st.data())
def test_no_row_and_no_cell_is_lost(reference, table, kind, data):
    drawn = data.draw(rows_for(kind))
    rows = [cells for cells in drawn if is_row(cells) and not any(is_remark(c) for c in cells)]
    head = [*REQUIRED[kind], *OPTIONAL[kind]]
    path = table("")
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows([head, *rows])
    if not rows:
        return
    found = take_in(reference, path, kind, "bench", overwrite=True)
    assert found.rows == len(rows) == found.kept + len(found.bad)
    rejected = []
    if found.rejects:
        with found.rejects.open(newline="", encoding="utf-8") as file:
            rejected = [cells[3:] for cells in csv.reader(file)][1:]
    assert len(rejected) == len(found.bad)
    left = [stripped(cells) for cells in rows]
    for cells in rejected:
        left.remove(cells)
    assert len(left) == found.kept
    if found.kept:
        kept = [r for r in rows_of(kind) if r["batch"] == found.batch]
        first = "place" if kind == "places" else "species"
        if kind != "places":  # two seasons are stored as twelve months, one spelling of a name
            assert sorted(r[first] for r in kept) == sorted(cells[0] for cells in left)
        remove_batch(kind, found.batch)


HEAD = "species,property,value,unit\n"
ROWS = 20_000
#: Queries for a table of any length; the nearest names of the first misspelt ones are looked up.
QUERIES, HINTS = 5, 25


@pytest.fixture
def queries(monkeypatch):
    """Every query that the library of woods is asked."""
    asked, rows = [], Store.rows

    def counted(self, query, parameters=()):
        asked.append(query)
        return rows(self, query, parameters)

    monkeypatch.setattr(Store, "rows", counted)
    return asked


def wrong_value(i):
    return f"white oak,side_hardness,{'lots' if i % 100 == 0 else 1200 + i % 400},lbf\n"


def misspelt(i):
    """Two hundred different names that no wood has."""
    return (
        f"{f'wite oak {i}' if i % 100 == 0 else 'white oak'},side_hardness,{1200 + i % 400},lbf\n"
    )


@pytest.mark.parametrize("row", [wrong_value, misspelt])
def test_a_large_table_with_one_bad_row_in_a_hundred(reference, table, queries, row):
    path = table(HEAD + "".join(map(row, range(ROWS))))
    found = take_in(reference, path, "measurements", "bench")
    # No row is looked up by itself.
    assert len(queries) <= QUERIES + (HINTS if row is misspelt else 0)
    assert (found.rows, found.kept, len(found.bad)) == (ROWS, 19_800, 200)
    assert [b.line for b in found.bad[:2]] == [2, 102]
    with found.rejects.open() as file:
        assert sum(1 for _ in file) == 201
    assert len(rows_of("measurements")) == 19_800


def test_a_large_price_list(reference, table, queries):
    """Every row but the first of a wood and thickness is one too many, and said to be."""
    rows = "".join(f"white ash,{i % 50 + 10} mm,6.5,board foot\n" for i in range(ROWS))
    found = take_in(reference, table("species,thickness,price,per\n" + rows), "prices", "yard")
    assert len(queries) <= QUERIES
    assert (found.rows, found.kept, len(found.bad)) == (ROWS, 50, ROWS - 50)
