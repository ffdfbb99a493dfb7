"""How broad a sample is: narrow ones say what they are and give way to broader ones."""

from __future__ import annotations

import re
from typing import Any

from pipeline.identify import WoodRegistry

#: Words in the printed name or region that mark a narrow sample, and what they mean.
_WORDS = (
    (re.compile(r"\bjuvenile\b", re.I), "juvenile wood"),
    (re.compile(r"\bmature wood\b", re.I), "mature wood only"),
    (re.compile(r"\byoung\b(?![- ]growth)", re.I), "young trees"),
    (re.compile(r"\bplantations?\b(?!-grown)", re.I), "plantation"),
    (re.compile(r"\bplanted\b", re.I), "planted trees"),
    (re.compile(r"\bcoppice\b", re.I), "coppice of single stands"),
    (re.compile(r"\bthinnings\b", re.I), "thinnings"),
    (re.compile(r"\bclone\b", re.I), "a clone"),
    (re.compile(r"\bgrown under canopy\b", re.I), "trees grown under canopy"),
    (re.compile(r"\bfinal felling\b", re.I), "trees of one country's final felling"),
    (re.compile(r"\bUniversity Forests?\b"), "trees of one forest"),
)
_NOTE_WORDS = (
    (re.compile(r"\b16-year-old trees\b", re.I), "young trees"),
    (re.compile(r"\byoung Western Australian", re.I), "young trees"),
)
_FEW = re.compile(r"^(\d+) trees?\b")
_AMERICA = re.compile(
    r"America|United States|California|Oregon|Rocky|Appalachian|Alaska|Lake States|Florida"
    r"|Pacific (?:coast|Northwest)|Washington|Atlantic and Gulf",
    re.I,
)


def sample_of(row: dict[str, Any], registry: WoodRegistry) -> str:
    """What a narrow sample is, '' for a broad one.

    Narrow are: young, juvenile, coppice, thinned, cloned or planted trees; single stands
    or five trees at most; trees grown outside the native range of the wood.
    Parameters: row of a source table with printed_name, region, n and note where it has them.
    """
    text = f"{row['printed_name']} {row.get('region', '')} {row.get('publication', '')}"
    for pattern, meaning in _WORDS:
        if pattern.search(text):
            return meaning
    for pattern, meaning in _NOTE_WORDS:
        if pattern.search(str(row.get("note", ""))):
            return meaning
    few = _FEW.match(str(row.get("n", "")))
    if few and int(few[1]) <= 5:
        return f"{few[1]} tree{'s' if few[1] != '1' else ''} of one stand"
    wood = registry.woods.get(str(row["target"]))
    region = str(row.get("region", ""))
    if wood and region and _AMERICA.search(wood["origin"]) and "planted" not in wood["origin"]:
        return f"grown in {region}, outside the native range"
    return ""
