"""The blocks that pages are put together from."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from woodref.answers.answer import Column, Section
from woodref.answers.crate import crate_lines
from woodref.answers.piece_extras import limit_section, span_notes, span_section
from woodref.answers.piece_fixings import check_section, fixing_section
from woodref.answers.piece_shipping import (
    carton_section,
    charge_section,
    crate_notes,
    crate_section,
    lift_section,
)
from woodref.answers.piece_tables import total_section
from woodref.answers.property_text import value_text
from woodref.answers.provenance import caution_text, sentence, sentences
from woodref.reference.bases import BASES, DATA_COVERAGE
from woodref.reference.properties import PROPERTIES
from woodref.report.bars import movement_table
from woodref.report.markup import Markup, bullets, element, joined, name, paragraphs
from woodref.report.tables import Cell, Grid, section_table, table
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.reference.cautions import Notice
    from woodref.reference.woods import Value, Wood
    from woodref.report.view import View

_HARDNESS = "side_hardness"


def block(title: str, *parts: str, class_: str = "") -> Markup:
    """A titled block of a page; nothing where there is nothing in it."""
    inside = joined(parts)
    if not inside:
        return Markup()
    return element("section", element("h2", title), inside, class_=class_)


def _density(view: View, wood: Wood) -> str:
    for key, estimate in view.estimate.masses.densities.items():
        if any(p.part.species == key and p.wood == wood for p in view.estimate.parts):
            density = KINDS["density"].text(estimate.density_kg_m3, view.units)
            return density + view.mark([], estimate.values)
    return "not known"


def _hardness(view: View, wood: Wood) -> str:
    value = wood.value(_HARDNESS)
    if value is None:
        return "in no table"
    return value_text(value, view.units) + view.mark([], [value])


def woods_table(view: View) -> Markup:
    """The woods and sheet goods: names, what each weighs, how hard it is, how well known."""
    estimate = view.estimate
    rows = []
    for wood in view.woods:
        parts = [p.part.name for p in estimate.parts if p.wood == wood]
        rows.append(
            [
                Cell(sentence(wood.common_name)),
                Cell(element("i", wood.botanical_name) if wood.botanical_name else ""),
                Cell(joined(map(name, parts), ", ")),
                Cell(_density(view, wood), True),
                Cell(_hardness(view, wood), True),
                Cell(wood.data_coverage),
            ]
        )
    for line in estimate.sheets:
        parts = [p.part.name for p in estimate.parts if p.part.sheet == line.sheet]
        own = line.sheet.density_kg_m3 is not None
        rows.append(
            [
                Cell(line.sheet.name),
                Cell(""),
                Cell(joined(map(name, parts), ", ")),
                Cell(KINDS["density"].text(line.sheet.density.expected, view.units), True),
                Cell("", True),
                Cell("your own figure" if own else f"printed of {line.sheet.panel}"),
            ]
        )
    heads = [
        Cell("wood"),
        Cell("botanical name"),
        Cell("parts"),
        Cell(f"density at {estimate.piece.build.moisture_pct:.1f} %", True),
        Cell("side hardness", True),
        Cell("data"),
    ]
    coverages = dict.fromkeys(w.data_coverage for w in view.woods)
    told = "; ".join(f"{c}: {DATA_COVERAGE[c]}" for c in coverages)
    return block(
        "Woods",
        table(Grid(heads, rows), "What the piece is made of"),
        paragraphs([f"Data, {told}." if told else ""], "note"),
    )


def weight_block(view: View, parts: str = "") -> Markup:
    """The weight of the piece and of its lifts, the crate, and what carriers count.

    Parameters: view; parts, a table of the weights of single parts.
    """
    estimate, plan = view.estimate, view.estimate.piece.shipping
    packed = (
        crate_lines(estimate.crate, plan.packing, view.units) if estimate.crate and plan else []
    )
    return block(
        "Weight and shipping",
        section_table(total_section(estimate), view.units),
        parts,
        paragraphs(packed),
        section_table(lift_section(estimate), view.units),
        section_table(carton_section(estimate), view.units),
        section_table(crate_section(estimate), view.units),
        section_table(charge_section(estimate), view.units),
        bullets(crate_notes(estimate, view.units), "note"),
    )


def year_block(view: View) -> Markup:
    """The change of every part that moves."""
    if not any(p.movements for p in view.estimate.parts):
        return Markup()
    note = (
        "Bars: dark from the driest to the wettest of the year, thin lines to the ends of the "
        "likely range, the upright line the width as built."
    )
    return block(
        "Through the year",
        movement_table(view.estimate, view.units),
        element("p", note, class_="note"),
    )


def fixings_block(view: View) -> Markup:
    """How far fixings let wood travel, and their verdicts."""
    estimate = view.estimate
    if not estimate.fixings:
        return Markup()
    return block(
        "Fixings",
        section_table(fixing_section(estimate), view.units, "Movement at each fixing"),
        section_table(check_section(estimate, for_people=True), view.units),
    )


def spans_block(view: View) -> Markup:
    """How spans sag."""
    return block(
        "Spans",
        section_table(span_section(view.estimate, view.units), view.units, "Sag of each span"),
        section_table(
            limit_section(view.estimate), view.units, "Limits of sag, and the thickness each needs"
        ),
        bullets(span_notes(view.estimate, view.units), "note"),
    )


def notice_lines(view: View, notices: Iterable[Notice]) -> list[Markup]:
    """Cautions, each with its kind and mark, and with its documents where sources are told."""

    def text(n: Notice) -> str:
        said = sentence(caution_text(n, view.units) if view.sources else n.said(view.units))
        return said + (view.mark([n.basis]) if n.sources else "")

    return [joined([element("b", f"{sentence(n.kind)}."), text(n)], " ") for n in notices]


def sources_block(view: View) -> Markup:
    """What is taken for granted, and the printed figures with where each stands."""
    estimate = view.estimate
    columns = [Column(key, key) for key in ("wood", "figure", "printed", "basis", "source")]
    figures = _figures(view)
    rows = [
        {
            "wood": wood.common_name,
            "figure": PROPERTIES[v.property_id].label,
            "printed": v.printed.removesuffix(" 1"),
            "basis": v.basis.replace("_", " "),
            "source": v.source,
        }
        for wood, v in figures
    ]
    bases = dict.fromkeys(v.basis for _, v in figures)
    told = [f"{b.replace('_', ' ')}: {BASES[b]}" for b in bases if b in BASES]
    reasons = [
        f"{sentence(w.common_name)}, {PROPERTIES[v.property_id].label}: {v.basis_reason}."
        for w, v in figures
        if v.basis_reason
    ]
    samples = [
        f"{sentence(w.common_name)}, {PROPERTIES[v.property_id].label}, is from a narrow sample: "
        f"{v.sample}."
        for w, v in figures
        if v.sample
    ]
    return block(
        "Sources and assumptions",
        section_table(Section("based_on", "Printed figures used", columns, rows), view.units),
        bullets([*reasons, *samples]),
        element("p", f"Basis, {'; '.join(told)}.") if told else "",
        element("h3", "Taken for granted") if estimate.assumptions else "",
        bullets(sentences(estimate.assumptions, view.units)),
        class_="new-page small",
    )


def _figures(view: View) -> list[tuple[Wood, Value]]:
    """The printed figures a page rests on: for the shop hardness too."""
    figures = list(view.estimate.figures)
    if view.audience == "shop":
        known = ((w, w.value(_HARDNESS)) for w in view.woods)
        figures += [(w, v.in_units(view.units)) for w, v in known if v]
    return figures
