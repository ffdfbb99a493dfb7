"""Shipping from the reference tables: density scale, divisors, parcel limits, pallet, packing."""

from __future__ import annotations

import re
from typing import Any

from woodref.errors import NoDataError, UnitsError
from woodref.record import record
from woodref.reference.library import Reference
from woodref.reference.trade import LiftingLimit, Practice, lifting_limit, practices
from woodref.units import LB_TO_KG, MM_PER_INCH, either_unit

_DIVISOR = re.compile(r"\s*([0-9]+\.?[0-9]*|\.[0-9]+)\s*(in3/lb|in³/lb|cm3/kg|cm³/kg)\s*")


@record
class FreightClass:
    """A step of the density scale: class from ``low`` up to below ``high`` [lb/ft3]."""

    name: str
    low_lb_ft3: float
    high_lb_ft3: float | None
    basis: str
    source: str


@record
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


@record
class ParcelCeiling:
    """Usual limits of a parcel: mass [kg], longest side, and length plus girth [mm].

    The girth is twice the sum of the two shorter sides.
    """

    mass_kg: float
    length_mm: float
    length_and_girth_mm: float
    basis: str


@record
class Pallet:
    """A pallet of the usual footprint [mm]: what it weighs empty, low to high [kg]."""

    low_kg: float
    high_kg: float
    footprint_mm: tuple[float, float]
    basis: str


@record
class ShippingFacts:
    """The tables of shipping, each with its basis.

    ``packing_pct`` what a carton adds to the piece [%], ``padding`` the room on each side of a
    piece, ``two_people`` what two people lift [lb]; ``lift`` the load constant of one person.
    """

    classes: tuple[FreightClass, ...]
    divisors: tuple[Divisor, ...]
    ceiling: ParcelCeiling
    pallet: Pallet
    packing_pct: Practice
    padding: Practice
    two_people: Practice
    lift: LiftingLimit


def parse_divisor(text: str) -> Divisor:
    """A divisor of one's own from '139 in3/lb' or '5000 cm3/kg'.

    Raises: InputError for anything else.
    """
    match = _DIVISOR.fullmatch(text)
    if not match or not 1.0 <= float(match[1]) <= 100_000.0:
        raise UnitsError(
            lambda u: (
                f"'{text}' is not a divisor of dimensional weight; write for example "
                + either_unit(u, "139 in3/lb", "5000 cm3/kg")
            )
        )
    unit = match[2].replace("³", "3")
    return Divisor("given", float(match[1]), unit, "given")


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
        ceiling = {(r["item"], r["unit"]): r for r in of("parcel ceiling")}
        pallet = {r["item"]: r for r in of("pallet")}
        empty = pallet["empty weight"]
        footprint = [float(x) for x in pallet["standard footprint"]["text"].split("x")]
        rules = practices(reference, "shipping")
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
                ceiling["weight", "lb"]["value"] * LB_TO_KG,
                ceiling["length", "in"]["value"] * MM_PER_INCH,
                ceiling["length plus girth", "in"]["value"] * MM_PER_INCH,
                ceiling["length plus girth", "in"]["basis"],
            ),
            Pallet(
                empty["range_min"] * LB_TO_KG,
                empty["range_max"] * LB_TO_KG,
                (footprint[0] * MM_PER_INCH, footprint[1] * MM_PER_INCH),
                empty["basis"],
            ),
            rules["packing weight added"],
            rules["packing allowance added to each side of a piece"],
            rules["two-person lift"],
            lift,
        )
    except KeyError as error:
        raise NoDataError(f"the dataset lacks a figure of shipping: {error}") from None
