"""The files of a catalog, put before DuckDB as one table with the file and the row of each line."""

from __future__ import annotations

import io
import os
from collections.abc import Iterable, Mapping, Sequence
from itertools import takewhile
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import duckdb

from woodref.catalog.headings import Headings, headings_of
from woodref.catalog.request import NUMBERS, SIZES, Given, Request, Want, needed_sizes
from woodref.catalog.watch import Watch, waited
from woodref.errors import InputError
from woodref.files import LONGEST_LINE, csv_delimiter, csv_rows, one_line
from woodref.files_in_use import remember
from woodref.reference.store import literal

if TYPE_CHECKING:
    import pyarrow

#: What reads a file, by its suffix.
_KINDS = {
    ".parquet": "parquet",
    ".csv": "csv",
    ".tsv": "csv",
    ".jsonl": "json",
    ".ndjson": "json",
}
#: Columns added to those of the catalog begin with this.
OURS = "__"
_NUMBER_TYPES = ("TINYINT", "SMALLINT", "INTEGER", "BIGINT", "HUGEINT", "FLOAT", "DOUBLE")
_REJECTS = ".rejects.csv"
#: Columns of a catalog; more are a wrong file.
_MOST_COLUMNS = 1_000
#: Columns of CSV for cells beyond those of the heading; a row with still more ends the run.
_BEYOND = tuple(f"{OURS}beyond{n}" for n in range(16))


class Parts(NamedTuple):
    """A catalog on a connection.

    ``table`` what it is selected from: its columns, ``__file`` and ``__row``, the first row
    being 1. ``columns`` and ``types`` its own. ``counted`` whether the table has ``__cells`` too,
    what is wrong with the number of cells of a row, null where nothing is. ``name`` what it is
    called in messages.
    """

    table: str
    columns: tuple[str, ...]
    types: dict[str, str]
    headings: Headings
    rows: int
    folder: bool
    name: str
    counted: bool = False


def quoted(name: str) -> str:
    """A name as SQL takes it; one of ours stands as it is, in whatever SQL."""
    if name.startswith(OURS) and name.isidentifier():
        return name
    return '"' + name.replace('"', '""') + '"'


def files_of(path: Path) -> list[Path]:
    """The file, or the files of a folder in the order of their names.

    Raises: InputError where there is none, one is of no known kind, or they are of several.
    """
    if os.path.isdir(path):
        files = sorted(
            f
            for f in path.iterdir()
            if f.suffix.lower() in _KINDS
            and not f.name.startswith(".")
            and not f.name.endswith(_REJECTS)
        )
        if not files:
            raise InputError(f"{path}: holds no Parquet, CSV or JSON Lines file")
    elif os.path.isfile(path):
        files = [path]
    else:
        raise InputError(f"{path}: there is no such file or folder")
    kinds = {_kind(f) for f in files}
    if len(kinds) > 1:
        raise InputError(f"{path}: holds files of several kinds; keep one kind in a folder")
    for file in files:
        remember(file)
    return files


def _kind(file: Path) -> str:
    kind = _KINDS.get(file.suffix.lower())
    if kind is None:
        raise InputError(f"{file}: a catalog is a file .parquet, .csv or .jsonl")
    return kind


def read_files(connection: duckdb.DuckDBPyConnection, path: Path, request: Request) -> Parts:
    """The catalog of a file or a folder.

    Parquet is read where it lies; CSV and JSON Lines are read once into a table that DuckDB may
    put on disk.

    Raises: InputError, one line naming the file, for one that cannot be read, has other columns
    than the first, or a column of a type that cannot be used.
    """
    files = files_of(path)
    kind = _kind(files[0])
    schemas = {file: _schema(connection, file, kind) for file in files}
    first = schemas[files[0]]
    for file, schema in schemas.items():
        if list(schema) != list(first):
            raise InputError(f"{file}: has other columns than {files[0].name}")
        for name in first:
            if kind == "parquet" and schema[name] != first[name]:
                raise InputError(
                    f"{file}: column '{name}' is {schema[name]}, and {first[name]} in "
                    f"{files[0].name}"
                )
    headings = checked_headings(first, request, str(path))
    check_needed(headings, needed_sizes(request.want or (Want.WEIGHT,)), str(path))
    listed = "[" + ", ".join(map(literal, files)) + "]"
    if kind == "parquet":
        table = (
            "(select * exclude (filename, file_row_number), parse_filename(filename) as __file, "
            "file_row_number + 1 as __row from "
            f"read_parquet({listed}, filename = true, file_row_number = true))"
        )
        rows = run(connection, f"select count(*) from read_parquet({listed})", path)[0][0]
    else:
        fields = _staged(first, kind)
        for n, file in enumerate(files):
            into = "insert into staged" if n else "create temp table staged as"
            _stage(connection, f"{into} select {fields}, filename as __path from", file, kind)
        rows = run(connection, "select count(*) from staged", path)[0][0]
        table = (
            "(select s.* exclude (__path), parse_filename(__path) as __file, "
            "s.rowid - first_row + 1 as __row from staged s join (select __path, "
            "min(rowid) as first_row from staged group by __path) using (__path))"
        )
        first = {n: "VARCHAR" if t == "JSON" else t for n, t in first.items()}
    return Parts(
        table, tuple(first), first, headings, rows, path.is_dir(), str(path), kind == "csv"
    )


