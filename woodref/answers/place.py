"""Answers about a town: its outdoor air month by month, and the towns nearest to a point."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from woodref.answers.answer import Answer, Column, Section
from woodref.answers.provenance import sentence, sentences
from woodref.answers.screen import brief
from woodref.answers.words import percent_text
from woodref.answers.year import EMC_EQUATION, air_section, flag_lines, month_section, place_facts
from woodref.climate.rooms import place_notes
from woodref.units import KINDS, MM_PER_FOOT

if TYPE_CHECKING:
    from woodref.climate.rooms import Room
    from woodref.reference.places import Place


def _where(place: Place, units: str) -> str:
    """Where a place and its station lie; that it is the shop's own where it is."""
    if place.is_own:
        return "your own record"
    distance = KINDS["distance"].text(place.distance_km, units)
    away = f", {distance} away" if place.distance_km >= 1.0 else ""
    meters = place.elevation_m
    high = f"{meters * 1000.0 / MM_PER_FOOT:,.0f} ft" if units == "us" else f"{meters:,.0f} m"
    return (
        f"{abs(place.latitude):.2f} {'N' if place.latitude >= 0 else 'S'}, "
        f"{abs(place.longitude):.2f} {'E' if place.longitude >= 0 else 'W'}; station "
        f"{place.station}{away}, {high} above the sea"
    )


def place_answer(outdoors: Room, units: str) -> Answer:
    """A town and its outdoor air.

    Parameters: outdoors, the year outdoors under cover there; units 'us' or 'si'.
    """
    place, year = outdoors.place, outdoors.season
    months = month_section(year, room=False)
    # There is no room here, so that where a figure is extrapolated it is so outdoors.
    below = "below 30 F" if units == "us" else "below -1 C"
    rows = [{**r, "mark": below if r["outdoor_extrapolated"] else ""} for r in months.rows]
    return Answer(
        headline=[
            f"{place.label}: outdoors under cover wood comes to "
            f"{percent_text(year.driest.emc_pct)} in {year.driest.name} and "
            f"{percent_text(year.wettest.emc_pct)} in {year.wettest.name}.",
            f"It lies at {_where(place, units)}."
            if not place.is_own
            else f"It is {_where(place, units)}.",
        ],
        screen=brief(
            [
                f"{place.label}: outdoors under cover wood comes to "
                f"{percent_text(year.driest.emc_pct)} in {year.driest.name} and "
                f"{percent_text(year.wettest.emc_pct)} in {year.wettest.name}."
            ],
            [air_section(year, units, room=False)],
            [*flag_lines(place), f'For the air of a room: woodref season "{place.label}".'],
        ),
        facts=place_facts(place),
        sections=[months._replace(rows=rows)],
        notes=[
            *sentences([*year.notes, *place_notes(place)], units),
            f"{EMC_EQUATION}.",
            f"For the air of a room: woodref season '{place.label}'.",
        ],
    )


def nearest_answer(point: str, places: Sequence[Place], units: str) -> Answer:
    """The towns nearest to a point, the nearest first.

    Parameters: point as it was written; places, at least one; units 'us' or 'si'.
    """
    first = places[0]
    notes = [n.said(units) for n in place_notes(first)]
    notes += [p.attribution for p in places if p.attribution]
    columns = [
        Column("place", "place"),
        Column("distance_km", "away", "distance"),
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
        headline=[
            f"Nearest to {point.strip()}: {first.label}, "
            f"{KINDS['distance'].text(first.distance_km, units)} away."
        ],
        sections=[Section("nearest", "", columns, rows)],
        notes=[f"{sentence(n)}".rstrip(".") + "." for n in dict.fromkeys(notes)],
    )
