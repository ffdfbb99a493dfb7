"""Finishes of the moisture-excluding effectiveness table, by name."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from woodref.errors import InputError
from woodref.reference.checksums import is_published
from woodref.reference.finish_kin import KIN
from woodref.reference.library import Reference
from woodref.reference.names import fold
from woodref.reference.ready import ready_file

#: Words for no finish at all.
NO_FINISH = ("none", "bare", "nothing", "unfinished")


class FinishRow(NamedTuple):
    """One printed row: the share of the moisture a finish kept out [%] after so many days.

    ``resistances`` to vapor of the finish, fitted to its rows, one for each of the cases of
    woodref.drying.finish_fit, where the dataset holds them [Pa s m2/kg].
    """

    finish: str
    coats: int
    days: int
    excluded_pct: float
    basis: str
    source: str
    note: str
    resistances: tuple[float, ...] = ()


def finish_rows(reference: Reference) -> tuple[FinishRow, ...]:
    """The table of finishes, in the order of print."""
    rows = reference.store.rows(
        "select f.finish, f.coats, f.days, f.moisture_excluded_pct, f.basis, s.short, "
        "f.printed_table, f.note from {finishes} f join {sources} s using (source_id) "
        "where f.moisture_excluded_pct is not null order by f.source_line"
    )
    fitted = _resistances(reference)
    return tuple(
        FinishRow(
            r["finish"],
            r["coats"],
            r["days"],
            r["moisture_excluded_pct"],
            r["basis"],
            f"{r['short']}, Table {r['printed_table']}" if r["printed_table"] else r["short"],
            r["note"] or "",
            fitted.get((r["finish"], r["coats"]), ()),
        )
        for r in rows
    )


def _resistances(reference: Reference) -> dict[tuple[str, int], tuple[float, ...]]:
    """What the pipeline fitted, by finish and coats; empty where the dataset is without."""
    if not is_published(ready_file(reference.folder, "finish_fits"), reference.folder):
        return {}
    rows = reference.store.rows("select * from {ready_finish_fits} order by fit_case")
    fitted: dict[tuple[str, int], tuple[float, ...]] = {}
    for r in rows:
        key = (r["finish"], r["coats"])
        fitted[key] = (*fitted.get(key, ()), r["vapor_resistance"])
    return fitted


def finish_names(rows: Iterable[FinishRow]) -> tuple[str, ...]:
    """The finishes of the table, each once."""
    return tuple(dict.fromkeys(r.finish for r in rows))


def coats_of(rows: Iterable[FinishRow], finish: str) -> tuple[int, ...]:
    """The numbers of coats that were tested of a finish."""
    return tuple(sorted({r.coats for r in rows if r.finish == finish}))


def usual_coats(rows: Iterable[FinishRow], finish: str) -> int:
    """The number of coats that was tested of a finish and is nearest to two."""
    return min(coats_of(rows, finish), key=lambda c: abs(c - 2))


def _plain(name: str) -> str:
    return fold(name.replace("(", " ").replace(")", " ").replace(",", " ").replace("/", " "))


def finish_of(rows: Sequence[FinishRow], name: str) -> str:
    """The finish of a name: as printed, the part before the bracket, or words of one alone.

    Returns: the name as printed, '' for none at all.
    Raises: InputError with the nearest finish, or with those a name can mean.
    """
    asked = _plain(name)
    if asked in NO_FINISH:
        return ""
    known = {_plain(f): f for f in finish_names(rows)}
    short = {_plain(f.partition(" (")[0]): f for f in known.values()}
    for by_name in (known, short):
        if asked in by_name:
            return by_name[asked]
    words = set(asked.split())
    matches = [f for key, f in known.items() if words and words <= set(key.split())]
    if len(matches) == 1:
        return matches[0]
    if matches:
        raise InputError(
            f"'{name}' can be several finishes; choose one: {'; '.join(matches)} "
            "(woodref finishes lists them all)"
        )
    from rapidfuzz import fuzz, process

    names = known | {kin: kin for kin in KIN}
    hit = process.extractOne(asked, list(names), scorer=fuzz.WRatio, score_cutoff=50.0)
    near = f"; nearest: {names[hit[0]]}" if hit else ""
    raise InputError(f"no finish is called '{name}'{near}; woodref finishes lists them all")


def checked_coats(rows: Iterable[FinishRow], finish: str, coats: int) -> int:
    """The number of coats; InputError where so many of the finish were not tested."""
    tested = coats_of(rows, finish)
    if coats in tested:
        return coats
    near = min(tested, key=lambda c: abs(c - coats))
    raise InputError(
        f"{finish} was tested with {', '.join(map(str, tested))} "
        f"coat{'s' if tested[-1] > 1 else ''}, not {coats}; nearest: {near}"
    )
