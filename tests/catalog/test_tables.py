"""Catalogs in tables of other libraries."""

import duckdb
import pandas
import pyarrow
import pytest

import woodref
from woodref.errors import InputError

PARTS = {
    "wood": ["cherry", "nothing at all", "teak"],
    "length": [500.0, 500.0, 900.0],
    "width": [100.0, 100.0, 80.0],
    "thickness": [20.0, 20.0, 27.0],
}


def as_arrow():
    return pyarrow.table(PARTS)


def as_pandas():
    return pandas.DataFrame(PARTS, index=[7, 8, 9])


def as_relation():
    return duckdb.from_arrow(as_arrow())


def as_reader():
    return as_arrow().to_reader()


def as_polars():
    return pytest.importorskip("polars").DataFrame(PARTS)


@pytest.mark.parametrize("make", [as_arrow, as_pandas, as_relation, as_reader, as_polars])
def test_every_table_gives_the_same(make):
    done = woodref.batch(make(), to_moisture_pct=12.0)
    first, second = done.answers.to_pylist()
    assert first["mass_kg"] == pytest.approx(
        woodref.weight("cherry", 500, 100, 20, 8).mass_kg.expected
    )
    assert first["width_change_mm"] == pytest.approx(
        woodref.movement("cherry", 100, 8, 12).change_mm
    )
    assert second["wood"] == "teak"
    assert done.rejects.to_pylist()[0]["row"] == 2
    assert (done.summary.rows, done.summary.rejected) == (3, 1)
    assert list(done.frame()["wood"]) == ["cherry", "teak"]


def test_files_come_back_as_tables_or_go_to_a_file(tmp_path):
    file = tmp_path / "parts.parquet"
    duckdb.from_arrow(as_arrow()).write_parquet(str(file))
    assert woodref.batch(file).answers.num_rows == 2
    out = tmp_path / "out.parquet"
    done = woodref.batch(file, out, columns={"wood": "wood"})
    assert done.answers is None
    assert done.summary.output == out
    with pytest.raises(InputError, match="are in"):
        done.frame()


def test_what_is_no_table_is_refused():
    with pytest.raises(InputError, match="a catalog is a file"):
        woodref.batch([1, 2])
    with pytest.raises(InputError, match="already"):
        woodref.batch(as_arrow().append_column("mass_kg", pyarrow.array([1, 2, 3])))
    with pytest.raises(InputError, match="both mean wood"):
        woodref.batch(as_arrow().append_column("species", pyarrow.array(["a", "b", "c"])))
