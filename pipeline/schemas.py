"""Pandera and Arrow schemas generated from woodref.reference.fields."""

from __future__ import annotations

import pandas as pd
import pandera.pandas as pa
import pyarrow

from woodref.reference.declared.declaring import Field, Table
from woodref.reference.fields import DATASET_VERSION, TABLES

_PANDAS = {
    "string": "string[python]",
    "integer": "Int64",
    "number": "Float64",
    "boolean": "boolean",
}
_ARROW = {
    "string": pyarrow.string(),
    "integer": pyarrow.int64(),
    "number": pyarrow.float64(),
    "boolean": pyarrow.bool_(),
}


def _checks(field: Field) -> list[pa.Check]:
    checks = []
    if field.minimum is not None:
        checks.append(pa.Check.ge(field.minimum))
    if field.maximum is not None:
        checks.append(pa.Check.le(field.maximum))
    if field.enum:
        checks.append(pa.Check.isin(field.enum))
    return checks


def pandera_schema(table: Table) -> pa.DataFrameSchema:
    """The pandera schema of a table: types, limits, classes, required cells and keys."""
    return pa.DataFrameSchema(
        {
            f.name: pa.Column(_PANDAS[f.type], _checks(f), nullable=not f.required, unique=f.unique)
            for f in table.fields
        },
        strict=True,
        ordered=True,
        unique=list(table.primary_key) or None,
        name=table.name,
    )


def shaped(frame: pd.DataFrame, table: Table) -> pd.DataFrame:
    """The frame with exactly the table's columns and types; '' becomes missing.

    Raises: KeyError where the frame carries a column the table does not declare.
    """
    extra = [c for c in frame.columns if c not in table.columns]
    if extra:
        raise KeyError(f"{table.name}: undeclared columns {', '.join(map(str, extra))}")
    columns = {}
    for f in table.fields:
        column = frame[f.name] if f.name in frame else pd.Series([None] * len(frame))
        if column.dtype == pd.api.types.pandas_dtype(_PANDAS[f.type]) and not (
            f.type == "string" and column.eq("").any()
        ):
            columns[f.name] = column.reset_index(drop=True)
            continue
        column = column.astype("object").where(column.notna(), None)
        column = column.where(column != "", None)
        columns[f.name] = column.astype(_PANDAS[f.type]).reset_index(drop=True)
    return pd.DataFrame(columns)


def arrow_schema(table: Table) -> pyarrow.Schema:
    """The Arrow schema of a table, descriptions and units in the field metadata."""
    return pyarrow.schema(
        [
            pyarrow.field(
                f.name,
                _ARROW[f.type],
                nullable=not f.required,
                metadata={"description": f.description, **({"unit": f.unit} if f.unit else {})},
            )
            for f in table.fields
        ],
        metadata={
            "title": table.title,
            "description": table.description,
            "dataset_version": DATASET_VERSION,
        },
    )


def validate(frames: dict[str, pd.DataFrame]) -> None:
    """Check every frame against its schema and its foreign keys.

    Raises: ValueError listing every failed check, one per line.
    """
    failures: list[str] = []
    for name, frame in frames.items():
        try:
            pandera_schema(TABLES[name]).validate(frame, lazy=True)
        except pa.errors.SchemaErrors as error:
            cases = error.failure_cases
            failures += [
                f"{name}: {r.column} {r.check}: {r.failure_case} (row {r.index})"
                for r in cases.head(20).itertuples()
            ]
    for name, frame in frames.items():
        for column, target in TABLES[name].foreign_keys:
            other, key = target.split(".")
            if other not in frames:
                continue
            known = set(frames[other][key])
            lost = sorted(set(frame[column].dropna()) - known)
            failures += [f"{name}: {column} '{v}' is not in {target}" for v in lost]
    if failures:
        raise ValueError("the dataset does not validate:\n" + "\n".join(failures))
