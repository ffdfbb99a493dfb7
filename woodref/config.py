"""The user's defaults: a TOML file in the platform's configuration directory.

Keys: ``units`` ('us' or 'si'), ``prices`` (path of a price list, relative to the file),
``place`` (a town), ``region`` (of the trade, for plain names and what yards stock) and ``yard``
(a list of the woods the shop's own yard has); the table ``[maker]`` names the shop, as in a
piece file.
A flag beats an environment variable, which beats the file.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from woodref.errors import InputError
from woodref.user_folders import user_folder

#: What each key of the file means.
KEYS: dict[str, str] = {
    "units": "system of units, 'us' or 'si'",
    "prices": "path of the price list",
    "place": "town of commands that take a place",
    "region": "region of the trade, whose plain names hold and whose yards are asked about",
    "yard": 'names of the woods your own yard has: ["cherry", "white oak"]',
}
#: The one table of the file.
MAKER = "maker"
_UNITS = ("us", "si")


def config_path() -> Path:
    """Path of the configuration file: WOODREF_CONFIG, else config.toml of the platform."""
    named = os.environ.get("WOODREF_CONFIG")
    if named:
        return Path(named)
    return user_folder("config") / "config.toml"


def _is_there(file: Path) -> bool:
    """False for a file that is missing; one that cannot be looked at is there to be told about."""
    try:
        os.lstat(file)
    except (FileNotFoundError, NotADirectoryError):
        return False
    except OSError:
        return True
    return True


def _listed(file: Path, names: object) -> str:
    """Names of a list, parted by commas as an option takes them.

    Raises: InputError for anything else, and for an empty list.
    """
    if not isinstance(names, list) or not all(isinstance(n, str) and n.strip() for n in names):
        raise InputError(f"{file}: yard must be a list: {KEYS['yard']}")
    if not names:
        raise InputError(f"{file}: the yard is empty; name its woods, or leave the key out")
    return ", ".join(n.strip() for n in names)


def load_config(path: Path | None = None) -> dict[str, str]:
    """The user's defaults by key; empty where there is no file.

    Raises: InputError naming the file for a named file that is missing, for malformed
    TOML, an unknown key or a wrong value.
    """
    file = path or config_path()
    settings: dict[str, str] = {}
    for key, value in _tables(file, path is not None).items():
        if key == MAKER:
            if not isinstance(value, dict):
                raise InputError(f"{file}: {key} must be a table [{key}]")
            continue
        if key not in KEYS:
            from woodref.files import nearest

            hint = nearest(key, (*KEYS, MAKER), f"use {', '.join(KEYS)}, [{MAKER}]")
            raise InputError(f"{file}: unknown key '{key}'; {hint}")
        if key == "yard":
            settings[key] = _listed(file, value)
            continue
        if not isinstance(value, str) or not value:
            raise InputError(f"{file}: {key} must be text: {KEYS[key]}")
        settings[key] = value
    if settings.get("units", "us") not in _UNITS:
        raise InputError(f"{file}: units cannot be '{settings['units']}'; use us or si")
    if "prices" in settings:
        from woodref.files import path_beside

        settings["prices"] = str(path_beside(file, settings["prices"]))
    return settings


def maker_table(path: Path | None = None) -> tuple[Path, dict[str, Any]] | None:
    """The file and its table [maker] as written, None where there is none.

    Raises: as load_config.
    """
    file = path or config_path()
    maker = _tables(file, path is not None).get(MAKER)
    return (file, maker) if isinstance(maker, dict) else None


def _tables(file: Path, named: bool) -> dict[str, Any]:
    """What the file holds; nothing where there is none and nobody named it."""
    if not _is_there(file):
        if named or os.environ.get("WOODREF_CONFIG"):
            raise InputError(f"the configuration file {file} does not exist")
        return {}
    from woodref.toml_text import load_toml

    return load_toml(file, "configuration file", may_be_empty=True)
