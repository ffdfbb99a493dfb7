"""Rules and sizes of the lumber trade from the reference tables."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.reference.library import Reference
from woodref.units import MM_PER_INCH

_QUARTERS = "hardwood S2S thickness"


@dataclass(frozen=True)
class DressedSize:
    """A nominal thickness: rough size, and what is left surfaced two sides [mm]."""

    nominal: str
    rough_mm: float
    dressed_mm: float
    basis: str
    source: str


@dataclass(frozen=True)
class LiftingLimit:
    """The load constant of manual lifting [kg], with its source."""

    mass_kg: float
    source: str
    basis: str


def dressed_thicknesses(reference: Reference) -> tuple[DressedSize, ...]:
    """Standard hardwood thicknesses, thinnest first: rough, and surfaced two sides."""
    rows = reference.store.rows(
        "select l.nominal, l.rough_in, l.dressed_in, l.basis, s.short "
        "from {lumber_sizes} l join {sources} s using (source_id) "
        "where l.system = ? and l.rough_in is not null order by l.rough_in",
        [_QUARTERS],
    )
    return tuple(
        DressedSize(
            r["nominal"],
            r["rough_in"] * MM_PER_INCH,
            r["dressed_in"] * MM_PER_INCH,
            r["basis"],
            r["short"],
        )
        for r in rows
    )


def lifting_limit(reference: Reference) -> LiftingLimit | None:
    """The greatest load for one person in an ideal lift, None where the table lacks it."""
    rows = reference.store.rows(
        "select f.value, f.basis, s.short from {shipping_facts} f join {sources} s "
        "using (source_id) where f.topic = 'manual lifting' and f.item = 'load constant' "
        "and f.unit = 'kg'"
    )
    return LiftingLimit(rows[0]["value"], rows[0]["short"], rows[0]["basis"]) if rows else None
