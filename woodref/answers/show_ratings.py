"""The printed classes of a wood as a table; every scale names its edition."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.answers.answer import Column, Section
from woodref.answers.property_text import mark_of
from woodref.reference.ratings import Rating
from woodref.reference.woods import Wood


def _class(rating: Rating) -> str:
    share = f"{rating.share_pct:g} %" if rating.share_pct is not None else rating.rating
    return share + mark_of(rating.basis)


def _printed_for(rating: Rating) -> str:
    return rating.printed_name if rating.for_group else ""


def _rows_for_people(ratings: Sequence[Rating], wood: Wood) -> list[dict[str, object]]:
    """One row per scale, class and name printed for; members that differ are named."""
    names = {m.species_id: m.common_name for m in wood.members}
    merged: dict[tuple[str, str, str], list[Rating]] = {}
    for r in ratings:
        merged.setdefault((r.scale, _class(r), _printed_for(r)), []).append(r)
    return [
        {
            "scale": scale.removesuffix(alike[0].table).rstrip(", "),
            "table": alike[0].table,
            "class": text,
            "meaning": "; ".join(x for x in (alike[0].condition, alike[0].footnote) if x),
            "printed_for": printed_for
            or ", ".join(dict.fromkeys(names[r.species_id] for r in alike if names)),
        }
        for (scale, text, printed_for), alike in merged.items()
    ]


def ratings_section(ratings: Sequence[Rating], wood: Wood, for_people: bool) -> Section:
    """The classes of a wood, or of the members of a group.

    Parameters: ratings; wood; for_people false for one row per printed class with its origin.
    """
    if for_people:
        columns = [
            Column("scale", "rating"),
            Column("class", "class"),
            Column("meaning", "meaning"),
            Column("printed_for", "printed for"),
            Column("table", "table"),
        ]
        return Section("ratings", "Ratings", columns, _rows_for_people(ratings, wood))
    keys = (
        *("species_id", "scale", "class", "share_pct", "rating_condition", "footnote"),
        *("printed_name", "for_group", "source", "basis"),
    )
    return Section(
        "ratings",
        "",
        [Column(k, "") for k in keys],
        [{**r._asdict(), "class": r.rating, "rating_condition": r.condition} for r in ratings],
    )
