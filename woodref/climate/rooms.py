"""A place and a setting turned into the year of a room, with what must be said of both."""

from __future__ import annotations

from collections.abc import Mapping

from woodref.climate.seasons import Season, season
from woodref.climate.settings import (
    Setting,
    changed,
    degrees,
    setting_of,
    setting_rule,
    usual_setting,
)
from woodref.display import Grid, Shown, number
from woodref.formulas.room import DESIGN_LEAST_PCT, HOT_C
from woodref.note import Note
from woodref.record import record
from woodref.reference.bases import COMMON_PRACTICE, UNCHECKED
from woodref.reference.library import Reference
from woodref.reference.places import FAR_KM, Place, find_place, weather_of

#: The setting of the air outdoors.
OUTDOORS = "outdoors under cover"
LAG = Note(
    "thin-bare-wood",
    "the moisture content of a month is where thin bare wood comes to rest in its mean air; "
    "thick or finished wood lags behind by weeks and swings less",
)


#: What the range to design for is, and what it leaves out where rain reaches the wood.
DESIGN = Note(
    "design-range",
    "the range to design for goes from the driest to the wettest a room may come to, and at least "
    f"{DESIGN_LEAST_PCT:g} % either side of its mean (our choice: about what Table 13-2 of the "
    "handbook prints for single pieces)",
    COMMON_PRACTICE,
)
OPEN_AIR = Note(
    "rain-and-sun",
    "in the open the range goes up to fiber saturation, which rain brings the surface to; the mean "
    "of a board stays below. Not modelled: wetting by rain, drying by sun, checks, decay: see the "
    "decay class of the wood",
)


@record(repr=False)
class Room(Shown):
    """A place, and the twelve months of a room there.

    ``assumed`` is true where no setting was named, and that of the climate was taken.
    """

    place: Place
    season: Season
    assumed: bool = False

    @property
    def label(self) -> str:
        """'Savannah, Georgia, air-conditioned house'."""
        return f"{self.place.label}, {self.season.setting.name}"

    @property
    def notes(self) -> tuple[Note, ...]:
        """The rule of the setting, what weakens the figures, and where they come from."""
        setting, place = self.season.setting, self.place
        return (
            *((self._assumption,) if self.assumed else ()),
            setting_rule(setting, " (common practice, no source; change it by --room)"),
            OPEN_AIR if setting.figures.open_air else DESIGN,
            *self.season.notes,
            *place_notes(place),
        )

    @property
    def _assumption(self) -> Note:
        hot = max(m.outdoor_c for m in self.season.months) > HOT_C
        return Note.told(
            "setting-assumed",
            lambda units: (
                f"no setting was named: {self.season.setting.name}, as its warmest month outdoors "
                f"is {'over' if hot else 'not over'} {degrees(HOT_C, units)}; --setting names "
                "another"
            ),
            COMMON_PRACTICE,
        )

    def _line(self) -> str:
        design = self.season.design_pct
        return f"{self.label}, design for {number(design.low)} to {number(design.high)} %"

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
        notes.append(Note("attribution", place.attribution.removesuffix(".")))
    return tuple(notes)


def _weather(place: Place) -> Note:
    """Of which years the weather of a place is, and who says so."""
    same = place.temperature_period == place.humidity_period
    years = place.temperature_period.replace("/", " to ")
    also = "" if same else f", humidity {place.humidity_period.replace('/', ' to ')}"
    text = f"weather of {place.station}: {'' if same else 'temperature '}{years}{also}: "
    unchecked = place.basis == UNCHECKED
    marked = f"{text}{place.source}{' (unchecked, from memory)' if unchecked else ''}"
    return Note("weather", marked, UNCHECKED if unchecked else "")


def room_of(
    reference: Reference,
    place: str,
    setting: Setting | str = "",
    figures: Mapping[str, float] | None = None,
) -> Room:
    """The year of a room: where every command and every piece file gets its room from.

    Parameters: reference library; place by name or coordinates; setting, by name too, the usual
    one of the climate where it is ''; figures of it that are changed, by the names of RoomFigures.
    Raises: InputError for an unknown or ambiguous place, an unknown setting, and figures that
    make no room.
    """
    named = find_place(reference, place)
    weather = weather_of(reference, named)
    if not setting:
        chosen = usual_setting(weather)
    else:
        chosen = setting_of(setting) if isinstance(setting, str) else setting
    year = season(weather, changed(chosen, figures) if figures else chosen)
    return Room(named, year, assumed=not setting)
