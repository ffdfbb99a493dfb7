"""The woods that a yard sells somewhere."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from docs.site.data import query
from woodref.answers.provenance import sentence
from woodref.reference.library import Reference
from woodref.reference.look_words import REGIONS

_NOT_SOLD = "not in trade"


@cache
def library() -> Reference:
    """The published data; a shop's own figures are no part of the site."""
    return Reference(own=False)


class SoldWood(NamedTuple):
    """A wood and how it is stocked, by region."""

    species_id: str
    common_name: str
    botanical_name: str
    kind: str
    stock: dict[str, str]


@cache
def sold_woods() -> dict[str, SoldWood]:
    """The woods that are sold in one region or more, by species_id, in the order of their names."""
    stock: dict[str, dict[str, str]] = {}
    for species_id, region, stocked in query(
        'select species_id, region, "class" from {stock} where "class" <> ? order by 1', [_NOT_SOLD]
    ):
        stock.setdefault(species_id, {})[region] = stocked
    rows = query(
        "select species_id, common_name, botanical_name, kind from {species} "
        "order by lower(common_name), botanical_name"
    )
    return {
        i: SoldWood(i, name, botanical, kind, {r: stock[i][r] for r in REGIONS if r in stock[i]})
        for i, name, botanical, kind in rows
        if i in stock
    }


def wood_path(species_id: str) -> str:
    """Where the page of a wood stands."""
    return f"woods/{species_id}.md"


def title(wood: SoldWood) -> str:
    """'Black cherry (Prunus serotina)'."""
    return f"{sentence(wood.common_name)} ({wood.botanical_name})"
