"""Answers about a town: its outdoor air month by month, and the towns nearest to a point."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.provenance import sentence, sentences
from woodref.answers.render import Answer, Column, Section
from woodref.answers.year import EMC_EQUATION, month_section, place_facts
from woodref.climate.rooms import place_notes

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.reference.places import Place


def _where(place: Place) -> str:
    """Where a place and its station lie; that it is the shop's own where it is."""
    if place.is_own:
        return "your own record"
    away = f", {place.distance_km:.0f} km away" if place.distance_km >= 1.0 else ""
    return (
        f"{abs(place.latitude):.2f} {'N' if place.latitude >= 0 else 'S'}, "
        f"{abs(place.longitude):.2f} {'E' if place.longitude >= 0 else 'W'}; station "
        f"{place.station}{away}, {place.elevation_m:.0f} m above the sea"
    )


def place_answer(outdoors: Room) -> Answer:
    """A town and its outdoor air.

    Parameters: outdoors, the year outdoors under cover there.
    """
    place, year = outdoors.place, outdoors.season
    months = month_section(year, room=False)
    # There is no room here, so that where a figure is extrapolated it is so outdoors.
    rows = [{**r, "mark": "below 30 F" if r["outdoor_extrapolated"] else ""} for r in months.rows]
    return Answer(
        headline=[
            f"{place.label}: {_where(place)}.",
            f"Outdoors under cover wood comes to {year.driest.emc_pct:.1f} % in "
            f"{year.driest.name} and {year.wettest.emc_pct:.1f} % in {year.wettest.name}.",
        ],
        facts=place_facts(place),
        sections=[months._replace(rows=rows)],
        notes=[
            *sentences([*year.notes, *place_notes(place)]),
            f"{EMC_EQUATION}.",
            f"For the air of a room: woodref season '{place.label}'.",
        ],
    )


def nearest_answer(point: str, places: Sequence[Place]) -> Answer:
    """The towns nearest to a point, the nearest first.

    Parameters: point as it was written; places, at least one.
    """
    first = places[0]
    notes = [n.text for n in place_notes(first)]
    notes += [p.attribution for p in places if p.attribution]
    columns = [
        Column("place", "place"),
        Column("distance_km", "km away", "tenths"),
        Column("latitude", "latitude"),
        Column("longitude", "longitude"),
        Column("flag", "flag"),
        Column("place_id", ""),
    ]
    rows = [
        {
            "place": p.label,
            "distance_km": p.distance_km,
            "latitude": p.latitude,
            "longitude": p.longitude,
            "flag": p.flag,
            "place_id": p.place_id,
        }
        for p in places
    ]
    return Answer(
        headline=[f"Nearest to {point.strip()}: {first.label}, {first.distance_km:.0f} km away."],
        sections=[Section("nearest", "", columns, rows)],
        notes=[f"{sentence(n)}".rstrip(".") + "." for n in dict.fromkeys(notes)],
    )
