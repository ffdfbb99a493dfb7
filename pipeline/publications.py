"""Which publication each row stands in, and the sources table."""

from __future__ import annotations

import re
from typing import Any

import pandas as pd

from pipeline.read import read_table
from pipeline.sources.publications import shortened, slug
from pipeline.tables import MEASUREMENT_TABLES
from woodref.reference.bases import SECOND_HAND

#: Collections whose rows carry their own citation columns.
PAPERS = ("european_woods", "asia_pacific_woods")
_UNKNOWN = re.compile(r"^\[.*\]$")
#: 'Lo Monaco A.', 'Salem M. Z. M.': a surname and initials.
_AUTHOR = re.compile(r"^(?P<surname>[A-Z][\w'-]+(?: [A-Z][\w'-]+)?) (?:[A-Z]\.-?\s?)+")
_SHEET = re.compile(r", species sheet: .*$")
_SHORT_TITLE = re.compile(r"\s*\[short title\]")


def _short(row: dict[str, Any]) -> str:
    """'Horvat (1957)' where an author with initials is known, else the shortened title."""
    authors = [a.strip() for a in re.split(r"[,;]", str(row["authors"])) if a.strip()]
    first = _AUTHOR.match(authors[0]) if authors else None
    name = shortened(_SHORT_TITLE.sub("", str(row["publication"])))
    if first:
        several = len(authors) > 1 or "et al" in authors[0]
        name = first["surname"] + (" and others" if several else "")
    year = str(row["year"])
    return f"{name} ({year})" if year and year not in name else name


def _paper_id(publication: str, origins: dict[str, Any]) -> str:
    """The publication of origins.toml a paper's title belongs to, else one made from it."""
    title = _SHEET.sub("", _SHORT_TITLE.sub("", publication))
    return str(origins["editions"].get(title) or slug(title))


def source_ids(origins: dict[str, Any]) -> dict[str, pd.Series]:
    """The source_id of every row of every measurement table.

    Raises: KeyError naming an edition that origins.toml does not list.
    """
    out: dict[str, pd.Series] = {}
    for name in MEASUREMENT_TABLES:
        frame = read_table(name)
        if name in PAPERS:
            out[name] = frame["publication"].map(lambda t: _paper_id(t, origins))
            continue
        lost = sorted(set(frame["edition"]) - set(origins["editions"]))
        if lost:
            raise KeyError(f"{name}.csv: editions not in origins.toml: {lost}")
        out[name] = frame["edition"].map(origins["editions"])
    return out


def sources_table(origins: dict[str, Any]) -> pd.DataFrame:
    """One row per publication: those of origins.toml, then the papers of the collections."""
    rows = [{"source_id": k, **v} for k, v in origins["publications"].items()]
    for name in PAPERS:
        frame = read_table(name)
        for r in frame.drop_duplicates("publication").to_dict("records"):
            bases = sorted(set(frame.loc[frame["publication"].eq(r["publication"]), "basis"]))
            title = _SHORT_TITLE.sub("", r["publication"])
            rows.append(
                {
                    "source_id": _paper_id(title, origins),
                    "title": title,
                    "short": _short(r),
                    "authors": "" if _UNKNOWN.match(r["authors"]) else r["authors"],
                    "year": int(r["year"]) if r["year"].isdigit() else None,
                    "license": f"facts only; license of the text: {r['license']}",
                    "url": r["identifier"],
                    "how": f"figures carried over; basis of its rows: {', '.join(bases)}",
                    "rank": 3 if SECOND_HAND not in bases else 4,
                }
            )
    frame = pd.DataFrame(rows).drop(columns="repeats", errors="ignore")
    return frame.drop_duplicates("source_id").sort_values("source_id")
