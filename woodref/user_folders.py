"""The folders that are the user's: those that are named, else those of the platform."""

from __future__ import annotations

import os
import sys
from pathlib import Path

#: Of each kind the variable of the XDG base directory specification, and the folder below the
#: user's own where it is not set.
_XDG = {
    "config": ("XDG_CONFIG_HOME", ".config"),
    "data": ("XDG_DATA_HOME", ".local/share"),
    "cache": ("XDG_CACHE_HOME", ".cache"),
}


#: The variables that name a folder of ours in place of the platform's.
_NAMED = {"data": "WOODREF_DATA", "cache": "WOODREF_CACHE"}


def user_folder(kind: str) -> Path:
    """The folder of woodref for 'config', 'data' or 'cache', there or not."""
    if named := os.environ.get(_NAMED.get(kind, ""), "").strip():
        return Path(named)
    if sys.platform == "linux":
        # The specification in two lines spares a look-up an import.
        variable, below = _XDG[kind]
        base = os.environ.get(variable, "").strip()
        return (Path(base) if base else Path.home() / below) / "woodref"
    import platformdirs

    folders = platformdirs.PlatformDirs("woodref", appauthor=False)
    return {
        "config": folders.user_config_path,
        "data": folders.user_data_path,
        "cache": folders.user_cache_path,
    }[kind]
