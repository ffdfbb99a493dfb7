"""The tables behind a substitute: look, trade names, limits, woods left apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from woodref.answers.render import Column, Section
from woodref.answers.uses import filters_section, label_of
from woodref.choose.columns import COLUMNS

if TYPE_CHECKING:
    from woodref.choose.substitute import Substitutes

#: Woods named in a line, trade names told of a wood.
NAMED, _NAMES = 6, 2


def listed(names: Sequence[str]) -> str:
    """Names in a line, the first few where there are many."""
    more = f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    return ", ".join(names[:NAMED]) + more


def look_section(substitutes: Substitutes, people: bool) -> Section:
    """The look of each wood beside the first, for people a line per wood."""
    rows: list[dict[str, Any]]
    if people:
        seen = ("heartwood", "rings", "pores")
        rows = [
            {
                "wood": s.common_name,
                **{
                    x.feature: f"{(x.after or 'not known').lower()}: {x.verdict}"
                    + (" [unchecked]" if x.unchecked else "")
                    for x in s.look
                },
            }
            for s in substitutes.woods
        ]
        first = {k: (getattr(substitutes.look, k) or "not known").lower() for k in seen}
        rows.insert(0, {"wood": substitutes.wood.common_name, **first})
        columns = [Column("wood", "wood"), *(Column(k, k) for k in seen)]
        return Section("look", "Look, as far as printed classes tell", columns, rows)
    rows = [
        {
            "wood": s.common_name,
            "feature": x.feature,
            "class_before": x.before or None,
            "class": x.after or None,
            "beside_first": x.verdict,
            "unchecked": x.unchecked,
        }
        for s in (*substitutes.woods, *substitutes.own_group)
        for x in s.look
    ]
    keys = ("wood", "feature", "class_before", "class", "beside_first", "unchecked")
    return Section("look", "", [Column(k, "") for k in keys], rows)


def names_section(substitutes: Substitutes, people: bool) -> Section:
    """Trade names to beware of, for people two of each wood at most."""
    rows: list[dict[str, Any]] = [
        {
            "trade_name": n.name,
            "wood": s.common_name,
            "wood_count": n.woods,
            "covers_both": n.covers_both,
            "note": n.note or None,
        }
        for s in substitutes.woods
        for n in (s.names[:_NAMES] if people else s.names)
    ]
    if people:
        rows = list({r["trade_name"]: r for r in reversed(rows)}.values())[::-1]
    columns = [
        Column("trade_name", "sold as"),
        Column("wood", "ask if it is"),
        Column("wood_count", "may mean", "count"),
        Column("covers_both", f"also {substitutes.wood.common_name}"),
        Column("note", "note"),
    ]
    return Section("trade_names", "Trade names that cover several woods", columns, rows)


def limits_section(substitutes: Substitutes) -> Section:
    """Each limit, what it stops and what it leaves."""
    return filters_section("Limits, in order", substitutes.filter_counts, lambda one: one.text)


def missing_section(substitutes: Substitutes, units: str, people: bool) -> Section:
    """Woods of which too little is known, for people by what is missing."""
    if not people:
        rows: list[dict[str, Any]] = [
            {"wood": x.common_name, "species_id": x.species_id, "missing_columns": list(x.missing)}
            for x in substitutes.unranked
        ]
        return Section(
            "unranked", "", [Column(k, "") for k in ("wood", "species_id", "missing_columns")], rows
        )
    groups: dict[str, list[str]] = {}
    for x in substitutes.unranked:
        labels = [label_of(COLUMNS[c], units) if c in COLUMNS else c for c in x.missing]
        text = ", ".join(labels) if len(labels) < 3 else "three figures or more"
        groups.setdefault(text, []).append(x.common_name)
    rows = [
        {"missing": text, "count": len(names), "which": listed(names)}
        for text, names in sorted(groups.items(), key=lambda item: -len(item[1]))
    ]
    columns = [
        Column("missing", "missing"),
        Column("count", "woods", "count"),
        Column("which", "which"),
    ]
    return Section("unranked", "Left apart, as too little is known", columns, rows)
