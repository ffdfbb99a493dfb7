"""The blocks that both pages are put together from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from woodref.answers.crate import crate_lines
from woodref.answers.piece_extras import limit_section, span_notes, span_section
from woodref.answers.piece_fixings import check_section, fixing_notes, fixing_section, need_section
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
from woodref.answers.render import Column, Section
from woodref.charts.piece_year import part_year
from woodref.reference.bases import BASES, DATA_COVERAGE, UNCHECKED
from woodref.reference.properties import PROPERTIES
from woodref.report.bars import movement_table
from woodref.report.inline import inline_svg
from woodref.report.markup import Markup, bullets, element, joined, name, paragraphs
from woodref.report.tables import Cell, Grid, section_table, table
from woodref.report.view import HARDNESS
from woodref.units import KINDS

if TYPE_CHECKING:
    from woodref.quantity import Range
    from woodref.reference.cautions import Notice
    from woodref.reference.woods import Wood
    from woodref.report.view import View


def block(title: str, *parts: str, class_: str = "") -> Markup:
    """A titled block of a page; nothing where there is nothing in it."""
    inside = joined(parts)
    if not inside:
        return Markup()
    return element("section", element("h2", title), inside, class_=class_)


def likely(kind: str, figure: Range, units: str, unit: str = "") -> str:
    """'34.5 lb (likely 31.7 to 37.4 lb)'.

    Parameters: kind of KINDS; figure; units; unit behind a bare number, as a currency.
    """
    text = KINDS[kind].text
    after = f" {unit}" if unit else ""
    expected = f"{text(figure.expected, units)}{after}"
    low, high = text(figure.low, units), text(figure.high, units)
    if low == high:
        return expected
    number, _, own = low.rpartition(" ")
    return f"{expected} (likely {number if own and number else low} to {high}{after})"


def outside(view: View) -> str:
    """The outside size of the piece, where its file gives one."""
    plan = view.estimate.piece.shipping
    text = KINDS["size"].text
    return " x ".join(text(x, view.units) for x in plan.size_mm) if plan else ""


def weight(view: View) -> str:
    """What the piece weighs at the build, and what is left out of that."""
    estimate = view.estimate
    if len(estimate.unweighed) == len(estimate.parts):
        return "not known"
    left = len(estimate.unweighed)
    without = f", without {left} part{'s' if left > 1 else ''} of unknown weight" if left else ""
    return likely("mass", estimate.mass_kg["build"], view.units) + without


def cost(view: View) -> str:
    """What the materials cost, and how many of them have no price."""
    estimate = view.estimate
    if estimate.cost is None:
        return "not priced"
    left = len(estimate.unpriced)
    without = f", without {left} item{'s' if left > 1 else ''} not priced" if left else ""
    return likely("money", estimate.cost, view.units, estimate.currency) + without


def _density(view: View, wood: Wood) -> str:
    for key, estimate in view.estimate.masses.densities.items():
        if any(p.part.species == key and p.wood == wood for p in view.estimate.parts):
            return KINDS["density"].text(estimate.density_kg_m3, view.units)
    return "not known"


def _hardness(view: View, wood: Wood) -> str:
    value = wood.value(HARDNESS)
    if value is None:
        return "in no table"
    return value_text(value, view.units) + (" [unchecked]" if value.unchecked else "")


def woods_block(view: View) -> Markup:
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
        density = KINDS["density"].text(line.sheet.density.expected, view.units)
        own = line.sheet.density_kg_m3 is not None
        rows.append(
            [
                Cell(line.sheet.name),
                Cell(""),
                Cell(joined(map(name, parts), ", ")),
                Cell(density, True),
                Cell("", True),
                Cell("the maker's own figure" if own else f"printed of {line.sheet.panel}"),
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
    return block(
        "Woods",
        table(Grid(heads, rows), "What the piece is made of"),
        paragraphs(
            [
                "; ".join(
                    f"{'Data, ' if i == 0 else ''}{coverage}: {DATA_COVERAGE[coverage]}"
                    for i, coverage in enumerate(coverages)
                )
                + ". Side hardness is the force that presses a steel ball half its depth into the "
                "face; the higher, the less it dents."
            ],
            "note",
        )
        if coverages
        else "",
    )


def weight_block(view: View, parts: str = "") -> Markup:
    """The weight of the piece and of its lifts, the crate, and what carriers count.

    Parameters: view; parts, a table of the weights of single parts.
    """
    estimate, plan = view.estimate, view.estimate.piece.shipping
    shop = view.audience == "shop"
    packed = (
        crate_lines(estimate.crate, plan.packing, view.units) if estimate.crate and plan else []
    )
    return block(
        "Weight and shipping",
        section_table(total_section(estimate), view.units) if shop else "",
        parts,
        paragraphs(packed),
        section_table(lift_section(estimate), view.units),
        section_table(carton_section(estimate), view.units),
        section_table(crate_section(estimate), view.units) if shop else "",
        section_table(charge_section(estimate), view.units) if shop else "",
        bullets(crate_notes(estimate, view.units), "note"),
    )


def year_block(view: View, table_too: bool) -> Markup:
    """The part that moves most through the year, and where asked for or nothing else is known, all.

    Parameters: view; table_too, whether every part is told.
    """
    seen = part_year(view.estimate, view.units)
    chart = (
        element(
            "figure",
            inline_svg(seen.figure, "year", seen.title, seen.words),
            element("figcaption", element("b", sentence(seen.title)), ". ", seen.words),
            class_="chart",
        )
        if seen
        else Markup()
    )
    moving = any(p.movements for p in view.estimate.parts)
    whole = movement_table(view.estimate, view.units) if moving and (table_too or not chart) else ""
    note = (
        "Bars: dark from the driest to the wettest of the year, thin lines to the ends of the "
        "likely range, the upright line the width as built."
    )
    return block(
        "Through the year",
        chart,
        whole,
        element("p", note, class_="note") if whole else "",
    )


def fixings_block(view: View) -> Markup:
    """How far fixings let wood travel, verdicts, and the sizes to make where they are wanted."""
    estimate = view.estimate
    if not estimate.fixings:
        return Markup()
    return block(
        "Fixings",
        section_table(need_section(estimate), view.units) if view.sizes else "",
        section_table(
            fixing_section(estimate), view.units, "Travel of each fixing, and its verdict"
        ),
        section_table(check_section(estimate, for_people=True), view.units),
        bullets(fixing_notes(estimate), "note"),
    )


def spans_block(view: View) -> Markup:
    """How spans sag."""
    return block(
        "Spans",
        section_table(span_section(view.estimate, view.units), view.units),
        section_table(
            limit_section(view.estimate), view.units, "Limits of sag, and the thickness each needs"
        ),
        bullets(span_notes(view.estimate, view.units), "note"),
    )


def notice_lines(notices: Iterable[Notice]) -> list[Markup]:
    """Cautions, each with its kind, its documents, and a word where it was recalled."""
    lines = []
    for n in notices:
        unchecked = " [unchecked]" if n.basis == UNCHECKED else ""
        said = f"{caution_text(n)}{unchecked}"
        lines.append(joined([element("b", f"{sentence(n.kind)}."), said], " "))
    return lines


def cautions_block(notices: Iterable[Notice], when_cut: Sequence[Notice] = ()) -> Markup:
    """The cautions of the piece, and those that hold where it is worked on."""
    return block(
        "Cautions",
        bullets(notice_lines(notices)),
        element("h3", "Where it is cut or sanded, now or in years") if when_cut else "",
        bullets(notice_lines(when_cut)),
        class_="caution",
    )


def sources_block(view: View) -> Markup:
    """What is taken for granted, and the printed figures with where each stands."""
    estimate = view.estimate
    columns = [Column(key, key) for key in ("wood", "figure", "printed", "basis", "source")]
    rows = [
        {
            "wood": wood.common_name,
            "figure": PROPERTIES[v.property_id].label,
            "printed": v.printed.removesuffix(" 1"),
            "basis": v.basis,
            "source": v.source,
        }
        for wood, v in view.figures
    ]
    bases = dict.fromkeys(v.basis for _, v in view.figures)
    told = [f"{b}: {BASES[b]}" for b in bases if b in BASES]
    reasons = [
        f"{sentence(w.common_name)}, {PROPERTIES[v.property_id].label}: {v.basis_reason}."
        for w, v in view.figures
        if v.basis_reason
    ]
    samples = [
        f"{sentence(w.common_name)}, {PROPERTIES[v.property_id].label}, is from a narrow sample: "
        f"{v.sample}."
        for w, v in view.figures
        if v.sample
    ]
    unchecked = [
        f"[unchecked] {w.common_name}, {PROPERTIES[v.property_id].label}: recalled, not seen in "
        "print."
        for w, v in view.figures
        if v.unchecked
    ]
    return block(
        "Assumptions and sources",
        bullets(sentences(estimate.assumptions)),
        section_table(Section("based_on", "Printed figures used", columns, rows), view.units),
        bullets([*unchecked, *reasons, *samples]),
        element("p", f"Basis, {'; '.join(told)}.") if told else "",
        class_="small",
    )
