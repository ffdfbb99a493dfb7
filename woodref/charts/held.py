"""Why a line of the year is flat: what holds the air of a room, in the note of a picture."""

from __future__ import annotations

from typing import TYPE_CHECKING

from woodref.answers.room_words import months_text
from woodref.answers.words import listed

if TYPE_CHECKING:
    from woodref.climate.seasons import Season

#: The moisture content of months that are called flat lies this near together [%].
_FLAT_PCT = 0.5


def flat_words(season: Season, line: str = "The line") -> str:
    """'Flat in June to August: the dehumidifier holds the air.'; '' where nothing is flat.

    Parameters: season of the room; line, what is flat.
    """
    told = []
    for machine, months in season.held.items():
        course = [m.emc_pct for m in months]
        if len(months) > 1 and max(course) - min(course) <= _FLAT_PCT:
            told.append(f"the {machine.value} holds the air {months_text(months)}")
    if told:
        return f"{line} is flat where {listed(told)}."
    if season.is_still:
        return f"{line} is nearly flat: the air of this room hardly changes by itself."
    return ""
