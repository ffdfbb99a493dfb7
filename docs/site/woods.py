"""A page a wood that a yard sells, and the list of them, all from the dataset by the library."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import groupby

import woodref
from docs.site.page import Drawing, Page, blocks, link, plain, table
from docs.site.publications import publication_path, publications
from docs.site.records import record_of
from docs.site.sold import SoldWood, sold_woods, title, wood_path
from docs.site.wood_alike import alike
from docs.site.wood_figures import figures_in, first_figures, ratings, used_on
from woodref.answers.look import look_lines, look_notes
from woodref.answers.property_text import footnotes, mark_of, marks, spread_lines, value_text
from woodref.answers.provenance import sentence
from woodref.answers.shop_words import shown
from woodref.answers.show_page import Page as Record
from woodref.answers.show_page import show_answer
from woodref.answers.show_sources import source_sections, sources_line
from woodref.answers.words import likely_text
from woodref.choose.overview import USUAL_BOARDS, overview
from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.reference.bases import COMMON_PRACTICE, in_words
from woodref.reference.cautions import recorded_notices

#: What a printed value says that repeats the one used.
_AGREES = "agrees"
_DEFER = (
    "Figures are of clear, straight-grained test pieces. They are no structural design values and "
    "do not show that a piece is safe; local codes and licensed practice decide."
)


def picture_path(species_id: str) -> str:
    """Where the picture of a wood stands."""
    return f"woods/{species_id}.svg"


def _picture_title(record: Record) -> str:
    """What the picture shows, in a sentence."""
    flat = record.overview.flat
    assert flat is not None
    board, change_mm = record.overview.board, flat.likely_change_mm.expected
    moves, moves_mm = (shown("change", change_mm, units) for units in ("us", "si"))
    mark = marks(*flat.basis.values)
    return (
        f"{board.across} ({shown('size', round(board.across_mm), 'si')}) of flat sawn "
        f"{record.wood.common_name} moves {moves}{mark} ({moves_mm}) over the year"
    )


@cache
def _usual_season() -> object:
    """A year in a heated house: the usual driest and dampest, the months between on a cosine."""
    winter, summer = 20.0, 25.0
    return woodref.own_season(
        winter=(winter, woodref.humidity_for(DRIEST_PCT, winter)),
        summer=(summer, woodref.humidity_for(DAMPEST_PCT, summer)),
    )


def _drawn(species_id: str) -> str:
    """The picture of its movement through the year, as the text of an SVG file."""
    from woodref import charts

    record = record_of(species_id)
    g = record.overview
    assert g.flat is not None
    cuts = []
    for name, moved in (("flat", g.flat), ("quarter", g.quarter)):
        assert moved is not None
        months = woodref.through_year(
            _usual_season(),  # type: ignore[arg-type]
            lambda pct, cut=name: woodref.movement(  # type: ignore[misc]
                record.wood, g.board.across_mm, DRIEST_PCT, pct, cut
            ),
        )
        cuts.append(charts.CutThroughYear(f"{name} sawn", months, moved.likely_change_mm))
    figure = charts.usual_year(
        _picture_title(record),
        f"a heated house, {DRIEST_PCT:g} to {DAMPEST_PCT:g} % moisture",
        cuts,
        "both",
        mark=marks(*g.flat.basis.values),
    )
    return charts.svg_text(figure)


def _movement(record: Record) -> str:
    """The picture and what it assumes, or why there is none."""
    if record.overview.flat is None:
        return "No table holds its shrinkage both ways, so its movement is not known."
    told, picture = plain(_picture_title(record)), picture_path(record.wood.species_id)
    return blocks(
        f"![{told}, month by month](/{picture})",
        f"The usual year of a heated house: {DRIEST_PCT:g} % moisture content in winter, "
        f"{DAMPEST_PCT:g} % in summer (common practice, no source), the months between on a "
        "smooth curve (our own choice), for thin bare wood. Thick or finished wood moves later and "
        f"less. For your town and room: {link('woodref movement', 'commands/movement.md')} with "
        "`--place`. All woods are drawn on one scale where they fit it.",
    )


def _lead(record: Record) -> str:
    """What it is, where it grows and what else it is called."""
    identity = next(x for x in show_answer(record, "us").sections if x.key == "identity")
    known = {row["what"]: row["is"] for row in identity.rows}
    origin = f" of {known['origin']}" if "origin" in known else ""
    family = f", family {known['family']}" if "family" in known else ""
    told = [f"A {known.get('kind', 'wood')}{origin}{family}."]
    told += [f"Also called {known['also called']}."] if "also called" in known else []
    if "trade group" in known:
        told.append(f"One of the {known['trade group'].removesuffix(' group')} group.")
    told += [f"{sentence(record.wood.note)}."] if record.wood.note else []
    return plain(" ".join(told))


def _stock(wood: SoldWood) -> str:
    rows = [(plain(region), plain(stocked)) for region, stocked in wood.stock.items()]
    return blocks(
        table(("region", "at yards"), rows), f"What yards stock is {in_words(COMMON_PRACTICE)}."
    )


def _look(record: Record) -> str:
    look = record.look
    if look is None:
        return "Nothing is recorded of how it looks and works."
    lines = [x for x in look_lines(look) if not x.startswith(("Used for", "Yards"))]
    uses = ", ".join(u.use + mark_of(u.basis) for u in look.uses)
    return blocks(
        "\n".join(f"- {plain(x)}" for x in lines),
        f"**Used for:** {plain(uses)}." if uses else "",
        "\n".join(plain(x) for x in look_notes(look)),
    )


def _cautions(record: Record) -> str:
    rows = [
        (plain(n.kind), plain(n.text), plain(in_words(n.basis)))
        for n in recorded_notices(record.cautions)
    ]
    return blocks(table(("caution", "what is known", "basis"), rows), _DEFER)


@cache
def _by_short() -> dict[str, str]:
    return {s.short: s.source_id for s in publications()}


def _publication(short: str) -> str:
    source_id = _by_short().get(short)
    return link(short, publication_path(source_id)) if source_id else plain(short)


def _sources(record: Record) -> str:
    """Where each figure stands, and what else is printed."""
    sections = {s.key: s.rows for s in source_sections(record.wood, record.printed, "us")}
    used = [
        (
            plain(r["figure"]),
            plain(r["printed"]),
            plain(in_words(r["basis"])),
            _publication(r["publication"]),
            plain(", ".join(x for x in (r["table"], r["page"] and f"p. {r['page']}") if x)),
        )
        for r in sections["used_printed_values"]
    ]
    others = [
        (
            plain(r["figure"]),
            plain(r["printed"]),
            plain(r["agrees"]),
            _publication(r["publication"]),
            plain(r["why_not_used"]),
        )
        for r in sections["other_printed_values"]
        if r["agrees"] != _AGREES
    ]
    heads = ("figure", "as printed", "how it is known", "publication", "where")
    other_heads = ("figure", "as printed", "beside the one used", "publication", "why not used")
    return blocks(
        "\n".join(plain(x) for x in sources_line(record.printed)),
        table(heads, used) if used else "No table holds a printed figure of it.",
        "### Printed values that do not agree, or are not used" if others else "",
        table(other_heads, others) if others else "",
    )


def _page(wood: SoldWood) -> str:
    record = record_of(wood.species_id)
    metric = overview(record.wood, USUAL_BOARDS["si"])
    name = record.wood.common_name
    asked = "\n".join(
        (
            f'woodref show "{name}" --full',
            f'woodref movement "{name}" --width 12in --place Boston',
            f'woodref substitute "{name}" --for tabletop',
        )
    )
    return blocks(
        f"# {plain(title(wood))}",
        _lead(record),
        first_figures(record.overview, metric),
        "\n".join(f"{plain(x)}  " for x in footnotes(used_on(record))),
        "## Movement through a year",
        _movement(record),
        "## Look, working and uses",
        _look(record),
        "## Where it is sold",
        _stock(wood),
        "## What it is mistaken for",
        alike(wood.species_id),
        "Look is typical, not a test of identity.",
        "## Cautions",
        _cautions(record),
        "## All figures",
        "### In US units",
        figures_in(record.wood, "us"),
        "### In metric units",
        figures_in(record.wood, "si"),
        "\n".join(f"{plain(x)}  " for x in spread_lines(record.wood.values.values())),
        ratings(record),
        "## Where the figures stand",
        _sources(record),
        "## Ask the program",
        f"```text\n{asked}\n```",
        f"All woods: {link('the list', 'woods/index.md')}. What the words mean: "
        f"{link('glossary', 'glossary.md')}.",
    )


def _row(wood: SoldWood) -> tuple[str, ...]:
    g = record_of(wood.species_id).overview
    density = flat = hard = ""
    if g.density:
        density = shown("density", g.density.density_kg_m3, "us") + marks(*g.density.values)
    if g.flat:
        flat = likely_text(g.flat.likely_change_mm, "change", "us", marks(*g.flat.basis.values))
    if g.hardness:
        hard = value_text(g.hardness, "us") + marks(g.hardness)
    return (
        link(sentence(wood.common_name), wood_path(wood.species_id)),
        plain(density),
        plain(flat),
        plain(hard),
        plain("; ".join(f"{r}: {c}" for r, c in wood.stock.items())),
        f"*{plain(wood.botanical_name)}*",
    )


def _index() -> str:
    woods = sold_woods().values()
    heads = ("wood", "density at 12 %", "12 in moves", "hardness", "at yards", "botanical name")
    parts = []
    for letter, some in groupby(woods, key=lambda w: w.common_name[:1].upper()):
        parts += [f"## {letter}", table(heads, map(_row, some))]
    return blocks(
        "# Woods",
        f"The {len(woods)} woods that yards sell somewhere, commonly or now and then, each with "
        "its figures, look, movement through a year, look-alikes, cautions and sources. Search "
        "finds a wood by any of its names.",
        "Density in pounds a cubic foot at 12 %; movement of a 12 in flat sawn board between 6 and "
        "10 % moisture content, in parentheses where 9 boards in 10 fall; side hardness (Janka) at "
        "12 %. \\* unchecked, from memory; ~ estimated or second-hand; an empty cell: not known.",
        *parts,
        _DEFER,
    )


def pages() -> Iterator[Page]:
    """The list of woods, and each one."""
    yield Page("woods/index.md", _index)
    for wood in sold_woods().values():
        yield Page(wood_path(wood.species_id), lambda wood=wood: _page(wood), listed=False)  # type: ignore[misc]


def drawings() -> Iterator[Drawing]:
    """The pictures of the woods whose movement is known."""
    for species_id in sold_woods():
        if record_of(species_id).overview.flat is not None:
            yield Drawing(picture_path(species_id), lambda i=species_id: _drawn(i))  # type: ignore[misc]
