"""Search the names: what a name means, which names hold it, which come near."""

from __future__ import annotations

import re

from woodref.display import Grid, Shown
from woodref.record import record
from woodref.reference.bases import NO_DATA
from woodref.reference.library import Reference
from woodref.reference.name_rows import plain_rows
from woodref.reference.names import fold, natural_order
from woodref.reference.plain_names import told_by_region
from woodref.reference.woods import Wood


@record
class Candidate:
    """A wood a name can mean: the name that led there, its kind, and its note."""

    wood: Wood
    name: str
    name_kind: str
    note: str = ""


@record(repr=False)
class NameMatches(Shown):
    """The woods a name can mean.

    ``exact`` the woods that go by the name, ``containing`` other woods of which a name holds
    it, ``near`` the nearest names where nothing goes by it. ``note`` is what tells the
    candidates apart, or why the name leads where it does; ``group`` is true where it names
    a trade group; ``plain_meaning`` what yards mean by it, by region.
    """

    asked: str
    exact: tuple[Candidate, ...]
    containing: tuple[Candidate, ...]
    near: tuple[Candidate, ...]
    note: str = ""
    group: bool = False
    plain_meaning: str = ""

    @property
    def species_ids(self) -> tuple[str, ...]:
        """Identifiers of all woods found."""
        return tuple(c.wood.species_id for c in (*self.exact, *self.containing, *self.near))

    @property
    def ambiguous(self) -> bool:
        """True where several woods, no group, go by the name."""
        return len(self.exact) > 1 and not self.group

    def _line(self) -> str:
        counts = (
            f"{len(self.exact)} by the name",
            f"{len(self.containing)} with it in a name",
            f"{len(self.near)} near it",
        )
        return f"'{self.asked}': {', '.join(counts)}"

    def _grid(self) -> Grid:
        ways = {"by the name": self.exact, "in a name": self.containing, "near": self.near}
        return Grid(
            ("found", "name", "kind", "wood", "botanical name", "note"),
            (
                (how, c.name, c.name_kind, c.wood.common_name, c.wood.botanical_name, c.note)
                for how, candidates in ways.items()
                for c in candidates
            ),
        )


def _containing(reference: Reference, key: str) -> dict[str, tuple[str, str]]:
    """Woods of which a name has a word that begins or ends with the key: (name, kind)."""
    if not key:
        return {}
    whole = re.compile(rf"\b{re.escape(key)}|{re.escape(key)}\b")
    by_wood: dict[str, tuple[str, str]] = {}
    for row in reference.store.rows(
        "select species_id, name, name_key, name_kind from {names} where contains(name_key, ?) "
        "order by species_id, name_kind <> 'commercial', name_key, name_kind",
        [key],
    ):
        if whole.search(row["name_key"]):
            by_wood.setdefault(row["species_id"], (natural_order(row["name"]), row["name_kind"]))
    return by_wood


def find(reference: Reference, name: str, near: int = 6) -> NameMatches:
    """The woods a name can mean, those whose names hold it, and the nearest names.

    Parameters: name, or a part of one ('oak'); near the most near names.
    Returns: NameMatches, which may be empty.
    """
    rows = reference.name_rows(name)
    plain = plain_rows(fold(name), reference.rows_found(fold(name)))
    containing = _containing(reference, fold(name))
    close = () if rows else reference.nearest_rows(name, near)
    ids = [r["species_id"] for r in rows]
    close = tuple(r for r in close if r["species_id"] not in containing)
    woods = reference.woods([*ids, *containing, *(r["species_id"] for r in close)])
    others = [
        Candidate(woods[i], *named)
        for i, named in containing.items()
        if i not in ids and i in woods
    ]
    notes = list(dict.fromkeys(r["note"] for r in rows if r["note"]))
    shared = notes[0] if len(notes) == 1 or (notes and len(rows) > 1) else ""
    return NameMatches(
        name,
        tuple(
            Candidate(
                woods[r["species_id"]], natural_order(r["name"]), r["name_kind"], r["note"] or ""
            )
            for r in rows
            if r["species_id"] in woods
        ),
        tuple(
            sorted(
                others, key=lambda c: (c.wood.data_coverage == NO_DATA, c.wood.common_name.lower())
            )
        ),
        tuple(
            Candidate(woods[r["species_id"]], natural_order(r["name"]), r["name_kind"])
            for r in close
            if r["species_id"] in woods
        ),
        shared,
        bool(rows) and rows[0]["name_kind"] == "group",
        told_by_region(plain),
    )
