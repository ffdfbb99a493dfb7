"""The last steps in order: validate, publish, describe; for frames that are assembled."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pandas as pd

from pipeline.descriptor import descriptor_text
from pipeline.dictionary import dictionary_text
from pipeline.progress import say
from pipeline.publish import ordered, publish, write_text
from pipeline.quality import quality_text
from pipeline.ready import publish_ready
from pipeline.schemas import shaped, validate
from woodref.reference.checksums import CHECKSUMS
from woodref.reference.fields import TABLES


def write_dataset(frames: Mapping[str, pd.DataFrame], folder: Path, page: Path) -> None:
    """Validate the frames and write the dataset with its descriptor and pages.

    Parameters: frames by table name; folder of the dataset; page, the file of the data
    dictionary. Raises: ValueError where a frame does not validate; nothing is written.
    """
    tables = {
        name: ordered(name, shaped(frames[name], TABLES[name])) for name in TABLES if name in frames
    }
    validate(tables)
    say("validate", f"{len(tables)} tables, {sum(map(len, tables.values()))} rows")

    def make_ready(aside: Path) -> None:
        say("ready", ", ".join(publish_ready(aside)) or "none")

    texts = {"datapackage.json": descriptor_text(tables), "QUALITY.md": quality_text(tables)}
    publish(tables, texts, folder, make_ready)
    write_text(page, dictionary_text(tables))
    for name, table in tables.items():
        say("publish", f"{name}: {len(table)} rows")
    say("publish", f"{', '.join(texts)}, {CHECKSUMS} and {page.name}")
