"""The answer of find: which woods a name can mean."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.property_text import footnotes, marks, value_text
from woodref.answers.provenance import sentence
from woodref.choose.overview import AIR_DRY_PCT, air_dry_density
from woodref.reference.bases import DATA_COVERAGE, NO_DATA, OWN
from woodref.reference.search import Candidate, NameMatches
from woodref.reference.woods import Wood
from woodref.units import KINDS

#: The most rows of a list printed for people; programs get all of them.
_MOST = 40


def _no_data(wood: Wood) -> bool:
    return wood.data_coverage == NO_DATA


def _coverage_text(coverage: str) -> str:
    return "known, no data" if coverage == NO_DATA else coverage


def _data(wood: Wood) -> str:
    """How much print tells of a wood, or that the shop's own figures are all there is."""
    own = _no_data(wood) and any(v.basis == OWN for v in wood.values.values())
    return "your own figures" if own else _coverage_text(wood.data_coverage)


def hardness_cells(wood: Wood, units: str) -> dict[str, object]:
    """Side hardness as print gives it in the units: value, basis, and text with its mark."""
    hardness = wood.value("side_hardness")
    if hardness is None:
        return {"hardness_text": "-", "side_hardness": None, "side_hardness_basis": None}
    return {
        "hardness_text": value_text(hardness, units) + marks(hardness),
        "side_hardness": hardness.in_units(units).value,
        "side_hardness_basis": hardness.basis,
    }


def _row(c: Candidate, units: str) -> dict[str, object]:
    density = air_dry_density(c.wood)
    return {
        "wood": c.wood.common_name,
        "by_name": "" if c.name == c.wood.common_name else c.name,
        "botanical_name": c.wood.botanical_name,
        "species_id": c.wood.species_id,
        "kind": c.wood.kind,
        "origin": c.wood.origin,
        "name_kind": c.name_kind,
        "qualifier": c.wood.qualifier,
        "note": c.note or None,
        "density_at_12pct": density.density_kg_m3 if density else None,
        "density_basis": density.basis if density else None,
        **hardness_cells(c.wood, units),
        "density_text": KINDS["density"].text(density.density_kg_m3, units) + marks(*density.values)
        if density
        else "-",
        "data": _data(c.wood),
        "data_coverage": c.wood.data_coverage,
    }


def _columns(for_people: bool, by_name: bool) -> list[Column]:
    names = [Column("wood", "wood"), Column("botanical_name", "botanical name")]
    common = [Column("kind", "kind", aside=True), Column("origin", "origin")]
    if for_people:
        return [
            *names,
            *([Column("by_name", "found as")] if by_name else []),
            *common,
            Column("hardness_text", "hardness"),
            Column("density_text", f"density, {AIR_DRY_PCT:g} %"),
            Column("data", "data", aside=True),
        ]
    return [
        *names,
        Column("species_id", ""),
        Column("by_name", ""),
        Column("name_kind", ""),
        *common,
        Column("qualifier", ""),
        Column("note", ""),
        Column("side_hardness", "", "force"),
        Column("side_hardness_basis", ""),
        Column("density_at_12pct", "", "density"),
        Column("density_basis", ""),
        Column("data_coverage", ""),
    ]


def _shown(candidates: Sequence[Candidate], for_people: bool) -> Sequence[Candidate]:
    return candidates[:_MOST] if for_people else candidates


def _section(
    key: str,
    title: str,
    candidates: Sequence[Candidate],
    units: str,
    for_people: bool,
) -> Section:
    rows = [_row(c, units) for c in _shown(candidates, for_people)]
    by_name = any(r["by_name"] for r in rows) and key != "exact"
    return Section(key, title, _columns(for_people, by_name), rows)


def _names(candidates: Sequence[Candidate]) -> str:
    return ", ".join(c.wood.common_name for c in candidates)


def _headline(matches: NameMatches) -> list[str]:
    plain = f"'{matches.asked.strip()}' is {matches.plain_meaning} (common practice)."
    note = [
        *([sentence(matches.note) + "."] if matches.note else []),
        *([plain] if matches.plain_meaning else []),
    ]
    asked = matches.asked.strip()
    if matches.group:
        return [
            f"{sentence(asked)} is a trade group of {len(matches.exact)} woods: "
            f"{_names(matches.exact)}.",
            *note,
        ]
    if matches.ambiguous:
        apart = [f"What tells them apart: {matches.note}."] if matches.note else []
        return [
            f"'{asked}' is sold as {len(matches.exact)} woods: {_names(matches.exact)}.",
            *apart,
            *([plain] if matches.plain_meaning else []),
        ]
    if matches.exact:
        wood = matches.exact[0].wood
        if _no_data(wood):
            return [
                f"{sentence(wood.common_name)} ({wood.botanical_name}) is known, but no table "
                "holds a number for it.",
                *note,
            ]
        about = ", ".join(x for x in (wood.kind, wood.origin) if x)
        return [f"{sentence(wood.common_name)} ({wood.botanical_name}), {about}.", *note]
    if matches.containing:
        return [
            f"No wood is called just '{asked}'; {len(matches.containing)} woods have it in a name."
        ]
    return [f"No wood is called '{asked}'; nearest: {', '.join(c.name for c in matches.near)}."]


def find_answer(matches: NameMatches, units: str, for_people: bool = True) -> Answer:
    """The matches of a name as an answer: what the name means, then lists of woods.

    Parameters: matches; units; for_people false for complete lists.
    """
    lists = (
        ("exact", "By this name", matches.exact),
        ("containing", f"Other woods with '{matches.asked.strip()}' in a name", matches.containing),
        ("near", "Names that come near", matches.near),
    )
    sections = [_section(key, title, c, units, for_people) for key, title, c in lists]
    texts = [str(r[k]) for s in sections for r in s.rows for k in ("hardness_text", "density_text")]
    shown = [c for _, _, candidates in lists for c in _shown(candidates, for_people)]
    coverages = dict.fromkeys(c.wood.data_coverage for c in shown)
    more = [
        f"{len(c) - _MOST} more woods have it in a name; say more of the name, or use "
        "--format json."
        for _, _, c in lists
        if len(c) > _MOST
    ]
    return Answer(
        headline=_headline(matches),
        facts=[
            (Column("asked", ""), matches.asked),
            (Column("note", ""), matches.note),
            (Column("plain_meaning", ""), matches.plain_meaning),
            (Column("ambiguous", ""), matches.ambiguous),
            (Column("group", ""), matches.group),
        ],
        sections=sections,
        notes=[
            *more,
            f"Hardness is Janka's at 12 %; density is that of the wood with its water at "
            f"{AIR_DRY_PCT:g} % moisture content. woodref show NAME tells where they come from.",
            *footnotes(texts),
            *(f"Data, {_coverage_text(c)}: {DATA_COVERAGE[c]}." for c in coverages),
        ],
        main="exact" if matches.exact else "containing" if matches.containing else "near",
    )
