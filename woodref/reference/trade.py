"""Rules and sizes of the lumber trade from the reference tables."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from woodref.errors import NoDataError
from woodref.reference.library import Reference
from woodref.units import LB_TO_KG, MM_PER_INCH, parse_length

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


@dataclass(frozen=True)
class SoftwoodSize:
    """A softwood size as sold, and dressed dry; ``side`` 'thickness' or 'width' [mm]."""

    nominal: str
    side: str
    nominal_mm: float
    dressed_mm: float
    basis: str
    source: str


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class Grade:
    """A hardwood grade: least board [mm] and least share of clear face on the graded side [%]."""

    name: str
    min_width_mm: float
    min_length_mm: float
    clear_face_pct: float
    basis: str
    source: str


@dataclass(frozen=True)
class FreightClass:
    """A step of the density scale: class from ``low`` up to below ``high`` [lb/ft3]."""

    name: str
    low_lb_ft3: float
    high_lb_ft3: float | None
    basis: str
    source: str


@dataclass(frozen=True)
class Divisor:
    """A divisor of dimensional weight: ``value`` in ``unit``, 'in3/lb' or 'cm3/kg'."""

    label: str
    value: float
    unit: str
    basis: str

    @property
    def kg_per_m3(self) -> float:
        """What a cubic meter counts as [kg]."""
        if self.unit == "cm3/kg":
            return 1e6 / self.value
        return LB_TO_KG / (self.value * (MM_PER_INCH * 1e-3) ** 3)


@dataclass(frozen=True)
class ParcelCeiling:
    """Usual limits of a parcel: mass [kg], longest side, and length plus girth [mm]."""

    mass_kg: float
    length_mm: float
    length_and_girth_mm: float
    basis: str


@dataclass(frozen=True)
class ShippingFacts:
    """The tables of shipping: density scale, divisors, ceilings, pallet, packing, lifting."""

    classes: tuple[FreightClass, ...]
    divisors: tuple[Divisor, ...]
    ceiling: ParcelCeiling
    pallet_kg: tuple[float, float]
    packing_pct: tuple[float, float]
    packing_mm: tuple[float, float]
    two_people_kg: tuple[float, float]
    lift: LiftingLimit


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
            r["min_length_ft"] * 12.0 * MM_PER_INCH,
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


def shipping_facts(reference: Reference) -> ShippingFacts:
    """Every figure of shipping that the dataset holds, with its basis.

    Raises: NoDataError where the dataset lacks one.
    """
    rows = reference.store.rows(
        "select f.*, s.short from {shipping_facts} f join {sources} s using (source_id) "
        "order by f.source_line"
    )

    def of(topic: str) -> list[dict[str, Any]]:
        return [r for r in rows if r["topic"] == topic]

    try:
        ceiling = {(r["item"], r["unit"]): r["value"] for r in of("parcel ceiling")}
        pallet = next(r for r in of("pallet") if r["item"] == "empty weight")
        rules = practices(reference, "shipping")
        packing = rules["packing weight added"]
        space = rules["packing allowance added to each side of a piece"]
        two = rules["two-person lift"]
        lift = lifting_limit(reference)
        if lift is None:
            raise KeyError("load constant")
        return ShippingFacts(
            tuple(
                FreightClass(
                    f"{r['value']:g}", r["range_min"], r["range_max"], r["basis"], r["short"]
                )
                for r in of("LTL freight class by density")
            ),
            tuple(
                Divisor(r["item"].removeprefix("divisor, "), r["value"], r["unit"], r["basis"])
                for r in of("parcel dimensional weight")
            ),
            ParcelCeiling(
                ceiling["weight", "lb"] * LB_TO_KG,
                ceiling["length", "in"] * MM_PER_INCH,
                ceiling["length plus girth", "in"] * MM_PER_INCH,
                "common practice",
            ),
            (pallet["range_min"] * LB_TO_KG, pallet["range_max"] * LB_TO_KG),
            (packing.low, packing.high),
            (space.low_mm, space.high_mm),
            (two.low * LB_TO_KG, two.high * LB_TO_KG),
            lift,
        )
    except (KeyError, StopIteration) as error:
        raise NoDataError(f"the dataset lacks a figure of shipping: {error}") from None
