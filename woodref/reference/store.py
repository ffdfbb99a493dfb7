"""Open the packaged Parquet tables read-only in an in-memory DuckDB."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from woodref.errors import WoodrefError
from woodref.reference.checksums import CHECKSUMS, intact, is_published
from woodref.reference.ready import READY, ready_file

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection


def data_directory() -> Path:
    """Folder of the Parquet files: inside the installed package, else of the checkout."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "_reference", package.parent / "datasets" / "reference"):
        if (folder / CHECKSUMS).is_file():
            return folder
    raise WoodrefError(
        f"{folder / CHECKSUMS}: missing, the reference dataset is not built or not whole; install "
        "woodref again, or run 'python -m pipeline build' in a checkout"
    )


def table_sql(folder: Path, table: str) -> str:
    """The SQL that reads one table of the folder, or one of those made ready of them.

    Raises: WoodrefError for a file that does not hold what was published.
    """
    ready = table.startswith("ready_")
    file = ready_file(folder, table) if ready else folder / f"{table}.parquet"
    return file_sql(intact(file, folder))


def file_sql(file: Path) -> str:
    """The SQL that reads a Parquet file."""
    return f"read_parquet({literal(file)})"


def literal(text: object) -> str:
    """A text, or a path, as SQL takes it."""
    return "'" + str(text).replace("'", "''") + "'"


def ready_sql(folder: Path, table: str) -> str:
    """The SQL that makes a table of READY of the tables of the folder."""
    return READY[table].format_map(_Tables(folder))


def engine() -> Any:
    """DuckDB's own module, without the package around it where it is installed so.

    The package adds relations, expressions and scans of Python objects, whose import takes longer
    than a look-up, and a look-up needs none of them.
    """
    try:
        return import_module("_duckdb")
    except ImportError:
        return import_module("duckdb")


def connect() -> DuckDBPyConnection:
    """A new in-memory DuckDB for tables as small as ours, which one thread reads fastest."""
    connection: DuckDBPyConnection = engine().connect(":memory:", config={"threads": 1})
    return connection


def dict_rows(cursor: DuckDBPyConnection) -> list[dict[str, Any]]:
    """What a query found, one dict a row: column name to Python value."""
    return _dicts([column[0] for column in cursor.description or ()], cursor.fetchall())


def _dicts(names: list[str], rows: list[tuple[Any, ...]]) -> list[dict[str, Any]]:
    return [dict(zip(names, row, strict=True)) for row in rows]


class _Tables(dict[str, str]):
    """The SQL of each table, made when a query names it."""

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.folder = folder

    def __missing__(self, table: str) -> str:
        made = table in READY and not is_published(ready_file(self.folder, table), self.folder)
        self[table] = (
            f"({ready_sql(self.folder, table)})" if made else table_sql(self.folder, table)
        )
        return self[table]


#: Answers kept of a store, and rows of one that is kept: what a piece of several woods asks twice.
_KEPT, _KEPT_ROWS = 256, 500


class Store:
    """One in-memory DuckDB over the Parquet of a folder; rows come back as plain dicts.

    A question asked again is answered as before: the dataset does not change.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder or data_directory()
        self._tables = _Tables(self.folder)
        self._kept: dict[tuple[object, ...], tuple[list[str], list[tuple[Any, ...]]]] = {}
        self.connection = connect()

    def rows(self, query: str, parameters: Sequence[object] = ()) -> list[dict[str, Any]]:
        """Run a query in which ``{table}`` stands for a table of the dataset.

        Parameters: query SQL with ``{table}`` names and ``?`` marks; parameters for the marks.
        Returns: one dict per row, column name to Python value.
        Raises: WoodrefError where a table of the dataset is missing or cannot be read.
        """
        asked = (query, *(tuple(p) if isinstance(p, list) else p for p in parameters))
        known = self._kept.get(asked)
        if known is None:
            known = self._answer(query, parameters)
            if len(known[1]) <= _KEPT_ROWS:
                if len(self._kept) >= _KEPT:
                    self._kept.clear()
                self._kept[asked] = known
        return _dicts(*known)

    def _answer(
        self, query: str, parameters: Sequence[object]
    ) -> tuple[list[str], list[tuple[Any, ...]]]:
        of = engine()
        try:
            cursor = self.connection.execute(query.format_map(self._tables), list(parameters))
        except (of.IOException, of.InvalidInputException) as error:
            problem = str(error).partition("\n")[0]
            raise WoodrefError(
                f"the reference dataset cannot be read: {problem}; run 'python -m pipeline build' "
                "in the checkout, or install the package again"
            ) from None
        return [column[0] for column in cursor.description or ()], cursor.fetchall()
