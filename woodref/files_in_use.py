"""The files a run of the program has read and written, none of which it may write over."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from pathlib import Path

# A file is told by its device and number, as one file may go by several paths.
_IN_USE: ContextVar[set[tuple[int, int]] | None] = ContextVar("files in use", default=None)


@contextmanager
def remembered() -> Iterator[None]:
    """Remember the files of a run from here on, and forget them at its end."""
    before = _IN_USE.set(set())
    try:
        yield
    finally:
        _IN_USE.reset(before)


def remember(file: Path | int) -> None:
    """Remember a file, by its path or an open descriptor, where there is one.

    Outside of a run nothing happens.
    """
    files = _IN_USE.get()
    if files is not None:
        with suppress(OSError):
            status = os.stat(file)
            files.add((status.st_dev, status.st_ino))


def in_use(path: Path) -> bool:
    """True where this run has read or written the file, by whatever path."""
    files = _IN_USE.get()
    if not files or not os.path.exists(path):
        return False
    status = path.stat()
    return (status.st_dev, status.st_ino) in files
