"""Step 5, publish: Parquet with descriptions and units, always the same bytes.

A folder is written aside and its files renamed into place, so that nobody ever reads
half of one.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pandas as pd
import pyarrow
import pyarrow.parquet

from pipeline.schemas import arrow_schema, shaped
from woodref.reference.checksums import CHECKSUMS, checksums_text
from woodref.reference.fields import TABLES

#: Order of rows by what a look-up asks for; other tables keep the order of their sources.
_SORT: dict[str, tuple[str, ...]] = {
    "species": ("species_id",),
    "names": ("name_key", "name_kind", "position", "species_id"),
    "groups": ("group_id", "species_id"),
    "measurements": ("species_id", "property_id", "condition", "measurement_id"),
    "ratings": ("species_id", "scale", "source_table", "source_line", "source_column"),
    "cautions": ("species_id", "kind", "source_table", "source_line"),
    "disagreements": ("species_id", "property_id", "condition", "preferred_id", "other_id"),
    "places": ("place_id",),
    "climate": ("place_id", "month"),
    "looks": ("species_id",),
    "uses_of_woods": ("species_id", "position"),
    "stock": ("species_id", "region"),
    "resemblances": ("species_id", "like_species_id"),
    "plain_names": ("name_key", "region"),
    "rejected": ("source_table", "source_line", "source_column"),
}
#: Rows per row group: with sorted rows a look-up of one wood reads one group or two; smaller
#: groups are read no faster, and make the files a quarter larger.
ROW_GROUP = 4096


def ordered(name: str, frame: pd.DataFrame) -> pd.DataFrame:
    """The rows in the published order of the table."""
    keys = list(_SORT.get(name, ()))
    return frame.sort_values(keys, kind="stable", ignore_index=True) if keys else frame


def _repeated(frame: pd.DataFrame) -> list[str]:
    """String columns that repeat themselves, the ones a dictionary makes smaller."""
    return [
        str(c)
        for c in frame.columns
        if frame[c].dtype == "string" and 2 * frame[c].nunique() < len(frame)
    ]


def write_parquet(name: str, frame: pd.DataFrame, folder: Path) -> Path:
    """Write one table as zstd Parquet, rows in the order given.

    Nothing about the machine or the time goes into the file, so the same rows give the
    same bytes with the pinned library versions.
    """
    schema = arrow_schema(TABLES[name])
    table = pyarrow.Table.from_pandas(frame, schema=schema, preserve_index=False)
    path = folder / f"{name}.parquet"
    pyarrow.parquet.write_table(
        table.replace_schema_metadata(schema.metadata),
        path,
        compression="zstd",
        compression_level=15,
        row_group_size=ROW_GROUP,
        use_dictionary=_repeated(frame) or False,
        write_statistics=True,
    )
    return path


def read_published(folder: Path) -> dict[str, pd.DataFrame]:
    """The tables of a published folder, in the types they were built with."""
    return {
        name: shaped(pyarrow.parquet.read_table(folder / f"{name}.parquet").to_pandas(), table)
        for name, table in TABLES.items()
        if (folder / f"{name}.parquet").is_file()
    }


def publish(
    frames: Mapping[str, pd.DataFrame],
    texts: Mapping[str, str],
    folder: Path,
    finish: Callable[[Path], None] = lambda aside: None,
) -> None:
    """Write all tables and texts of the dataset into a folder.

    Parameters: frames by table name; texts by file name (``datapackage.json``,
    ``QUALITY.md``); folder, made where it does not exist; finish, called with the folder aside to
    write what is made of its files. The list of checksums comes last. Parquet files that are no
    longer built are removed.
    """
    folder.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
    try:
        for name, frame in frames.items():
            write_parquet(name, frame, aside)
        for file, text in texts.items():
            (aside / file).write_text(text, encoding="utf-8", newline="\n")
        finish(aside)
        (aside / CHECKSUMS).write_text(checksums_text(aside), encoding="utf-8", newline="\n")
        made = sorted(path.relative_to(aside) for path in aside.rglob("*") if path.is_file())
        for name in sorted(made, key=lambda name: name.name == CHECKSUMS):
            (folder / name).parent.mkdir(exist_ok=True)
            os.replace(aside / name, folder / name)
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    for path in folder.rglob("*.parquet"):
        if path.relative_to(folder) not in made:
            path.unlink()


def write_text(path: Path, text: str) -> None:
    """Write one text file aside and rename it into place."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
        file.write(text)
    os.chmod(name, 0o644)
    os.replace(name, path)
