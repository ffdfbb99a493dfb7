"""Printed classes: decay, gluing, paint, pores, color, machining, as ``ratings``.

One row per wood and class cell. A scale names what is rated, its classes and its edition,
so that two scales are never taken for one. Nothing is preferred here: every class stays.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pandas as pd

from pipeline.read import SOURCES, read_table
from pipeline.sources.cells import number, rejected_frame, rejection, source_id_of
from pipeline.sources.members import (
    WoodLookup,
    domestic_first,
    growth_of,
    is_group,
    sold_as,
    woods_of,
)
from woodref.reference.declared.rated import RATINGS

_DECAY = "decay resistance of heartwood"
_DECAY_SCALES = {
    "FPL-GTR-190 (2010)": f"{_DECAY}, four classes, FPL-GTR-190 (2010) Table 14-1",
    "FPL-0153 (1967)": f"{_DECAY}, three classes, FPL-0153 (1967)",
    "NAVFAC MO-312 (Wood Protection)": f"{_DECAY}, three classes, NAVFAC MO-312 Table 2-1",
}
_GLUING = "ease of bonding, four classes, FPL-GTR-190 (2010) Table 10-1"
_TABLE_16_1 = "FPL-GTR-190 (2010) Table 16-1"
#: Rated columns of finishing.csv; its other numbers are measurements, taken elsewhere.
_FINISHING = {
    "paintability_latex": f"paintability with latex paint, I easiest to III hardest, {_TABLE_16_1}",
    "earlywood_latewood_transition": "",
    "latewood_over_one_third_of_ring": f"latewood over one third of the ring, {_TABLE_16_1}",
    "heartwood_color": f"heartwood color, {_TABLE_16_1}",
    "pore_class": "size of pores, large or small, FPL-GTR-113 (1999)",
}
_TRANSITION = {
    "softwood": f"earlywood to latewood transition, G gradual or A abrupt, {_TABLE_16_1}",
    "hardwood": f"pore arrangement, D diffuse, SR semi-ring or R ring porous, {_TABLE_16_1}",
}
_MACHINING = {
    "planing_perfect_pct": "planing, share of perfect pieces",
    "shaping_good_to_excellent_pct": "shaping, share of good to excellent pieces",
    "turning_fair_to_excellent_pct": "turning, share of fair to excellent pieces",
    "boring_good_to_excellent_pct": "boring, share of good to excellent pieces",
    "mortising_fair_to_excellent_pct": "mortising, share of fair to excellent pieces",
    "sanding_good_to_excellent_pct": "sanding, share of good to excellent pieces",
    "steam_bending_unbroken_pct": "steam bending, share of unbroken pieces",
    "nail_splitting_free_pct": "nailing, share of pieces free from splits",
    "screw_splitting_free_pct": "screwing, share of pieces free from splits",
}
#: 'Pines (most other species)', 'Pines (other than those listed)'.
_OTHERS = re.compile(r"\bother\b", re.IGNORECASE)
_EXCEPTIONAL = re.compile(r"exceptionally high", re.IGNORECASE)
_RESISTANT = re.compile(r"^(very )?resistant", re.IGNORECASE)


def _scale(file: str, column: str, row: Mapping[str, Any]) -> str:
    """The scale a class cell is on."""
    if file == "decay_resistance":
        return _DECAY_SCALES[row["edition"]]
    if file == "gluing":
        return _GLUING
    if file == "machining":
        return f"{_MACHINING[column]}, FPL-GTR-113 (1999) Table 3-8"
    if column == "earlywood_latewood_transition":
        return _TRANSITION[row["kind"]]
    return _FINISHING[column]


#: File -> its class columns, and the columns that say more about a class.
_CLASSES: dict[str, tuple[str, ...]] = {
    "decay_resistance": ("class",),
    "gluing": ("class",),
    "finishing": tuple(_FINISHING),
    "machining": tuple(_MACHINING),
}
_BESIDE = ("condition", "footnote")


def footnote_flag(row: Mapping[str, Any]) -> str:
    """Why the footnote of a decay class cannot belong to it; '' where it can.

    The footnote that marks exceptional resistance, on a class that is not the most
    resistant of its scale, is a slip of the footnote mark.
    """
    if _EXCEPTIONAL.search(row.get("footnote", "")) and not _RESISTANT.match(row["class"]):
        return (
            "exceptional-resistance footnote on a class below resistant: a slip of the "
            "footnote mark; the class is kept, the footnote is not shown"
        )
    return ""


def _kind(row: Mapping[str, Any]) -> str:
    """The kind, hardwood or softwood, where the row says so, else ''."""
    text = row.get("kind") or row.get("origin", "")
    return next((k for k in ("hardwood", "softwood") if text.startswith(k)), "")


def _row(row: Mapping[str, Any], column: str, footnote: str) -> dict[str, Any]:
    """The cells of a rating that do not depend on the wood."""
    share = number(row[column]) if row["source_table"] == "machining.csv" else None
    return {
        "class": row[column],
        "share_pct": share,
        "condition": row.get("condition") or growth_of(row["name"]),
        "footnote": footnote,
        "printed_name": row["name"],
        "printed_botanical": row["botanical"],
        "section": row.get("kind") or row.get("origin", ""),
        "edition": row["edition"],
        "printed_table": row["table"],
        "page": row["page"],
        "basis": row["basis"],
        "note": row["note"],
        "source_table": row["source_table"],
        "source_line": row["source_line"],
        "source_column": column,
    }


def _woods(row: Mapping[str, Any], registry: WoodLookup) -> list[str]:
    """The woods of one row; a genus among domestic woods leaves out those of elsewhere."""
    if not row["botanical"]:
        return sold_as(registry, row["name"])
    woods = woods_of(registry, row["botanical"], row["name"], _kind(row))
    return woods if row.get("origin") == "imported" else domestic_first(registry, woods)


def _woods_by_line(raw: pd.DataFrame, registry: WoodLookup) -> dict[int, list[str]]:
    """The woods of every row; 'other species' leaves out those with a row of their own."""
    rows = raw.to_dict("records")
    woods = {r["source_line"]: _woods(r, registry) for r in rows}
    for r in rows:
        if _OTHERS.search(r["name"]):
            listed = {
                w
                for s in rows
                if s["edition"] == r["edition"] and s["source_line"] != r["source_line"]
                for w in woods[s["source_line"]]
            }
            woods[r["source_line"]] = [w for w in woods[r["source_line"]] if w not in listed]
    return woods


def _file_ratings(
    file: str, raw: pd.DataFrame, registry: WoodLookup, origins: Mapping[str, Any]
) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Ratings and rejected cells of one file."""
    rated: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    by_line = _woods_by_line(raw, registry)
    for row in raw.to_dict("records"):
        woods = by_line[row["source_line"]]
        printed = [c for c in _CLASSES[file] if row[c]]
        beside = [c for c in _BESIDE if row.get(c)]
        if not woods:
            name = " ".join(t for t in (row["name"], f"({row['botanical']})") if t != "()")
            reason = f"no wood of the dataset goes by {name}"
            rejected += [rejection(row, c, reason) for c in printed + beside]
            continue
        flag = footnote_flag(row)
        if flag:
            rejected.append(rejection(row, "footnote", flag))
        group = is_group(row["botanical"], woods)
        for column in printed:
            if row[column] == "NA":
                rejected.append(rejection(row, column, "printed as not applicable"))
                continue
            cells = _row(row, column, "" if flag else row.get("footnote", ""))
            cells["scale"] = _scale(file, column, row)
            cells["source_id"] = source_id_of(row, origins, "edition")
            cells["for_group"] = group
            rated += [{"species_id": wood, **cells} for wood in woods]
    return rated, rejected


def ratings(
    registry: WoodLookup, origins: Mapping[str, Any], folder: Path = SOURCES
) -> tuple[pd.DataFrame, pd.DataFrame]:
    """All printed classes, and the cells that could not be given to a wood.

    Parameters: registry of the woods; origins as read from origins.toml; folder of the
    source files. Returns: the frames of ``ratings`` and of rejected cells.
    Raises: UnknownPublicationError.
    """
    rated: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    for file in _CLASSES:
        more, left = _file_ratings(file, read_table(file, folder), registry, origins)
        rated += more
        rejected += left
    frame = pd.DataFrame(rated, columns=list(RATINGS.columns))
    order = ["source_table", "source_line", "source_column", "species_id"]
    return frame.sort_values(order, ignore_index=True), rejected_frame(rejected)
