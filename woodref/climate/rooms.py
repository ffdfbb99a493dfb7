"""A place and a setting turned into the year of a room, with what must be said of both."""

from __future__ import annotations

from dataclasses import dataclass

from woodref.climate.seasons import Season, Setting, season, setting_of
from woodref.display import Grid, Shown, number
from woodref.note import Note
from woodref.reference.bases import COMMON_PRACTICE, UNCHECKED
from woodref.reference.library import Reference
from woodref.reference.places import FAR_KM, Place, find_place, weather_of

#: The setting where none is named, and the one of the air outdoors.
USUAL_SETTING, OUTDOORS = "heated house", "outdoors under cover"
LAG = Note(
    "thin-bare-wood",
    "the moisture content of a month is where thin bare wood comes to rest in its mean air; "
    "thick or finished wood lags behind by weeks and swings less",
)


@dataclass(frozen=True, repr=False)
class Room(Shown):
    """A place, and the twelve months of a room there."""

    place: Place
    season: Season

    @property
    def label(self) -> str:
        """'Savannah, Georgia, air-conditioned house'."""
        return f"{self.place.label}, {self.season.setting.name}"

    @property
    def notes(self) -> tuple[Note, ...]:
        """The rule of the setting, what weakens the figures, and where they come from."""
        setting, place = self.season.setting, self.place
        rule = f"{setting.name}: {setting.rule} (common practice, no source; change it)"
        return (
            Note("setting-rule", rule, COMMON_PRACTICE),
            *self.season.notes,
            *place_notes(place),
        )

    def _line(self) -> str:
        dry, wet = self.season.driest.emc_pct, self.season.wettest.emc_pct
        return f"{self.label}, wood from {number(dry)} to {number(wet)} %"

    def _grid(self) -> Grid:
        return self.season._grid()


def place_notes(place: Place) -> tuple[Note, ...]:
    """What weakens the record of a place, and where it comes from."""
    notes = []
    if place.distance_km > FAR_KM:
        text = (
            f"{place.station} is {place.distance_km:.0f} km away, too far to say much of the place"
        )
        notes.append(Note("station-far", text))
    if place.flag:
        text = f"the record of {place.label} is flagged: {place.note or place.flag}"
        notes.append(Note("record-flagged", text))
    elif place.note:  # under which number its temperatures stand in print
        notes.append(Note("record-note", f"{place.label}: {place.note}"))
    if place.is_own:
        text = f"air of {place.label}, taken at sea level: {place.source}"
        return (*notes, Note("own-air", text, "own"))
    notes.append(_weather(place))
    if place.attribution:
        notes.append(Note("attribution", place.attribution.rstrip(".")))
    return tuple(notes)


def _weather(place: Place) -> Note:
    """Of which years the weather of a place is, and who says so."""
    same = place.temperature_period == place.humidity_period
    years = place.temperature_period.replace("/", " to ")
    also = "" if same else f", humidity {place.humidity_period.replace('/', ' to ')}"
    text = f"weather of {place.station}: {'' if same else 'temperature '}{years}{also}: "
    unchecked = place.basis == UNCHECKED
    marked = f"{text}{place.source}{' [unchecked]' if unchecked else ''}"
    return Note("weather", marked, UNCHECKED if unchecked else "")


def room_of(reference: Reference, place: str, setting: Setting | str = "") -> Room:
    """The year of a room: where every command and every piece file gets its room from.

    Parameters: reference library; place by name or coordinates; setting by name, or one with
    changed figures, USUAL_SETTING where it is ''.
    Raises: InputError for an unknown or ambiguous place, and an unknown setting.
    """
    chosen = setting_of(setting or USUAL_SETTING) if isinstance(setting, str) else setting
    named = find_place(reference, place)
    return Room(named, season(weather_of(reference, named), chosen, named.elevation_m))
