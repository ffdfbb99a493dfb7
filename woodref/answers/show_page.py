"""The page of a wood: what a maker asks first, then names, printed figures and ratings."""

from __future__ import annotations

from typing import Any, NamedTuple

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.look import look_lines, look_marks, look_notes, look_sections
from woodref.answers.property_text import (
    CONDITION_WORDS,
    UNCHECKED_MARK,
    boards_likely,
    footnotes,
    mark_of,
    marks,
    spread_lines,
    value_text,
)
from woodref.answers.provenance import basis_notes, caution_row, sentence, sentences
from woodref.answers.show_figures import figure_sections, figures_for_programs
from woodref.answers.show_ratings import ratings_section
from woodref.answers.words import likely_text, sold_as
from woodref.choose.overview import (
    AIR_DRY_PCT,
    SHOP_PCT,
    USUAL_BOARDS,
    Overview,
    overview,
)
from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.note import Note
from woodref.reference.bases import DATA_COVERAGE, ESTIMATED, UNCHECKED, in_words
from woodref.reference.cautions import Caution, cautions_for, recorded_notices
from woodref.reference.library import Reference
from woodref.reference.looks import Look, look_of
from woodref.reference.names import fold, natural_order
from woodref.reference.printed import (
    Printed,
    preferred_values,
    printed_figures,
)
from woodref.reference.ratings import Rating, ratings_for
from woodref.reference.strengths import ESTIMATED_PROPERTIES
from woodref.reference.woods import Wood

#: The most other names printed for people.
_MOST_NAMES = 12


class Page(NamedTuple):
    """All that is known of a wood."""

    wood: Wood
    overview: Overview
    names: tuple[dict[str, Any], ...]
    printed: tuple[Printed, ...]
    ratings: tuple[Rating, ...]
    cautions: tuple[Caution, ...]
    look: Look | None


def page_of(reference: Reference, name: str, units: str) -> Page:
    """Gather the page of a wood or trade group.

    Raises: as Reference.wood.
    """
    rows = reference.meant_rows(name)
    printed = printed_figures(reference, [r["species_id"] for r in rows])
    wood = reference.wood_of(name, rows, preferred_values(printed))
    return Page(
        wood,
        overview(wood, USUAL_BOARDS[units]),
        tuple(reference.names_of(wood.species_ids)),
        printed,
        ratings_for(reference, wood.species_ids),
        cautions_for(reference, wood.species_ids),
        look_of(reference, wood.species_id, wood.species_ids),
    )


def _name_of(wood: Wood) -> str:
    botanical = "" if wood.is_group else f" ({wood.botanical_name})"
    return f"{sentence(wood.common_name)}{botanical}"


def _weight_line(page: Page, units: str) -> str:
    w, board = page.overview.weight, page.overview.board
    if w is None:
        return f"{_name_of(page.wood)}: weight not known."
    return (
        f"{_name_of(page.wood)}: a board of {board.name} weighs "
        f"{likely_text(w.mass_kg, 'mass', units, marks(*w.density.values))} at {SHOP_PCT:g} %."
    )


def _movement_lines(page: Page, units: str) -> list[str]:
    g = page.overview
    if g.flat is None or g.quarter is None:
        return ["Movement through a year is not known: no table holds its shrinkage both ways."]
    flat, quarter = (
        likely_text(m.likely_change_mm, "change", units, marks(*m.basis.values))
        for m in (g.flat, g.quarter)
    )
    span = f"between {DRIEST_PCT:g} and {DAMPEST_PCT:g} %"
    return [f"A width of {g.board.across} moves {flat} flat sawn {span}, {quarter} quarter sawn."]


def _hardness_line(page: Page, units: str) -> list[str]:
    value = page.overview.hardness
    if value is None:
        return []
    at = "at 12 %" if value.condition == "12pct" else CONDITION_WORDS[value.condition]
    if value.basis == ESTIMATED:
        at += ", estimated from specific gravity"
    return [
        f"Side hardness {value_text(value, units)}{marks(value)} ({boards_likely(value, units)}) "
        f"{at}."
    ]


