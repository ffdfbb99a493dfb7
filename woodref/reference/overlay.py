"""The shop's own figures: a Parquet overlay in the user's data directory.

One file per kind, its name carrying the number of the format. The packaged data is never
touched; a look-up without an overlay costs one look at the folder.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from typing import Any

from woodref.errors import WoodrefError
from woodref.files_in_use import remember
from woodref.reference.bases import OWN
from woodref.reference.properties import PROPERTIES
from woodref.reference.store import Store, dict_rows, engine
from woodref.reference.woods import SpreadParts, Value

#: Number of the format of the files; a file of a greater number is of a newer version.
FORMAT = 1
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


def own_folder() -> Path:
    """Folder of the overlay: WOODREF_DATA, else the platform's data directory."""
    named = os.environ.get("WOODREF_DATA", "").strip()
    if named:
        return Path(named)
    if sys.platform == "linux":
        # The XDG base directory specification in two lines spares a look-up an import.
        base = os.environ.get("XDG_DATA_HOME", "").strip()
        return (Path(base) if base else Path.home() / ".local" / "share") / "woodref"
    import platformdirs

    return Path(platformdirs.user_data_dir("woodref", appauthor=False))


def own_file(kind: str) -> Path:
    """Path of the overlay of a kind, there or not."""
    return own_folder() / f"{kind}-{FORMAT}.parquet"


def switched_off() -> bool:
    """True where own figures are to be left out (--no-own, or WOODREF_NO_OWN)."""
    return os.environ.get(_OFF, "") not in ("", "0")


def leave_out() -> None:
    """Leave own figures out for the rest of this process."""
    os.environ[_OFF] = "1"


def present(kind: str) -> Path | None:
    """The overlay of a kind where there is one and it is not switched off.

    Raises: as stored.
    """
    return None if switched_off() else stored(kind)


def stored(kind: str) -> Path | None:
    """The overlay of a kind where there is one, switched off or not.

    Raises: WoodrefError where a newer version of the program wrote it, or the folder is there
    and cannot be listed.
    """
    folder = own_folder()
    try:
        names = os.listdir(folder)
    except OSError as error:
        # A link to a drive that is away is no folder without figures.
        if isinstance(error, FileNotFoundError) and not folder.is_symlink():
            return None
        reason = (error.strerror or "").lower()
        raise WoodrefError(
            f"{folder}: the folder of your own figures cannot be read: {reason}; mend that, or go "
            "on without them: --no-own"
        ) from None
    mine = own_file(kind)
    for name in names:
        number = name.removeprefix(f"{kind}-").removesuffix(".parquet")
        if name == f"{kind}-{number}.parquet" and number.isdigit() and int(number) > FORMAT:
            raise WoodrefError(
                f"{folder / name}: written by a newer version of woodref (format {number}, "
                f"this one reads {FORMAT}); update woodref, or go on without it: --no-own"
            )
    if mine.name not in names:
        return None
    remember(mine)
    return mine


@lru_cache(maxsize=8)
def _looked_at(*environment: str | None) -> tuple[str, str]:
    """Folder and file of own figures, for what the environment says of them."""
    return str(own_folder()), str(own_file("measurements"))


def own_state() -> tuple[object, ...]:
    """What is another where the shop's own figures of woods are others.

    Where they are kept, whether they are left out, and what the file system says of them: a look
    of a few microseconds, for what is kept of an earlier look-up.
    """
    told_of = os.environ.get
    looked_at = _looked_at(told_of("WOODREF_DATA"), told_of("XDG_DATA_HOME"), told_of("HOME"))
    told: list[object] = [told_of(_OFF), looked_at]
    for path in looked_at:
        try:
            seen = os.stat(path)
        except OSError as error:
            told.append(error.errno)
            break  # without the folder there is no file
        told += (seen.st_mtime_ns, seen.st_ino, seen.st_size)
    return tuple(told)


def read_own(
    store: Store, path: Path, query: str, parameters: Iterable[object] = ()
) -> list[dict[str, Any]]:
    """Rows of a query over an overlay, ``{own}`` standing for the file.

    Raises: WoodrefError naming the file where it cannot be read.
    """
    quoted = str(path).replace("'", "''")
    try:
        cursor = store.connection.execute(
            query.replace("{own}", f"read_parquet('{quoted}')"), list(parameters)
        )
        return dict_rows(cursor)
    except engine().Error as error:
        reason = str(error).split("\n", 1)[0]
        raise WoodrefError(
            f"{path}: your own figures cannot be read ({reason}); go on without them with "
            "--no-own, or move the file away"
        ) from None


def _listed(texts: list[str | None]) -> str:
    """A few texts in a line, and how many more there are."""
    told = sorted(t for t in texts if t)
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


def own_values(store: Store, species_ids: list[str]) -> dict[str, dict[tuple[str, str], Value]]:
    """The shop's own values of woods: the mean of its figures, by wood, property and condition.

    A figure that is the mean of several boards counts as many times. The spread between boards
    is that of the figures where they are of single boards, three or more, and not all alike;
    else the published coefficient of variation. Basis 'own', source the origin and day given
    with them.

    Raises: WoodrefError for a file that cannot be read.
    """
    path = present("measurements")
    if path is None:
        return {}
    marks = ", ".join("?" for _ in species_ids)
    out: dict[str, dict[tuple[str, str], Value]] = {}
    for row in read_own(
        store,
        path,
        "select species_id, property_id, condition, sum(value * boards) / sum(boards) as value, "
        "count(*) as n, sum(boards)::bigint as boards, max(boards) = 1 as single, "
        "stddev_samp(value) as sd, avg(moisture_content_pct) as moisture, "
        "list(distinct concat(origin, ' (', coalesce(measured, added), ')')) as origins, "
        "min_by(trim(concat(printed_value, ' ', nullif(printed_unit, '1'))), "
        f"concat(lpad(batch, 9, '0'), lpad(line::varchar, 9, '0')), {SPREAD_FROM}) as printed, "
        "list(distinct note) as notes "
        "from (select *, coalesce(sample_size, 1) as boards from {own} "
        f"where species_id in ({marks})) group by all",
        species_ids,
    ):
        p = PROPERTIES.get(row["property_id"])
        if p is None:
            raise WoodrefError(
                f"{path}: holds a property this version does not know, '{row['property_id']}'; "
                "update woodref, or go on without: --no-own"
            )
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
            printed="; ".join(row["printed"])
            if row["n"] <= SPREAD_FROM
            else f"mean of {row['n']} figures",
            basis_reason=_reason(row["n"], row["boards"], bool(spread)),
            moisture_content_pct=row["moisture"],
            note=_listed(row["notes"]),
            members=1,
        )
    return out
