"""The publications behind the numbers: how many figures each gives, and which of them are used."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from woodref.errors import InputError
from woodref.files import nearest
from woodref.record import record
from woodref.reference.fields import TABLES
from woodref.reference.store import Store

#: Sources listed in a message, at most.
_LISTED = 8


@record
class Source:
    """A publication: its row of the table sources, and what the dataset holds of it.

    ``measurements`` printed figures, ``preferred`` how many of them are used, ``bases`` how many
    are known in which way, the most first; ``other_rows`` rows of other tables.
    """

    source_id: str
    title: str
    short: str
    authors: str | None
    publisher: str | None
    report_number: str | None
    year: int | None
    license: str
    url: str | None
    how: str
    rank: int
    measurements: int
    preferred: int
    bases: dict[str, int]
    other_rows: int


class SourceFigures(NamedTuple):
    """The figures of one property in a table of a source, known in one way."""

    property_id: str
    printed_table: str | None
    basis: str
    measurements: int
    preferred: int


def sources_of(store: Store) -> list[Source]:
    """Every publication, in the order of precedence.

    Raises: as woodref.reference.store.Store.rows.
    """
    rows = store.rows(
        "select s.*, count(m.measurement_id) as measurements, "
        "count(m.measurement_id) filter (where m.preferred) as preferred "
        "from {sources} s left join {measurements} m using (source_id) group by all "
        "order by rank, measurements desc, source_id"
    )
    bases: dict[str, dict[str, int]] = {}
    for row in store.rows(
        "select source_id, basis, count(*) as n from {measurements} group by all "
        "order by n desc, basis"
    ):
        bases.setdefault(row["source_id"], {})[row["basis"]] = row["n"]
    others = _other_rows(store)
    return [
        Source(**row, bases=bases.get(key, {}), other_rows=others.get(key, 0))
        for row in rows
        for key in (row["source_id"],)
    ]


def _other_rows(store: Store) -> dict[str, int]:
    """How many rows each source gives to tables other than that of the measurements."""
    tables = [
        f"select source_id from {{{t.name}}}"
        for t in TABLES.values()
        if "source_id" in t.columns
        and t.name not in ("sources", "measurements")
        and (store.folder / f"{t.name}.parquet").is_file()
    ]
    rows = store.rows(
        f"select source_id, count(*) as n from ({' union all '.join(tables)}) group by all"
    )
    return {row["source_id"]: row["n"] for row in rows}


def source_named(name: str, sources: Sequence[Source]) -> Source:
    """The source whose identifier or short citation is the name, or the only one it is part of.

    Raises: InputError with the nearest identifiers.
    """
    key = name.strip().casefold()
    exact = [s for s in sources if key in (s.source_id.casefold(), s.short.casefold())]
    part = [s for s in sources if key in f"{s.source_id} {s.short} {s.title}".casefold()]
    hits = exact or part
    if len(hits) == 1:
        return hits[0]
    if hits and key:
        more = f" and {len(hits) - _LISTED} more" if len(hits) > _LISTED else ""
        raise InputError(
            f"'{name}' is part of {len(hits)} sources; choose one: "
            + ", ".join(s.source_id for s in hits[:_LISTED])
            + more
        )
    hint = nearest(name, [s.source_id for s in sources], "woodref sources lists them", 3)
    raise InputError(f"no source is called '{name}'; {hint}")


def figures_of(store: Store, source_id: str) -> list[SourceFigures]:
    """What a source prints, property by property, the most figures first."""
    rows = store.rows(
        "select property_id, printed_table, basis, count(*) as measurements, "
        "count(*) filter (where preferred) as preferred from {measurements} "
        "where source_id = ? group by all "
        "order by measurements desc, property_id, printed_table, basis",
        [source_id],
    )
    return [SourceFigures(**row) for row in rows]
