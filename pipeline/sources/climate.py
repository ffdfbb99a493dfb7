"""Places and their monthly climate: US stations as printed, towns elsewhere as processed.

Equilibrium moisture content is computed here once, so that a query can rank places by it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pandas as pd

from pipeline.read import SOURCES, read_table
from pipeline.sources.cells import source_id_of
from pipeline.sources.publications import slug
from woodref.formulas.moisture import EMC_TEMPERATURE_RANGE_C, equilibrium_moisture_content
from woodref.reference.place_names import fold_place

#: A station; the two systems give the same numbers to different stations.
_STATION = ["system", "station_id"]
_PRINT = {"table": "printed_table"}
_NUMBERS = (
    "latitude",
    "longitude",
    "elevation_m",
    "station_latitude",
    "station_longitude",
    "distance_km",
    "population",
)


@dataclass(frozen=True)
class Climate:
    """The tables ``places`` and ``climate``."""

    places: pd.DataFrame
    climate: pd.DataFrame


def _numbers(frame: pd.DataFrame, columns: list[str]) -> pd.DataFrame:
    """The columns as numbers; a cell that is none is an error, an empty one is missing."""
    return frame.assign(**{c: pd.to_numeric(frame[c].where(frame[c] != "")) for c in columns})


def _identified(places: pd.DataFrame) -> pd.Series:
    """An identifier per place: town and state or country; the station where that repeats."""
    names = [
        slug(fold_place(f"{name} {region if code else country}"))
        for name, region, code, country in zip(
            places["name"], places["region"], places["region_code"], places["country"], strict=True
        )
    ]
    seen: set[str] = set()
    found = []
    for name, station in zip(names, places["station_id"], strict=True):
        found.append(f"{name}-{station}" if name in seen else name)
        seen.add(name)
    return pd.Series(found, index=places.index)


def _name_keys(name: str, others: str) -> str:
    """All names of a place as they are looked up: '|minneapolis st paul|minneapolis|'."""
    keys = dict.fromkeys(fold_place(n) for n in [name, *others.split(";")] if n.strip())
    return f"|{'|'.join(keys)}|"


def _with_namesakes(places: pd.DataFrame, folder: Path) -> pd.DataFrame:
    """The places with the towns that share their names and have no record.

    Raises: ValueError for a row that means no place, or several.
    """
    shared = read_table("place_namesakes", folder)
    key = ["station_id", "name"]
    known = places[key].value_counts()
    strange = [k for k in shared[key].itertuples(index=False, name=None) if known.get(k, 0) != 1]
    if strange:
        raise ValueError(f"place_namesakes.csv: no one place is meant by {strange}")
    return places.merge(shared[[*key, "namesakes"]], on=key, how="left").fillna({"namesakes": ""})


def _places(origins: Mapping[str, Any], folder: Path) -> pd.DataFrame:
    us = read_table("us_places", folder).assign(system="us", distance_km="0", population="")
    us = us.assign(station_latitude=us["latitude"], station_longitude=us["longitude"])
    world = read_table("world_places", folder).assign(system="world", region_code="")
    period = world["first_year"] + "/" + world["last_year"]
    world = world.assign(temperature_period=period, humidity_period=period)
    both = pd.concat(
        [us, world.drop(columns=["first_year", "last_year"])], ignore_index=True
    ).rename(columns={**_PRINT, "printed_station": "station"})
    both = _with_namesakes(both, folder)
    sources = [source_id_of(r, origins, "edition") for r in both.to_dict("records")]
    return _numbers(both, list(_NUMBERS)).assign(
        source_id=sources,
        place_id=_identified(both),
        name_keys=[
            _name_keys(n, o) for n, o in zip(both["name"], both["other_names"], strict=True)
        ],
    )


def _months(folder: Path) -> pd.DataFrame:
    """The monthly rows of all stations, in one set of columns."""
    us = read_table("us_monthly_climate", folder)
    us = _numbers(us, [c for c in us.columns if c.startswith(("month", "temp", "relative"))])
    celsius = {
        f"{c.removesuffix('_f')}_c": ((us[c] - 32.0) / 1.8).round(3)
        for c in ("temperature_f", "temperature_max_f", "temperature_min_f")
    }
    humidity = (us["relative_humidity_morning_pct"] + us["relative_humidity_afternoon_pct"]) / 2.0
    us = us.assign(system="us", **celsius, relative_humidity_pct=humidity)
    world = read_table("world_monthly_climate", folder)
    numbers = [c for c in world.columns if c not in ("station_id", "source_table", "source_line")]
    world = world.assign(system="world")
    return pd.concat([us, _numbers(world, numbers)], ignore_index=True)


def climate(origins: Mapping[str, Any], folder: Path = SOURCES) -> Climate:
    """Places and their twelve months each.

    Parameters: origins as read from origins.toml; folder of the source files.
    Raises: ValueError for a station without twelve months, or months without a place.
    """
    places, months = _places(origins, folder), _months(folder)
    ids = set(places[_STATION].itertuples(index=False, name=None))
    counts = months.groupby(_STATION)["month"].agg(lambda m: sorted(m) == list(range(1, 13)))
    wrong = sorted({*counts.index[~counts], *(ids ^ set(counts.index))})
    if wrong:
        raise ValueError(f"stations without a place or without twelve months: {wrong}")
    shared = places[["place_id", *_STATION, "flag", "source_id", "basis"]]
    rows = shared.merge(months, on=_STATION).drop(columns="system")
    emc = equilibrium_moisture_content(rows["temperature_c"], rows["relative_humidity_pct"])
    rows = rows.assign(
        emc_pct=emc.round(3), extrapolated=rows["temperature_c"] < EMC_TEMPERATURE_RANGE_C[0] - 1e-3
    )
    return Climate(places.drop(columns="system"), rows)
