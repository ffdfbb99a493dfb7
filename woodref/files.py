"""Read text that people wrote, and write files whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable
from pathlib import Path

from woodref.errors import InputError, WoodrefError

#: A file written by hand is far smaller; a device or a mistake is not [bytes].
MAX_BYTES = 20_000_000


def closest(word: str, choices: Iterable[str]) -> str | None:
    """The choice most like a misspelt word, None where none is near."""
    from rapidfuzz import fuzz, process

    hit = process.extractOne(word.lower(), list(choices), scorer=fuzz.ratio, score_cutoff=55.0)
    return str(hit[0]) if hit else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """'; did you mean 'x'?' for the closest choice, or the list of a few choices."""
    known = list(choices)
    near = closest(word, known)
    if near:
        return f"; did you mean '{near}'?"
    return f"; use one of {', '.join(known)}" if known else ""


def read_text(path: Path, what: str) -> str:
    """The text of a UTF-8 file (a byte order mark is dropped).

    Parameters: path; what the file is, for the message ('piece file').
    Raises: InputError, one line, where the file is missing, a folder, unreadable, empty,
    too large or not UTF-8.
    """
    try:
        with path.open("rb") as handle:
            data = handle.read(MAX_BYTES + 1)
    except FileNotFoundError:
        folder = path.parent
        names = [p.name for p in folder.iterdir() if p.is_file()] if folder.is_dir() else []
        near = closest(path.name, names)
        hint = f"; did you mean '{near}'?" if near else ""
        raise InputError(f"{path}: there is no such {what}{hint}") from None
    except IsADirectoryError:
        raise InputError(f"{path}: is a folder, not a {what}; name a file in it") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError(f"{path}: cannot be read as a {what}: {reason.lower()}") from None
    if len(data) > MAX_BYTES:
        raise InputError(f"{path}: is larger than {MAX_BYTES // 1_000_000} MB, not a {what}")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError(
            f"{path}: line {line}: byte 0x{data[error.start]:02X} is not UTF-8 text; "
            "save the file as UTF-8"
        ) from None
    if not text.strip():
        raise InputError(f"{path}: the {what} is empty; woodref template prints one to start from")
    return text


def write_text(path: Path, text: str, overwrite: bool = False) -> None:
    """Write a text file aside and rename it, so that it is never half there.

    Raises: InputError where the file exists and ``overwrite`` is false, or the folder is
    missing; WoodrefError where the system refuses.
    """
    if path.is_dir():
        raise InputError(f"{path}: is a folder; name a file in it")
    if path.exists() and not overwrite:
        raise InputError(f"{path}: exists already; add --force to replace it, or name another file")
    if not path.parent.is_dir():
        raise InputError(f"{path}: the folder {path.parent} does not exist; make it first")
    aside = ""
    try:
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", newline="\n", dir=path.parent, prefix=".", delete=False
        ) as handle:
            aside = handle.name
            handle.write(text)
        # A temporary file is private to its owner; a shared one follows the usual mask.
        mask = os.umask(0)
        os.umask(mask)
        os.chmod(aside, 0o666 & ~mask)
        os.replace(aside, path)
    except OSError as error:
        if aside:
            Path(aside).unlink(missing_ok=True)
        raise WoodrefError(f"{path}: cannot be written: {(error.strerror or '').lower()}") from None
