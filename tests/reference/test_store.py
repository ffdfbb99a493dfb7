import importlib
import shutil

import duckdb
import pytest

from woodref.errors import WoodrefError
from woodref.reference import store
from woodref.reference.checksums import CHECKSUMS
from woodref.reference.ready import READY, ready_file
from woodref.reference.store import Store, connect, data_directory, ready_sql


@pytest.fixture
def folder(tmp_path):
    copy = tmp_path / "it's a copy"
    shutil.copytree(data_directory(), copy)
    return copy


def test_tables_are_read_wherever_the_folder_is(folder):
    rows = Store(folder).rows(
        "select species_id from {species} where common_name = ?", ["sugar maple"]
    )
    assert rows == [{"species_id": "acer-saccharum"}]


@pytest.mark.parametrize("damage", ["missing", "empty", "not Parquet"])
def test_a_damaged_dataset_without_checksums_is_one_line(folder, damage):
    (folder / CHECKSUMS).unlink()
    file = folder / "names.parquet"
    if damage == "missing":
        file.unlink()
    else:
        file.write_bytes(b"" if damage == "empty" else b"plain text, and more than a few bytes")
    with pytest.raises(WoodrefError, match="cannot be read") as caught:
        Store(folder).rows("select * from {names}")
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("table", READY)
def test_a_ready_table_is_what_its_query_gives(table):
    folder = data_directory()
    with connect() as connection:
        made, read = (
            connection.execute(query).fetchall()
            for query in (ready_sql(folder, table), f"from '{ready_file(folder, table)}'")
        )
    assert made == read
    assert made


def test_without_the_ready_tables_look_ups_are_the_same(folder):
    whole, bare = Store(folder), Store(folder)
    answers = []
    for of in (whole, bare):
        answers.append(
            [
                sorted(of.rows(f"select * from {{{table}}} where {key} = ?", [value]), key=repr)
                for table, key, value in (
                    ("ready_names", "name_key", "white oak"),
                    ("ready_figures", "species_id", "quercus-alba"),
                    ("ready_identities", "species_id", "quercus-alba"),
                    ("ready_genera", "genus", "Quercus"),
                )
            ]
        )
        shutil.rmtree(folder / "ready", ignore_errors=True)
        (folder / CHECKSUMS).unlink(missing_ok=True)
    assert answers[0] == answers[1]
    assert all(answers[0])


def test_a_question_is_asked_once(folder):
    asked = Store(folder)
    query = "select species_id from {species} where common_name = ?"
    first = asked.rows(query, ["sugar maple"])
    first[0]["species_id"] = "changed by the caller"
    asked.connection.close()
    assert asked.rows(query, ["sugar maple"]) == [{"species_id": "acer-saccharum"}]


def test_the_package_serves_where_there_is_no_engine_by_itself(monkeypatch):
    def without_engine(name):
        if name == "_duckdb":
            raise ImportError(name)
        return importlib.import_module(name)

    monkeypatch.setattr(store, "import_module", without_engine)
    assert store.engine() is duckdb
    assert connect().execute("select 1").fetchall() == [(1,)]
