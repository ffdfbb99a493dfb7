"""All that is known of the woods that are sold, read at once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from functools import cache
from typing import TypeVar

from docs.site.sold import library, sold_woods
from woodref.answers.show_page import Page as Record
from woodref.choose.overview import USUAL_BOARDS, overview
from woodref.reference.cautions import ALL_WOODS, cautions_for
from woodref.reference.looks import looks_of
from woodref.reference.printed import preferred_values, printed_figures
from woodref.reference.ratings import ratings_for

T = TypeVar("T")


def _by_wood(rows: Iterable[T], wood_of: Callable[[T], str]) -> dict[str, list[T]]:
    parted: dict[str, list[T]] = defaultdict(list)
    for row in rows:
        parted[wood_of(row)].append(row)
    return parted


@cache
def _records() -> dict[str, Record]:
    """As woodref.answers.show_page.page_of, of every wood that is sold."""
    ids, published = list(sold_woods()), library()
    figures = printed_figures(published, ids)
    printed = _by_wood(figures, lambda p: p.species_id)
    names = _by_wood(published.names_of(ids), lambda row: str(row["species_id"]))
    ratings = _by_wood(ratings_for(published, ids), lambda r: r.species_id)
    cautions = cautions_for(published, ids)
    looks = {look.species_id: look for look in looks_of(published, ids)}
    return {
        i: Record(
            wood,
            overview(wood, USUAL_BOARDS["us"]),
            tuple(names[i]),
            tuple(printed[i]),
            tuple(ratings[i]),
            tuple(c for c in cautions if c.species_id in (ALL_WOODS, i)),
            looks.get(i),
        )
        for i, wood in published.woods(ids, preferred_values(figures)).items()
    }


def record_of(species_id: str) -> Record:
    """All that is known of a wood that is sold."""
    return _records()[species_id]
