"""Hazards and trade controls recorded for a wood."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from woodref.reference.library import Reference

#: The species_id of rows that hold for all woods.
ALL_WOODS = "*"


@dataclass(frozen=True)
class Caution:
    """One caution: ``kind`` dust or trade control, in our words, with the document."""

    species_id: str
    kind: str
    text: str
    effective: str
    document: str
    basis: str


def cautions_for(reference: Reference, species_ids: Iterable[str]) -> tuple[Caution, ...]:
    """Cautions shown for woods: those for all woods first, then each wood's own.

    Rows from memory are kept in the table but never shown for dust.

    Parameters: species_ids identifiers of the woods, those of the members for a group.
    """
    ids = list(dict.fromkeys(species_ids))
    marks = ", ".join("?" for _ in ids) or "''"
    rows = reference.store.rows(
        "select species_id, kind, text, effective, document, basis from {cautions} "
        f"where shown and (species_id = '{ALL_WOODS}' or species_id in ({marks})) "
        f"order by species_id <> '{ALL_WOODS}', kind, species_id, source_line",
        ids,
    )
    return tuple(Caution(**{key: value or "" for key, value in row.items()}) for row in rows)