def read_table(
    connection: duckdb.DuckDBPyConnection, given: pyarrow.Table, request: Request
) -> Parts:
    """The catalog of an Arrow table.

    Raises: InputError as read_files.
    """
    connection.register("given", given)
    rows = connection.execute("describe given").fetchall()
    types = {r[0]: r[1] for r in rows}
    headings = checked_headings(types, request, "the table")
    connection.execute("create temp table staged as select * from given")
    connection.unregister("given")
    table = "(select *, '' as __file, rowid + 1 as __row from staged)"
    return Parts(table, tuple(types), types, headings, given.num_rows, False, "the table")


def run(
    connection: duckdb.DuckDBPyConnection,
    query: str,
    path: Path | str = "the catalog",
    rows: int = 0,
    watch: Watch | None = None,
) -> list[tuple[Any, ...]]:
    """The rows of a statement over a catalog.

    Parameters: connection; query; path of the catalog in messages; rows and watch as waited.
    Raises: InputError with what DuckDB says of the file; KeyboardInterrupt.
    """
    try:
        return waited(connection, query, rows, watch)
    except duckdb.OutOfMemoryException:
        raise InputError("the memory given is too little for this catalog; give more") from None
    except duckdb.Error as error:
        lines = [line.strip() for line in str(error).splitlines() if line.strip()]
        # The line itself may be of any length, and stands before what is wrong with it.
        lines = [line for line in lines if not line.startswith("Original Line:")]
        # What follows is the statement, of which the user knows nothing.
        said = takewhile(lambda line: not line.startswith("LINE "), lines[:3])
        text = one_line(" ".join(said).partition("Error: ")[2] or str(error), 160)
        raise InputError(f"{path}: cannot be read: {text}") from None


def _staged(schema: Mapping[str, str], kind: str) -> str:
    """The columns of a file as they are kept, and ``__cells`` of CSV."""
    if kind == "json":
        return ", ".join(
            f"{quoted(n)} ->> '$' as {quoted(n)}" if t == "JSON" else quoted(n)
            for n, t in schema.items()
        )
    # A cell that is empty is read as a text, one that is not there as null.
    there = [f"({quoted(n)} is not null)::integer" for n in (*schema, *_BEYOND)]
    cells = (
        f"case when {quoted(list(schema)[-1])} is null or {_BEYOND[0]} is not null then "
        f"concat('has ', {' + '.join(there)}, ' cells, the heading {len(schema)}') end as __cells"
    )
    return ", ".join([*(f"nullif({quoted(n)}, '') as {quoted(n)}" for n in schema), cells])


def _stage(connection: duckdb.DuckDBPyConnection, into: str, file: Path, kind: str) -> None:
    """Read a CSV or JSON Lines file into a table."""
    if kind == "json":
        run(connection, f"{into} {_json_reader(file)}", file)
        return
    try:
        connection.execute(f"{into} {_csv_reader(file)}")
    except duckdb.Error:
        # Cells of several lines are read by one thread alone; any other error comes again.
        run(connection, f"{into} {_csv_reader(file, parallel=False)}", file)


