"""The archive of the dataset: the same bytes each time, and open by standard files alone."""

import hashlib
import re
import shutil
import subprocess
import zipfile
from math import isclose

import duckdb
import pandas
import polars
import pyarrow.parquet
import pytest
from frictionless import validate

from pipeline.archive import archive_files, write_archive
from pipeline.read import REFERENCE, ROOT
from woodref.errors import WoodrefError
from woodref.reference.checksums import CHECKSUMS, dataset_checksum
from woodref.reference.fields import DATASET_VERSION, TABLES

DICTIONARY = ROOT / "docs" / "data-dictionary.md"
#: Tables with text, numbers, truth and missing values of all kinds.
COMPARED = ("species", "measurements", "sources", "climate", "cautions")


@pytest.fixture(scope="module")
def archive(tmp_path_factory):
    """The folder of the archive of the published dataset, taken out of its file."""
    place = tmp_path_factory.mktemp("archive")
    path = write_archive(REFERENCE, DICTIONARY, place)
    with zipfile.ZipFile(path) as file:
        file.extractall(place)
    return place / path.stem


def test_it_holds_every_table_twice_and_says_what_it_is(archive):
    for table in TABLES:
        assert (archive / "parquet" / f"{table}.parquet").is_file()
        assert (archive / "csv" / f"{table}.csv").is_file()
    page = (archive / "README.md").read_text(encoding="utf-8")
    assert f"version {DATASET_VERSION}" in page
    assert f"sha256 {dataset_checksum(REFERENCE)}" in page
    assert f"version: {DATASET_VERSION}\n" in (archive / "CITATION.cff").read_text()
    for name in re.findall(r"`([\w.-]+\.\w+|\w+/)`", page):
        assert (archive / name).exists(), name


def test_the_checksums_are_those_of_every_other_file(archive):
    lines = (archive / "SHA256SUMS").read_text().splitlines()
    listed = {name: digest for digest, _, name in (line.partition("  ") for line in lines)}
    files = {p.relative_to(archive).as_posix(): p for p in archive.rglob("*") if p.is_file()}
    del files["SHA256SUMS"]
    assert listed == {n: hashlib.sha256(p.read_bytes()).hexdigest() for n, p in files.items()}


def test_twice_written_is_the_same_bytes(small_built, tmp_path, monkeypatch):
    folder, page = small_built / "reference", small_built / "page.md"
    one = write_archive(folder, page, tmp_path / "one")
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    assert write_archive(folder, page, tmp_path / "two").read_bytes() == one.read_bytes()
    with zipfile.ZipFile(one) as file:
        assert {i.date_time for i in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert {oct(i.external_attr >> 16) for i in file.infolist()} == {"0o100644"}


def test_a_damaged_dataset_is_not_archived(small_built, tmp_path):
    folder = tmp_path / "reference"
    shutil.copytree(small_built / "reference", folder)
    (folder / "species.parquet").write_bytes(b"damaged")
    with pytest.raises(WoodrefError, match="damaged"):
        write_archive(folder, small_built / "page.md", tmp_path / "out")
    (folder / CHECKSUMS).unlink()
    with pytest.raises(WoodrefError, match="missing"):
        write_archive(folder, small_built / "page.md", tmp_path / "out")


def test_the_descriptor_is_valid_and_its_hashes_hold(small_built, tmp_path):
    files = archive_files(small_built / "reference", small_built / "page.md")
    for name, content in files.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
    report = validate(str(tmp_path / "datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])[:10]
    content = (tmp_path / "csv" / "species.csv").read_bytes()
    (tmp_path / "csv" / "species.csv").write_bytes(content.replace(b"ash", b"oak"))
    assert not validate(str(tmp_path / "datapackage.json")).valid


@pytest.mark.parametrize("table", COMPARED)
def test_csv_says_what_parquet_says(archive, table):
    parquet = archive / "parquet" / f"{table}.parquet"
    arrow = pyarrow.parquet.read_table(parquet)
    kinds = duckdb.sql(f"describe from '{parquet}'").fetchall()
    columns = {name: kind for name, kind, *_ in kinds}
    given = archive / "csv" / f"{table}.csv"
    read = f"from read_csv('{given}', header = true, nullstr = '', columns = {columns})"
    assert duckdb.sql(read).fetchall() == duckdb.sql(f"from '{parquet}'").fetchall()
    assert polars.read_csv(
        given, schema=polars.read_parquet_schema(parquet), null_values=[""]
    ).equals(polars.read_parquet(parquet))
    # pandas tells types by itself; a column without a value has none.
    frame = pandas.read_csv(
        given,
        keep_default_na=False,
        na_values=[""],
        low_memory=False,
    )
    assert list(frame.columns) == arrow.column_names
    for name, values in zip(arrow.column_names, arrow.columns, strict=True):
        wanted = values.to_pylist()
        got = [None if pandas.isna(v) else v for v in frame[name].tolist()]
        if columns[name] == "VARCHAR":
            assert [None if v is None else str(v) for v in got] == wanted or _numbers(got, wanted)
        elif columns[name] == "DOUBLE":  # pandas before 3 reads the last digit otherwise
            assert got == [w and pytest.approx(w, rel=1e-14) for w in wanted]
        else:
            assert got == wanted


def _numbers(got, wanted):
    """Text that pandas took for numbers, as printed figures are."""
    return all(
        g is None or isclose(g, float(w), rel_tol=1e-14)
        for g, w in zip(got, wanted, strict=True)
        if w is not None
    )


def counted(archive):
    """The rows of the two tables that the examples of the page open."""
    return [
        pyarrow.parquet.read_metadata(archive / "parquet" / f"{table}.parquet").num_rows
        for table in ("species", "measurements")
    ]


def examples(archive, language):
    page = (archive / "README.md").read_text(encoding="utf-8")
    return re.findall(rf"```{language}\n(.*?)```", page, re.DOTALL)


def test_the_examples_of_its_page_run(archive, monkeypatch):
    monkeypatch.chdir(archive)
    assert len(examples(archive, "python")) == 3
    for example in examples(archive, "python"):
        names: dict[str, list] = {}
        exec(example, names)
        assert [len(names["woods"]), len(names["cells"])] == counted(archive), example


@pytest.mark.skipif(not shutil.which("Rscript"), reason="R is not installed")
def test_r_reads_the_csv(archive):
    (example,) = examples(archive, "r")
    ask = "\ncat(nrow(woods), nrow(cells), sum(cells$preferred), sum(cells$value, na.rm = TRUE))\n"
    run = subprocess.run(
        ["Rscript", "--vanilla", "-e", f"options(digits = 15)\n{example}{ask}"],
        cwd=archive,
        check=True,
        capture_output=True,
        text=True,
    )
    cells = polars.read_parquet(archive / "parquet" / "measurements.parquet")
    told = [float(word) for word in run.stdout.split()]
    assert told[:3] == [*counted(archive), cells["preferred"].sum()]
    assert told[3] == pytest.approx(cells["value"].sum(), rel=1e-12)
