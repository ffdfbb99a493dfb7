"""What is said of the year of a room: what to design for, what is expected, what holds its air."""

from __future__ import annotations

from collections.abc import Sequence

from woodref.answers.answer import Heed, WholePage
from woodref.answers.words import listed, percent_text
from woodref.climate.seasons import MONTH_NAMES, DesignEnd, Month, Season
from woodref.note import Note

THROUGH_THE_RANGE = Note(
    "through-the-range",
    "the air of the months is a year that goes through the whole range to design for",
)


def end_text(end: DesignEnd) -> str:
    """'7.5 % (January)': an end of the range to design for, and the month that may reach it."""
    month = f" ({end.month.name})" if end.reached else ""
    return f"{percent_text(end.moisture_pct)}{month}"


def room_lines(season: Season) -> list[str]:
    """The expected course of the year beside the range to design for, and what holds the air.

    Parameters: season of a room.
    """
    dry, wet = (f"{percent_text(m.emc_pct)} in {m.name}" for m in (season.driest, season.wettest))
    still = f"about {percent_text(season.mean_emc_pct)} all year"
    course = still if season.is_still else f"{dry} to {wet}"
    why = ", as no room is still"
    if season.setting.figures.open_air:
        why = " and goes up to fiber saturation, as at a wet surface: rain and sun are not modelled"
    elif season.setting.is_outdoors:
        why = ""
    return [
        WholePage(
            f"Expected in an ordinary year: {course}; the range to design for is wider{why}."
        ),
        *machine_lines(season),
    ]


def machine_lines(season: Season) -> list[str]:
    """Which machine holds the air, and in which months; empty where none does."""
    held = season.held
    if not held:
        return []
    parts = [f"the {m.value} {months_text(months)}" for m, months in held.items()]
    text = listed(parts)
    point = "without it the wood goes farther" if len(held) == 1 else "without them it goes farther"
    return [Heed(f"The humidity is held by {text}: {point}.")]


def months_text(months: Sequence[Month]) -> str:
    """'in 7 months, April to October'; 'all year'."""
    numbers = {m.month for m in months}
    if len(numbers) == 12:
        return "all year"
    first = [n for n in sorted(numbers) if (n - 2) % 12 + 1 not in numbers]
    runs = []
    for start in first:
        end = start
        while end % 12 + 1 in numbers:
            end = end % 12 + 1
        start_name, end_name = MONTH_NAMES[start - 1], MONTH_NAMES[end - 1]
        runs.append(start_name if start == end else f"{start_name} to {end_name}")
    count = len(numbers)
    return f"in {count} month{'' if count == 1 else 's'}, {listed(runs)}"
