"""Read text that people wrote, and write files whole or not at all."""

from __future__ import annotations

import csv
import os
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from woodref.errors import InputError, WoodrefError

#: A file written by hand is far smaller; a device or a mistake is not [bytes].
MAX_BYTES = 20_000_000
#: What tables are separated by that are not separated by commas.
_DELIMITERS = {";": "semicolons", "\t": "tabs", "|": "bars"}


def closest_few(word: str, choices: Iterable[str], limit: int) -> list[str]:
    """The choices most like a misspelt word, the closest first; empty where none is near."""
    from rapidfuzz import fuzz, process

    hits = process.extract(
        word.lower(), list(choices), scorer=fuzz.ratio, score_cutoff=55.0, limit=limit
    )
    return [str(hit[0]) for hit in hits]


def closest(word: str, choices: Iterable[str]) -> str | None:
    """The choice most like a misspelt word, None where none is near."""
    return next(iter(closest_few(word, choices, 1)), None)


def nearest(word: str, choices: Iterable[str], otherwise: str, limit: int = 1) -> str:
    """'nearest: heated-house' for the closest choices, else what is said where none is near."""
    near = closest_few(word, choices, limit)
    return f"nearest: {', '.join(near)}" if near else otherwise


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


#: Most characters of a cell of a CSV file.
LONGEST_CELL = 131_072


def csv_rows(
    text: str, file: str, delimiter: str = ",", strict: bool = True
) -> Iterator[tuple[int, list[str]]]:
    """The rows of CSV text, each with the line it begins on, the first line being 1.

    Blank rows and remarks, lines that begin with #, are skipped; a cell may hold line breaks.

    Parameters: text; file, its name in messages; delimiter between cells; strict, whether a
    quote where none belongs is a mistake.
    Raises: InputError, one line, where a quote makes it no CSV, or a cell has no end.
    """
    # Not splitlines: a rare separator inside a note must not part a row.
    lines = text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n").split("\n")
    reader = csv.reader(
        ("\n" if s.lstrip().startswith("#") else f"{s}\n" for s in lines),
        delimiter=delimiter,
        strict=strict,
    )
    begins = 1
    try:
        for cells in reader:
            # The limit of the csv module is one of the whole process, which others may have raised.
            if any(len(cell) > LONGEST_CELL for cell in cells):
                raise csv.Error("field limit")
            if any(cell.strip() for cell in cells):
                yield begins, cells
            begins = reader.line_num + 1
    except csv.Error as error:
        problem = str(error)
        if "unexpected end" in problem:
            problem = "a quote opened in this row is never closed"
        elif "field limit" in problem:
            problem = f"a cell is longer than {LONGEST_CELL:,} characters; is a quote never closed?"
        elif "expected after" in problem:
            problem = 'a quote ends inside a cell; write 1/2"" for a quote in a quoted cell'
        raise InputError(f"{file}: line {begins}: not CSV: {problem}") from None


def csv_header(
    cells: Sequence[str], where: str, required: Sequence[str], optional: Sequence[str]
) -> list[str]:
    """The column names of a table, checked: in any order, each once, none unknown or missing.

    Parameters: cells of the heading; where it stands, for messages ('prices.csv: line 1').
    Raises: InputError, one line.
    """
    if len(cells) == 1:
        for delimiter, words in _DELIMITERS.items():
            if delimiter in cells[0]:
                raise InputError(
                    f"{where}: columns are separated by {words}; separate them by commas and "
                    "write decimals with a point"
                )
    names = [" ".join(cell.split()).lower() for cell in cells]
    known = (*required, *optional)
    for name in names:
        if name not in known:
            raise InputError(
                f"{where}: unknown column '{one_line(name)}'{did_you_mean(name, known)}"
            )
        if names.count(name) > 1:
            raise InputError(f"{where}: the column '{name}' is there twice")
    for name in required:
        if name not in names:
            raise InputError(
                f"{where}: the column '{name}' is missing; needed are {', '.join(required)}"
            )
    return names


def one_line(text: str, longest: int = 80) -> str:
    """Text of a file for a message: one printable line, not endless."""
    shown = "".join(c if c.isprintable() else " " for c in text[: longest + 1])
    return f"{shown[:longest]}..." if len(text) > longest else shown


def write_text(path: Path, text: str, overwrite: bool = False) -> None:
    """Write a UTF-8 text file with plain line ends; as write_bytes."""
    write_bytes(path, text.encode("utf-8"), overwrite)


def write_bytes(path: Path, data: bytes, overwrite: bool = False) -> None:
    """Write a file aside and rename it, so that it is never half there.

    Raises: InputError as check_target; WoodrefError where the system refuses.
    """
    check_target(path, overwrite)
    aside = ""
    try:
        with tempfile.NamedTemporaryFile(dir=path.parent, prefix=".", delete=False) as handle:
            aside = handle.name
            handle.write(data)
        # A temporary file is private to its owner; a shared one follows the usual mask.
        mask = os.umask(0)
        os.umask(mask)
        os.chmod(aside, 0o666 & ~mask)
        os.replace(aside, path)
    except OSError as error:
        if aside:
            Path(aside).unlink(missing_ok=True)
        reason = (error.strerror or "").lower()
        raise WoodrefError(f"{path}: cannot be written: {reason}") from error


def check_target(path: Path, overwrite: bool = False) -> None:
    """Refuse a file that could not be written, before anything is computed for it.

    Raises: InputError where it is a folder, exists and ``overwrite`` is false, or its folder is
    missing.
    """
    if path.is_dir():
        raise InputError(f"{path}: is a folder; name a file in it")
    if path.exists() and not overwrite:
        raise InputError(f"{path}: exists already; add --force to replace it, or name another file")
    if not path.parent.is_dir():
        raise InputError(f"{path}: the folder {path.parent} does not exist; make it first")
