import csv
import io
import json

import pytest

from woodref.reference.library import Reference


def test_sources_count_every_measurement_once(woodref):
    data = json.loads(woodref("sources", "--format", "json").out)
    rows = Reference().store.rows(
        "select count(*) as n, count(*) filter (where preferred) as p from {measurements}"
    )
    assert sum(s["measurements"] for s in data["sources"]) == rows[0]["n"]
    assert sum(s["preferred"] for s in data["sources"]) == rows[0]["p"]
    assert data["answer"][0].startswith(f"{rows[0]['n']:,} printed figures from ")
    for source in data["sources"]:
        assert source["license"]
        counted = [int(part.rpartition(" ")[2]) for part in source["bases"].split(", ") if part]
        assert sum(counted) == source["measurements"]


def test_one_source_by_identifier_or_by_part_of_its_name(woodref):
    result = woodref("sources", "wood-handbook-2021")
    assert result.out.startswith("Wood Handbook FPL-GTR-282 (2021): ")
    assert "shrinkage_tangential" in result.out
    assert "License: " in result.out
    assert woodref("sources", "FPL-GTR-282").out == result.out


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("handbook", "'handbook' is part of "),
        ("wood-handbok-2021x", "nearest: wood-handbook-2021"),
        ("zzzzqqqq", "woodref sources lists them"),
    ],
)
def test_a_source_that_is_not_there(woodref, name, message):
    result = woodref("sources", name)
    assert (result.code, result.out) == (2, "")
    assert message in result.err


QUERY = (
    "select species_id, shrinkage_radial_pct as r from species where species_id = 'acer-saccharum'"
)


def test_sql_in_every_form(woodref):
    assert woodref("sql", QUERY).out.split() == ["species_id", "r", "acer-saccharum", "4.8"]
    data = json.loads(woodref("sql", QUERY, "--format", "json").out)
    assert data["rows"] == [{"species_id": "acer-saccharum", "r": 4.8}]
    rows = list(csv.reader(io.StringIO(woodref("sql", QUERY, "--format", "csv").out)))
    assert rows == [["species_id", "r"], ["acer-saccharum", "4.8"]]
    assert "| acer-saccharum | 4.8 |" in woodref("sql", QUERY, "--format", "markdown").out


def test_sql_keeps_columns_of_one_name_and_odd_values(woodref):
    query = (
        "select 1 as a, 2 as a, 'nan'::double as x, null as n, date '2020-01-02' as d, [1, 2] as l"
    )
    row = json.loads(woodref("sql", query, "--format", "json").out)["rows"][0]
    assert row == {"a": 1, "a_2": 2, "x": None, "n": None, "d": "2020-01-02", "l": [1, 2]}


def test_sql_numbers_columns_past_names_that_are_taken(woodref):
    result = woodref("sql", "select 1 as a, 2 as a, 3 as a_2, 4 as a", "--format", "json")
    assert json.loads(result.out)["rows"] == [{"a": 1, "a_3": 2, "a_2": 3, "a_4": 4}]


def test_sql_without_rows_says_so(woodref):
    assert woodref("sql", "select 1 where false").out == "No rows.\n"


def test_sql_errors_are_one_line(woodref):
    result = woodref("sql", "select nme from names")
    assert (result.code, result.out) == (2, "")
    assert result.err == "woodref: SQL: no column 'nme'; nearest: name\n"
