"""Rules and sizes of the lumber trade from the reference tables."""

from __future__ import annotations

from woodref.record import record
from woodref.reference.library import Reference
from woodref.units import MM_PER_FOOT, MM_PER_INCH
from woodref.written import parse_length

_QUARTERS = "hardwood S2S thickness"
_ACCLIMATION = "acclimatize stock in shop before milling"


@record
class DressedSize:
    """A nominal thickness: rough size, and what is left surfaced two sides [mm]."""

    nominal: str
    rough_mm: float
    dressed_mm: float
    basis: str
    source: str


@record
class LiftingLimit:
    """The load constant of manual lifting [kg], with its source."""

    mass_kg: float
    source: str
    basis: str


@record
class AcclimationRule:
    """How long the trade lets stock acclimatize before it is milled [days], and what it adds."""

    low_days: float
    high_days: float
    basis: str
    note: str


def acclimation_rule(reference: Reference) -> AcclimationRule | None:
    """The rule of the trade on acclimatizing stock, None where the table lacks it."""
    rows = reference.store.rows(
        "select value_low, value_high, basis, note from {practice} where rule = ?",
        [_ACCLIMATION],
    )
    if not rows:
        return None
    r = rows[0]
    return AcclimationRule(r["value_low"], r["value_high"], r["basis"], r["note"] or "")


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


@record
class SoftwoodSize:
    """A softwood size as sold, and dressed dry; ``side`` 'thickness' or 'width' [mm]."""

    nominal: str
    side: str
    nominal_mm: float
    dressed_mm: float
    basis: str
    source: str


@record
class Practice:
    """A rule of shop practice with its low and high value, in ``unit``, and its basis."""

    rule: str
    low: float
    high: float
    unit: str
    basis: str

    @property
    def low_mm(self) -> float:
        """The low value of a rule in inches [mm]."""
        return self.low * MM_PER_INCH

    @property
    def high_mm(self) -> float:
        """The high value of a rule in inches [mm]."""
        return self.high * MM_PER_INCH


@record
class Grade:
    """A hardwood grade: least board [mm] and least share of clear face on the graded side [%]."""

    name: str
    min_width_mm: float
    min_length_mm: float
    clear_face_pct: float
    basis: str
    source: str


def softwood_sizes(reference: Reference) -> tuple[SoftwoodSize, ...]:
    """Softwood board and dimension sizes, nominal and dressed dry (19 % or less)."""
    rows = reference.store.rows(
        "select l.system, l.nominal, l.dressed_in, l.basis, s.short "
        "from {lumber_sizes} l join {sources} s using (source_id) "
        "where l.system like 'softwood%' and l.dressed_in is not null order by l.source_line"
    )
    return tuple(
        SoftwoodSize(
            r["nominal"],
            "width" if r["system"].endswith("width") else "thickness",
            parse_length(r["nominal"], "in"),
            r["dressed_in"] * MM_PER_INCH,
            r["basis"],
            r["short"],
        )
        for r in rows
    )


def grades(reference: Reference) -> tuple[Grade, ...]:
    """Hardwood grades, the best first."""
    rows = reference.store.rows(
        "select l.*, s.short from {lumber_sizes} l join {sources} s using (source_id) "
        "where l.system = 'NHLA hardwood grade' order by l.source_line"
    )
    return tuple(
        Grade(
            r["nominal"],
            r["min_width_in"] * MM_PER_INCH,
            r["min_length_ft"] * MM_PER_FOOT,
            r["clear_face_yield_pct"],
            r["basis"],
            r["short"],
        )
        for r in rows
    )


def practices(reference: Reference, topic: str) -> dict[str, Practice]:
    """The rules of a topic of shop practice that hold numbers, by their words."""
    rows = reference.store.rows(
        "select rule, value_low, value_high, unit, basis from {practice} "
        "where topic = ? and value_high is not null order by source_line",
        [topic],
    )
    return {
        r["rule"]: Practice(
            r["rule"],
            r["value_high"] if r["value_low"] is None else r["value_low"],
            r["value_high"],
            r["unit"],
            r["basis"],
        )
        for r in rows
    }
