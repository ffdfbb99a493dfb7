"""The dataset as one file to keep and to cite: Parquet and CSV, described, with checksums.

It opens by standard files alone. The same dataset gives the same bytes, whatever the hour and the
machine, with one version of the zlib library.
"""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pyarrow
import pyarrow.csv
import pyarrow.parquet

from pipeline.read import ROOT
from woodref.reference.checksums import dataset_checksum
from woodref.reference.fields import DATASET_VERSION

#: Pages of the archive alone, with VERSION and CHECKSUM for those of the dataset.
PAGES = ROOT / "datasets" / "archive"
#: Date of every file in the archive, the first that the format can tell.
_DATE = (1980, 1, 1, 0, 0, 0)
_READABLE = 0o100644 << 16


def csv_bytes(table: pyarrow.Table) -> bytes:
    """A table as CSV: text in quotes, an empty cell for a missing value, all digits of a number."""
    out = io.BytesIO()
    pyarrow.csv.write_csv(table, out, pyarrow.csv.WriteOptions(quoting_style="needed"))
    return out.getvalue()


def _described(package: Mapping[str, Any], tables: Mapping[str, bytes]) -> bytes:
    """The descriptor of the dataset, for the files of the archive.

    A resource is the CSV of a table with its schema; the Parquet, which has it in itself, another.
    """
    resources = []
    for resource in package["resources"]:
        name = resource["name"]
        content = tables[name]
        resources.append(
            resource
            | {
                "path": f"csv/{name}.csv",
                "format": "csv",
                "mediatype": "text/csv",
                "encoding": "utf-8",
                "bytes": len(content),
                "hash": f"sha256:{hashlib.sha256(content).hexdigest()}",
                "schema": resource["schema"] | {"missingValues": [""]},
            }
        )
    for resource in package["resources"]:
        parquet = {k: v for k, v in resource.items() if k != "schema"}
        name = resource["name"]
        resources.append(parquet | {"name": f"{name}-parquet", "path": f"parquet/{name}.parquet"})
    described = {**package, "resources": resources}
    return (json.dumps(described, indent=2, ensure_ascii=False) + "\n").encode()


def archive_files(folder: Path, dictionary: Path) -> dict[str, bytes]:
    """What the archive holds, by name.

    Parameters: folder of the dataset; dictionary, its page of tables and columns.
    Raises: WoodrefError where a file of the dataset is not what was published.
    """
    checksum = dataset_checksum(folder)
    package = json.loads((folder / "datapackage.json").read_text(encoding="utf-8"))
    files: dict[str, bytes] = {}
    tables = {}
    for resource in package["resources"]:
        name = resource["name"]
        content = (folder / resource["path"]).read_bytes()
        files[f"parquet/{name}.parquet"] = content
        tables[name] = csv_bytes(pyarrow.parquet.read_table(io.BytesIO(content)))
        files[f"csv/{name}.csv"] = tables[name]
    files["datapackage.json"] = _described(package, tables)
    files["QUALITY.md"] = (folder / "QUALITY.md").read_bytes()
    files["data-dictionary.md"] = dictionary.read_bytes()
    files["LICENSE.md"] = (ROOT / "datasets" / "LICENSE.md").read_bytes()
    for page in sorted(PAGES.iterdir()):
        text = page.read_text(encoding="utf-8")
        text = text.replace("VERSION", DATASET_VERSION).replace("CHECKSUM", checksum)
        files[page.name] = text.encode()
    sums = [f"{hashlib.sha256(files[name]).hexdigest()}  {name}" for name in sorted(files)]
    files["SHA256SUMS"] = ("\n".join(sums) + "\n").encode()
    return files


def write_archive(folder: Path, dictionary: Path, out: Path) -> Path:
    """Write the archive of a dataset; returns its path.

    Parameters: folder and dictionary as archive_files; out, the folder of the archive.
    Raises: as archive_files.
    """
    name = f"woodref-data-{DATASET_VERSION}"
    files = archive_files(folder, dictionary)
    out.mkdir(parents=True, exist_ok=True)
    path = out / f"{name}.zip"
    with zipfile.ZipFile(path, "w") as archive:
        for file in sorted(files):
            entry = zipfile.ZipInfo(f"{name}/{file}", _DATE)
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, _READABLE
            entry.create_system = 3  # of the permissions, wherever it is written
            archive.writestr(entry, files[file], compresslevel=9)
    return path
