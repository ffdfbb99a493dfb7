"""datapackage.json against the Frictionless Data Package standard, read by its library.

The library reads row by row, which takes minutes for the whole dataset: it reads a part of every
published table, and what the descriptor says of a column is asked of all rows here.
"""

from __future__ import annotations

import json

import pandas as pd
import pytest
from frictionless import Package, validate
from small_dataset import small_frames

from pipeline.descriptor import descriptor, descriptor_text
from pipeline.publish import write_parquet
from pipeline.read import REFERENCE

#: Rows of each published table that the library reads, taken from all over it.
ROWS = 12
#: Types of the standard, and the questions that tell the pandas types they are published as.
TYPES = {
    "string": pd.api.types.is_string_dtype,
    "number": pd.api.types.is_float_dtype,
    "integer": pd.api.types.is_integer_dtype,
    "boolean": pd.api.types.is_bool_dtype,
}


def test_the_small_dataset_passes(published):
    report = validate(str(published / "datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])
    rows = {t.name: t.stats["rows"] for t in report.tasks}
    assert rows["measurements"] == 3
    assert rows["sources"] == 2


def broken(package, frames):
    """(error, table, column) of everything a descriptor says that the rows do not keep."""
    told = set()
    for resource in package["resources"]:
        name, schema = resource["name"], resource["schema"]
        frame = frames[name]
        for field in schema["fields"]:
            column, limits = frame[field["name"]], field.get("constraints", {})
            filled = column[column.notna() & ~column.isin(["", "nan"])]
            if not TYPES[field["type"]](column.dtype):
                told.add(("type-error", name, field["name"]))
            kept = [
                not limits.get("required") or len(filled) == len(column),
                not limits.get("unique") or filled.is_unique,
                "minimum" not in limits or (filled >= limits["minimum"]).all(),
                "maximum" not in limits or (filled <= limits["maximum"]).all(),
                "enum" not in limits or filled.isin(limits["enum"]).all(),
            ]
            if not all(kept):
                told.add(("constraint-error", name, field["name"]))
        key = schema.get("primaryKey", [])
        if key and (frame[key].isna().any(axis=None) or frame.duplicated(key).any()):
            told.add(("primary-key", name, key[0]))
        for foreign in schema.get("foreignKeys", []):
            (column,), (other,) = foreign["fields"], foreign["reference"]["fields"]
            known = frames[foreign["reference"]["resource"]][other]
            if not frame[column].dropna().isin(known).all():
                told.add(("foreign-key", name, column))
    return told


@pytest.mark.parametrize(
    ("table", "column", "value", "error"),
    [
        ("species", "data_coverage", "splendid", "constraint-error"),
        ("species", "species_id", "ash", "primary-key"),
        ("measurements", "species_id", "oak", "foreign-key"),
        ("measurements", "moisture_content_pct", -1.0, "constraint-error"),
    ],
)
def test_bad_data_does_not_pass(published, table, column, value, error):
    frame = small_frames()[table]
    frame.loc[1, column] = value
    write_parquet(table, frame, published)
    report = validate(str(published / "datapackage.json"))
    assert not report.valid
    assert error in {kind for (kind,) in report.flatten(["type"])}
    frames = small_frames() | {table: frame}
    assert (error, table, column) in broken(descriptor(small_frames()), frames)


@pytest.fixture(scope="module")
def package():
    return json.loads((REFERENCE / "datapackage.json").read_text(encoding="utf-8"))


def test_every_row_published_keeps_what_the_descriptor_says(package, frames):
    assert {r["name"] for r in package["resources"]} == set(frames)
    assert all(len(frame) for frame in frames.values())
    assert broken(package, frames) == set()


def part_of(package, frames):
    """Rows from all over every table, with the rows of other tables that they refer to."""
    chosen = {name: set(f.index[:: max(1, len(f) // ROWS)]) for name, f in frames.items()}
    keys = [
        (r["name"], k["fields"][0], k["reference"]["resource"], k["reference"]["fields"][0])
        for r in package["resources"]
        for k in r["schema"].get("foreignKeys", [])
    ]
    before = None
    while before != (counts := {name: len(rows) for name, rows in chosen.items()}):
        before = counts
        for name, column, other, key in keys:
            wanted = frames[name].loc[sorted(chosen[name]), column].dropna()
            chosen[other] |= set(frames[other].index[frames[other][key].isin(wanted)])
    return {name: frames[name].loc[sorted(rows)] for name, rows in chosen.items()}


def test_a_part_of_every_published_table_passes(package, frames, tmp_path):
    part = part_of(package, frames)
    for name, frame in part.items():
        write_parquet(name, frame, tmp_path)
    (tmp_path / "datapackage.json").write_text(json.dumps(package))
    report = validate(str(tmp_path / "datapackage.json"))
    assert report.valid, report.flatten(["title", "message"])[:10]
    rows = {t.name: t.stats["rows"] for t in report.tasks}
    assert rows == {name: len(frame) for name, frame in part.items()}
    assert all(rows[name] >= min(ROWS, len(frame)) for name, frame in frames.items())


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
