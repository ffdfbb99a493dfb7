"""The steps in order: read, normalise, reconcile, validate, publish."""

from __future__ import annotations

import sys
from pathlib import Path

import pandas as pd

from pipeline.publish import write_parquet
from pipeline.read import read_origins, read_table
from pipeline.schemas import shaped, validate
from woodref.reference.fields import TABLES
from woodref.reference.names import fold, natural_order
from woodref.reference.properties import wide_columns


def say(text: str) -> None:
    """One line of progress on stderr."""
    print(text, file=sys.stderr, flush=True)


def assemble() -> dict[str, pd.DataFrame]:
    """All tables of the dataset as validated frames."""
    origins = read_origins()
    raw = read_table("shrinkage_domestic")
    raw = raw[raw["botanical"] == "Acer saccharum"]
    raw["species_id"] = "acer-saccharum"
    cells = raw.melt(
        id_vars=[
            "species_id",
            "edition",
            "table",
            "page",
            "basis",
            "note",
            "source_table",
            "source_line",
        ],
        value_vars=["radial_pct", "tangential_pct", "volumetric_pct"],
        var_name="source_column",
        value_name="printed_value",
    ).rename(columns={"table": "printed_table"})
    cells["property_id"] = "shrinkage_" + cells["source_column"].str.removesuffix("_pct")
    cells["measurement_id"] = (
        cells["source_table"]
        + ":"
        + cells["source_line"].astype(str)
        + ":"
        + cells["source_column"]
    )
    cells["condition"] = "range"
    cells["value"] = cells["printed_value"].astype(float)
    cells["printed_unit"] = "%"
    cells["preferred"] = True
    cells["preference"] = "the only printed value"
    cells["source_id"] = cells["edition"].map(origins["editions"])
    species = {
        "species_id": "acer-saccharum",
        "common_name": natural_order("Maple, sugar"),
        "botanical_name": "Acer saccharum",
        "kind": "hardwood",
        "tier": "partial",
    }
    columns = {(p, c): column for p, c, column in wide_columns()}
    for r in cells.itertuples():
        species[columns[r.property_id, r.condition]] = r.value
    names = {
        "name": "sugar maple",
        "name_key": fold("Maple, sugar"),
        "species_id": "acer-saccharum",
        "name_kind": "commercial",
        "ambiguous": False,
        "position": 0,
        "basis": "seen",
        "source_table": "shrinkage_domestic.csv",
        "source_line": int(raw["source_line"].iloc[0]),
    }
    sources = pd.DataFrame(
        [{"source_id": k, **v} for k, v in origins["publications"].items()]
    ).drop(columns="repeats")
    frames = {
        "species": pd.DataFrame([species]),
        "names": pd.DataFrame([names]),
        "measurements": cells,
        "sources": sources,
    }
    return {name: shaped(frame, TABLES[name]) for name, frame in frames.items()}


def build(folder: Path) -> None:
    """Build the dataset into a folder.

    Raises: ValueError where a frame does not validate.
    """
    frames = assemble()
    validate(frames)
    folder.mkdir(parents=True, exist_ok=True)
    for name, frame in frames.items():
        write_parquet(name, frame, folder)
        say(f"publish  {name}: {len(frame)} rows")
