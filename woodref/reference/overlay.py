"""The shop's own figures: a Parquet overlay in the user's data directory.

A folder per kind, its name carrying the number of the format, and in it a file per batch, so that
a table is added or taken out without the others being written anew. The name of a file ends in the
CRC-32 of what it holds, so that the two are renamed into place as one; a file is compared with it
where it is opened. Version 2 kept no checksum, version 1 all batches in one file; both are read
where they are left, as they are. The packaged data is never touched; a look-up without an overlay
costs one look at the folder.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Any

from woodref.errors import WoodrefError, system_reason
from woodref.files_in_use import remember
from woodref.reference.bases import OWN
from woodref.reference.checksums import crc32_of_file
from woodref.reference.properties import PROPERTIES
from woodref.reference.store import Store, dict_rows, engine, literal
from woodref.reference.woods import SpreadParts, Value
from woodref.user_folders import user_folder

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection

#: Number of the format; files of a greater number are of a newer version.
FORMAT = 3
#: The format before it, of files without a checksum.
_UNCHECKED_FORMAT = 2
KINDS: dict[str, str] = {
    "measurements": "measured boards",
    "prices": "price list",
    "places": "air of places, month by month",
    "yard": "woods your own yard has",
}
#: From so many own figures on, their own spread is used instead of the published one.
SPREAD_FROM = 3
#: Origins, and notes, shown of a figure that has many.
_SHOWN = 3
#: Said of a place of which two seasons are given.
BETWEEN = "months between winter and summer follow a cosine from January to July, our own choice"
_OFF = "WOODREF_NO_OWN"
#: What to do about a damaged file where figures are read.
WAY_OUT = "go on without them with --no-own, or move the file away and add its table again"


def batch_folder(kind: str, number: int = FORMAT) -> Path:
    """The folder of the batches of a kind in a format, there or not."""
    # Earlier versions refuse what is called so, as of a newer version.
    return user_folder("data") / f"{kind}-{number}.parquet"


def batch_file(kind: str, batch: str, written: Path) -> Path:
    """Where a batch is kept that was written to a file."""
    return batch_folder(kind) / f"{batch}-{crc32_of_file(written)}.parquet"


def batch_of(file: Path) -> str:
    """The batch that a file of the overlay holds alone, as its name says; '' in version 1."""
    return file.stem.partition("-")[0] if file.parent != user_folder("data") else ""


def first_file(kind: str) -> Path:
    """The file in which version 1 kept the batches of a kind, there or not."""
    return user_folder("data") / f"{kind}-1.parquet"


def switched_off() -> bool:
    """True where own figures are to be left out (--no-own, or WOODREF_NO_OWN)."""
    return os.environ.get(_OFF, "") not in ("", "0")


def leave_out() -> None:
    """Leave own figures out for the rest of this process."""
    os.environ[_OFF] = "1"


def present(kind: str) -> tuple[Path, ...]:
    """The files of the overlay of a kind, none where it is switched off.

    Raises: as stored.
    """
    return () if switched_off() else stored(kind)


def stored(kind: str) -> tuple[Path, ...]:
    """The files of the overlay of a kind in the order they came, switched off or not.

    Raises: WoodrefError where a newer version of the program wrote it, or the folder is there
    and cannot be listed.
    """
    folder = user_folder("data")
    names = _listed_names(folder)
    for name in names:
        number = name.removeprefix(f"{kind}-").removesuffix(".parquet")
        if name == f"{kind}-{number}.parquet" and number.isdigit() and int(number) > FORMAT:
            raise WoodrefError(
                f"{folder / name}: written by a newer version of woodref (format {number}, "
                f"this one reads {FORMAT}); update woodref, or go on without it: --no-own"
            )
    files = [first_file(kind)] if first_file(kind).name in names else []
    for folder in (batch_folder(kind, _UNCHECKED_FORMAT), batch_folder(kind)):
        if folder.name in names:
            batches = [n for n in _listed_names(folder) if n.endswith(".parquet")]
            files += [folder / n for n in sorted(batches, key=lambda n: (len(n), n))]
    for file in files:
        remember(file)
    return tuple(files)


def _listed_names(folder: Path) -> list[str]:
    try:
        return os.listdir(folder)
    except OSError as error:
        # A link to a drive that is away is no folder without figures.
        if isinstance(error, FileNotFoundError) and not folder.is_symlink():
            return []
        reason = system_reason(error)
        raise WoodrefError(
            f"{folder}: the folder of your own figures cannot be read: {reason}; mend that, or go "
            "on without them: --no-own"
        ) from None


@lru_cache(maxsize=8)
def _looked_at(*environment: str | None) -> tuple[str, ...]:
    """Folder and files of own figures, for what the environment says of them."""
    kind = "measurements"
    folders = (user_folder("data"), batch_folder(kind), batch_folder(kind, _UNCHECKED_FORMAT))
    return *map(str, folders), str(first_file(kind))


def own_state() -> tuple[object, ...]:
    """What is another where the shop's own figures of woods are others.

    Where they are kept, whether they are left out, and what the file system says of them: a look
    of a few microseconds, for what is kept of an earlier look-up.
    """
    told_of = os.environ.get
    named = told_of("WOODREF_DATA")
    # Where the folder is named, nothing else of the environment tells it (own_folder).
    of_user = () if named and named.strip() else (told_of("XDG_DATA_HOME"), told_of("HOME"))
    looked_at = _looked_at(named, *of_user)
    told: list[object] = [told_of(_OFF), looked_at]
    for path in looked_at:
        try:
            seen = os.stat(path)
        except OSError as error:
            told.append(error.errno)
            continue
        told += (seen.st_mtime_ns, seen.st_ino, seen.st_size)
    return tuple(told)


def files_sql(files: Iterable[Path], way_out: str = WAY_OUT) -> str:
    """The rows of the files of an overlay, as SQL selects from them.

    Parameters: files; way_out, what to do about one that is damaged.
    Raises: WoodrefError for a file that does not hold what was stored.
    """
    for file in files:
        _compare(file, way_out)
    listed = ", ".join(map(literal, files))
    return f"read_parquet([{listed}], union_by_name = true)"


def _has_checksum(file: Path) -> bool:
    return file.parent.name.endswith(f"-{FORMAT}.parquet")


def _compare(file: Path, way_out: str) -> None:
    """Compare a file with the checksum in its name; one of an earlier format has none."""
    if not _has_checksum(file):
        return
    try:
        seen = os.stat(file)
        held = _held(file, seen.st_mtime_ns, seen.st_size, seen.st_ino)
    except OSError as error:
        raise WoodrefError(
            f"{file}: your own figures cannot be read, {system_reason(error)}; {way_out}"
        ) from None
    if held != file.stem.partition("-")[2]:
        raise damaged([file], "the file does not hold what was stored in it", way_out)


@lru_cache(maxsize=4096)
def _held(file: Path, *state: int) -> str:
    """The checksum of what a file holds, computed again when the file has changed."""
    return crc32_of_file(file)


def read_own(
    store: Store, files: Sequence[Path], query: str, parameters: Iterable[object] = ()
) -> list[dict[str, Any]]:
    """Rows of a query over the files of an overlay, for which ``{own}`` stands.

    Raises: WoodrefError naming a file that cannot be read, or holds numbers that are none.
    """
    try:
        refuse_lists(store.connection, files)
        cursor = store.connection.execute(
            query.replace("{own}", files_sql(files)), list(parameters)
        )
        rows = dict_rows(cursor)
    except engine().Error as error:
        raise unreadable(store.connection, files, error) from None
    if any(isinstance(x, float) and not isfinite(x) for row in rows for x in row.values()):
        raise damaged(files, "holds a number that is none")
    return rows


def refuse_lists(
    connection: DuckDBPyConnection, files: Iterable[Path], way_out: str = WAY_OUT
) -> None:
    """Refuse a file without a checksum with several values in a cell: a flipped bit makes them.

    Raises: WoodrefError; what DuckDB raises of a file that it cannot read.
    """
    for file in files:
        if _has_checksum(file):
            continue
        levels = f"select count(*) from parquet_schema({literal(file)}) where num_children > 0"
        if connection.execute(levels).fetchall()[0][0] > 1:
            raise damaged([file], "a cell of several values", way_out)


def damaged(files: Sequence[Path], problem: str, way_out: str = WAY_OUT) -> WoodrefError:
    """The error for files of the overlay that hold what is never taken in."""
    file = files[0] if len(files) == 1 else files[0].parent
    return WoodrefError(f"{file}: your own figures are damaged: {problem}; {way_out}")


def unreadable(
    connection: DuckDBPyConnection, files: Sequence[Path], error: Exception, way_out: str = WAY_OUT
) -> WoodrefError:
    """The error for files that cannot be read: which of them, why, and the way out."""
    for file in files:
        try:
            connection.execute(f"select * from {files_sql([file], way_out)} limit 0")
        except engine().Error as why:
            error = why
            break
    else:
        file = files[0].parent
    why_not = str(error).splitlines()[0]
    return WoodrefError(f"{file}: your own figures cannot be read ({why_not}); {way_out}")


def _listed(texts: Iterable[object]) -> str:
    """A few texts in a line, and how many more there are."""
    told = sorted(str(t) for t in texts if t)
    more = f"; and {len(told) - _SHOWN} more" if len(told) > _SHOWN else ""
    return "; ".join(told[:_SHOWN]) + more


def _reason(figures: int, boards: int, spread: bool) -> str:
    """What a value of several figures is, '' for one board."""
    if boards < 2:
        return ""
    of = f" of {boards} boards" if boards > figures else ""
    return f"the mean of {figures} of your own figures{of}" + (
        ", and the spread between boards is theirs" if spread else ""
    )


#: Where the figures of a value come from, what was written, and the notes beside it.
_TEXTS = (
    "count(origin) = count(*) and count(added) = count(*) as has_origin, "
    "list(distinct concat(origin, ' (', coalesce(measured, added), ')')) as origins, "
    "min_by(trim(concat(printed_value, ' ', nullif(printed_unit, '1'))), "
    f"concat(lpad(batch, 9, '0'), lpad(line::varchar, 9, '0')), {SPREAD_FROM}) as printed, "
    "list(distinct note) as notes"
)
_NO_TEXTS = (
    "true as has_origin, []::varchar[] as origins, []::varchar[] as printed, []::varchar[] as notes"
)


def own_values(
    store: Store, species_ids: list[str], texts: bool = True
) -> dict[str, dict[tuple[str, str], Value]]:
    """The shop's own values of woods: the mean of its figures, by wood, property and condition.

    A figure that is the mean of several boards counts as many times. The spread between boards
    is that of the figures where they are of single boards, three or more, and not all alike;
    else the published coefficient of variation. Basis 'own', source the origin and day given
    with them.

    Parameters: store; species_ids; texts, whether origins, notes and what was written are told,
    which of very many figures takes most of the time.
    Raises: WoodrefError for a file that cannot be read, or holds a figure that no wood has.
    """
    files = present("measurements")
    if not files:
        return {}
    marks = ", ".join("?" for _ in species_ids)
    out: dict[str, dict[tuple[str, str], Value]] = {}
    for row in read_own(
        store,
        files,
        "select species_id, property_id, condition, sum(value * boards) / sum(boards) as value, "
        "count(*) as n, sum(boards)::bigint as boards, max(boards) = 1 as single, "
        "stddev_samp(value) as sd, avg(moisture_content_pct) as moisture, "
        "count(value) as known, "
        f"{_TEXTS if texts else _NO_TEXTS} "
        "from (select *, coalesce(sample_size, 1) as boards from {own} "
        f"where species_id in ({marks}) or species_id is null) group by all",
        species_ids,
    ):
        if None in (row["species_id"], row["property_id"]) or row["known"] < row["n"]:
            raise damaged(files, "a row without its species_id, property_id or value")
        if not row["has_origin"]:
            raise damaged(files, "a row without its origin or added")
        p = PROPERTIES.get(row["property_id"])
        if p is None:
            raise WoodrefError(
                f"{files[0].parent}: holds a property this version does not know, "
                f"'{row['property_id']}'; update woodref, or go on without: --no-own"
            )
        if row["condition"] not in dict(p.columns):
            raise damaged(files, f"{p.label} in a condition it is not measured in")
        if row["value"] is None or not p.low <= row["value"] <= p.high:
            raise damaged(files, f"{p.label} of {row['value']} {p.si_unit}")
        spread = row["single"] and row["n"] >= SPREAD_FROM and row["sd"] > 0.0
        published = None if p.cv_pct is None else p.cv_pct / 100.0 * row["value"]
        between_boards = row["sd"] if spread else published
        key = (row["property_id"], row["condition"])
        out.setdefault(row["species_id"], {})[key] = Value(
            property_id=p.property_id,
            condition=row["condition"],
            value=row["value"],
            unit=p.si_unit,
            sd=between_boards,
            spread_parts=SpreadParts(between_boards or 0.0),
            basis=OWN,
            source=f"your own: {_listed(row['origins'])}",
            printed="; ".join(map(str, row["printed"]))
            if row["n"] <= SPREAD_FROM
            else f"mean of {row['n']} figures",
            basis_reason=_reason(row["n"], row["boards"], bool(spread)),
            moisture_content_pct=row["moisture"],
            note=_listed(row["notes"]),
            members=1,
        )
    return out
