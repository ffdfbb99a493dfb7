"""Hazards of wood dust and trade controls on woods, as ``cautions``, in words of our own.

An effect said of one wood is shown only where the document was read or is quoted by one
that was; recalled rows are kept and never shown. A trade control always ends with the
advice to check the current listing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pandas as pd

from pipeline.read import SOURCES, read_table
from pipeline.sources.cells import rejected_frame, rejection
from pipeline.sources.members import WoodLookup, grows_in, woods_of
from pipeline.sources.publications import publication_rows, source_id_for
from pipeline.sources.wording import dust_text, trade_text
from woodref.reference.bases import READ, SECOND_HAND, UNCHECKED
from woodref.reference.declared.rated import CAUTIONS

#: Bases that let an effect on health be shown.
_SHOWN = frozenset({*READ, SECOND_HAND})
_ALL_DUST = re.compile(r"^(all( other)? wood|hardwood|softwood) dusts?$", re.IGNORECASE)
_NOT_WOOD = "from leaves or bark, not wood"
#: What a listing is limited to: words of the note, how we say it, the region they mean.
_POPULATIONS = (
    ("African populations", "African populations", "Africa"),
    ("populations of Madagascar", "populations of Madagascar", "Madagascar"),
    ("populations of the Neotropics", "populations of the Neotropics", "tropical America"),
    ("Russian Federation", "wood from the Russian Federation", ""),
)
_TRADE_CELLS = (
    "appendix",
    "annotation",
    "effective",
    "products_covered",
    "finished_furniture_covered",
)


class Cautions(NamedTuple):
    """The cautions, the publications they name, and the cells given to no wood."""

    cautions: pd.DataFrame
    sources: pd.DataFrame
    rejected: pd.DataFrame


def _base(row: Mapping[str, Any], sources: Mapping[str, str]) -> dict[str, Any]:
    return {
        "document": row["source"],
        "source_id": sources[row["source"]],
        "basis": row["basis"],
        "note": row["note"],
        "source_table": row["source_table"],
        "source_line": row["source_line"],
    }


def _called(name: str, botanical: str) -> str:
    """'Iroko (Milicia excelsa)', the name as printed with the botanical name behind it."""
    return f"{name} ({botanical})" if botanical else name


def _dust(
    raw: pd.DataFrame, registry: WoodLookup, sources: Mapping[str, str]
) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Cautions about dust, and rejected cells."""
    rows: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    for row in raw.to_dict("records"):
        if _ALL_DUST.match(row["name"]):
            woods, reason = ["*"], ""
        else:
            woods = woods_of(registry, row["botanical"], varieties=True)
            reason = (
                f"no wood of the dataset goes by {_called(row['name'], row['botanical'])}"
                if row["botanical"]
                else f"which wood is meant by '{row['name']}' is not certain"
            )
        if not woods:
            rejected += [rejection(row, c, reason) for c in ("effect", "severity") if row[c]]
            continue
        cells = {
            "kind": "dust",
            "text": dust_text(row),
            "effect": row["effect"],
            "severity": row["severity"],
            "shown": row["basis"] in _SHOWN and _NOT_WOOD not in row["effect"],
            "printed_name": _called(row["name"], row["botanical"]),
            **_base(row, sources),
        }
        rows += [{"species_id": wood, **cells} for wood in woods]
    return rows, rejected


def _population(note: str) -> tuple[str, str]:
    """The populations a listing is limited to, and the region they mean; '' for none."""
    return next(((said, region) for words, said, region in _POPULATIONS if words in note), ("", ""))


def _listing(row: Mapping[str, Any]) -> str:
    """'CITES Appendix II', or the name of a control that is not of the convention."""
    appendix = row["appendix"]
    return f"CITES Appendix {appendix}" if set(appendix) <= set("IV") else str(appendix)


def _is_genus(row: Mapping[str, Any]) -> bool:
    return "spp." in row["botanical"]


def _common_name(registry: WoodLookup, wood: str) -> str:
    return registry.woods[wood]["common_name"]


def _listed(row: Mapping[str, Any]) -> tuple[str, str]:
    return row["appendix"], row["annotation"]


def _listings(records: list[dict[str, Any]], registry: WoodLookup) -> dict[int, list[str]]:
    """The woods of each row, by line; a genus row leaves out woods listed otherwise."""
    woods = {
        r["source_line"]: ["*"]
        if r["botanical"] == "all plants"
        else woods_of(registry, r["botanical"], varieties=True)
        for r in records
    }
    own = {
        wood: _listed(r) for r in records if not _is_genus(r) for wood in woods[r["source_line"]]
    }
    for r in records:
        if _is_genus(r):
            woods[r["source_line"]] = [
                w for w in woods[r["source_line"]] if own.get(w, _listed(r)) == _listed(r)
            ]
    return woods


def _trade(
    raw: pd.DataFrame, registry: WoodLookup, sources: Mapping[str, str]
) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Trade controls, and rejected cells.

    Where a wood is listed alike by a row of its own and by its genus, both are kept and
    the better known one is shown, at a tie that of its own.
    """
    rows: list[dict[str, Any]] = []
    rejected: list[dict[str, Any]] = []
    records = raw.to_dict("records")
    by_line = _listings(records, registry)
    best: dict[tuple[str, str, str], bool] = {}
    for row in sorted(records, key=lambda r: (r["basis"] == UNCHECKED, _is_genus(r))):
        woods = by_line[row["source_line"]]
        if not woods:
            reason = (
                "each wood of the genus is listed otherwise, by a row of its own"
                if woods_of(registry, row["botanical"])
                else f"no wood of the dataset goes by {row['botanical']}"
            )
            rejected += [rejection(row, c, reason) for c in _TRADE_CELLS if row[c]]
        population, region = _population(row["note"])
        for wood in woods:
            origin = "" if wood == "*" else registry.woods[wood]["origin"]
            outside = origin if region and origin and not grows_in(region, origin) else ""
            better = best.setdefault((wood, *_listed(row)), _is_genus(row))
            member = "" if _is_genus(row) or "-spp" not in wood else _common_name(registry, wood)
            rows.append(
                {
                    "species_id": wood,
                    "kind": "trade control",
                    "text": trade_text(row, _listing(row), population, outside, member),
                    "effect": _listing(row),
                    "severity": row["annotation"],
                    "effective": row["effective"],
                    "products_covered": row["products_covered"],
                    "finished_furniture_covered": row["finished_furniture_covered"],
                    "shown": better == _is_genus(row) and not outside,
                    "printed_name": _called(row["botanical"], row["trade_name"]),
                    **_base(row, sources),
                }
            )
    return rows, rejected


def cautions(registry: WoodLookup, origins: Mapping[str, Any], folder: Path = SOURCES) -> Cautions:
    """All cautions, with the publications of their collections.

    Parameters: registry of the woods; origins as read from origins.toml; folder of the
    source files. Returns: frames of ``cautions``, of new rows for ``sources`` and of
    rejected cells.
    """
    hazards = read_table("hazards", folder)
    controls = read_table("trade_regulation", folder)
    texts = [*hazards["source"], *controls["source"]]
    ids = {text: source_id_for(text, origins) for text in texts}
    dust, no_dust = _dust(hazards, registry, ids)
    trade, no_trade = _trade(controls, registry, ids)
    frame = pd.DataFrame(dust + trade, columns=list(CAUTIONS.columns))
    order = ["source_table", "source_line", "species_id"]
    return Cautions(
        frame.sort_values(order, ignore_index=True),
        pd.DataFrame(publication_rows(pd.concat([hazards, controls]), ids, origins)),
        rejected_frame(no_dust + no_trade),
    )
