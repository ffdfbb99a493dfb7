"""Step 5, publish: Parquet with descriptions and units, always the same bytes."""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import pyarrow
import pyarrow.parquet

from pipeline.schemas import arrow_schema
from woodref.reference.fields import TABLES


def write_parquet(name: str, frame: pd.DataFrame, folder: Path) -> Path:
    """Write one table as zstd Parquet.

    The order of rows is the caller's; nothing about the machine or the time goes into
    the file, so the same input gives the same bytes with the pinned library versions.
    """
    table = pyarrow.Table.from_pandas(
        frame, schema=arrow_schema(TABLES[name]), preserve_index=False
    ).replace_schema_metadata(arrow_schema(TABLES[name]).metadata)
    path = folder / f"{name}.parquet"
    pyarrow.parquet.write_table(table, path, compression="zstd", compression_level=9)
    return path
