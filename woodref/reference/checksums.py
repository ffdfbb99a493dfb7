"""Checksums of the dataset, which tell whether each file is as it was published.

The pipeline writes a list of checksums beside the tables. A file is compared with it where it is
opened, by its length and CRC-32, which no change of up to 32 neighboring bits passes and any other
one time in 2**32, and which takes a look-up a thousandth of a second. SHA-256, which takes an
import and more, is compared where all files are (``dataset_checksum``).
"""

from __future__ import annotations

import os
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from woodref.errors import WoodrefError

#: The list of checksums, in the folder of the dataset.
CHECKSUMS = "checksums.csv"
#: What of a file is read at a time, where not all of it is wanted in memory.
_PART_BYTES = 1 << 18
_HEADING = "file,bytes,crc32,sha256"
_WAY_OUT = "install woodref again, or run 'python -m pipeline build' in a checkout"


class Checksum(NamedTuple):
    """Length [bytes] and checksums of a file as it was published, these in hexadecimal digits."""

    length: int
    crc32: str
    sha256: str


def checksum_of(content: bytes) -> Checksum:
    """The checksums of what a file holds."""
    import hashlib

    return Checksum(len(content), _crc32(content), hashlib.sha256(content).hexdigest())


def checksums_text(folder: Path) -> str:
    """The list of checksums of the files of a folder, sorted by name."""
    files = {
        path.relative_to(folder).as_posix(): path
        for path in folder.rglob("*")
        if path.is_file() and path != folder / CHECKSUMS
    }
    lines = [
        ",".join([name, *map(str, checksum_of(path.read_bytes()))])
        for name, path in sorted(files.items())
    ]
    return "\n".join([_HEADING, *lines]) + "\n"


def intact(path: Path, folder: Path) -> Path:
    """The path of a file of the dataset, which holds what was published.

    A folder without a list of checksums is one that is being built, or of somebody's own making;
    its files are taken as they are. A file is read once, and again when it has changed.

    Parameters: path of the file; folder of the dataset that it belongs to.
    Raises: WoodrefError for a file that is missing, not listed or holds something else.
    """
    listed = _listed(folder)
    if listed is None:
        return path
    name = path.relative_to(folder).as_posix()
    if name not in listed:
        raise WoodrefError(f"{path}: no part of the reference dataset as published; {_WAY_OUT}")
    _compare(path, listed[name], _state(path))
    return path


def is_published(path: Path, folder: Path) -> bool:
    """Is there such a file? One that the list of checksums names is there, or its loss is told."""
    listed = _listed(folder)
    if listed is None:
        return path.is_file()
    return path.relative_to(folder).as_posix() in listed


def dataset_checksum(folder: Path) -> str:
    """SHA-256 of the list of checksums, once each file has been compared with it.

    Parameters: folder of the dataset.
    Raises: WoodrefError as intact, and for a folder without a list.
    """
    listed = _listed(folder)
    if listed is None:
        raise WoodrefError(f"{folder / CHECKSUMS}: missing; {_WAY_OUT}")
    for name, published in listed.items():
        path = folder / name
        if checksum_of(_read(path)) != published:
            raise _damaged(path)
    return checksum_of((folder / CHECKSUMS).read_bytes()).sha256


def _listed(folder: Path) -> dict[str, Checksum] | None:
    """The checksums of the files of a folder by name, None where it has no list."""
    path = folder / CHECKSUMS
    try:
        seen = os.stat(path)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise _unreadable(path, error) from None
    return _read_list(path, (seen.st_mtime_ns, seen.st_size, seen.st_ino))


@lru_cache(maxsize=8)
def _read_list(path: Path, state: tuple[int, ...]) -> dict[str, Checksum]:
    heading, *lines = _read(path).decode("utf-8", "replace").splitlines() or [""]
    cells = [line.split(",") for line in lines]
    if heading != _HEADING or any(len(c) != 4 or not c[1].isdecimal() for c in cells):
        raise _damaged(path)
    return {name: Checksum(int(length), crc32, sha256) for name, length, crc32, sha256 in cells}


def _state(path: Path) -> tuple[int, ...]:
    """What is another where a file has been written anew."""
    try:
        seen = os.stat(path)
    except OSError as error:
        raise _unreadable(path, error) from None
    return seen.st_mtime_ns, seen.st_size, seen.st_ino


@lru_cache(maxsize=512)
def _compare(path: Path, published: Checksum, state: tuple[int, ...]) -> None:
    content = _read(path)
    if len(content) != published.length or _crc32(content) != published.crc32:
        raise _damaged(path)


def crc32_of_file(path: Path) -> str:
    """The CRC-32 of what a file holds, of which a little at a time is in memory.

    Raises: OSError.
    """
    import zlib

    value = 0
    with path.open("rb", buffering=0) as file:
        while part := file.read(_PART_BYTES):
            value = zlib.crc32(part, value)
    return f"{value:08x}"


def _crc32(content: bytes) -> str:
    import zlib

    return f"{zlib.crc32(content):08x}"


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise _unreadable(path, error) from None


def _damaged(path: Path) -> WoodrefError:
    return WoodrefError(f"{path}: damaged, it does not hold what was published; {_WAY_OUT}")


def _unreadable(path: Path, error: OSError) -> WoodrefError:
    why = "missing" if isinstance(error, FileNotFoundError) else (error.strerror or "").lower()
    return WoodrefError(f"{path}: the reference dataset cannot be read, {why}; {_WAY_OUT}")
