"""Places and their months: nothing lost, nothing doubled, printed figures kept."""

import csv
import shutil

import pytest

from pipeline.climate_quality import region_of, seasons_by_region
from pipeline.read import SOURCES, read_origins, read_table
from pipeline.sources.climate import climate


def test_all_stations_and_cities_with_twelve_months_each(frames):
    places, months = frames["places"], frames["climate"]
    assert places["source_id"].value_counts().to_dict() == {
        "us-climatic-data-2018": 261,
        "world-climate-reports": 536,
    }
    assert len(months) == 12 * 797
    assert set(months["place_id"]) == set(places["place_id"])
    assert {tuple(sorted(g)) for _, g in months.groupby("place_id")["month"]} == {
        tuple(range(1, 13))
    }


def test_a_printed_month_arrives_in_both_scales(frames):
    """Duluth, January: normal mean 10.2 F; relative humidity 78 % morning, 70 % afternoon.

    Source: Comparative Climatic Data for the United States Through 2018.
    """
    m = frames["climate"].set_index(["place_id", "month"]).loc[("duluth-minnesota", 1)]
    assert m["temperature_f"] == 10.2
    assert m["temperature_c"] == pytest.approx(-12.11, abs=0.005)
    morning, afternoon = m["relative_humidity_morning_pct"], m["relative_humidity_afternoon_pct"]
    assert (morning, afternoon, m["relative_humidity_pct"]) == (78, 70, 74)
    assert m["extrapolated"]


def test_extrapolated_is_below_thirty_fahrenheit(frames):
    m = frames["climate"]
    assert (m["extrapolated"] == (m["temperature_c"] < (30.0 - 32.0) / 1.8 - 1e-3)).all()
    exactly = m[m["temperature_f"] == 30.0]
    assert len(exactly)
    assert not exactly["extrapolated"].any()


def test_flags_travel_with_the_months(frames):
    places, months = frames["places"].set_index("place_id"), frames["climate"]
    flagged = months.dropna(subset=["flag"]).drop_duplicates("place_id").set_index("place_id")
    assert flagged["flag"].to_dict() == places["flag"].dropna().to_dict()
    low = places[places["flag"] == "humidity looks low"]
    assert set(low.index) == {"denver-colorado", "los-angeles-california"}
    assert low["note"].str.contains("RH looks low").all()


def test_towns_of_one_station_share_its_months(frames):
    m = frames["climate"].set_index("place_id")
    delhi, new = (m.loc[p].sort_values("month") for p in ("delhi-india", "new-delhi-india"))
    assert list(delhi["station_id"]) == list(new["station_id"])
    assert list(delhi["emc_pct"]) == list(new["emc_pct"])


def test_a_number_used_by_two_systems_does_not_mix_stations():
    stations = [set(read_table(f"{s}_places")["station_id"]) for s in ("us", "world")]
    assert stations[0] & stations[1], "the case this guards against is there"


def copied(folder):
    """The tables of places and their months, in a folder."""
    for name in ("us_places", "us_monthly_climate", "world_places", "world_monthly_climate"):
        shutil.copy(SOURCES / f"{name}.csv", folder)
    shutil.copy(SOURCES / "place_namesakes.csv", folder)


def test_towns_of_a_shared_name_stand_with_the_place_they_share_it_with(frames):
    shared = read_table("place_namesakes")
    places = frames["places"].set_index(["station_id", "name"])["namesakes"]
    for row in shared.itertuples():
        assert places[row.station_id, row.name] == row.namesakes
    assert places.notna().sum() == len(shared)


def test_a_shared_name_of_no_place_is_an_error(tmp_path):
    copied(tmp_path)
    with (tmp_path / "place_namesakes.csv").open("a", encoding="utf-8") as file:
        file.write('13876,Nowhere,Alabama,"Nowhere, Ohio",ours\n')
    with pytest.raises(ValueError, match="Nowhere"):
        climate(read_origins(), tmp_path)


def test_a_station_without_all_months_is_an_error(tmp_path):
    copied(tmp_path)
    path = tmp_path / "us_monthly_climate.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows[:1] + rows[2:])
    with pytest.raises(ValueError, match=rows[1][0]):
        climate(read_origins(), tmp_path)


@pytest.mark.parametrize(
    ("place_id", "state", "region"),
    [
        ("tucson-arizona", "AZ", "dry"),
        ("miami-florida", "FL", "damp"),
        ("savannah-georgia", "GA", "damp"),
        ("atlanta-georgia", "GA", "most"),
    ],
)
def test_regions_are_our_own_list(place_id, state, region):
    assert region_of(place_id, state) == region


def test_default_rooms_stay_near_the_recommended_moisture_contents(frames):
    """Means by region within 1.5 % MC of Table 13-2 (unchecked), in the order of its regions."""
    seasons = seasons_by_region(frames["places"], frames["climate"])
    found = seasons.groupby(["setting", "region"])["mean_pct"].mean()
    printed = {"dry": 6.0, "most": 8.0, "damp": 11.0}
    for setting in ("heated house", "air-conditioned house"):
        means = {}
        for region, expected in printed.items():
            means[region] = found[setting, region]
            assert means[region] == pytest.approx(expected, abs=1.5)
        assert means["dry"] < means["most"] < means["damp"]
