import shutil
from contextlib import suppress

import pytest

from woodref.errors import InputError
from woodref.reference import query
from woodref.reference.query import run_query
from woodref.reference.store import data_directory


@pytest.fixture
def folder(tmp_path):
    """A copy of the dataset that a query could harm."""
    copy = tmp_path / "reference"
    shutil.copytree(data_directory(), copy)
    return copy


def test_rows_and_columns():
    columns, rows = run_query("select common_name from species where species_id = 'acer-saccharum'")
    assert columns == ("common_name",)
    assert rows == [("sugar maple",)]


@pytest.mark.parametrize(
    "query",
    [
        "from sources",
        "with s as (select * from sources) select count(*) from s",
        "values (1)",
        "describe measurements",
        "show tables",
        "summarize sources",
        "select 1;",
    ],
)
def test_statements_that_read(query):
    assert run_query(query).rows


@pytest.mark.parametrize(
    "query",
    [
        "drop view species",
        "create table t (a int)",
        "insert into species values (1)",
        "update species set common_name = 'x'",
        "copy species to '{folder}/species.parquet'",
        "copy species to '{folder}/new.csv'",
        "attach '{folder}/new.db'",
        "export database '{folder}'",
        "import database '{folder}'",
        "install httpfs",
        "load httpfs",
        "set threads = 1",
        "set enable_external_access = true",
        "call pragma_version()",
        "checkpoint",
        "vacuum",
        "begin",
        "",
        "-- nothing",
        "select 1; select 2",
        "select 1; drop view species",
        "selec 1",
        "select",
    ],
)
def test_anything_else_is_refused_in_one_line_and_changes_nothing(folder, query):
    before = {p: p.read_bytes() for p in folder.rglob("*") if p.is_file()}
    with pytest.raises(InputError) as caught:
        run_query(query.format(folder=folder), folder)
    assert "\n" not in str(caught.value)
    assert {p: p.read_bytes() for p in folder.rglob("*") if p.is_file()} == before


@pytest.mark.parametrize(
    "query",
    [
        "select * from '{secret}'",
        "select * from read_csv('{secret}')",
        "select * from read_text('{secret}')",
        "select * from read_blob('{secret}')",
        "select * from read_json('{secret}')",
        "select * from sniff_csv('{secret}')",
        "select * from glob('{folder}/../*')",
        "select * from read_text('{folder}/../secret.csv')",
        "select * from 'http://127.0.0.1:9/a.parquet'",
        "select * from read_parquet('s3://bucket/a.parquet')",
        "select getenv('HOME')",
        "select * from statements",
        "select * from connection",
    ],
)
def test_no_file_no_address_no_variable_of_the_program(folder, query):
    secret = folder.parent / "secret.csv"
    secret.write_text("word\nhidden\n")
    with pytest.raises(InputError) as caught:
        run_query(query.format(folder=folder, secret=secret), folder)
    assert "\n" not in str(caught.value)
    assert "hidden" not in str(caught.value)


@pytest.mark.parametrize("query", ["select * from duckdb_secrets()", "pragma database_list"])
def test_what_some_versions_of_the_engine_answer_shows_no_secret_and_no_path(query):
    shown = []
    with suppress(InputError):
        shown = run_query(query).rows
    assert [row[1:] for row in shown] in ([], [("memory", None)])


@pytest.mark.parametrize(
    ("query", "message"),
    [
        ("select * from specie", "no table 'specie'; nearest: species"),
        ("select comon_name from species", "no column 'comon_name'; nearest: common_name"),
        ("select s.comon_name from species s", "nearest: common_name"),
        ("select nope(1)", "nope"),
    ],
)
def test_a_slip_gets_the_nearest_name(query, message):
    with pytest.raises(InputError, match="SQL: ") as caught:
        run_query(query)
    assert message in str(caught.value)


def test_limit():
    assert len(run_query("select * from species", limit=3).rows) == 3


def test_a_query_that_takes_too_much_is_stopped(monkeypatch):
    monkeypatch.setattr(query, "MOST_SECONDS", 0.2)
    endless = "select count(*) from range(200000000000) a, range(100) b where a.range + b.range = 7"
    with pytest.raises(InputError, match=r"took more than 0\.2 seconds"):
        query.run_query(endless)
    monkeypatch.setattr(query, "MOST_SECONDS", 60.0)
    monkeypatch.setattr(query, "MOST_ROWS", 1000)
    assert len(query.run_query("select * from range(1000)").rows) == 1000
    with pytest.raises(InputError, match="more than 1,000 rows"):
        query.run_query("select * from range(2000000000)")
    monkeypatch.setattr(query, "MOST_MEMORY", "20MB")
    with pytest.raises(InputError, match="more than 20MB of memory"):
        query.run_query("select list(range) from range(200000000)")


def test_a_query_of_bytes_that_are_no_text_is_refused():
    with pytest.raises(InputError, match="no text"):
        query.run_query("select '\udcff'")
