"""datapackage.json against the Frictionless Data Package standard, read by its library."""

from __future__ import annotations

import json

import pytest
from frictionless import Package, validate
from small_dataset import small_frames

from pipeline.dataset import write_dataset
from pipeline.descriptor import descriptor, descriptor_text
from pipeline.publish import write_parquet
from pipeline.read import REFERENCE


@pytest.fixture
def folder(tmp_path):
    write_dataset(small_frames(), tmp_path / "reference", tmp_path / "page.md")
    return tmp_path / "reference"


def test_the_small_dataset_passes(folder):
    report = validate(str(folder / "datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])
    rows = {t.name: t.stats["rows"] for t in report.tasks}
    assert rows["measurements"] == 3
    assert rows["sources"] == 2


@pytest.mark.parametrize(
    ("table", "column", "value", "error"),
    [
        ("species", "tier", "splendid", "constraint-error"),
        ("species", "species_id", "ash", "primary-key"),
        ("measurements", "species_id", "oak", "foreign-key"),
        ("measurements", "moisture_content_pct", -1.0, "constraint-error"),
    ],
)
def test_bad_data_does_not_pass(folder, table, column, value, error):
    frame = small_frames()[table]
    frame.loc[1, column] = value
    write_parquet(table, frame, folder)
    report = validate(str(folder / "datapackage.json"))
    assert not report.valid
    assert error in {kind for (kind,) in report.flatten(["type"])}


def test_the_published_dataset_passes():
    report = validate(str(REFERENCE / "datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])[:10]
    assert all(t.stats["rows"] > 0 for t in report.tasks)


def test_units_and_keys_are_in_the_descriptor():
    package = Package.from_descriptor(descriptor(small_frames()))
    schema = package.get_resource("measurements").schema
    assert schema.get_field("moisture_content_pct").custom["unit"] == "%"
    assert schema.primary_key == ["measurement_id"]
    references = [k["reference"]["resource"] for k in schema.foreign_keys]
    # no key to a table that is not in the package
    assert references == ["species", "sources"]


def test_the_descriptor_has_no_times_and_keeps_the_addresses():
    text = descriptor_text(small_frames())
    assert "created" not in json.loads(text)
    assert json.loads(text)["sources"][1]["path"] == "https://a.org/"
    assert text == descriptor_text(small_frames())
