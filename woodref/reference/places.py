"""Look up a place by name or by coordinates, and the weather of its twelve months."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from math import asin, cos, radians, sin, sqrt
from typing import TYPE_CHECKING, Any

from woodref.display import Shown
from woodref.errors import InputError
from woodref.record import record
from woodref.reference.overlay import BETWEEN, damaged, present, read_own
from woodref.reference.place_names import fold_place, fold_region

if TYPE_CHECKING:
    from woodref.reference.library import Reference

EARTH_RADIUS_KM = 6371.0
#: Places of one name this close together are one town with several stations [km].
ONE_TOWN_KM = 25.0
#: Beyond this a station says little of a place [km] (our own limit).
FAR_KM = 100.0
#: Line that must stand beside figures from the reports of stations worldwide.
ATTRIBUTION = "Data basis: Deutscher Wetterdienst, values processed."
_WORLD = "world-climate-reports"
_OWN = "own:"
#: Of several records of the shop's for one place the one added last holds.
_LATEST = "order by place is null desc, try_cast(batch[2:] as bigint) desc"

_COLUMNS = (
    "place_id",
    "name",
    "other_names",
    "namesakes",
    "region",
    "region_code",
    "country",
    "latitude",
    "longitude",
    "elevation_m",
    "station",
    "distance_km",
    "temperature_period",
    "humidity_period",
    "flag",
    "note",
    "basis",
    "source_id",
)
_COORDINATES = re.compile(
    r"\s*([+-]?[0-9]{1,3}(?:\.[0-9]*)?)\s*[,;]\s*([+-]?[0-9]{1,3}(?:\.[0-9]*)?)\s*"
)


class UnknownPlaceError(InputError):
    """No place goes by this name; ``suggestions`` holds the nearest names."""

    def __init__(self, name: str, suggestions: Sequence[str] = ()) -> None:
        self.name, self.suggestions = name, tuple(suggestions)
        near = f"nearest: {'; '.join(suggestions)}" if suggestions else "check the spelling"
        super().__init__(
            f"no place is called '{name}' in the tables; {near}; for a smaller town give its "
            "coordinates, for example 46.8,-92.1"
        )


class AmbiguousPlaceError(InputError):
    """Several places go by this name; ``candidates`` holds them with state or country.

    ``unrecorded`` holds those that no table knows.
    """

    def __init__(
        self, name: str, candidates: Sequence[str], unrecorded: Sequence[str] = ()
    ) -> None:
        self.name, self.candidates = name, tuple(candidates)
        self.unrecorded = tuple(unrecorded)
        told = f"several places are called '{name}'; write {' or '.join(candidates)}"
        if unrecorded:
            told += (
                f"; {' and '.join(unrecorded)} {'has' if len(unrecorded) == 1 else 'have'} no "
                "record here: give coordinates, for example 46.8,-92.1"
            )
        super().__init__(told)


@record(repr=False)
class Place(Shown):
    """A town with the station that stands for it.

    Coordinates in degrees north and east; ``distance_km`` from the town, or from the
    coordinates asked for, to the station; ``flag`` and ``note`` what weakens its record.
    """

    place_id: str
    name: str
    other_names: str
    region: str
    region_code: str
    country: str
    latitude: float
    longitude: float
    elevation_m: float
    station: str
    distance_km: float
    temperature_period: str
    humidity_period: str
    flag: str
    note: str
    basis: str
    source_id: str
    source: str
    namesakes: str = ""

    @property
    def label(self) -> str:
        """'Portland, Maine' in the United States, 'Vienna, Austria' elsewhere."""
        if self.country == self.name:
            return self.name
        return f"{self.name}, {self.region if self.region_code else self.country}"

    @property
    def is_own(self) -> bool:
        """True for air the shop logged itself: it has no coordinates and no station."""
        return self.place_id.startswith(_OWN)

    @property
    def attribution(self) -> str:
        """The line its source asks for, '' where it asks for none."""
        return ATTRIBUTION if self.source_id == _WORLD else ""

    def _line(self) -> str:
        return self.label


#: Monthly means of the air outside these are a slip of unit [degC].
COLDEST_C, HOTTEST_C = -60.0, 60.0


@record
class Weather:
    """Mean outdoor air of a month, 1 to 12: temperature [degC], relative humidity [%]."""

    month: int
    temperature_c: float
    humidity_pct: float


def kilometers(latitude: float, longitude: float, place: Place) -> float:
    """Great-circle distance from a point to a place [km] (haversine, sphere of 6371 km)."""
    north, south = radians(latitude), radians(place.latitude)
    half_lat = (south - north) / 2.0
    half_lon = radians(place.longitude - longitude) / 2.0
    h = sin(half_lat) ** 2 + cos(north) * cos(south) * sin(half_lon) ** 2
    return 2.0 * EARTH_RADIUS_KM * asin(min(1.0, sqrt(h)))


def _rows(reference: Reference, where: str = "", parameters: Sequence[object] = ()) -> list[Place]:
    columns = ", ".join(f"p.{c}" for c in _COLUMNS)
    rows = reference.store.rows(
        f"select {columns}, s.short as source from {{places}} p "
        f"join {{sources}} s using (source_id) {where} "
        "order by p.source_id <> 'us-climatic-data-2018', p.population desc, p.place_id",
        parameters,
    )
    filled: list[dict[str, Any]] = [{k: "" if v is None else v for k, v in r.items()} for r in rows]
    return [Place(**r) for r in filled]


def _named(reference: Reference, key: str) -> list[Place]:
    return _rows(reference, "where contains(p.name_keys, ?)", [f"|{key}|"]) if key else []


def _within(place: Place, region: str) -> bool:
    """True where the place lies in a state, province or country."""
    asked = {fold_region(region), fold_place(region)}
    return bool(asked & {fold_region(x) for x in (place.region, place.region_code, place.country)})


#: Words of a state, a province or a country at the most.
_REGION_WORDS = 8


def _matches(reference: Reference, text: str) -> list[Place]:
    """Places of a name with or without state and country, with commas or without."""
    name, *regions = [part for part in text.split(",") if part.strip()] or [""]
    matches = [
        p for p in _named(reference, fold_place(name)) if all(_within(p, r) for r in regions)
    ]
    if matches or regions:
        return matches
    words = text.split()
    for cut in range(len(words) - 1, max(0, len(words) - 1 - _REGION_WORDS), -1):
        region = " ".join(words[cut:])
        near = _named(reference, fold_place(" ".join(words[:cut])))
        matches = [p for p in near if _within(p, region)]
        if matches:
            return matches
    return []


def _one_town(places: list[Place]) -> bool:
    first = places[0]
    return all(kilometers(p.latitude, p.longitude, first) <= ONE_TOWN_KM for p in places[1:])


def find_place(reference: Reference, text: str) -> Place:
    """The place of a name, or the one nearest to coordinates.

    Parameters: text, such as 'Duluth', 'Portland, Maine', 'Portland ME', 'Vienna, Austria' or
    '46.8,-92.1'.
    Raises: UnknownPlaceError with the nearest names; AmbiguousPlaceError where several towns
    go by the name, in the tables or out of them; InputError for impossible coordinates.
    """
    if not text.strip(" ,"):
        raise InputError("the place is empty; write for example Duluth or 'Portland, Maine'")
    if own := own_place(reference, text):
        return own
    if at := coordinates(text):
        return nearest_places(reference, *at, limit=1)[0]
    matches = _matches(reference, text)
    if not matches:
        raise UnknownPlaceError(text.strip(), _similar(reference, text))
    several = len(matches) > 1 and not _one_town(matches)
    unrecorded = [n.strip() for p in matches if _is_bare(p, text) for n in p.namesakes.split(";")]
    unrecorded = [name for name in unrecorded if name]
    if several or unrecorded:
        labels = dict.fromkeys(p.label for p in matches)
        raise AmbiguousPlaceError(text.strip(), [f"'{label}'" for label in labels], unrecorded)
    return matches[0]


def _is_bare(place: Place, text: str) -> bool:
    """True where a place is asked for by a name alone, without state or country."""
    names = (place.name, *place.other_names.split(";"))
    return fold_place(text) in {fold_place(name) for name in names if name.strip()}


def coordinates(text: str) -> tuple[float, float] | None:
    """Latitude and longitude of '46.8,-92.1' [degree], None for a name.

    Raises: InputError for coordinates that are not on the globe.
    """
    match = _COORDINATES.fullmatch(text)
    if not match:
        return None
    latitude, longitude = float(match[1]), float(match[2])
    if not (abs(latitude) <= 90.0 and abs(longitude) <= 180.0):
        raise InputError(
            f"'{text.strip()}' is not on the globe; write latitude -90 to 90 and longitude -180 "
            "to 180, west and south negative, for example 46.8,-92.1"
        )
    return latitude, longitude


def nearest_places(
    reference: Reference, latitude: float, longitude: float, limit: int = 5
) -> tuple[Place, ...]:
    """The places nearest to a point, nearest first; ``distance_km`` is from the point.

    Parameters: latitude, longitude [degree], north and east positive; limit of the number.
    """
    near = sorted(
        (replace(p, distance_km=kilometers(latitude, longitude, p)) for p in _rows(reference)),
        key=lambda p: (p.distance_km, p.place_id),
    )
    return tuple(near[:limit])


def _similar(reference: Reference, text: str, limit: int = 3) -> list[str]:
    """Labels of the places whose names come closest to a misspelt one."""
    from rapidfuzz import fuzz, process

    rows = reference.store.rows(
        "select place_id, name_keys, region, country from {places} order by place_id"
    )
    keys = {
        form: r["place_id"]
        for r in rows
        for key in r["name_keys"].strip("|").split("|")
        for form in (key, f"{key} {fold_place(r['region'] or r['country'])}")
    }
    asked = fold_place(text)
    for r in _own_rows(reference, "select distinct place from {own} order by place"):
        keys[fold_place(r["place"])] = f"{_OWN}{r['place']}"
    hits = process.extract(asked, list(keys), scorer=fuzz.ratio, limit=3 * limit, score_cutoff=70.0)
    ids = list(dict.fromkeys(keys[key] for key, _, _ in hits))[:limit]
    if not ids:
        return []
    marks = ", ".join("?" for _ in ids)
    labels = {i: i.removeprefix(_OWN) for i in ids if i.startswith(_OWN)}
    labels |= {p.place_id: p.label for p in _rows(reference, f"where p.place_id in ({marks})", ids)}
    return [labels[i] for i in ids]


def _own_rows(
    reference: Reference, query: str, parameters: Sequence[object] = ()
) -> list[dict[str, Any]]:
    """Rows of the shop's own air records; none without records.

    Raises: WoodrefError as read_own, and for a row without a value that a query asks for.
    """
    files = present("places") if reference.uses_own else ()
    rows = read_own(reference.store, files, query, parameters) if files else []
    for column in ("place", "origin", "added"):
        if any(row.get(column, "") is None for row in rows):
            raise damaged(files, f"a row without its {column}")
    return rows


def own_place(reference: Reference, text: str) -> Place | None:
    """The place of the shop's own air records that goes by a name, None where there is none."""
    rows = _own_rows(
        reference,
        "select place, origin, added, note from {own} where lower(place) = ? or place is null "
        f"{_LATEST} limit 1",
        [text.strip().lower()],
    )
    if not rows:
        return None
    name, origin = rows[0]["place"], f"your own: {rows[0]['origin']} ({rows[0]['added']})"
    note = BETWEEN if (rows[0]["note"] or "").startswith(BETWEEN) else ""
    return Place(
        f"{_OWN}{name}", name, "", "", "", name, 0.0, 0.0, 0.0, name, 0.0,
        "your own record", "your own record", "", note, "own", "own", origin,
    )  # fmt: skip


