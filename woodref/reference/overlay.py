"""The shop's own figures: a Parquet overlay in the user's data directory.

One file per kind, its name carrying the number of the format. The packaged data is never
touched; a look-up without an overlay costs one look at the folder.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from woodref.errors import WoodrefError
from woodref.reference.properties import PROPERTIES
from woodref.reference.store import Store
from woodref.reference.woods import Value

#: Number of the format of the files; a file of a greater number is of a newer version.
FORMAT = 1
KINDS: dict[str, str] = {
    "measurements": "measured boards",
    "prices": "price list",
    "places": "air of places, month by month",
}
#: From so many own figures on, their own spread is used instead of the published one.
SPREAD_FROM = 3
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

    Raises: WoodrefError where a newer version of the program wrote it.
    """
    return None if switched_off() else stored(kind)


def stored(kind: str) -> Path | None:
    """The overlay of a kind where there is one, switched off or not.

    Raises: WoodrefError where a newer version of the program wrote it.
    """
    try:
        names = os.listdir(own_folder())
    except OSError:
        return None
    mine = own_file(kind)
    for name in names:
        number = name.removeprefix(f"{kind}-").removesuffix(".parquet")
        if name == f"{kind}-{number}.parquet" and number.isdigit() and int(number) > FORMAT:
            raise WoodrefError(
                f"{own_folder() / name}: written by a newer version of woodref (format {number}, "
                f"this one reads {FORMAT}); update woodref, or go on without it: --no-own"
            )
    return mine if mine.name in names else None


def read_own(
    store: Store, path: Path, query: str, parameters: Iterable[object] = ()
) -> list[dict[str, Any]]:
    """Rows of a query over an overlay, ``{own}`` standing for the file.

    Raises: WoodrefError naming the file where it cannot be read.
    """
    import duckdb

    quoted = str(path).replace("'", "''")
    try:
        cursor = store.connection.execute(
            query.replace("{own}", f"read_parquet('{quoted}')"), list(parameters)
        )
        names = [column[0] for column in cursor.description or ()]
        return [dict(zip(names, row, strict=True)) for row in cursor.fetchall()]
    except duckdb.Error as error:
        reason = str(error).split("\n", 1)[0]
        raise WoodrefError(
            f"{path}: your own figures cannot be read ({reason}); go on without them with "
            "--no-own, or move the file away"
        ) from None


def own_values(store: Store, species_ids: list[str]) -> dict[str, dict[tuple[str, str], Value]]:
    """The shop's own values of woods: the mean of its figures, by wood, property and condition.

    The spread is that of the figures from three on, else the published coefficient of
    variation; basis 'own', source the origin and day given with them.
    """
    path = present("measurements")
    if path is None:
        return {}
    marks = ", ".join("?" for _ in species_ids)
    out: dict[str, dict[tuple[str, str], Value]] = {}
    for row in read_own(
        store,
        path,
        "select species_id, property_id, condition, avg(value) as value, count(*) as n, "
        "stddev_samp(value) as sd, avg(moisture_content_pct) as moisture, "
        "string_agg(distinct origin || ' (' || added || ')', '; ') as origin, "
        "string_agg(trim(printed_value || ' ' || printed_unit), '; ' order by added, line) as "
        "printed, string_agg(distinct nullif(note, ''), '; ') as note "
        f"from {{own}} where species_id in ({marks}) group by all order by all",
        species_ids,
    ):
        p = PROPERTIES[row["property_id"]]
        published = None if p.cv_pct is None else p.cv_pct / 100.0 * row["value"]
        key = (row["property_id"], row["condition"])
        out.setdefault(row["species_id"], {})[key] = Value(
            property_id=p.property_id,
            condition=row["condition"],
            value=row["value"],
            unit=p.si_unit,
            sd=row["sd"] if row["n"] >= SPREAD_FROM else published,
            basis="own",
            source=f"your own: {row['origin']}",
            printed=row["printed"] if row["n"] <= SPREAD_FROM else f"mean of {row['n']} figures",
            moisture_content_pct=row["moisture"],
            note=row["note"] or "",
            members=1,
        )
    return out
