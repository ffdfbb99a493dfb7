"""Open the packaged Parquet tables read-only in an in-memory DuckDB."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import duckdb

from woodref.errors import WoodrefError


def data_directory() -> Path:
    """Folder of the Parquet files: inside the installed package, else of the checkout."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "_reference", package.parent / "datasets" / "reference"):
        if (folder / "species.parquet").is_file():
            return folder
    raise WoodrefError(
        "the reference dataset is not built; run 'python -m pipeline build' in the checkout"
    )


def table_sql(folder: Path, table: str) -> str:
    """The SQL that reads one table of the folder."""
    path = str(folder / f"{table}.parquet").replace("'", "''")
    return f"read_parquet('{path}')"


def connect() -> duckdb.DuckDBPyConnection:
    """A new in-memory DuckDB for tables as small as ours, which one thread reads fastest."""
    return duckdb.connect(":memory:", config={"threads": 1})


def ready_file(folder: Path, table: str) -> Path:
    """The file of a table made ready of the others, so that no command has to make it."""
    return folder / "ready" / f"{table}.parquet"


def dict_rows(cursor: duckdb.DuckDBPyConnection) -> list[dict[str, Any]]:
    """What a query found, one dict a row: column name to Python value."""
    names = [column[0] for column in cursor.description or ()]
    return [dict(zip(names, row, strict=True)) for row in cursor.fetchall()]


class _Tables(dict[str, str]):
    """The SQL of each table, made when a query names it."""

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.folder = folder

    def __missing__(self, table: str) -> str:
        self[table] = table_sql(self.folder, table)
        return self[table]


class Store:
    """One in-memory DuckDB over the Parquet of a folder; rows come back as plain dicts."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder or data_directory()
        self._tables = _Tables(self.folder)
        self.connection = connect()

    def rows(self, query: str, parameters: Sequence[object] = ()) -> list[dict[str, Any]]:
        """Run a query in which ``{table}`` stands for a table of the dataset.

        Parameters: query SQL with ``{table}`` names and ``?`` marks; parameters for the marks.
        Returns: one dict per row, column name to Python value.
        Raises: WoodrefError where a table of the dataset is missing or cannot be read.
        """
        try:
            cursor = self.connection.execute(query.format_map(self._tables), list(parameters))
        except (duckdb.IOException, duckdb.InvalidInputException) as error:
            problem = str(error).partition("\n")[0]
            raise WoodrefError(
                f"the reference dataset cannot be read: {problem}; run 'python -m pipeline build' "
                "in the checkout, or install the package again"
            ) from None
        return dict_rows(cursor)
