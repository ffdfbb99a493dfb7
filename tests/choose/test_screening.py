"""Woods put through filters: counts, what is not known, and the nearest miss, by hand."""

import duckdb
import pytest

from woodref.choose.columns import COLUMNS
from woodref.choose.filters import Filter
from woodref.choose.screening import Screening, check_limit
from woodref.errors import InputError

HARD = Filter("hard", "(side_hardness_n >= 4000.0)", COLUMNS["side_hardness_n"], ">=", 4000.0)
SOFTWOOD = Filter("softwoods", "(kind = 'softwood')")
#: species_id, kind, side_hardness_n, score, lacking; invented.
WOODS = [
    ("a", "hardwood", 6000.0, 90.0, []),
    ("b", "hardwood", 3900.0, 80.0, []),
    ("c", "softwood", 3000.0, 70.0, []),
    ("d", "softwood", 2000.0, 60.0, []),
    ("e", "hardwood", None, None, ["side_hardness_n"]),
    ("f", "softwood", None, None, ["side_hardness_n", "density_kg_m3"]),
    ("g", None, 5000.0, 50.0, []),
]


def screened(*filters, among="true"):
    connection = duckdb.connect()
    connection.execute(
        "create table woods (species_id varchar, kind varchar, side_hardness_n double, "
        "score double, lacking varchar[])"
    )
    connection.executemany("insert into woods values (?, ?, ?, ?, ?)", WOODS)
    return Screening(
        connection,
        "select *, species_id as common_name from woods",
        filters,
        known="len(lacking) = 0",
        among=among,
    )


def test_without_filters_every_known_wood_passes():
    screening = screened()
    assert [r["species_id"] for r in screening.rows()] == ["a", "b", "c", "d", "g"]
    assert [r["species_id"] for r in screening.rows(2)] == ["a", "b"]
    assert (screening.considered, screening.passed) == (7, 5)
    assert screening.filter_counts() == ()
    assert screening.emptied((), must_fail=False) is None


def test_each_filter_counts_what_it_removes_of_those_left():
    counts = screened(HARD, SOFTWOOD).filter_counts()
    assert [(c.filter.text, c.removed, c.remaining) for c in counts] == [
        ("hard", 3, 2),  # a and g stay
        ("softwoods", 2, 0),
    ]


def test_what_no_filter_removes_for_sure_but_is_not_known():
    screening = screened(HARD, SOFTWOOD)
    found = {u.species_id: (u.missing_columns, u.unjudged) for u in screening.unranked()}
    # Of g the kind is not known.
    assert found == {"f": (("side_hardness_n", "density_kg_m3"), ()), "g": ((), ("softwoods",))}


def test_the_nearest_miss_passes_all_the_rest():
    screening = screened(HARD, SOFTWOOD)
    emptied = screening.emptied(screening.filter_counts(), must_fail=True)
    assert emptied.count.filter is SOFTWOOD
    assert emptied.nearest["species_id"] == "a"
    assert emptied.text("best") == "'softwoods' stops the last 2; the best without it is a"
    turned = screened(SOFTWOOD, HARD)
    emptied = turned.emptied(turned.filter_counts(), must_fail=True)
    # Of the softwoods the hardest, though a hardwood comes nearer.
    assert emptied.text("best") == "'hard' stops the last 2; nearest miss: c (side_hardness_n 3000)"


def test_a_wood_that_cannot_be_judged_may_be_no_miss():
    screening = screened(SOFTWOOD, among="species_id = 'g'")
    counts = screening.filter_counts()
    assert screening.emptied(counts, must_fail=False).nearest["species_id"] == "g"
    emptied = screening.emptied(counts, must_fail=True)
    assert emptied.nearest is None
    assert emptied.text("best") == "'softwoods' is not known of any"


def test_woods_left_out_are_neither_counted_nor_listed():
    screening = screened(HARD, among="species_id <> 'a'")
    assert screening.considered == 6
    assert [r["species_id"] for r in screening.rows()] == ["g"]
    assert screening.failing("species_id = 'b'") == (HARD,)
    assert screening.failing("species_id = 'a'") == ()


@pytest.mark.parametrize("limit", [0, 21])
def test_a_number_of_woods_out_of_range(limit):
    with pytest.raises(InputError, match=f"is 1 to 20, not {limit}"):
        check_limit(limit, 20)
