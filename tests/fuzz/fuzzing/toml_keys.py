"""The keys that each table of a TOML file may hold, as its reader asks for them."""

from __future__ import annotations

import contextlib
import datetime
import json
import tomllib
from collections.abc import Callable, Iterator
from copy import deepcopy
from typing import Any, NamedTuple
from unittest import mock

from woodref.errors import InputError
from woodref.toml_reader import TomlTable

Path = tuple[str | int, ...]


class Raw(str):
    """A value as it stands in the file, whatever it is."""

    __slots__ = ()


class Place(NamedTuple):
    """A key that a table may hold: where the table is, and the key."""

    table: Path
    key: str


def places(text: str, read: Callable[[str], object]) -> list[Place]:
    """Every key of every table that a reader looks into, those of the file and those it lacks."""
    seen: list[TomlTable] = []
    usual = TomlTable.__init__

    def watched(
        self: TomlTable, data: Any, file: str, place: str, keys: Any, *rest: Any, **more: Any
    ):
        usual(self, data, file, place, keys, *rest, **more)
        seen.append(self)
        allowed.append(tuple(keys))

    allowed: list[tuple[str, ...]] = []
    with mock.patch.object(TomlTable, "__init__", watched), contextlib.suppress(InputError):
        read(text)
    paths = dict(_paths(seen[0].data)) if seen else {}
    return list(
        dict.fromkeys(
            Place(paths[id(table.data)], key)
            for table, keys in zip(seen, allowed, strict=True)
            if id(table.data) in paths
            for key in keys
        )
    )


def _paths(value: Any, path: Path = ()) -> Iterator[tuple[int, Path]]:
    if isinstance(value, dict):
        yield id(value), path
        for key, under in value.items():
            yield from _paths(under, (*path, key))
    elif isinstance(value, list):
        for n, under in enumerate(value):
            yield from _paths(under, (*path, n))


def with_value(data: dict[str, Any], place: Place, value: Raw) -> str:
    """The text of a TOML file in which a key holds a value."""
    changed = deepcopy(data)
    table: Any = changed
    for step in place.table:
        table = table[step]
    table[place.key] = value
    return written(changed)


def written(data: dict[str, Any]) -> str:
    """A TOML file, each key of the top in a line."""
    return "".join(f"{_key(key)} = {_value(value)}\n" for key, value in data.items())


def _key(key: str) -> str:
    return json.dumps(key)


def _value(value: Any) -> str:
    if isinstance(value, Raw):
        return str(value)
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime.date | datetime.time):
        return value.isoformat()
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def loaded(text: str) -> dict[str, Any]:
    """The tables of a TOML file."""
    return tomllib.loads(text)
