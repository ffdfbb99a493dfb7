"""What many names mean, as in a table of thousands of rows, with two queries for all."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from woodref.reference.name_rows import in_order, keys_of, meant_rows
from woodref.reference.names import fold

if TYPE_CHECKING:
    from woodref.reference.library import Reference


class ManyNames:
    """What names mean, each looked up in memory.

    Parameters: reference, whose names are read when it is made; names that will be asked for,
    any where they are not known yet.
    """

    def __init__(self, reference: Reference, names: Iterable[str] | None = None) -> None:
        self._reference = reference
        self._by_key: dict[str, list[dict[str, Any]]] = {}
        query, keys = "select * from {ready_names}", []
        if names is not None:
            query += " where name_key in (select unnest(?::varchar[]))"
            keys = [list(dict.fromkeys(k for name in names for k in keys_of(fold(name))))]
        for row in in_order(reference.store.rows(query, keys)):
            self._by_key.setdefault(row["name_key"], []).append(row)
        self._genera = {
            row["genus"]
            for row in reference.store.rows(
                "select distinct lower(split_part(trim(n), ' ', 1)) as genus from "
                "(select unnest(string_split(botanical_name, ';')) as n from {species})"
            )
        }

    def meaning(self, name: str) -> list[dict[str, Any]]:
        """Rows of what a name means, as Reference.meant_rows gives them; none where unknown."""
        key = fold(name)
        listed = [row for k in dict.fromkeys(keys_of(key)) for row in self._by_key.get(k, [])]
        rows = meant_rows(key, listed, self._reference.region)
        if len(rows) == 1 and rows[0].get("group_name"):
            return self._reference.meant_rows(name)
        # A botanical name, or a list of them, that stands in no names table is looked at alone;
        # a word is added so that a genus is not taken for a plural ('Abies').
        if not rows and (";" in name or fold(f"{name} x").partition(" ")[0] in self._genera):
            return self._reference.meant_rows(name)
        return rows


def rows_of_names(reference: Reference, names: Iterable[str]) -> dict[str, list[dict[str, Any]]]:
    """Rows of what each name means, as Reference.meant_rows gives them one by one.

    Parameters: reference; names as typed. Returns: the rows by name, none for an unknown one.
    """
    listed = list(names)
    known = ManyNames(reference, listed)
    return {name: known.meaning(name) for name in listed}
