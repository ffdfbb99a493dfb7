"""Run a long statement while its progress is told, and stop it where it is interrupted."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event, Thread
from time import monotonic
from typing import Any, NamedTuple, TypeAlias

import duckdb

#: Between two looks at how far it is [s].
LOOK_SECONDS = 0.2


class Progress(NamedTuple):
    """How far a catalog is: rows done of all, and the seconds that took."""

    done: int
    rows: int
    seconds: float


#: What is told how far it is.
Watch: TypeAlias = Callable[[Progress], None]


def waited(
    connection: duckdb.DuckDBPyConnection,
    query: str,
    rows: int = 0,
    watch: Watch | None = None,
) -> list[tuple[Any, ...]]:
    """The rows of a statement; an interrupt stops it before it is passed on.

    Parameters: connection; query; rows the statement goes over, and watch, told how far it is.
    Raises: what DuckDB raises; KeyboardInterrupt.
    """
    failed: list[BaseException] = []
    answer: list[tuple[Any, ...]] = []
    # An event, as a join that is interrupted takes the thread for ended.
    ended = Event()

    def work() -> None:
        try:
            answer.extend(connection.execute(query).fetchall())
        except BaseException as error:
            failed.append(error)
        finally:
            ended.set()

    begun = monotonic()
    try:
        Thread(target=work, daemon=True).start()
        while not ended.wait(LOOK_SECONDS):
            if watch:
                share = max(0.0, connection.query_progress()) / 100.0
                watch(Progress(int(share * rows), rows, monotonic() - begun))
    except BaseException:
        while not ended.wait(LOOK_SECONDS):
            connection.interrupt()
        raise
    if failed:
        raise failed[0]
    return answer
