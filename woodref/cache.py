"""Files of the user's cache folder: what was found once and would be found again.

Nothing in it is missed: a folder that cannot be written keeps nothing, and what is damaged is found
anew by whoever reads it.
"""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from woodref.aside import file_aside


def keep(file: Path, content: bytes, most: int) -> None:
    """Keep a file: written aside and renamed, so that it is never half there.

    Parameters: file; content; most files of its suffix in the folder, of which the oldest go.
    """
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True)
        _make_room(file, most)
        with file_aside(file.parent) as (handle, aside):
            handle.write(content)
            handle.flush()
            os.replace(aside, file)


def _make_room(file: Path, most: int) -> None:
    """Remove the oldest files beside one that is to come where there are too many."""
    with suppress(OSError):
        files = sorted(file.parent.glob(f"*{file.suffix}"), key=lambda f: f.stat().st_mtime)
        for old in files[: max(0, len(files) - most + 1)]:
            old.unlink(missing_ok=True)
