"""``datapackage.json``: the dataset described by the Frictionless Data Package standard, v2."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import pandas as pd

from woodref.reference.declared.declaring import Field, Table
from woodref.reference.fields import DATASET_VERSION, TABLES

PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json"
#: Empty cells: of a CSV, and as readers that turn an empty Parquet cell into a float see it.
MISSING_VALUES = ["", "nan"]


def _field(field: Field) -> dict[str, Any]:
    """A field descriptor; ``unit`` is a property of our own."""
    constraints: dict[str, Any] = {}
    if field.required:
        constraints["required"] = True
    if field.unique:
        constraints["unique"] = True
    if field.minimum is not None:
        constraints["minimum"] = field.minimum
    if field.maximum is not None:
        constraints["maximum"] = field.maximum
    if field.enum:
        constraints["enum"] = list(field.enum)
    described: dict[str, Any] = {
        "name": field.name,
        "type": field.type,
        "title": field.name.replace("_", " "),
        "description": field.description,
    }
    if field.unit:
        described["unit"] = field.unit
    if constraints:
        described["constraints"] = constraints
    return described


def table_schema(table: Table, present: Mapping[str, object]) -> dict[str, Any]:
    """The table schema of one table; keys to tables that are not present are left out."""
    schema: dict[str, Any] = {
        "fields": [_field(f) for f in table.fields],
        "missingValues": MISSING_VALUES,
    }
    if table.primary_key:
        schema["primaryKey"] = list(table.primary_key)
    keys = []
    for column, target in table.foreign_keys:
        other, key = target.split(".")
        if other in present:
            keys.append({"fields": [column], "reference": {"resource": other, "fields": [key]}})
    if keys:
        schema["foreignKeys"] = keys
    return schema


def _sources(sources: pd.DataFrame) -> list[dict[str, Any]]:
    """The publications as package sources."""
    described = []
    for row in sources.to_dict("records"):
        report = row["report_number"]
        title = str(row["title"])
        if isinstance(report, str) and report:
            title = f"{title}, {report}"
        entry = {"title": title, "source_id": row["source_id"], "license": row["license"]}
        if isinstance(row["url"], str) and row["url"].startswith("http"):
            entry["path"] = row["url"]
        described.append(entry)
    return described


def descriptor(frames: Mapping[str, pd.DataFrame]) -> dict[str, Any]:
    """The package descriptor of built tables.

    Parameters: frames by table name, among them ``sources``. Returns: plain data without
    times or paths of the machine, so the same tables give the same descriptor.
    """
    resources = [
        {
            "name": name,
            "type": "table",
            "title": TABLES[name].title,
            "description": TABLES[name].description,
            "path": f"{name}.parquet",
            "format": "parquet",
            "mediatype": "application/vnd.apache.parquet",
            "schema": table_schema(TABLES[name], frames),
        }
        for name in TABLES
        if name in frames
    ]
    return {
        "$schema": PROFILE,
        "name": "woodref-reference",
        "title": "Wood properties for furniture makers",
        "description": (
            "Printed properties of woods as traded, in SI units and as printed, each with its "
            "publication, edition, table, page and how it is known. Nothing here is a "
            "structural design value."
        ),
        "version": DATASET_VERSION,
        "licenses": [
            {
                "name": "CC0-1.0",
                "title": "The compilation. The terms of each publication stand in the table "
                "sources.",
                "path": "https://creativecommons.org/publicdomain/zero/1.0/",
            }
        ],
        "sources": _sources(frames["sources"]),
        "resources": resources,
    }


def descriptor_text(frames: Mapping[str, pd.DataFrame]) -> str:
    """``datapackage.json`` as text."""
    return json.dumps(descriptor(frames), indent=2, ensure_ascii=False) + "\n"
