"""Hazards and trade controls recorded for a wood."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from woodref.reference.bases import COMMON_PRACTICE, weakest
from woodref.reference.library import Reference

#: The species_id of rows that hold for all woods.
ALL_WOODS = "*"


class Caution(NamedTuple):
    """One caution: ``kind`` dust or trade control, in our words, with the document."""

    species_id: str
    kind: str
    text: str
    effective: str
    document: str
    basis: str
    effect: str = ""


def cautions_for(reference: Reference, species_ids: Iterable[str]) -> tuple[Caution, ...]:
    """Cautions shown for woods: those for all woods first, then each wood's own.

    Rows that are recalled and unchecked are kept in the table but never shown for dust.

    Parameters: species_ids identifiers of the woods, those of the members for a group.
    """
    ids = list(dict.fromkeys(species_ids))
    marks = ", ".join("?" for _ in ids) or "''"
    rows = reference.store.rows(
        "select species_id, kind, text, effective, document, basis, effect from {cautions} "
        f"where shown and (species_id = '{ALL_WOODS}' or species_id in ({marks})) "
        f"order by species_id <> '{ALL_WOODS}', kind, species_id, source_line",
        ids,
    )
    return tuple(Caution(**{key: value or "" for key, value in row.items()}) for row in rows)


class Notice(NamedTuple):
    """One caution: its kind, the text, the documents that say so (none: common practice).

    ``text_us`` says a text that has quantities in US units, '' where the text has none.
    """

    kind: str
    text: str
    sources: tuple[str, ...] = ()
    basis: str = COMMON_PRACTICE
    text_us: str = ""

    def said(self, units: str) -> str:
        """The text in the units 'us' or 'si'."""
        return (units == "us" and self.text_us) or self.text


#: What the recorded cautions for all woods come to.
ANY_DUST = (
    "The dust of any wood can irritate skin, eyes, nose and lungs, can bring on asthma and can "
    "cause cancer of the nose: collect it at the machine, wear a fitted mask, and keep to the "
    "exposure limit of your country."
)


def recorded_notices(cautions: Iterable[Caution]) -> tuple[Notice, ...]:
    """The recorded cautions of a piece, the general ones on dust drawn together into one.

    A caution printed for several of its woods, or for the members of a group, stands once.
    """
    every = list(cautions)
    general = [c for c in every if c.kind == "dust" and c.species_id == ALL_WOODS]
    dust = []
    if general:
        documents = tuple(dict.fromkeys(c.document for c in general))
        basis = weakest(c.basis for c in general)
        dust = [Notice("dust", ANY_DUST, documents, basis)]
    own = [Notice(c.kind, c.text, (c.document,), c.basis) for c in every if c not in general]
    return tuple(dict.fromkeys([*dust, *own]))