def _csv_reader(file: Path, parallel: bool = True) -> str:
    delimiter, names = _heading(file)
    columns = ", ".join(f"{literal(n)}: 'VARCHAR'" for n in (*names, *_BEYOND))
    return (
        f"read_csv({literal(file)}, auto_detect = false, header = true, "
        f"columns = {{{columns}}}, delim = {literal(delimiter)}, quote = '\"', escape = '\"', "
        f"nullstr = '\x01', null_padding = true, parallel = {str(parallel).lower()}, "
        f"filename = true, skip = {_remarks(file)})"
    )


def _json_reader(file: Path) -> str:
    name = literal(file)
    return f"read_json({name}, format = 'newline_delimited', sample_size = -1, filename = true)"


def _heading(file: Path) -> tuple[str, list[str]]:
    """What parts the columns of a CSV file, and their names.

    Raises: InputError where there is none, or two columns have one name.
    """
    try:
        with file.open(encoding="utf-8-sig", newline="") as handle:
            begin = handle.read(LONGEST_LINE)
    except UnicodeDecodeError:
        raise InputError(f"{file}: is not UTF-8 text; save the file as UTF-8") from None
    lines = io.StringIO(begin, newline="")
    text = next((x for x in lines if x.strip() and not x.lstrip().startswith("#")), "")
    if not text or (len(begin) == LONGEST_LINE and not text.endswith(("\n", "\r"))):
        raise InputError(f"{file}: has no heading in its first {LONGEST_LINE:,} characters")
    delimiter = csv_delimiter(text)
    names = [cell.strip() for cell in next(csv_rows(text, str(file), delimiter), (1, []))[1]]
    if len(names) > _MOST_COLUMNS:
        raise InputError(f"{file}: has {len(names):,} columns, more than {_MOST_COLUMNS:,}")
    twice = next((n for n in names if names.count(n) > 1), None)
    if twice is not None:
        raise InputError(f"{file}: two columns are called '{twice}'")
    return delimiter, names


def _remarks(file: Path) -> int:
    """Lines above the heading of a CSV file that are remarks and begin with #."""
    with file.open("rb") as lines:
        return sum(1 for _ in takewhile(lambda line: line.lstrip().startswith(b"#"), lines))


def _schema(connection: duckdb.DuckDBPyConnection, file: Path, kind: str) -> dict[str, str]:
    """The names and types of the columns of a file."""
    if not file.stat().st_size:
        raise InputError(f"{file}: is empty")
    if kind == "csv":
        return dict.fromkeys(_heading(file)[1], "VARCHAR")
    name = literal(file)
    source = f"read_parquet({name})" if kind == "parquet" else _json_reader(file)
    rows = run(connection, f"describe select * from {source}", file)
    return {r[0]: r[1] for r in rows if kind == "parquet" or r[0] != "filename"}


def checked_headings(types: dict[str, str], request: Request, file: str) -> Headings:
    """The headings, where every column that is used has a type that can be."""
    for name in types:
        if name.startswith(OURS):
            raise InputError(f"{file}: column '{name}' begins with {OURS}; give it another name")
    headings = headings_of(types, request, file)
    for column, heading in headings.columns.items():
        kind = types[heading]
        number = kind in _NUMBER_TYPES or kind.startswith(("DECIMAL", "U"))
        text = kind in ("VARCHAR", "JSON") or kind.startswith("ENUM")
        takes_numbers = column in (*SIZES, *NUMBERS) or column == "cut"
        if not (text or (number and takes_numbers)):
            wanted = "a number or a text" if takes_numbers else "a text"
            raise InputError(f"{file}: column '{heading}' is {kind}; {column} is {wanted}")
    return headings


def check_needed(headings: Headings, sizes: Iterable[Given], file: str) -> None:
    """Refuse a catalog without a column of woods, or without sizes that are needed.

    Raises: InputError.
    """
    for column in (Given.WOOD, *sizes):
        if column not in headings.columns:
            raise InputError(f"{file}: has no column {column}; name it: --columns {column}=HEADING")


def is_text(parts: Parts, heading: str) -> bool:
    """Whether the cells of a column are texts."""
    kind = parts.types[heading]
    return kind == "VARCHAR" or kind.startswith("ENUM")


def refuse_clashes(parts: Parts, answers: Sequence[str]) -> None:
    """Raise InputError where the catalog has a column of the name of an answer."""
    held = {c.lower() for c in parts.columns}
    clash = next((a for a in answers if a.lower() in held), None)
    if clash:
        raise InputError(f"the catalog has a column '{clash}' already; rename it there first")
