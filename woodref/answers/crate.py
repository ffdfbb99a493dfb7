"""The answer of the command crate: what a packed piece weighs and measures, and who lifts it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil
from typing import TYPE_CHECKING, Any

from woodref.answers.answer import Answer, Column, Heed, Section
from woodref.answers.property_text import UNCHECKED_MARK
from woodref.answers.provenance import unchecked_note
from woodref.answers.screen import brief
from woodref.answers.shop_words import mass_range, shown
from woodref.answers.words import likely_columns
from woodref.reference.bases import UNCHECKED
from woodref.shipping.crate import (
    USUAL_BATTEN_KG_M3,
    USUAL_PADDING_MM,
    USUAL_PALLET_HEIGHT_MM,
    USUAL_WALL_KG_M3,
    UsualFigure,
)
from woodref.shipping.lifting import Certainty, lifting
from woodref.units import KINDS, LB_TO_KG, MM_PER_INCH

if TYPE_CHECKING:
    from woodref.quantity import Range
    from woodref.reference.shipping import ShippingFacts
    from woodref.shipping.crate import Crate, Packing
    from woodref.shipping.lifting import Lifting

#: The usual figures that are recalled: what they are called, and their value.
_UNCHECKED_WORDS = {
    UsualFigure.WALL_DENSITY: ("density of the walls", f"{USUAL_WALL_KG_M3:g} kg/m3"),
    UsualFigure.BATTEN_DENSITY: ("density of the battens", f"{USUAL_BATTEN_KG_M3:g} kg/m3"),
    UsualFigure.PALLET_HEIGHT: ("height of a pallet", f"{USUAL_PALLET_HEIGHT_MM:g} mm"),
}
#: More people than this are in each other's way (common practice, no source).
_BY_HAND = 4


def _size(packed: Crate, units: str) -> str:
    sizes = [ceil(x - 1e-6) if units == "si" else x for x in packed.size_mm]
    return " x ".join(KINDS["size_up"].text(x, units) for x in sizes)


def unchecked_words(packing: Packing) -> list[str]:
    """The usual figures of a packing that are unchecked, in words."""
    return [f"the {_UNCHECKED_WORDS[figure][0]}" for figure in packing.unchecked]


def _who(lift: Lifting, what: str) -> str:
    """'Crate: too heavy for two people; plan for 3, or wheels': the caution in a sentence."""
    if lift.people == 1:
        return f"One person can lift the {what}, held close"
    if lift.two_people is Certainty.YES:
        return f"Two people can lift the {what}"
    if lift.people > _BY_HAND:
        told = "too heavy to lift by hand; use a pallet jack or a liftgate"
        return Heed(f"{what.capitalize()}: {told}")
    if lift.two_people is Certainty.PERHAPS:
        return f"Perhaps two people can lift the {what}; plan for {lift.people}, or wheels"
    return Heed(f"{what.capitalize()}: too heavy for two people; plan for {lift.people}, or wheels")


def _classes(packed: Crate) -> str:
    """'freight density class 125 (100 to 175 over its range of weight)'."""
    low, high = packed.freight_high.name, packed.freight_low.name
    ends = f" ({low} to {high} over its range of weight)" if low != high else ""
    return f"freight density class {packed.freight.name}{ends}"


def _weights(packed: Crate, load_kg: Range) -> Section:
    columns = [Column("load", "what"), *likely_columns("mass", "weight", "mass")]
    rows = [
        ("piece", *load_kg),
        ("packing", *packed.packing_kg),
        ("together", *packed.gross_kg),
    ]
    return Section.of("weights", "Weight", columns, rows)


def _outside(packed: Crate) -> Section:
    columns = [
        Column("outer_volume", "volume", "solid"),
        Column("gross_density", "density", "density"),
        Column("freight_class", "freight class"),
        Column("freight_class_if_heavy", "if heavy"),
        Column("freight_class_if_light", "if light"),
        Column("basis", "basis"),
    ]
    steps = (packed.freight, packed.freight_high, packed.freight_low)
    row = packed.volume_m3, packed.density_kg_m3, *(s.name for s in steps), packed.freight.basis
    return Section.of("outside", "Outside", columns, [row])


def _lifts(packed: Crate, load_kg: Range, facts: ShippingFacts, kind: str) -> Section:
    unpacked = lifting(load_kg, facts, packed.lifting.one_person_kg)
    columns = [
        Column("lift", "what"),
        Column("two_people", "two people"),
        Column("people", "people by the lifting limit", "count"),
        Column("mass_limit", "limit of one", "mass"),
    ]
    rows = (
        (what, lift.two_people, lift.people, lift.one_person_kg)
        for what, lift in (("piece, not packed", unpacked), (kind, packed.lifting))
    )
    return Section.of("lifts", "Can it be lifted (caution)", columns, rows)


def _charged(packed: Crate) -> Section:
    columns = [
        Column("divisor", "divisor"),
        Column("dimensional_mass", "dimensional weight", "mass"),
        *likely_columns("chargeable_mass", "chargeable", "mass"),
        Column("basis", "basis"),
    ]
    rows = []
    for d in packed.dimensional:
        divisor = f"{d.divisor.value:g} {d.divisor.unit}"
        rows.append((divisor, d.dimensional_kg, *d.chargeable_kg, d.divisor.basis))
    title = "Dimensional weight, and the weight charged"
    return Section.of("chargeable", title, columns, rows)


def _limits(packed: Crate, basis: str) -> Section:
    columns = [
        Column("parcel_limit", "usual parcel limit"),
        Column("gross_mass", "weight", "mass"),
        Column("mass_limit", "at most", "mass"),
        Column("outer_size", "size", "size_up"),
        Column("size_limit", "at most", "size"),
        Column("exceeded", "exceeded"),
        Column("basis", "basis"),
    ]
    rows: list[dict[str, Any]] = [
        {
            "parcel_limit": x.name,
            "gross_mass" if x.kind == "mass" else "outer_size": x.value,
            f"{x.kind}_limit": x.limit,
            "exceeded": x.over,
            "basis": basis,
        }
        for x in packed.limits
    ]
    return Section("parcel_limits", "Would it go as a parcel", columns, rows)


def _figures(packed: Crate, packing: Packing, facts: ShippingFacts) -> Iterator[dict[str, Any]]:
    """The figures the answer rests on, each with its basis and where it stands."""
    step = packed.freight
    high = "and up" if step.high_lb_ft3 is None else f"to below {step.high_lb_ft3:g}"
    yield {
        "figure": f"freight density class {step.name}",
        "printed": f"{step.low_lb_ft3:g} {high} lb/ft3",
        "basis": step.basis,
        "source": step.source,
    }
    yield {
        "figure": "load constant of an ideal lift",
        "printed": f"{facts.lift.mass_kg:g} kg",
        "basis": facts.lift.basis,
        "source": facts.lift.source,
    }
    two = facts.two_people
    yield _practice("lift of two people", f"{two.low:g} to {two.high:g} {two.unit}", two.basis)
    weighed = packing.mass_kg is not None
    if packing.padding_mm == USUAL_PADDING_MM:
        room = facts.padding
        words = f"{room.low:g} to {room.high:g} in on each side"
        yield _practice("padding, where none is given", words, room.basis)
    if packing.kind == "carton" and not weighed:
        share = facts.packing_pct
        words = f"{share.low:g} to {share.high:g} {share.unit}"
        yield _practice("weight of a carton and its padding", words, share.basis)
    if packing.pallet and not weighed:
        p = facts.pallet
        sides = " x ".join(f"{x / MM_PER_INCH:.0f}" for x in p.footprint_mm)
        ends = f"{p.low_kg / LB_TO_KG:.0f} to {p.high_kg / LB_TO_KG:.0f} lb at {sides} in"
        yield _practice("weight of a pallet", ends, p.basis)
    for what, value in (_UNCHECKED_WORDS[figure] for figure in packing.unchecked):
        yield {"figure": what, "printed": value, "basis": UNCHECKED, "source": "no source"}


def _practice(figure: str, printed: str, basis: str) -> dict[str, Any]:
    return {"figure": figure, "printed": printed, "basis": basis, "source": "no source"}


def _based_on(packed: Crate, packing: Packing, facts: ShippingFacts) -> Section:
    columns = [
        Column("figure", "figure"),
        Column("printed", "value"),
        Column("basis", "basis"),
        Column("source", "source"),
    ]
    return Section("based_on", "Based on", columns, list(_figures(packed, packing, facts)))


def _notes(packed: Crate, packing: Packing, facts: ShippingFacts) -> list[str]:
    ideal = packed.lifting.one_person_kg == facts.lift.mass_kg
    shown = "the load constant" if ideal else "the recommended weight limit at your reach"
    notes = [
        f"Caution, lifting: people are counted by {shown} ({facts.lift.source}, revised lifting "
        "equation), which holds for one person and a good lift; take doors, drawers and tops off, "
        "agree on a leader and clear the way. Neither medical nor legal advice.",
        "The range of the packing is added to that of the piece, end to end.",
        "Freight class by density alone, gross weight over the outer volume; how a piece is named, "
        "handled and valued can change it: ask before you ship.",
        "Dimensional weight is the outer volume over the divisor, the larger of it and the gross "
        "weight is charged (common practice, no source); nothing is rounded up here, price lists "
        "often round sides or weight up.",
        "Parcel limits are common practice; yours may differ. The girth is twice the two shorter "
        "sides.",
    ]
    if packing.wall_mm and packing.mass_kg is None:
        notes.append(
            "Walls and battens may be 15 % lighter or heavier (our assumption); screws and foam "
            "are taken to be within that."
        )
    if packing.unchecked:
        notes.append(unchecked_note("; ".join(unchecked_words(packing))))
    return notes


def crate_lines(packed: Crate, packing: Packing, units: str) -> list[str]:
    """Gross weight and size; who can lift it, its freight class, and whether it is a parcel."""
    kind = packing.kind
    limits = ", ".join(x.name for x in packed.limits if x.over is Certainty.YES)
    unsure = UNCHECKED_MARK if packing.unchecked else ""
    who = _who(packed.lifting, kind)
    return [
        f"{kind.capitalize()} {mass_range(packed.gross_kg, units, unsure)}, "
        f"{_size(packed, units)} outside{' on its pallet' if packing.pallet else ''}.",
        Heed(f"{who}.") if isinstance(who, Heed) else f"{who}.",
        *([Heed(f"Over parcel limits ({limits}): ship as freight.")] if limits else []),
        f"{_classes(packed).capitalize()}.",
    ]


def _packed_lines(packed: Crate, load_kg: Range, facts: ShippingFacts, units: str) -> list[str]:
    """What the piece and its packing weigh apart, and who lifts the piece before it is packed."""
    piece, packing = (mass_range(x, units) for x in (load_kg, packed.packing_kg))
    who = _who(lifting(load_kg, facts, packed.lifting.one_person_kg), "piece, not packed")
    volume = KINDS["solid"].text(packed.volume_m3, units)
    density = shown("density", packed.density_kg_m3, units)
    return [
        f"{who}.",
        f"Piece {piece}, packing {packing}; {volume} outside, {density}.",
        *_charged_line(packed, units),
    ]


def _charged_line(packed: Crate, units: str) -> list[str]:
    """The weight a parcel is charged by, of each divisor; none for a crate that is no parcel."""
    if any(x.over is Certainty.YES for x in packed.limits):
        return []
    told = [
        f"{mass_range(d.chargeable_kg, units)} by {d.divisor.value:g} {d.divisor.unit}"
        for d in packed.dimensional
    ]
    return [f"Weight charged: {'; '.join(told)}."] if told else []


def crate_answer(
    packed: Crate,
    load_kg: Range,
    packing: Packing,
    facts: ShippingFacts,
    units: str,
    unweighed: Iterable[str] = (),
) -> Answer:
    """The answer: gross weight and size, who can lift it, freight class, charges and limits.

    Parameters: packed; load_kg, what the piece weighs; packing; facts; units 'us' or 'si';
    unweighed, parts whose weight is not known.
    """
    kind = packing.kind
    lines = crate_lines(packed, packing, units)
    missing = [f"Not weighed: {x}." for x in unweighed]
    length, depth, height = packed.size_mm
    return Answer(
        headline=lines,
        screen=brief([*lines, *_packed_lines(packed, load_kg, facts, units)], notes=missing),
        facts=[
            (Column("packing", ""), kind),
            (Column("outer_length", "", "size_up"), length),
            (Column("outer_depth", "", "size_up"), depth),
            (Column("outer_height", "", "size_up"), height),
        ],
        sections=[
            _weights(packed, load_kg),
            _outside(packed),
            _lifts(packed, load_kg, facts, kind),
            _charged(packed),
            _limits(packed, facts.ceiling.basis),
            _based_on(packed, packing, facts),
        ],
        notes=[*_notes(packed, packing, facts), *missing],
    )
