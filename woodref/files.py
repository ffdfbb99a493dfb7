"""Read text that people wrote, and write files whole or not at all."""

from __future__ import annotations

import csv
import os
import stat
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from woodref.aside import file_aside
from woodref.errors import InputError, WoodrefError, system_reason
from woodref.files_in_use import in_use, remember
from woodref.printable import printable

#: A file written by hand is far smaller; a device or a mistake is not [bytes].
MAX_BYTES = 20_000_000
#: Lines of such a file, and characters of one of them.
MOST_LINES, LONGEST_LINE = 500_000, 1_000_000
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


def _read_bytes(path: Path, most: int) -> bytes:
    """What a file holds, up to a number of bytes."""

    def without_waiting(name: str, flags: int) -> int:
        # A pipe that nobody writes to has an end at once; it would keep others waiting for ever.
        return os.open(name, flags | getattr(os, "O_NONBLOCK", 0))

    with open(path, "rb", opener=without_waiting) as handle:
        if hasattr(os, "O_NONBLOCK"):
            os.set_blocking(handle.fileno(), True)
        remember(handle.fileno())
        return handle.read(most)


def path_beside(file: Path, name: str) -> Path:
    """The path of a file that another names, seen from that one; ~ is the user's home."""
    return file.parent / os.path.expanduser(name)


def _files_in(folder: Path) -> list[str]:
    """The names of the files of a folder, none where it cannot be listed."""
    try:
        return [path.name for path in folder.iterdir() if path.is_file()]
    except OSError:
        return []


def read_bytes(path: Path, what: str, most: int = MAX_BYTES) -> bytes:
    """What a file of a person's holds.

    Parameters: path; what the file is, for the message ('piece file'); most it may hold [bytes].
    Raises: InputError, one line, where the file is missing, a folder, unreadable or too large.
    """
    try:
        data = _read_bytes(path, most + 1)
    except FileNotFoundError:
        # By what stands before the suffix: every file of a folder ends in .toml or .csv.
        stems = {
            Path(name).stem: name
            for name in sorted(_files_in(path.parent))
            if Path(name).suffix.lower() == path.suffix.lower() or not path.suffix
        }
        near = closest(path.stem, stems)
        hint = f"; did you mean '{stems[near]}'?" if near else ""
        raise InputError(f"{path}: there is no such {what}{hint}") from None
    except IsADirectoryError:
        raise InputError(f"{path}: is a folder, not a {what}; name a file in it") from None
    except (OSError, ValueError) as error:
        reason = system_reason(error) if isinstance(error, OSError) else str(error)
        raise InputError(f"{path}: cannot be read as a {what}: {reason}") from None
    if len(data) > most:
        raise InputError(f"{path}: is larger than {most / 1e6:g} MB, not a {what}")
    return data


def read_text(
    path: Path, what: str, may_be_empty: bool = False, most_lines: int = MOST_LINES
) -> str:
    """The text of a UTF-8 file (a byte order mark is dropped).

    Parameters: path; what the file is, for the message ('piece file'); may_be_empty, whether a
    file of no words is one; most_lines it may have.
    Raises: InputError, one line, as read_bytes, and where the file is empty, too long or not
    UTF-8.
    """
    data = read_bytes(path, what)
    if max(data.count(b"\n"), data.count(b"\r")) > most_lines:
        raise InputError(f"{path}: has more than {most_lines:,} lines, too many for a {what}")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError(
            f"{path}: line {line}: byte 0x{data[error.start]:02X} is not UTF-8 text; "
            "save the file as UTF-8"
        ) from None
    if not text.strip() and not may_be_empty:
        raise InputError(f"{path}: the {what} is empty; woodref template prints one to start from")
    return text


def text_lines(path: Path, what: str) -> Iterator[str]:
    """The lines of a UTF-8 file of any size, each read when it is asked for.

    Parameters: path; what the file is, for the message.
    Raises: InputError, one line, where the file cannot be read on, or is not UTF-8.
    """
    number = 0
    try:
        with path.open("rb") as lines:
            remember(lines.fileno())
            for number, line in enumerate(lines, start=1):  # told by the error
                text = line.decode("utf-8" if number > 1 else "utf-8-sig")
                yield text.removesuffix("\n").removesuffix("\r") + "\n"
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}: line {number}: byte 0x{error.object[error.start]:02X} is not UTF-8 text; "
            "save the file as UTF-8"
        ) from None
    except OSError as error:
        reason = system_reason(error)
        raise InputError(f"{path}: cannot be read as a {what}: {reason}") from None


#: Most characters of a cell of a CSV file.
LONGEST_CELL = 131_072


