"""The figures of a wood as tables of its page."""

from __future__ import annotations

from collections.abc import Iterator

from docs.site.page import blocks, link, plain, table
from woodref.answers.answer import Section
from woodref.answers.look import look_marks
from woodref.answers.property_text import boards_likely, mark_of, marks, value_text
from woodref.answers.show_figures import figure_sections
from woodref.answers.show_page import Page as Record
from woodref.answers.show_ratings import ratings_section
from woodref.answers.words import likely_text
from woodref.choose.overview import SHOP_PCT, Overview
from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.reference.strengths import ESTIMATED_PROPERTIES
from woodref.reference.woods import Value, Wood
from woodref.units import KINDS

#: Figures of the first table beside weight, movement and density.
_FIRST = (
    ("side_hardness", "12pct", "side hardness (Janka) at 12 %"),
    ("modulus_of_elasticity", "12pct", "stiffness (modulus of elasticity) at 12 %"),
    ("modulus_of_rupture", "12pct", "bending strength (modulus of rupture) at 12 %"),
    ("shrinkage_tangential", "range", "shrinkage along the rings, green to ovendry"),
    ("shrinkage_radial", "range", "shrinkage across the rings, green to ovendry"),
)
#: Properties whose estimates stand on a page.
_SHOWN = {*ESTIMATED_PROPERTIES, *(p for p, _, _ in _FIRST)}


def section_table(section: Section, units: str) -> str:
    """A section of an answer as a table; nothing where it is empty."""
    if not section.rows:
        return ""
    rows = [[plain(c.text(r.get(c.key), units)) for c in section.headed] for r in section.rows]
    right = [i for i, c in enumerate(section.headed) if c.numeric]
    return table([plain(c.head) for c in section.headed], rows, right)


def _computed(us: Overview, si: Overview) -> Iterator[tuple[str, str, str]]:
    """Weight, movement and density, in both systems of units."""
    if us.weight and si.weight:
        mark = marks(*us.weight.density.values)
        yield (
            f"a board of {us.board.name} ({si.board.name}) at {SHOP_PCT:g} %",
            likely_text(us.weight.mass_kg, "mass", "us", mark),
            likely_text(si.weight.mass_kg, "mass", "si", mark),
        )
    year = f"between {DRIEST_PCT:g} and {DAMPEST_PCT:g} %"
    for cut, one, two in (
        ("flat sawn", us.flat, si.flat),
        ("quarter sawn", us.quarter, si.quarter),
    ):
        if one and two:
            mark = marks(*one.basis.values)
            yield (
                f"{us.board.across} ({si.board.across}) {cut} moves {year}",
                likely_text(one.likely_change_mm, "change", "us", mark),
                likely_text(two.likely_change_mm, "change", "si", mark),
            )
    if us.density:
        mark = marks(*us.density.values)
        kind, density = KINDS["density"], us.density.density_kg_m3
        yield "density at 12 %", kind.text(density, "us") + mark, kind.text(density, "si") + mark


def _printed(wood: Wood) -> Iterator[tuple[str, str, str]]:
    """Hardness, stiffness, strength and shrinkage, in both systems of units."""
    for property_id, condition, label in _FIRST:
        value = wood.value(property_id, condition) or wood.estimate(property_id)
        if value:
            yield label, _likely(value, "us"), _likely(value, "si")


def _likely(value: Value, units: str) -> str:
    """'950 lbf (566 to 1,330)'."""
    ends = boards_likely(value, units)
    return f"{value_text(value, units)}{marks(value)}" + (f" ({ends})" if ends else "")


def first_figures(us: Overview, si: Overview) -> str:
    """What a maker asks first: US units, metric, in parentheses where 9 boards in 10 fall."""
    told = [*_computed(us, si), *_printed(us.wood)]
    rows = [tuple(map(plain, row)) for row in told]
    if not rows:
        return blocks("No table holds a weight, movement or hardness of it.", _of_its_genus(us))
    return blocks(
        table(("in short", "US units", "metric"), rows),
        "In parentheses: where 9 boards in 10 fall.",
        _of_its_genus(us),
    )


def _genus(g: Overview) -> Value | None:
    """The specific gravity of its genus, where nothing tells the weight of the wood itself."""
    return None if g.weight else g.wood.estimate("basic_specific_gravity")


def _of_its_genus(g: Overview) -> str:
    genus = _genus(g)
    if genus is None:
        return ""
    gravity = plain(f"Basic specific gravity is {genus.printed}{marks(genus)}")
    return f"{gravity}; weigh a board: {link('woodref own weigh', 'commands/own.md')}."


def figures_in(wood: Wood, units: str) -> str:
    """Every figure of a wood in a system of units."""
    return blocks(*(section_table(s, units) for s in figure_sections(wood, units)))


def ratings(record: Record) -> str:
    """Its printed classes, where there are any."""
    told = section_table(ratings_section(record.ratings, record.wood, True), "us")
    return blocks("## Ratings", told) if told else ""


def used_on(record: Record) -> list[str]:
    """The marks that stand on the page."""
    return [
        *(marks(v) for v in record.wood.values.values()),
        *(marks(v) for (p, _), v in record.wood.estimates.items() if p in _SHOWN),
        *(marks(v) for v in (_genus(record.overview),) if v),
        marks(*record.overview.values),
        mark_of(record.wood.fiber_saturation.basis),
        *(mark_of(r.basis) for r in record.ratings),
        *look_marks(record.look),
        *(mark_of(row["basis"]) for row in record.names),
    ]
