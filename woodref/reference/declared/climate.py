"""Places and their climate by month."""

from __future__ import annotations

from woodref.reference.declared.declaring import (
    BASIS,
    ORIGIN,
    SOURCE_KEY,
    Field,
    Table,
    integer,
    number,
    string,
)

PLACE_FLAGS = ("humidity looks low", "short record", "no independent check")
PLACES = Table(
    "places",
    "Places",
    "One row per town with monthly temperature and humidity: US stations, and towns elsewhere "
    "with the nearest station.",
    (
        Field("place_id", "string", "identifier of the place", required=True, unique=True),
        string("name", "name of the town", required=True),
        string("other_names", "other names it answers to, parted by semicolons"),
        string(
            "namesakes",
            "towns of the name that have no record here, parted by semicolons: those of 100,000 "
            "people or more, capitals and a few well-known ones in North America, Europe and New "
            "Zealand, our own list",
        ),
        string("name_keys", "all its names folded for look-up, parted by '|'", required=True),
        string("region", "state or province"),
        string("region_code", "postal code of the state"),
        string("country", "country or territory", required=True),
        number("latitude", "latitude", "degrees north", required=True, minimum=-90, maximum=90),
        number("longitude", "longitude", "degrees east", required=True, minimum=-180, maximum=180),
        number("elevation_m", "elevation of the station", "m", required=True),
        string("station_id", "number of the station", required=True),
        string("station", "name of the station as printed", required=True),
        number("station_latitude", "its latitude", "degrees north", minimum=-90, maximum=90),
        number("station_longitude", "its longitude", "degrees east", minimum=-180, maximum=180),
        number("distance_km", "from the town to the station; 0 in the US", "km", minimum=0.0),
        integer("population", "population of the town, where known", minimum=0),
        string("temperature_period", "years of the temperatures", required=True),
        string("humidity_period", "months or years of the humidities", required=True),
        string("flag", f"what weakens the record: {', '.join(PLACE_FLAGS)}"),
        string("source_id", "publication, see the table sources", required=True),
        string("edition", "edition as recorded"),
        string("printed_table", "name of the printed table"),
        BASIS,
        string("note", "notes of the row"),
        *ORIGIN,
    ),
    ("place_id",),
    SOURCE_KEY,
)

CLIMATE = Table(
    "climate",
    "Climate by month",
    "One row per place and month: mean outdoor temperature and relative humidity, and the "
    "moisture content wood comes to in that air.",
    (
        string("place_id", "see the table places", required=True),
        integer("month", "1 January to 12 December", required=True, minimum=1, maximum=12),
        number("temperature_c", "mean temperature", "degC", required=True),
        number("temperature_max_c", "mean daily maximum", "degC"),
        number("temperature_min_c", "mean daily minimum", "degC"),
        number("temperature_f", "mean temperature as printed", "degF"),
        number("temperature_max_f", "mean daily maximum as printed", "degF"),
        number("temperature_min_f", "mean daily minimum as printed", "degF"),
        number(
            "relative_humidity_pct",
            "mean relative humidity, over water; in the US the mean of morning and afternoon",
            "%",
            required=True,
            minimum=0.0,
            maximum=100.0,
        ),
        number("relative_humidity_morning_pct", "as printed", "%", minimum=0.0, maximum=100.0),
        number("relative_humidity_afternoon_pct", "as printed", "%", minimum=0.0, maximum=100.0),
        number("vapor_pressure_hpa", "mean vapor pressure", "hPa", minimum=0.0),
        number("emc_pct", "equilibrium moisture content", "%", required=True, minimum=0.0),
        Field(
            "extrapolated",
            "boolean",
            "true below 30 degF, where the printed table of equilibrium moisture content ends",
            required=True,
        ),
        string("flag", "weakness of the record of the place"),
        integer("years", "years in the mean", minimum=1),
        integer("first_year", "first year in the mean"),
        integer("last_year", "last year in the mean"),
        string("station_id", "number of the station", required=True),
        string("source_id", "publication, see the table sources", required=True),
        BASIS,
        *ORIGIN,
    ),
    ("place_id", "month"),
    (("place_id", "places.place_id"), *SOURCE_KEY),
)
