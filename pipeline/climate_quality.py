"""The part of QUALITY.md on places and seasons: coverage, and comparison with the handbook."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd

from pipeline.markdown import table as markdown_table
from woodref.formulas.engine import larger, smaller
from woodref.formulas.room import (
    DESIGN_LEAST_PCT,
    HOT_C,
    ROOM_FIGURES,
    RoomFigures,
    moisture_content_in_air,
    room_temperature,
)
from woodref.reference.declared.climate import PLACE_FLAGS

Lines = list[str]

#: Which region of the table of recommended moisture contents a place counts to: a list of
#: our own, drawn by states, as the borders stand in a figure and not in the table.
DRY_STATES = ("AZ", "NM", "NV", "UT")
DAMP_STATES = ("FL", "LA")
DAMP_TOWNS = (
    "mobile-alabama",
    "savannah-georgia",
    "wilmington-north-carolina",
    "cape-hatteras-north-carolina",
    "brownsville-texas",
    "corpus-christi-texas",
    "galveston-texas",
    "houston-texas",
    "port-arthur-texas",
    "victoria-texas",
)
#: Not in the figure.
LEFT_OUT = ("AK", "HI")
REGIONS = {
    "most": "most areas of the United States",
    "dry": "dry southwestern area",
    "damp": "damp, warm coastal area",
}
#: Settings that are compared, and what the one of the climate is called.
SETTINGS_COMPARED = ("heated house", "air-conditioned house")
USUAL = "that of the climate"


def region_of(place_id: str, state: str) -> str:
    """'dry', 'damp' or 'most' for a place of the contiguous states."""
    if state in DRY_STATES:
        return "dry"
    return "damp" if state in DAMP_STATES or place_id in DAMP_TOWNS else "most"


def room_years(months: pd.DataFrame, room: RoomFigures) -> pd.DataFrame:
    """The year of wood in a room at each place, and the range to design for [% MC].

    Parameters: months with place_id, temperature_c and relative_humidity_pct; room.
    Returns: by place_id, mean_pct, driest_pct and wettest_pct as expected, and design_low_pct
    and design_high_pct; as woodref.climate.seasons for one place.
    """
    outdoor_c, outdoor_pct = months["temperature_c"], months["relative_humidity_pct"]
    celsius = room_temperature(outdoor_c, room.warmer_c, room.heated_c, room.cooled_c)

    def moisture(end: int) -> pd.Series:
        humidity = room.humidity(outdoor_c, outdoor_pct, celsius, end)
        return moisture_content_in_air(celsius, humidity)

    ends = months[["place_id"]].assign(expected=moisture(0), low=moisture(-1), high=moisture(1))
    years = ends.groupby("place_id").agg(
        mean_pct=("expected", "mean"),
        driest_pct=("expected", "min"),
        wettest_pct=("expected", "max"),
        low=("low", "min"),
        high=("high", "max"),
    )
    return pd.DataFrame(
        {
            "mean_pct": years["mean_pct"],
            "driest_pct": years["driest_pct"],
            "wettest_pct": years["wettest_pct"],
            "design_low_pct": smaller(years["low"], years["mean_pct"] - DESIGN_LEAST_PCT),
            "design_high_pct": larger(years["high"], years["mean_pct"] + DESIGN_LEAST_PCT),
        }
    )


def seasons_by_region(places: pd.DataFrame, climate: pd.DataFrame) -> pd.DataFrame:
    """The year of wood indoors at the places of the contiguous states, flagged ones aside.

    Returns: a row per place and setting with place_id, region, setting, and the columns of
    room_years [% MC]; the setting USUAL is that of the climate.
    """
    us = places[places["region_code"].notna() & places["flag"].isna()]
    us = us[~us["region_code"].isin(LEFT_OUT)]
    pairs = zip(us["place_id"], us["region_code"], strict=True)
    regions = us.assign(region=[region_of(place_id, state) for place_id, state in pairs])
    months = climate[climate["place_id"].isin(us["place_id"])]
    hot = months.groupby("place_id")["temperature_c"].max() > HOT_C
    years = {name: room_years(months, ROOM_FIGURES[name]) for name in SETTINGS_COMPARED}
    heated, cooled = (years[name] for name in SETTINGS_COMPARED)
    years[USUAL] = pd.concat([heated[~hot], cooled[hot]])
    long = [frame.reset_index().assign(setting=name) for name, frame in years.items()]
    return pd.concat(long, ignore_index=True).merge(regions[["place_id", "region"]], on="place_id")


def _indoors(frames: Mapping[str, pd.DataFrame]) -> Lines:
    printed = frames["installation_moisture_content"]
    printed = printed[printed["use"] == "interior"].set_index("region")
    seasons = seasons_by_region(frames["places"], frames["climate"])
    rows = []
    for key, label in REGIONS.items():
        for setting in (*SETTINGS_COMPARED, USUAL):
            years = seasons[seasons["region"].eq(key) & seasons["setting"].eq(setting)]
            mean = years["mean_pct"].mean()
            average = float(printed.at[label, "average_mc_pct"])
            low = float(printed.at[label, "individual_min_mc_pct"])
            high = float(printed.at[label, "individual_max_mc_pct"])
            rows.append(
                (
                    label,
                    setting,
                    len(years),
                    f"{mean:.1f}",
                    f"{years['driest_pct'].mean():.1f} to {years['wettest_pct'].mean():.1f}",
                    f"{years['design_low_pct'].mean():.1f} to "
                    f"{years['design_high_pct'].mean():.1f}",
                    f"{average:g} ({low:g} to {high:g})",
                    f"{mean - average:+.1f}",
                )
            )
    basis = ", ".join(sorted(set(printed["basis"])))
    return [
        "Indoors: two settings and the one taken where none is named, whose figures are common "
        "practice without a source, beside the recommended moisture content of interior woodwork "
        "and furniture of Table 13-2 "
        f"(basis: {basis}), in % moisture content, means over the stations of a region. The "
        "regions are a list of our own, by state, as their borders stand in a figure: dry "
        f"southwestern {', '.join(DRY_STATES)}; damp, warm coastal {', '.join(DAMP_STATES)} and "
        f"{', '.join(DAMP_TOWNS)}; most areas, the rest without {', '.join(LEFT_OUT)}. Stations "
        "with a flag are left out.",
        "",
        *markdown_table(
            (
                "region",
                "setting",
                "stations",
                "mean of the year",
                "expected",
                "to design for",
                "Table 13-2",
                "mean less table",
            ),
            rows,
        ),
    ]


def outdoor_differences(frames: Mapping[str, pd.DataFrame]) -> pd.DataFrame:
    """Monthly moisture content outdoors of the climate less that of the handbook [% MC].

    Returns: city, month, flag of the place and difference, for the cities that are places.
    """
    printed = frames["outdoor_moisture"][["place_id", "city", "month", "emc_pct"]]
    ours = frames["climate"][["place_id", "month", "emc_pct", "flag"]]
    both = printed.dropna(subset=["place_id"]).merge(
        ours, on=["place_id", "month"], suffixes=("_printed", "")
    )
    return both.assign(difference=both["emc_pct"] - both["emc_pct_printed"])


def _outdoors(frames: Mapping[str, pd.DataFrame]) -> Lines:
    if "outdoor_moisture" not in frames:
        return []
    both = outdoor_differences(frames)
    flagged = both["flag"].notna()
    off = both.loc[~flagged, "difference"].astype(float)
    left_out = " and ".join(sorted(both.loc[flagged, "city"].unique()))
    rms = float((off**2).mean() ** 0.5)
    return [
        "Outdoors: monthly moisture content of wood less that of Table 13-1 (weather before "
        f"1997), without {left_out}, whose humidity record is flagged: bias {off.mean():+.2f}, "
        f"root mean square {rms:.2f} % moisture content over {len(off)} city-months.",
        "",
    ]


def climate_quality(frames: Mapping[str, pd.DataFrame]) -> Lines:
    """Places and seasons: what is there, what is weak, and how it compares with the handbook.

    Parameters: frames by table name, among them places, climate, sources and
    installation_moisture_content.
    """
    places, climate = frames["places"], frames["climate"]
    short = dict(zip(frames["sources"]["source_id"], frames["sources"]["short"], strict=True))
    by_source = places.groupby("source_id", sort=True)
    flags = places["flag"].dropna().str.split("; ").explode()
    return [
        "## Places and seasons",
        "",
        *markdown_table(
            ("publication", "places", "stations", "with a flag", "months below 30 F"),
            [
                (
                    short[str(source_id)],
                    len(group),
                    group["station_id"].nunique(),
                    int(group["flag"].notna().sum()),
                    int(
                        climate.loc[climate["place_id"].isin(group["place_id"]), "extrapolated"]
                        .astype(bool)
                        .sum()
                    ),
                )
                for source_id, group in by_source
            ],
        ),
        "Below 30 F (-1 C) the printed table of equilibrium moisture content ends; those months "
        "are marked extrapolated. Relative humidity is over liquid water. "
        "Data basis: Deutscher Wetterdienst, values processed.",
        "",
        *markdown_table(
            ("flag", "places"), [(flag, int((flags == flag).sum())) for flag in PLACE_FLAGS]
        ),
        *_outdoors(frames),
        *_indoors(frames),
    ]
