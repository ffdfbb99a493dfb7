"""The table of woods with the shop's own figures, kept until any of them changes.

It is made of the whole dataset, which takes longer than all else that a ranking does.
"""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from woodref.aside import folder_aside
from woodref.cache import keep
from woodref.reference.checksums import CHECKSUMS
from woodref.reference.overlay import own_state
from woodref.reference.store import literal
from woodref.user_folders import user_folder

if TYPE_CHECKING:
    import duckdb

#: Raised where the table is made in another way of the same figures.
_FORMAT = 1
#: Tables kept at most; the oldest go first.
_MOST = 3


def woods_key(folder: Path) -> str:
    """What the table hangs on, as a hash: the dataset of a folder, and the shop's figures.

    '' for a dataset that is not published, of which nothing is kept.
    """
    try:
        published = (folder / CHECKSUMS).read_bytes()
    except OSError:
        return ""
    return _digest(json.dumps([_FORMAT, _digest(published), own_state()]).encode())


def kept_woods(key: str) -> Path | None:
    """The table that was kept under a key, None where there is none that holds what was kept."""
    if not key:
        return None
    for path in (user_folder("cache") / "woods").glob(f"{key}-*.parquet"):
        try:
            content = path.read_bytes()
        except OSError:
            continue
        if path.stem == f"{key}-{_digest(content)}":
            return path
    return None


def keep_woods(connection: duckdb.DuckDBPyConnection, table: str, key: str) -> None:
    """Keep the rows of a table under a key that was taken before its figures were read."""
    if not key:
        return
    with folder_aside() as aside:
        path = aside / "woods.parquet"
        connection.execute(f"copy (from {table}) to {literal(path)} (format parquet)")
        content = path.read_bytes()
    keep(user_folder("cache") / "woods" / f"{key}-{_digest(content)}.parquet", content, _MOST)


def _digest(content: bytes) -> str:
    return sha256(content).hexdigest()[:32]