def _own_weather(reference: Reference, place: Place) -> tuple[Weather, ...]:
    files = present("places")
    rows = (
        read_own(
            reference.store,
            files,
            "select month, temperature_c as t, relative_humidity_pct as h from {own} "
            "where lower(place) = ? and batch = "
            f"(select batch from {{own}} where lower(place) = ? {_LATEST} limit 1) order by month",
            [place.name.lower()] * 2,
        )
        if files
        else []
    )
    months = tuple(Weather(r["month"], r["t"], r["h"]) for r in rows)
    if [m.month for m in months] != list(range(1, 13)) or not all(map(_is_air, months)):
        raise damaged(files, f"the months of {place.name}")
    return months


def _is_air(month: Weather) -> bool:
    """True for what woodref own add takes for the air of a month."""
    air = (month.temperature_c, month.humidity_pct)
    if not all(isinstance(x, float) for x in air):
        return False
    return COLDEST_C <= air[0] <= HOTTEST_C and 0.0 <= air[1] <= 100.0


def weather_of(reference: Reference, place: Place) -> tuple[Weather, ...]:
    """The twelve months of a place, January first."""
    if place.is_own:
        return _own_weather(reference, place)
    rows = reference.store.rows(
        "select month, temperature_c, relative_humidity_pct from {climate} "
        "where place_id = ? order by month",
        [place.place_id],
    )
    return tuple(Weather(r["month"], r["temperature_c"], r["relative_humidity_pct"]) for r in rows)
