"""The tables of an estimate about items, lifts and the crate."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Column, Section
from woodref.answers.crate import crate_lines, unchecked_words
from woodref.answers.provenance import unchecked_note
from woodref.answers.shop_words import mass_range, people_text
from woodref.answers.words import range_columns, range_row
from woodref.piece.finish_and_hardware import item_cost
from woodref.reference.bases import UNCHECKED, in_words
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate


def item_section(estimate: Estimate) -> Section:
    """Hardware, glass and the like: weight and cost of all pieces of each."""
    rows = [
        {
            "item": item.name,
            "item_kind": item.kind,
            "quantity": item.quantity,
            **range_row("mass", mass),
            **range_row("cost", item_cost(item)),
            "basis": item.basis,
        }
        for item, mass in zip(estimate.piece.items, estimate.masses.items, strict=True)
    ]
    columns = [
        Column("item", "item"),
        Column("item_kind", "kind"),
        Column("quantity", "no.", "count"),
        *range_columns("mass", "weight", "mass"),
        *range_columns("cost", "cost", "money"),
        Column("basis", "weight is"),
    ]
    return Section("items", "Hardware and other items", columns, rows)


def lift_section(estimate: Estimate) -> Section:
    """What is lifted together; nothing for a piece that is one lift."""
    lifts = sorted(estimate.masses.lifts, key=lambda lift: -lift[1].expected)
    rows = [{"lift": name, **range_row("mass", mass)} for name, mass in lifts]
    columns = [Column("lift", "lift"), *range_columns("mass", "weight", "mass")]
    return Section(
        "lifts", "Lifts, as shipped, the heaviest first", columns, rows if len(lifts) > 1 else []
    )


def crate_section(estimate: Estimate) -> Section:
    """The crate: size, volume, weight, density, freight class."""
    rows: list[dict[str, Any]] = []
    c = estimate.crate
    if c:
        rows.append(
            {
                "outer_length": c.size_mm[0],
                "outer_depth": c.size_mm[1],
                "outer_height": c.size_mm[2],
                "outer_volume": c.volume_m3,
                "packing_mass": c.packing_kg.expected,
                **range_row("gross_mass", c.gross_kg),
                "gross_density": c.density_kg_m3,
                "freight_class": c.freight.name,
                "freight_class_if_heavy": c.freight_high.name,
                "freight_class_if_light": c.freight_low.name,
                "people": c.lifting.people,
                "two_people": c.lifting.two_people,
                "limits_exceeded": ", ".join(c.over) or None,
            }
        )
    columns = [
        Column("outer_length", "length", "size_up"),
        Column("outer_depth", "depth", "size_up"),
        Column("outer_height", "height", "size_up"),
        Column("outer_volume", "volume", "solid"),
        Column("packing_mass", "packing", "mass"),
        *range_columns("gross_mass", "gross weight", "mass"),
        Column("gross_density", "density", "density"),
        Column("freight_class", "freight class"),
        Column("freight_class_if_heavy", ""),
        Column("freight_class_if_light", ""),
        Column("people", "people", "count"),
        Column("two_people", ""),
        Column("limits_exceeded", "above parcel limits of"),
    ]
    return Section("crate", "Crate" if c and _walled(estimate) else "Carton", columns, rows)


def carton_section(estimate: Estimate) -> Section:
    """The cartons of a piece in several: what each weighs, and who lifts it."""
    columns = [
        Column("carton", "carton"),
        Column("quantity", "no.", "count"),
        Column("outer_length", "length", "size_up"),
        Column("outer_depth", "depth", "size_up"),
        Column("outer_height", "height", "size_up"),
        *range_columns("gross_mass", "each weighs", "mass"),
        Column("people", "people", "count"),
        Column("limits_exceeded", "above parcel limits of"),
    ]
    rows = [
        (
            c.plan.name,
            c.plan.quantity,
            *c.packed.size_mm,
            *c.packed.gross_kg,
            c.packed.lifting.people,
            ", ".join(c.packed.over) or None,
        )
        for c in estimate.cartons
    ]
    return Section.of("cartons", "Cartons", columns, rows)


def carton_line(estimate: Estimate, units: str) -> list[str]:
    """The line of the headline about cartons: what each weighs, and how many people it asks for."""
    if not estimate.cartons:
        return []
    said = []
    for c in estimate.cartons:
        gross, people = c.packed.gross_kg, c.packed.lifting.people
        count = f"{c.plan.quantity} of " if c.plan.quantity > 1 else ""
        said.append(f"{count}{c.plan.name} {mass_range(gross, units)}, {people_text(people)}")
    return [f"Cartons: {'; '.join(said)}."]


def charge_section(estimate: Estimate) -> Section:
    """What the volume counts as by each divisor, and what is charged."""
    rows = [
        {
            "divisor": f"{d.divisor.value:g} {d.divisor.unit}",
            "dimensional_mass": d.dimensional_kg,
            **range_row("chargeable_mass", d.chargeable_kg),
            "basis": d.divisor.basis,
        }
        for d in (estimate.crate.dimensional if estimate.crate else ())
    ]
    columns = [
        Column("divisor", "divisor"),
        Column("dimensional_mass", "counts as", "mass"),
        *range_columns("chargeable_mass", "charged", "mass"),
        Column("basis", "basis"),
    ]
    return Section("chargeable", "Dimensional and chargeable weight", columns, rows)


def _walled(estimate: Estimate) -> bool:
    plan = estimate.piece.shipping
    return plan is not None and plan.packing.kind == "crate"


def crate_line(estimate: Estimate, units: str) -> list[str]:
    """The lines of the headline about the crate: weight, size, lifting, class."""
    c, plan = estimate.crate, estimate.piece.shipping
    return crate_lines(c, plan.packing, units) if c and plan else []


def crate_notes(estimate: Estimate, units: str) -> list[str]:
    """What must be said of items, crate and lifting."""
    notes = []
    if any(i.basis == UNCHECKED for i in estimate.piece.items):
        notes.append(
            unchecked_note(
                "the usual densities of glass, stone and sheet goods; weigh a piece of yours"
            )
        )
    c, plan = estimate.crate, estimate.piece.shipping
    if c and plan:
        one = KINDS["mass"].text(c.lifting.one_person_kg, units)
        notes.append(
            f"Lifting: by what one person should lift at most in an ideal lift, {one}, it asks "
            f"for {c.lifting.people}; a caution, not medical or legal advice: held far from the "
            "body or with a twist the most is much less."
        )
        if not plan.padding_given:
            size = KINDS["size"].text(plan.packing.padding_mm, units)
            notes.append(f"Padding {size} on every side (common practice, no source).")
        if plan.packing.unchecked:
            notes.append(unchecked_note(", ".join(unchecked_words(plan.packing))))
        notes.append(
            f"Freight class by the density scale [{in_words(c.freight.basis)}]: "
            f"{c.freight.source}; the carrier's own rules decide. Limits of a parcel: common "
            "practice, no source."
        )
    return notes
