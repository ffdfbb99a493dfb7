"""The reference tables as frames."""

import math

import pyarrow.parquet
import pytest

from woodref.errors import InputError
from woodref.reference import query, tables
from woodref.reference.fields import TABLES
from woodref.reference.store import data_directory
from woodref.reference.tables import sql, table, table_names


def test_every_table_has_a_name_and_a_line():
    names = table_names()
    assert list(names) == [t for t in TABLES if (data_directory() / f"{t}.parquet").is_file()]
    assert all("\n" not in line and line.endswith(".") for line in names.values())


@pytest.mark.parametrize("name", table_names())
def test_a_table_is_the_parquet_whole(name):
    printed = pyarrow.parquet.read_table(data_directory() / f"{name}.parquet")
    assert table(name, as_arrow=True).cast(printed.schema).equals(printed)
    frame = table(name)
    assert list(frame.columns) == printed.column_names == list(TABLES[name].columns)
    assert len(frame) == printed.num_rows


def test_a_value_that_is_missing_is_not_a_number():
    maple = "from species select density_12pct_kg_m3 where species_id = 'acer-saccharum'"
    assert math.isnan(sql(maple)["density_12pct_kg_m3"][0])
    assert sql(maple, as_arrow=True)["density_12pct_kg_m3"].to_pylist() == [None]


def test_sql_reads_the_tables_alone():
    maples = sql("select common_name from species where species_id like 'acer-s%' order by 1")
    assert "sugar maple" in maples["common_name"].tolist()
    with pytest.raises(InputError, match="starts with select"):
        sql("drop view species")
    with pytest.raises(InputError, match="no column 'hardnes'"):
        sql("select hardnes from species")
    with pytest.raises(InputError, match="reads the tables of the dataset alone"):
        sql("from read_csv('/etc/passwd')")
    # A value that cannot be converted shows only when the rows are fetched.
    with pytest.raises(InputError, match="Conversion Error"):
        sql("select common_name::int from species")


def test_a_table_that_does_not_exist():
    with pytest.raises(InputError, match="did you mean 'measurements'"):
        table("measurement")


def test_more_rows_than_a_million_are_refused(monkeypatch):
    monkeypatch.setattr(tables, "MOST_ROWS", 1000)
    monkeypatch.setattr(query, "MOST_ROWS", 1000)
    assert len(sql("from range(1000) order by 1 desc")) == 1000
    assert sql("from range(1000) order by 1 desc")["range"][0] == 999
    for as_arrow in (False, True):
        with pytest.raises(InputError, match="more than 1,000 rows; add a limit"):
            sql("from range(2000000000)", as_arrow=as_arrow)
