"""What a wood is mistaken for: by print, by its names, and by how it looks."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from docs.site.data import query
from docs.site.page import link, plain, table
from docs.site.sold import library, sold_woods, title, wood_path
from woodref.answers.property_text import UNCHECKED_MARK
from woodref.choose.look_distance import Appearance, appearance_of, band_of, look_distance
from woodref.reference.bases import in_words
from woodref.reference.looks import looks_of

#: The most woods told that look like one.
_MOST = 6
_CLOSE = "close"


class _Shared(NamedTuple):
    """A name of the trade that several unlike woods are sold under, and what tells them apart."""

    name: str
    woods: tuple[str, ...]
    note: str


def _named(species_id: str) -> str:
    """A wood by name, with a link where it has a page."""
    woods = sold_woods()
    if species_id in woods:
        return link(title(woods[species_id]), wood_path(species_id))
    return plain(_common_names()[species_id])


@cache
def _common_names() -> dict[str, str]:
    return dict(query("select species_id, common_name from {species}"))


@cache
def _shared_names() -> dict[str, list[_Shared]]:
    """By wood the names it shares with unlike woods."""
    rows = query(
        "select any_value(name), list(distinct species_id order by species_id), any_value(note) "
        "from {names} where ambiguous group by name_key order by name_key"
    )
    by_wood: dict[str, list[_Shared]] = {}
    for name, woods, note in rows:
        for species_id in woods:
            others = tuple(w for w in woods if w != species_id)
            by_wood.setdefault(species_id, []).append(_Shared(name, others, note or ""))
    return by_wood


@cache
def _printed() -> dict[str, list[tuple[str, str, str, str]]]:
    """By wood: the other wood, what print says of the two, where, and how that is known."""
    rows = query(
        'select species_id, like_species_id, wood, "like", what_print_compares, edition, page, '
        "basis from {resemblances} order by source_line"
    )
    by_wood: dict[str, list[tuple[str, str, str, str]]] = {}
    for first, other, wood, like, compares, edition, page, basis in rows:
        where = f"{edition}, p. {page}" if page else edition
        said = f"{wood} beside {like}: {compares}"
        by_wood.setdefault(first, []).append((other, said, where, basis))
        by_wood.setdefault(other, []).append((first, said, where, basis))
    return by_wood


class _Looks(NamedTuple):
    """How a wood looks, its kind, and whether a cell of its look is recalled."""

    look: Appearance
    kind: str
    unchecked: bool


@cache
def _appearances() -> dict[str, _Looks]:
    """How the woods that are sold look, of those whose look is known."""
    woods = sold_woods()
    looks = looks_of(library(), woods)
    return {
        x.species_id: _Looks(appearance_of(x), woods[x.species_id].kind, x.unchecked) for x in looks
    }


def _nearest(species_id: str) -> list[tuple[str, str]]:
    """Woods of its kind that look close to it, the nearest first, with the mark of each pair."""
    looks = _appearances()
    if species_id not in looks:
        return []
    own = looks[species_id]
    near = sorted(
        (look_distance(own.look, other.look), other_id)
        for other_id, other in looks.items()
        if other_id != species_id and other.kind == own.kind and other.look.pores == own.look.pores
    )
    return [
        (i, UNCHECKED_MARK if own.unchecked or looks[i].unchecked else "")
        for distance, i in near
        if band_of(distance) == _CLOSE
    ][:_MOST]


def alike(species_id: str) -> str:
    """The section of a wood on what it is mistaken for."""
    rows = [
        (_named(other), plain(said), plain(f"{where} ({in_words(basis)})"))
        for other, said, where, basis in _printed().get(species_id, ())
    ]
    rows += [
        (
            ", ".join(map(_named, shared.woods)),
            plain(f"sold as {shared.name} too"),
            plain(shared.note),
        )
        for shared in _shared_names().get(species_id, ())
    ]
    rows += [
        (_named(other), plain(f"looks close{mark}"), "by our own measure")
        for other, mark in _nearest(species_id)
    ]
    if not rows:
        return "No wood is on record as easily taken for it."
    return table(("wood", "why", "what is known of it"), rows)
