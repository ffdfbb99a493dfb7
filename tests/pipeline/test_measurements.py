"""Printed numbers of a source table: what becomes a measurement, what is rejected and why."""

import csv

import pandas
import pytest

from pipeline.identify import build_registry
from pipeline.measurements import normalize
from pipeline.read import SOURCES
from pipeline.tables import MEASUREMENT_TABLES

TABLE = MEASUREMENT_TABLES["shrinkage_domestic"]


@pytest.fixture
def with_a_stranger(tmp_path):
    """A source table of two printed rows, the second under a name no list of woods holds."""
    with (SOURCES / f"{TABLE.name}.csv").open(encoding="utf-8", newline="") as file:
        header, *rows = csv.reader(file)
    known = next(r for r in rows if r[header.index("botanical")] == "Fraxinus americana")
    stranger = list(known)
    stranger[header.index("name")] = "Nobody's wood"
    stranger[header.index("botanical")] = "Ignota invented"
    with (tmp_path / f"{TABLE.name}.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([header, known, stranger])
    return tmp_path


def test_a_row_of_an_unknown_wood_is_rejected_and_the_others_stay(with_a_stranger):
    sources = pandas.Series(["a-handbook"] * 2)
    good, rejected = normalize(TABLE, build_registry(), sources, with_a_stranger)
    assert set(good["species_id"]) == {"fraxinus-americana"}
    assert set(good["source_line"]) == {2}
    assert set(rejected["source_line"]) == {3}
    assert set(rejected["source_column"]) == set(good["source_column"])
    assert set(rejected["reason"]) == {"the printed name belongs to no known wood"}


def test_a_table_of_unknown_woods_alone_gives_no_measurement(with_a_stranger):
    file = with_a_stranger / f"{TABLE.name}.csv"
    header, _, stranger = file.read_text(encoding="utf-8").splitlines()
    file.write_text(f"{header}\n{stranger}\n", encoding="utf-8")
    good, rejected = normalize(
        TABLE, build_registry(), pandas.Series(["a-handbook"]), with_a_stranger
    )
    assert good.empty
    assert len(rejected) >= 2
