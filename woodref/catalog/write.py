"""Write the rows of a query to a Parquet file in their order, while the next ones are computed.

DuckDB keeps the order of rows through a join only in one thread. So one thread computes, and
another writes.
"""

from __future__ import annotations

from pathlib import Path
from queue import Queue
from threading import Event, Thread
from time import monotonic
from typing import TYPE_CHECKING, Any

import duckdb

from woodref.catalog.inputs import run
from woodref.catalog.watch import LOOK_SECONDS, Progress, Watch
from woodref.errors import InputError, WoodrefError, system_reason
from woodref.reference.store import literal

if TYPE_CHECKING:
    import pyarrow

#: Rows of a group of the file.
_GROUP_ROWS = 122_880
#: Groups that may wait to be written.
_WAITING = 2


def write_parquet(
    connection: duckdb.DuckDBPyConnection,
    query: str,
    file: Path,
    path: Path | str = "the catalog",
    output: Path | None = None,
    rows: int = 0,
    watch: Watch | None = None,
) -> int:
    """Write the rows of a query in their order; the same rows give the same bytes.

    Parameters: connection; query; file; path of the catalog and output, the place the file is
    for, in messages; rows the query goes over, and watch, told how far it is.
    Returns: the number of rows written.
    Raises: InputError with what DuckDB says of the catalog; WoodrefError with why the file cannot
    be written; KeyboardInterrupt.
    """
    threads = connection.execute("select current_setting('threads')").fetchall()[0][0]
    connection.execute("set threads = 1")
    try:
        writing = _Writing(file)
        reading = _Reading(connection, query, writing)
        begun = monotonic()
        try:
            while not reading.ended.wait(LOOK_SECONDS):
                if watch:
                    watch(Progress(min(writing.rows, rows), rows, monotonic() - begun))
        except BaseException:
            reading.stop()
            raise
        if writing.failed:
            if field := _unwritable(writing.schema):
                raise InputError(
                    f"{path}: column '{field.name}' holds what no Parquet file can "
                    f"({field.type}); leave it out, or make it text"
                )
            failed = writing.failed
            said = system_reason(failed) if isinstance(failed, OSError) else str(failed)
            raise WoodrefError(f"{output or 'the answers'}: cannot be written: {said}")
        if reading.failed:
            # A stream has one kind of error; what DuckDB means is told by the statement itself.
            copied = f"copy ({query}) to {literal(file)} (format parquet, preserve_order true)"
            return int(run(connection, copied, path)[0][0])
        return writing.rows
    finally:
        connection.execute(f"set threads = {threads}")


class _Writing:
    """A thread that writes what it is given."""

    def __init__(self, file: Path) -> None:
        self.rows = 0
        self.failed: Exception | None = None
        self._file = file
        self._given: Queue[pyarrow.RecordBatch | None] = Queue(_WAITING)
        self._thread = Thread(target=self._work, daemon=True)

    def begin(self, schema: pyarrow.Schema) -> None:
        self.schema = schema
        self._thread.start()

    def put(self, batch: pyarrow.RecordBatch) -> None:
        self._given.put(batch)

    def end(self) -> None:
        if self._thread.ident is not None:
            self._given.put(None)
            self._thread.join()

    def _work(self) -> None:
        import pyarrow
        import pyarrow.parquet

        batch = self._given.get()
        try:
            with pyarrow.parquet.ParquetWriter(
                self._file, self.schema, use_dictionary=_repeated(batch)
            ) as out:
                while batch is not None:
                    out.write_batch(batch, row_group_size=_GROUP_ROWS)
                    self.rows += batch.num_rows
                    batch = self._given.get()
        except (OSError, pyarrow.ArrowException) as error:
            self.failed = error
            while batch is not None:
                batch = self._given.get()


def _unwritable(schema: pyarrow.Schema) -> pyarrow.Field | None:
    """The first column of a kind that Parquet does not know."""
    import pyarrow
    import pyarrow.parquet

    for field in schema:
        try:
            pyarrow.parquet.ParquetWriter(pyarrow.BufferOutputStream(), pyarrow.schema([field]))
        except pyarrow.ArrowException:
            return field
    return None


def _repeated(batch: pyarrow.RecordBatch | None) -> list[str]:
    """The columns whose cells repeat, by the first rows: a dictionary spares them space.

    One of measures, or of numbers of parts that are all different, costs more than it saves.
    """
    from pyarrow import compute, types

    if batch is None:
        return []
    repeated = []
    for field in batch.schema:
        if types.is_string(field.type) or types.is_integer(field.type):
            if 2 * compute.count_distinct(batch[field.name]).as_py() < batch.num_rows:
                repeated.append(field.name)
        elif not types.is_floating(field.type):
            repeated.append(field.name)
    return repeated


class _Reading:
    """A thread that computes, and gives to another what is to be written."""

    def __init__(
        self, connection: duckdb.DuckDBPyConnection, query: str, writing: _Writing
    ) -> None:
        self.ended = Event()
        self.failed: Exception | None = None
        self._connection, self._query, self._writing = connection, query, writing
        self._stopped = False
        Thread(target=self._work, daemon=True).start()

    def stop(self) -> None:
        """Stop, and wait until both threads are at their end."""
        self._stopped = True
        while not self.ended.wait(LOOK_SECONDS):
            self._connection.interrupt()

    def _work(self) -> None:
        reader: Any = None
        try:
            reader = self._connection.sql(self._query).to_arrow_reader(_GROUP_ROWS)
            self._writing.begin(reader.schema)
            for batch in reader:
                if self._stopped or self._writing.failed:
                    break
                self._writing.put(batch)
        except (duckdb.Error, OSError) as error:
            self.failed = error
        finally:
            if reader is not None:
                reader.close()
            self._writing.end()
            self.ended.set()
