"""One declaration of the fields: pandera, Arrow, descriptor and pages say the same."""

from __future__ import annotations

import pytest
from small_dataset import small_frames

from pipeline.descriptor import table_schema
from pipeline.schemas import arrow_schema, pandera_schema, shaped, validate
from woodref.reference.fields import TABLES


@pytest.mark.parametrize("table", TABLES.values(), ids=list(TABLES))
def test_all_schemas_have_the_declared_columns(table):
    described = {f["name"]: f for f in table_schema(table, TABLES)["fields"]}
    arrow = arrow_schema(table)
    assert tuple(pandera_schema(table).columns) == table.columns
    assert tuple(arrow.names) == table.columns
    assert tuple(described) == table.columns
    for field in table.fields:
        assert described[field.name]["type"] == field.type
        assert described[field.name]["description"] == field.description
        assert described[field.name].get("unit", "") == field.unit
        metadata = arrow.field(field.name).metadata
        assert metadata[b"description"].decode() == field.description
        assert metadata.get(b"unit", b"").decode() == field.unit
        assert arrow.field(field.name).nullable is not field.required
        required = described[field.name].get("constraints", {}).get("required", False)
        assert required is field.required
        assert pandera_schema(table).columns[field.name].nullable is not field.required


@pytest.mark.parametrize("table", TABLES.values(), ids=list(TABLES))
def test_keys_are_columns(table):
    assert set(table.primary_key) <= set(table.columns)
    for column, target in table.foreign_keys:
        other, key = target.split(".")
        assert column in table.columns
        assert key in TABLES[other].columns


def test_the_small_dataset_is_valid():
    validate(small_frames())


@pytest.mark.parametrize(
    ("table", "column", "value", "told"),
    [
        ("species", "data_coverage", "splendid", "splendid"),
        ("species", "common_name", None, "common_name"),
        ("species", "species_id", "ash", "species_id"),
        ("measurements", "source_id", "nowhere", "'nowhere' is not in sources.source_id"),
        ("measurements", "moisture_content_pct", -1.0, "-1"),
    ],
)
def test_what_is_wrong_is_told(table, column, value, told):
    frames = small_frames()
    frames[table].loc[1, column] = value
    with pytest.raises(ValueError, match="does not validate") as error:
        validate(frames)
    assert told in str(error.value)


def test_an_undeclared_column_is_an_error():
    frame = small_frames()["species"].assign(color="brown")
    with pytest.raises(KeyError, match="color"):
        shaped(frame, TABLES["species"])
