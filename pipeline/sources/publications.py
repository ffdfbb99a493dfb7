"""Publications of collections whose rows carry their own citation."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import pandas as pd

#: A year, neither part of a section number nor of a work that is only cited.
_YEAR = re.compile(r"\b(1[89]\d\d|20\d\d)\b(?!\.\d)")
_CITED = re.compile(r"\(citing [^)]*\)")
_MAX_SLUG = 64
_MAX_SHORT = 72
_MIN_SHORT = 24


def slug(citation: str) -> str:
    """A citation as an identifier: lower case, words joined by hyphens, cut between words."""
    text = re.sub(r"[^a-z0-9]+", "-", citation.lower()).strip("-")
    return text if len(text) <= _MAX_SLUG else text[:_MAX_SLUG].rsplit("-", 1)[0]


def shortened(citation: str) -> str:
    """A citation short enough to stand beside a value, the year kept.

    Cut after a part where that leaves enough to know it by, else between two words.
    """
    if len(citation) <= _MAX_SHORT:
        return citation
    parts = re.split(r"(?<=[,;]) (?![^(]*\))", citation)
    short = parts[0]
    for part in parts[1:]:
        if len(short) + 1 + len(part) > _MAX_SHORT:
            break
        short = f"{short} {part}"
    short = short.rstrip(",;")
    if not _MIN_SHORT <= len(short) <= _MAX_SHORT:
        words = citation[:_MAX_SHORT].rsplit(" ", 1)[0]
        # never cut within parentheses
        if words.count("(") > words.count(")"):
            words = words[: words.rindex("(")]
        short = f"{words.rstrip(' ,;')} ..."
    year = _YEAR.search(citation)
    return short if not year or year[1] in short else f"{short} ({year[1]})"


def source_id_for(citation: str, origins: Mapping[str, Any]) -> str:
    """The publication of origins.toml for a citation, else an identifier made from it."""
    return str(origins["editions"].get(citation) or slug(citation))


def publication_rows(
    raw: pd.DataFrame, ids: Mapping[str, str], origins: Mapping[str, Any]
) -> list[dict[str, Any]]:
    """Rows of ``sources`` for the citations of a collection that origins.toml does not list.

    Parameters: raw rows with the columns source and basis; ids, citation to source_id.
    Raises: ValueError where two citations give one identifier.
    """
    rows: dict[str, dict[str, Any]] = {}
    for citation, group in raw.groupby("source", sort=True):
        source_id = ids[str(citation)]
        if source_id in origins["publications"]:
            continue
        if source_id in rows:
            raise ValueError(f"two citations give the identifier {source_id}")
        year = _YEAR.search(_CITED.sub("", str(citation)))
        bases = ", ".join(sorted(group["basis"].unique()))
        rows[source_id] = {
            "source_id": source_id,
            "title": citation,
            "short": shortened(str(citation)),
            "year": int(year[1]) if year else None,
            "license": "facts only, in our words; the text is its owner's and not carried",
            "how": f"basis of its rows: {bases}",
            "rank": 5,
        }
    return list(rows.values())
