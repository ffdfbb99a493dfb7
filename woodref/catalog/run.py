"""Compute a catalog: from files into a file, or from an Arrow table into another.

What is written is written aside and put in its place whole, at the very end.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from math import fsum
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import duckdb

from woodref.aside import folder_aside
from woodref.catalog.compute import steps_of
from woodref.catalog.inputs import (
    Parts,
    quoted,
    read_files,
    read_table,
    run,
)
from woodref.catalog.prepare import look_up
from woodref.catalog.queries import answers_sql, column_of, computed_sql
from woodref.catalog.request import Request, Want
from woodref.catalog.results import ABSENT, Result
from woodref.catalog.sized import rejects_sql, sized_sql
from woodref.catalog.watch import Watch
from woodref.catalog.write import write_parquet
from woodref.errors import InputError, WoodrefError, system_reason
from woodref.files import check_target
from woodref.record import record
from woodref.reference.library import Reference
from woodref.reference.store import literal
from woodref.spreadsheet import as_cell_sql

if TYPE_CHECKING:
    import pyarrow

#: Forms of the output by suffix.
_FORMS = (".parquet", ".csv")
#: What rejected rows are named, beside the output.
REJECTS = ".rejects.csv"
#: Reasons and woods told of at the most.
_MOST_TOLD = 5


class Reason(NamedTuple):
    """Why rows were rejected: column, reason, how many, and the first of them."""

    column: str
    reason: str
    rows: int
    first_row: int


@record
class BatchSummary:
    """What became of a catalog.

    ``rows`` are ``written`` and ``rejected`` together. ``totals`` of the answers by the name of
    their column; ``unanswered`` the number of rows without a figure, by answer; ``bases`` the
    number of rows by the weakest basis of their weight, else of their movement. ``reasons`` the
    commonest first; ``more_reasons`` how many are not told. ``output`` and ``rejects`` the files,
    None where none was written.
    """

    rows: int
    written: int
    rejected: int
    want: tuple[Want, ...]
    totals: dict[str, float]
    unanswered: dict[str, int]
    bases: dict[str, int]
    reasons: tuple[Reason, ...]
    more_reasons: int
    currency: str = ""
    output: Path | None = None
    rejects: Path | None = None


class _Prepared(NamedTuple):
    """The queries of a catalog whose texts are looked up."""

    answers: str
    rejects: str
    made: list[Result]
    want: tuple[Want, ...]
    currency: str


def compute_files(
    reference: Reference,
    path: Path,
    output: Path | None,
    request: Request,
    force: bool = False,
    watch: Watch | None = None,
) -> BatchSummary:
    """Compute the catalog of a file or a folder into a Parquet or CSV file.

    Rejected rows go to OUTPUT.rejects.csv with file, row, column, value and reason. Nothing is
    left behind by a run that fails or is interrupted; the same catalog gives the same bytes.

    Parameters: reference; path; output, None to count and keep nothing; request; force, whether an
    output that exists may be replaced; watch, told how far it is.
    Raises: InputError, one line, where the catalog, the request or the output cannot be used.
    """
    request.check()
    if output is not None and output.suffix.lower() not in _FORMS:
        raise InputError(f"{output}: name a file .parquet or .csv")
    with _aside(output) as scratch, _connected(request, scratch) as connection:
        parts = read_files(connection, path, request)
        if output is not None:
            _check_output(path, output, force)
        prepared = _prepare(connection, parts, reference, request, str(path))
        if output is None:
            counted = _counted(
                connection, prepared, f"({prepared.answers})", path, parts.rows, watch
            )
            if counted.written < parts.rows:
                run(connection, f"create temp table rejects as {prepared.rejects}", path)
            return _summary(connection, parts, prepared, counted, "rejects")
        whole, bad = scratch / "answers.parquet", scratch / "rejects.csv"
        written = write_parquet(
            connection, prepared.answers, whole, path, output, parts.rows, watch
        )
        if written < parts.rows:
            _copy_csv(connection, f"({prepared.rejects})", bad, path)
        counted = _counted(connection, prepared, _read(whole), path)
        summary = _summary(connection, parts, prepared, counted, _read_rejects(bad))
        return _put_in_place(connection, summary, whole, bad, output)


def _put_in_place(
    connection: duckdb.DuckDBPyConnection,
    summary: BatchSummary,
    whole: Path,
    bad: Path,
    output: Path,
) -> BatchSummary:
    """Move the answers, in the form asked for, and the rejected rows to where they belong."""
    ready, rejects = whole, _rejects_beside(output)
    if output.suffix.lower() == ".csv":
        ready = whole.with_suffix(".csv")
        _copy_csv(connection, _read(whole), ready, output)
    if summary.rejected:
        os.replace(bad, rejects)
    else:
        rejects.unlink(missing_ok=True)
    os.replace(ready, output)
    return replace(summary, output=output, rejects=rejects if summary.rejected else None)


def _copy_csv(connection: duckdb.DuckDBPyConnection, source: str, target: Path, path: Path) -> None:
    """Write the rows of a source as CSV whose text no spreadsheet computes."""
    columns = run(connection, f"describe from {source}", path)
    texts = [quoted(name) for name, kind, *_ in columns if kind == "VARCHAR"]
    cells = ", ".join(f"{as_cell_sql(name)} as {name}" for name in texts)
    query = f"select * {f'replace ({cells})' if cells else ''} from {source}"
    run(connection, _copy(query, target, "format csv, header"), path)


def _rejects_beside(output: Path) -> Path:
    return output.with_name(output.name + REJECTS)


def compute_table(
    reference: Reference, given: pyarrow.Table | Path, request: Request
) -> tuple[pyarrow.Table, pyarrow.Table, BatchSummary]:
    """Compute the catalog of an Arrow table, or of files, in memory.

    Returns: the answers, the rejected rows, and what became of the catalog.
    Raises: as compute_files.
    """
    request.check()
    with folder_aside() as scratch, _connected(request, scratch) as connection:
        if isinstance(given, Path):
            parts = read_files(connection, given, request)
        else:
            parts = read_table(connection, given, request)
        file = str(given) if isinstance(given, Path) else "the table"
        prepared = _prepare(connection, parts, reference, request, file)
        whole = scratch / "answers.parquet"
        write_parquet(connection, prepared.answers, whole)
        run(connection, f"create temp table rejects as {prepared.rejects}", parts.name)
        counted = _counted(connection, prepared, _read(whole), parts.name)
        summary = _summary(connection, parts, prepared, counted, "rejects")
        answers = connection.sql(f"select * from {_read(whole)}").to_arrow_table()
        rejects = connection.sql("select * from rejects").to_arrow_table()
    return answers, rejects, summary


@contextmanager
def _aside(output: Path | None) -> Iterator[Path]:
    """A folder beside the output, gone at the end; anywhere without one."""
    if output is None:
        with folder_aside() as folder:
            yield folder
        return
    if not os.path.isdir(output.parent):
        raise InputError(f"{output}: the folder {output.parent} does not exist; make it first")
    with ExitStack() as stack:
        try:
            folder = stack.enter_context(folder_aside(output.parent))
        except OSError as error:
            raise WoodrefError(f"{output}: cannot be written: {system_reason(error)}") from None
        yield folder


@contextmanager
def _connected(request: Request, scratch: Path) -> Iterator[duckdb.DuckDBPyConnection]:
    """A connection that keeps to the memory given, and puts the rest into the folder."""
    connection = duckdb.connect(":memory:")
    try:
        connection.execute(f"set temp_directory = {literal(scratch / 'spilled')}")
        connection.execute("set autoload_known_extensions = false")
        connection.execute("set autoinstall_known_extensions = false")
        # Progress is asked for by us, and told by the command line alone.
        connection.execute("set enable_progress_bar = true")
        connection.execute("set enable_progress_bar_print = false")
        # The catalog goes past the tables of texts, however few rows it has.
        connection.execute("set disabled_optimizers = 'join_order,build_side_probe_side'")
        if request.memory:
            amount = request.memory.replace(" ", "").upper()
            connection.execute(f"set memory_limit = {literal(amount)}")
        yield connection
    finally:
        connection.close()


def _check_output(path: Path, output: Path, force: bool) -> None:
    """Refuse an output that is an input, lies among them, or may not be replaced."""
    if os.path.isdir(path) and output.resolve().parent == path.resolve():
        raise InputError(f"{output}: lies in the folder of the parts; name another folder")
    check_target(output, overwrite=force)
    check_target(_rejects_beside(output), overwrite=force)


def _copy(query: str, file: Path, form: str) -> str:
    return f"copy ({query}) to {literal(file)} ({form})"


def _prepare(
    connection: duckdb.DuckDBPyConnection,
    parts: Parts,
    reference: Reference,
    request: Request,
    file: str,
) -> _Prepared:
    """Look up what is written, and build the queries."""
    known = look_up(connection, parts, reference, request, file)
    sized = sized_sql(parts, request, known.want, known.bare)
    steps = steps_of(column_of, request, known.want, sized, known.facts)
    computed = computed_sql(sized, parts, known, steps)
    return _Prepared(
        answers_sql(computed, parts, known.made, known.want),
        rejects_sql(sized),
        known.made,
        known.want,
        known.currency,
    )


def _read(answers: Path) -> str:
    """The answers that were written, as SQL."""
    return f"read_parquet({literal(answers)})"


def _read_rejects(file: Path) -> str:
    """The rejected rows that were written, as SQL.

    Written by us, and told in full: what a reader guesses of it depends on what it holds.
    """
    return (
        f"read_csv({literal(file)}, auto_detect = false, header = true, "
        "delim = ',', quote = '\"', escape = '\"', columns = {'file': 'VARCHAR', "
        "'row': 'BIGINT', 'column': 'VARCHAR', 'value': 'VARCHAR', 'reason': 'VARCHAR'})"
    )


#: The columns whose sum means something.
_SUMMED = ("total_mass", "volume", "board_feet", "cost", "gross_mass", "chargeable_mass")


class _Counted(NamedTuple):
    """The rows with answers, the sums of columns, and the rows by basis and without an answer."""

    written: int
    totals: dict[str, float]
    bases: dict[str, int]
    unanswered: dict[str, int]


def _counted(
    connection: duckdb.DuckDBPyConnection,
    prepared: _Prepared,
    source: str,
    path: Path | str,
    rows: int = 0,
    watch: Watch | None = None,
) -> _Counted:
    """Count the answers and sum them, in one pass over a source of them in SQL.

    Parameters: connection; prepared; source; path of the catalog in messages; rows the source
    goes over, and watch, told how far it is.
    """
    made = {r.name for r in prepared.made}
    summed = [n for n in made if n.startswith(_SUMMED) and not n.endswith(("_low", "_high"))]
    summed = sorted(n for n in summed if "_low_" not in n and "_high_" not in n)
    basis = next((b for b in ("mass_basis", "movement_basis") if b in made), "null")
    sums = "".join(f", coalesce(fsum({quoted(n)}), 0.0)" for n in summed)
    groups = run(
        connection,
        f"select {basis}, unanswered, count(*){sums} from {source} group by 1, 2",
        path,
        rows,
        watch,
    )
    bases: Counter[str] = Counter()
    unanswered: Counter[str] = Counter()
    for known, lacking, count, *_ in groups:
        if known is not None:
            bases[known] += count
        for want in filter(None, lacking.split(",")):
            unanswered[want] += count
    return _Counted(
        sum(group[2] for group in groups),
        {name: fsum(group[n] for group in groups) for n, name in enumerate(summed, 3)},
        dict(sorted(bases.items(), key=lambda pair: (-pair[1], pair[0]))),
        {str(w): unanswered[w] for w in prepared.want if w in ABSENT and unanswered[w]},
    )


def _summary(
    connection: duckdb.DuckDBPyConnection,
    parts: Parts,
    prepared: _Prepared,
    counted: _Counted,
    rejects: str,
) -> BatchSummary:
    """What became of a catalog; rejects as SQL, of which there are where rows are missing."""
    reasons: list[Reason] = []
    if counted.written < parts.rows:
        reasons = [
            Reason(*r)
            for r in connection.execute(
                'select coalesce("column", \'\'), reason, count(*) as n, min("row") '
                f"from {rejects} group by all order by n desc, 1, 2"
            ).fetchall()
        ]
    return BatchSummary(
        rows=parts.rows,
        written=counted.written,
        rejected=sum(r.rows for r in reasons),
        want=prepared.want,
        totals=counted.totals,
        unanswered=counted.unanswered,
        bases=counted.bases,
        reasons=tuple(reasons[:_MOST_TOLD]),
        more_reasons=max(0, len(reasons) - _MOST_TOLD),
        currency=prepared.currency,
    )
