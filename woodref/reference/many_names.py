"""What many names mean, as in a table of thousands of rows, with two queries for all."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from woodref.reference.name_rows import in_order, keys_of, meant_rows
from woodref.reference.names import fold

if TYPE_CHECKING:
    from woodref.reference.library import Reference


def rows_of_names(reference: Reference, names: Iterable[str]) -> dict[str, list[dict[str, Any]]]:
    """Rows of what each name means, as Reference.meant_rows gives them one by one.

    Parameters: reference; names as typed. Returns: the rows by name, none for an unknown one.
    """
    by_key: dict[str, list[dict[str, Any]]] = {}
    for row in in_order(reference.store.rows("select * from {ready_names}")):
        by_key.setdefault(row["name_key"], []).append(row)
    genera = {
        row["genus"]
        for row in reference.store.rows(
            "select distinct lower(split_part(trim(n), ' ', 1)) as genus from "
            "(select unnest(string_split(botanical_name, ';')) as n from {species})"
        )
    }
    out: dict[str, list[dict[str, Any]]] = {}
    for name in names:
        key = fold(name)
        listed = [row for k in dict.fromkeys(keys_of(key)) for row in by_key.get(k, [])]
        rows = meant_rows(key, listed, reference.region)
        if len(rows) == 1 and rows[0].get("group_name"):
            rows = reference.meant_rows(name)
        # A botanical name, or a list of them, that stands in no names table is looked at alone;
        # a word is added so that a genus is not taken for a plural ('Abies').
        if not rows and (";" in name or fold(f"{name} x").partition(" ")[0] in genera):
            rows = reference.meant_rows(name)
        out[name] = rows
    return out
