"""Is the published dataset what the sources give? Rebuild aside and compare bytes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pandas as pd
import pyarrow.parquet

from woodref.reference.fields import TABLES

#: Primary keys of the tables made ready of the others.
READY: dict[str, tuple[str, ...]] = {
    "ready/woods.parquet": ("species_id",),
    "ready/sold.parquet": ("region", "species_id"),
    "ready/names.parquet": ("name_key", "name_kind", "species_id", "region"),
    "ready/figures.parquet": ("measurement_id",),
    "ready/identities.parquet": ("species_id",),
    "ready/genera.parquet": ("genus",),
    "ready/finish_fits.parquet": ("finish", "coats", "fit_case"),
}
#: Differing rows, and changed cells, named of each table.
SHOWN = 10


def _keyed(frame: pd.DataFrame, key: tuple[str, ...]) -> pd.DataFrame:
    return frame.set_index([*key], drop=False) if key else frame


def _named(key: tuple[str, ...], value: object) -> str:
    values = value if isinstance(value, tuple) else (value,)
    return ", ".join(f"{k}={v}" for k, v in zip(key, values, strict=True))


def _cell(value: Any) -> str:
    """A cell as people read it: text in quotes, a number bare, 'empty' for a missing one."""
    if pd.isna(value):
        return "empty"
    return repr(value) if isinstance(value, str) else str(value)


def _first(lines: list[str]) -> list[str]:
    rest = len(lines) - SHOWN
    return [*lines[:SHOWN], f"  ... and {rest} more"] if rest > 0 else lines


def table_differences(
    published: pd.DataFrame, rebuilt: pd.DataFrame, key: tuple[str, ...]
) -> list[str]:
    """What differs between two states of one table: columns, rows by key, changed cells.

    Parameters: published and rebuilt rows; key, the primary key. Returns: readable lines,
    at most ``SHOWN`` of each kind.
    """
    if list(published.columns) != list(rebuilt.columns):
        gone = [c for c in published.columns if c not in rebuilt.columns]
        new = [c for c in rebuilt.columns if c not in published.columns]
        return [f"  columns: gone {gone or 'none'}, new {new or 'none'}"]
    old, now = _keyed(published, key), _keyed(rebuilt, key)
    if not (old.index.is_unique and now.index.is_unique):
        return ["  the key is not unique"]
    lines = _first([f"  row added: {_named(key, k)}" for k in now.index.difference(old.index)])
    lines += _first([f"  row removed: {_named(key, k)}" for k in old.index.difference(now.index)])
    both = old.index.intersection(now.index)
    changed = []
    for column in published.columns:
        before = old.loc[both, column]
        # Some versions of pandas take labels of two types of text for different ones.
        after = now.loc[both, column].set_axis(before.index)
        same = (before == after).fillna(False) | (before.isna() & after.isna())
        changed += [
            f"  changed: {_named(key, k)}: {column}: {_cell(before[k])} -> {_cell(after[k])}"
            for k in both[~same.to_numpy(dtype=bool)]
        ]
    return lines + _first(changed)


def _parquet_differences(published: Path, rebuilt: Path, key: tuple[str, ...]) -> list[str]:
    tables = [pyarrow.parquet.read_table(p) for p in (published, rebuilt)]
    frames = [t.to_pandas(types_mapper=None) for t in tables]
    lines = table_differences(frames[0], frames[1], key)
    if not lines and not tables[0].schema.equals(tables[1].schema, check_metadata=True):
        lines = ["  descriptions, units or types of the columns differ"]
    return lines or ["  same rows; their order or the file's encoding differs"]


def _text_differences(published: Path, rebuilt: Path) -> list[str]:
    texts = [p.read_text(encoding="utf-8").splitlines() for p in (published, rebuilt)]
    for number, (old, new) in enumerate(zip(*texts, strict=False), start=1):
        if old != new:
            return [f"  line {number}: {old.strip()!r} -> {new.strip()!r}"]
    return [f"  {len(texts[0])} lines, rebuilt {len(texts[1])}"]


def differences(published: Path, rebuilt: Path) -> list[str]:
    """What differs between two folders, byte for byte, in readable lines; [] for nothing."""
    lines: list[str] = []
    names = {
        p.relative_to(folder).as_posix()
        for folder in (published, rebuilt)
        for p in folder.rglob("*")
        if p.is_file()
    }
    for name in sorted(names):
        old, new = published / name, rebuilt / name
        if not old.is_file():
            lines.append(f"{name}: missing from {published.name}")
        elif not new.is_file():
            lines.append(f"{name}: no longer built")
        elif old.read_bytes() != new.read_bytes():
            lines.append(f"{name}: differs")
            if old.suffix == ".parquet":
                key = READY[name] if name in READY else TABLES[old.stem].primary_key
                lines += _parquet_differences(old, new, key)
            else:
                lines += _text_differences(old, new)
    return lines
