"""Which rows of the table of names a name means: the kinds in order, groups, plain names."""

from __future__ import annotations

from typing import Any

from woodref.reference.plain_names import PLAIN, REGIONAL, note_of, regions_differ, row_in

Row = dict[str, Any]

#: Order in which the kinds of names are tried.
NAME_ORDER = ("commercial", "botanical", "synonym", "group", "trade")
#: What is added to a name to ask for the trade group of it.
_GROUP = " group"


def keys_of(key: str) -> list[str]:
    """The folded names that are looked up for one: its own, and those of the group of it."""
    return [key, key + _GROUP, key.removesuffix(_GROUP)]


def in_order(rows: list[Row]) -> list[Row]:
    """Rows of names by their position, then by wood and region, what has none last."""

    def place(row: Row) -> tuple[object, ...]:
        return tuple(
            (row[name] is None, 0 if row[name] is None else row[name])
            for name in ("position", "species_id", "region")
        )

    return sorted(rows, key=place)


def _sold_together(key: str, rows: list[Row]) -> int:
    """How many woods the trade group of a name has that means one wood; 0 without such a group."""
    members = {
        r["species_id"]
        for r in rows
        if r["name_key"] == key + _GROUP or (r["name_key"] == key and r["name_kind"] == "group")
    }
    return len(members) if len(members) > 1 else 0


def _noted(row: Row, *notes: str | None) -> Row:
    """The row, with what there is to say of it."""
    return {**row, "note": "; ".join(dict.fromkeys(n for n in notes if n))}


def chosen_rows(key: str, rows: list[Row]) -> list[Row]:
    """The rows of a folded name, of the first kind in NAME_ORDER that has any.

    The row of a wood that shares its name with a trade group says in ``sold_together`` how many
    woods that has; a name with 'group' behind it is that of the group.

    Parameters: key; rows of the names table for the keys of keys_of.
    """
    for kind in NAME_ORDER:
        chosen = [r for r in rows if r["name_key"] == key and r["name_kind"] == kind]
        if len(chosen) == 1 and kind != "group":
            return [{**chosen[0], "sold_together": _sold_together(key, rows)}]
        if chosen:
            return chosen
    of = key.removesuffix(_GROUP)
    return [r for r in rows if of != key and r["name_key"] == of and r["name_kind"] == "group"]


def plain_rows(key: str, rows: list[Row]) -> list[Row]:
    """Those of the rows that say what the name means by region."""
    return [r for r in rows if r["name_key"] == key and r["name_kind"] == PLAIN]


def meant_rows(key: str, rows: list[Row], region: str) -> list[Row]:
    """The rows of what a name means in a region: those of chosen_rows, where it is no plain name.

    A plain name that means a trade group gives one row with its ``group_name``; one that differs
    by region, and none is named, the rows of the regions.

    Parameters: key; rows, all for the keys of keys_of; region of the trade, '' for none.
    """
    chosen, plain = chosen_rows(key, rows), plain_rows(key, rows)
    row = row_in(plain, chosen, region)
    if row is None:
        differ = regions_differ(plain, region)
        return [{**r, "name_kind": REGIONAL} for r in plain] if differ else chosen
    if not row["species_id"] and not row["group_name"]:
        return [{**r, "candidates": row["candidates"]} for r in chosen]
    same = [r["note"] for r in chosen if r["species_id"] == row["species_id"]]
    kept = same if len(chosen) == 1 else []
    told = _noted(row, *kept, note_of(plain, row))
    return [{**told, "sold_together": _sold_together(key, rows)}]
