"""What is written aside, to be renamed or thrown away: swept by the next run where one was killed.

A file or folder aside has a name that nobody can foresee, and is locked while it is in use, so
that what a killed run left is told from what another run is writing.
"""

from __future__ import annotations

import os
import shutil
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from time import time
from typing import BinaryIO

#: What the names of files and folders aside begin with.
PREFIX = ".woodref-"
#: Between making and locking a file aside passes less [s].
_FRESH_SECONDS = 2.0


@contextmanager
def file_aside(folder: Path) -> Iterator[tuple[BinaryIO, str]]:
    """A new file in a folder, open for writing, and its path; gone at the end if it is still there.

    Raises: OSError.
    """
    sweep(folder)
    descriptor, name = tempfile.mkstemp(dir=folder, prefix=PREFIX)
    try:
        with open(descriptor, "wb") as handle:
            _lock(descriptor)
            yield handle, name
    finally:
        with suppress(OSError):
            os.unlink(name)


@contextmanager
def folder_aside(folder: Path | None = None) -> Iterator[Path]:
    """A new folder in another, by default in that of temporary files; gone at the end.

    Raises: OSError.
    """
    parent = folder or Path(tempfile.gettempdir())
    sweep(parent)
    made = Path(tempfile.mkdtemp(dir=parent, prefix=PREFIX))
    descriptor = _opened(made)
    try:
        if descriptor is not None:
            _lock(descriptor)
        yield made
    finally:
        shutil.rmtree(made, ignore_errors=True)
        if descriptor is not None:
            os.close(descriptor)


def sweep(folder: Path) -> None:
    """Remove what killed runs of this user left in a folder."""
    with suppress(OSError), os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.startswith(PREFIX):
                with suppress(OSError):
                    _remove_if_left(Path(entry.path))


def _remove_if_left(path: Path) -> None:
    told = os.lstat(path)
    ours = not hasattr(os, "geteuid") or told.st_uid == os.geteuid()
    plain = stat.S_ISREG(told.st_mode) or stat.S_ISDIR(told.st_mode)
    if not (ours and plain) or time() - told.st_mtime < _FRESH_SECONDS:
        return
    descriptor = _opened(path)
    if descriptor is None:
        return
    try:
        if not _lock(descriptor):
            return
        if stat.S_ISDIR(told.st_mode):
            shutil.rmtree(path, ignore_errors=True)
        else:
            os.unlink(path)
    finally:
        os.close(descriptor)


def _opened(path: Path) -> int | None:
    """A descriptor to lock by; None on a system without such locks."""
    if not hasattr(os, "O_NOFOLLOW"):
        return None
    return os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)


def _lock(descriptor: int) -> bool:
    """Lock what is open as long as it is; False where another run holds it."""
    try:
        import fcntl
    except ImportError:
        return False
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