def _caution_lines(page: Page) -> list[str]:
    own = [c for c in page.cautions if c.species_id in page.wood.species_ids]
    dust = len({c.document for c in own if c.kind == "dust"})
    named = (
        f"; {dust} source{'s' if dust > 1 else ''} single{'' if dust > 1 else 's'} this one out"
        if dust
        else ""
    )
    trade = list(
        dict.fromkeys(
            f"{c.effect}{f' since {c.effective}' if c.effective else ''} ({in_words(c.basis)})"
            for c in own
            if c.kind == "trade control"
        )
    )
    return [
        f"Dust: harmful like any wood's{named}. Collect it and wear a mask.",
        f"Trade control: {'; '.join(trade)}; check the current listing."
        if trade
        else "No trade restriction on record; check the current list.",
    ]


def headline(page: Page, units: str) -> list[str]:
    """Weight, movement, hardness, look and cautions, a line each."""
    if not page.printed:
        known = (
            "is in no table"
            if page.wood.note.startswith("in no table")
            else "is known, but no table holds a number for it"
        )
        lead = [f"{_name_of(page.wood)} {known}."]
        genus = page.wood.estimate("basic_specific_gravity")
        if genus is not None:
            lead.append(
                f"Basic specific gravity is {genus.printed}; weigh a board: woodref own weigh."
            )
        if page.overview.weight is None:
            return [*lead, *look_lines(page.look), *_caution_lines(page)]
    else:
        lead = []
    return [
        *lead,
        _weight_line(page, units),
        *_movement_lines(page, units),
        *_hardness_line(page, units),
        *look_lines(page.look),
        *_caution_lines(page),
    ]


def _cautions_section(page: Page, units: str) -> Section:
    notices = recorded_notices(page.cautions)
    return Section(
        "cautions",
        "Cautions",
        [
            Column("caution", "kind"),
            Column("text", "caution"),
            Column("documents", ""),
            Column("basis", "basis"),
        ],
        [caution_row(n, units) for n in notices],
    )


def _other_names(page: Page) -> list[str]:
    skip = {fold(page.wood.common_name), fold(page.wood.botanical_name)}
    names: dict[str, str] = {}
    for row in page.names:
        if row["name_key"] not in skip and row["name_kind"] != "group":
            shared = " (shared)" if row["ambiguous"] else ""
            unchecked = UNCHECKED_MARK if row["basis"] == UNCHECKED else ""
            plain = natural_order(row["name"]).partition(" (")[0]
            names.setdefault(row["name_key"], plain + shared + unchecked)
    return list(names.values())


def _identity_section(page: Page, for_people: bool) -> Section:
    wood, names = page.wood, _other_names(page)
    shown = names[:_MOST_NAMES] if for_people else names
    more = f" and {len(names) - len(shown)} more" if len(names) > len(shown) else ""
    rows = (
        ("botanical name", wood.botanical_name),
        ("family", wood.family),
        ("kind", wood.kind),
        ("trade group", "" if wood.is_group else wood.trade_group),
        ("origin", wood.origin),
        ("members", ", ".join(m.common_name for m in wood.members)),
        ("qualifier", wood.qualifier),
        ("also called", ", ".join(shown) + more),
        ("data", f"{wood.data_coverage}: {DATA_COVERAGE[wood.data_coverage]}"),
    )
    return Section(
        "identity",
        "Identity and names",
        [Column("what", ""), Column("is", "")]
        if not for_people
        else [Column("what", "what"), Column("is", "is")],
        [{"what": what, "is": text} for what, text in rows if text],
    )


