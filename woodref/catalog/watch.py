"""Run a long statement while its progress is told, and stop it where it is interrupted."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Thread
from time import monotonic
from typing import NamedTuple, TypeAlias

import duckdb

from woodref.catalog.inputs import run

#: Between two looks at how far it is [s].
_LOOK_SECONDS = 0.2


class Progress(NamedTuple):
    """How far a catalog is: rows done of all, and the seconds that took."""

    done: int
    rows: int
    seconds: float


#: What is told how far it is.
Watch: TypeAlias = Callable[[Progress], None]


def watched(
    connection: duckdb.DuckDBPyConnection,
    query: str,
    path: Path,
    rows: int,
    watch: Watch | None,
) -> None:
    """Run a statement over so many rows; an interrupt stops it first.

    Raises: as woodref.catalog.inputs.run; KeyboardInterrupt.
    """
    failed: list[BaseException] = []

    def work() -> None:
        try:
            run(connection, query, path)
        except BaseException as error:
            failed.append(error)

    thread = Thread(target=work, daemon=True)
    begun = monotonic()
    thread.start()
    try:
        while thread.is_alive():
            thread.join(_LOOK_SECONDS)
            if watch and thread.is_alive():
                share = max(0.0, connection.query_progress()) / 100.0
                watch(Progress(int(share * rows), rows, monotonic() - begun))
    except BaseException:
        connection.interrupt()
        thread.join()
        raise
    if failed:
        raise failed[0]
