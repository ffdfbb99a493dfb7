"""The file of answers: what becomes of columns and disks that do not bear it."""

import duckdb
import pyarrow
import pyarrow.parquet
import pytest

from woodref.catalog.write import write_parquet
from woodref.errors import InputError, WoodrefError

MANY = "select range as part, 'a' as wood from range(500_000)"


@pytest.fixture
def connection():
    with duckdb.connect() as opened:
        yield opened


def test_a_dictionary_is_for_columns_that_repeat(connection, tmp_path):
    file = tmp_path / "answers.parquet"
    query = (
        "select concat('P', range) as part, 'oak' as wood, range / 7 as size from range(200_000)"
    )
    assert write_parquet(connection, query, file) == 200_000
    group = pyarrow.parquet.ParquetFile(file).metadata.row_group(0)
    encodings = {group.column(n).path_in_schema: group.column(n).encodings for n in range(3)}
    assert [n for n, e in encodings.items() if "RLE_DICTIONARY" in e] == ["wood"]


def test_a_column_that_no_file_holds_is_named(connection, tmp_path):
    query = f"select *, interval 3 month as lead from ({MANY})"
    with pytest.raises(InputError, match=r"column 'lead' holds what no Parquet file can"):
        write_parquet(connection, query, tmp_path / "answers.parquet")


@pytest.mark.parametrize("at", ["write_batch", "close"])
def test_a_disk_that_fills_is_told_and_nothing_waits(connection, tmp_path, monkeypatch, at):
    usual, fails = getattr(pyarrow.parquet.ParquetWriter, at), [True]

    def full(*given, **named):
        if fails and fails.pop():
            raise OSError(28, "No space left on device")
        usual(*given, **named)

    monkeypatch.setattr(pyarrow.parquet.ParquetWriter, at, full)
    with pytest.raises(WoodrefError, match="cannot be written: no space left on device"):
        write_parquet(connection, MANY, tmp_path / "answers.parquet")


def test_no_rows_are_a_file_too(connection, tmp_path):
    file = tmp_path / "answers.parquet"
    assert write_parquet(connection, f"{MANY} where wood = 'b'", file) == 0
    assert pyarrow.parquet.read_table(file).column_names == ["part", "wood"]