def _facts(page: Page, units: str) -> list[tuple[Column, Any]]:
    wood, g = page.wood, page.overview
    facts: list[tuple[Column, Any]] = [(Column("wood", ""), wood.common_name)]
    facts += [
        (Column(key, ""), getattr(wood, key))
        for key in ("species_id", "botanical_name", "family", "kind")
    ]
    facts += [
        (Column(key, ""), getattr(wood, key)) for key in ("trade_group", "origin", "data_coverage")
    ]
    facts += [
        (Column("note", ""), wood.note),
        (Column("members", ""), [m.common_name for m in wood.members]),
        (Column("names", ""), _other_names(page)),
        (Column("board", ""), g.board.name),
    ]
    facts.append((Column("fiber_saturation_basis", ""), wood.fiber_saturation.basis))
    figures: list[tuple[str, str, float | None]] = [
        ("fiber_saturation", "percent", wood.fiber_saturation.pct),
        ("movement_width", "size", g.board.across_mm),
        ("side_hardness", "force", g.hardness.in_units(units).value if g.hardness else None),
        (
            f"density_at_{AIR_DRY_PCT:g}pct",
            "density",
            g.density.density_kg_m3 if g.density else None,
        ),
    ]
    ranges = (
        ("board_mass", "mass", g.weight.mass_kg if g.weight else None),
        ("movement_flat", "change", g.flat.likely_change_mm if g.flat else None),
        ("movement_quarter", "change", g.quarter.likely_change_mm if g.quarter else None),
    )
    for i, end in enumerate(("", "_low", "_high")):
        figures += [(f"{key}{end}", kind, tuple(r)[i] if r else None) for key, kind, r in ranges]
    return facts + [(Column(key, "", kind), value) for key, kind, value in figures]


def _marks_used(page: Page) -> list[str]:
    return [
        *(marks(v) for v in page.wood.values.values()),
        *(marks(v) for (p, _), v in page.wood.estimates.items() if p in ESTIMATED_PROPERTIES),
        marks(*page.overview.values),
        mark_of(page.wood.fiber_saturation.basis),
        *(mark_of(r.basis) for r in page.ratings),
        *look_marks(page.look),
        *(mark_of(row["basis"]) for row in page.names),
    ]


def _of_density(g: Overview) -> tuple[Note, ...]:
    return g.density.notes if g.density else ()


def _notes(page: Page, units: str) -> list[str]:
    g = page.overview
    return [
        *([sentence(page.wood.note) + "."] if page.wood.note else []),
        *(sentence(m) + "." for m in g.missing if page.printed),
        *([g.board.assumptions] if g.weight or g.flat else []),
        *sentences((n for n in _of_density(g) if n.code == "densities-disagree"), units),
        *footnotes(_marks_used(page)),
        *basis_notes(g.values),
        *look_notes(page.look),
        *spread_lines(page.wood.values.values()),
        "Clear, straight-grained test pieces, not structural design values; local codes and "
        "licensed practice decide.",
        "woodref show NAME --sources says where each number stands and what else is printed.",
    ]


def show_answer(page: Page, units: str, sources: bool = False, for_people: bool = True) -> Answer:
    """The page as an answer.

    Parameters: page; units 'us' or 'si'; sources true to say where each number stands;
    for_people false for complete tables.
    """
    sections = [_cautions_section(page, units), _identity_section(page, for_people)]
    if not for_people:
        sections = [figures_for_programs(page.wood, units), *sections[:1]]
    else:
        sections += figure_sections(page.wood, units)
    sections += look_sections(page.look, for_people)
    sections.append(ratings_section(page.ratings, page.wood, for_people))
    lead = headline(page, units)
    if sources:
        from woodref.answers.show_sources import source_sections, sources_line

        sections += source_sections(page.wood, page.printed, units)
        lead = [*lead, *sources_line(page.printed)]
    return Answer(
        lead,
        _facts(page, units),
        sections,
        _notes(page, units),
        main="figures",
        names=sold_as(page.wood),
    )