def csv_rows(
    text: str | Iterable[str], file: str, delimiter: str = ",", strict: bool = True
) -> Iterator[tuple[int, list[str]]]:
    """The rows of CSV text, each with the line it begins on, the first line being 1.

    Blank rows and remarks, lines that begin with #, are skipped; a cell may hold line breaks.

    Parameters: text, or its lines; file, its name in messages; delimiter between cells; strict,
    whether a quote where none belongs is a mistake.
    Raises: InputError, one line, where a quote makes it no CSV, or a cell has no end.
    """
    # Not splitlines: a rare separator inside a note must not part a row.
    lines: Iterable[str] = (
        text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n").split("\n")
        if isinstance(text, str)
        else (line.removesuffix("\n") for line in text)
    )
    lines = _not_endless(lines, file)
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


def _not_endless(lines: Iterable[str], file: str) -> Iterator[str]:
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            raise InputError(f"{file}: line {number}: is longer than {LONGEST_LINE:,} characters")
        yield line


def csv_delimiter(text: str) -> str:
    """What parts the columns of CSV text: comma, semicolon or tab, by its heading."""
    lines = (line.strip() for line in text.split("\n"))
    heading = next((line for line in lines if line and not line.startswith("#")), "")
    return max(",;\t", key=heading.count)


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
    shown = printable(text[: longest + 1], kept="")
    return f"{shown[:longest]}..." if len(text) > longest else shown


def holds(path: Path, text: str) -> bool:
    """True where a plain file holds just this text."""
    data = text.encode("utf-8")
    try:
        return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data
    except (OSError, ValueError):
        return False


def write_text(path: Path, text: str, overwrite: bool = False) -> None:
    """Write a UTF-8 text file with plain line ends; as write_bytes."""
    write_bytes(path, text.encode("utf-8"), overwrite)


def write_bytes(path: Path, data: bytes, overwrite: bool = False) -> None:
    """Write a file aside and rename it, so that it is never half there.

    A file that is replaced keeps its permissions, and its owner and group where the system lets it.

    Raises: InputError as check_target; WoodrefError where the system refuses.
    """
    check_target(path, overwrite)
    try:
        mode, before = _mode_of(path), path.stat() if path.exists() else None
        with file_aside(path.parent) as (handle, aside):
            handle.write(data)
            handle.flush()
            if before:
                _give_to(aside, before)
            os.chmod(aside, mode)  # after the owner, whose change takes special permissions away
            os.replace(aside, path)
        remember(path)
    except OSError as error:
        raise _cannot_be_written(path, error) from error


def _give_to(file: str, before: os.stat_result) -> None:
    """Give a file the owner and the group of the one it replaces, as far as that is permitted."""
    if not hasattr(os, "chown"):
        return
    for owner, group in ((-1, before.st_gid), (before.st_uid, -1)):
        with suppress(OSError):
            os.chown(file, owner, group)


def _mode_of(path: Path) -> int:
    """The permissions of a file to write: those it has, or of a new one those of the usual mask."""
    if path.exists():
        return stat.S_IMODE(path.stat().st_mode)
    # A temporary file is private to its owner; a shared one follows the usual mask.
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _cannot_be_written(path: Path, error: OSError) -> WoodrefError:
    return WoodrefError(f"{path}: cannot be written: {system_reason(error)}")


def check_target(path: Path, overwrite: bool = False) -> None:
    """Refuse a file that could not be written, before anything is computed for it.

    Parameters: path; overwrite, whether a plain file that exists may be replaced. A link, a
    device, a pipe, a read-only file and a file of this run are never replaced.
    Raises: InputError where it may not be written, or its folder is missing; WoodrefError where
    the system cannot tell.
    """
    if os.path.isdir(path):
        raise InputError(f"{path}: is a folder; name a file in it")
    try:
        there = path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        if not os.path.isdir(path.parent):
            raise InputError(
                f"{path}: the folder {path.parent} does not exist; make it first"
            ) from None
        return
    except ValueError:  # a null in it
        raise InputError(f"{path}: is no name of a file") from None
    except OSError as error:
        raise _cannot_be_written(path, error) from error
    if stat.S_ISLNK(there.st_mode):
        raise InputError(f"{path}: is a link, which is never replaced; name another file")
    if not stat.S_ISREG(there.st_mode):
        raise InputError(f"{path}: is a device or a pipe, not a file; name a file")
    if in_use(path):
        raise InputError(f"{path}: is read or written by this very command; name another file")
    if not there.st_mode & 0o222 or not os.access(path, os.W_OK):
        raise InputError(f"{path}: is read-only, and never replaced; name another file")
    if not overwrite:
        raise InputError(f"{path}: exists already; add --force to replace it, or name another file")
