"""Outdoor moisture content of wood by month against Wood Handbook Table 13-1.

That table is recalled (from memory), stands outside the project and is no part of the dataset:
in the folder named by WOODREF_RECALLED, else in ../shared/tables/recalled beside the checkout.
The figures measured here are quoted in QUALITY.md, so they are held to.
"""

import csv
import os
from pathlib import Path
from statistics import fmean

import pytest
from printed_tables import ROOT

from pipeline.climate_quality import OUTDOOR_BIAS, OUTDOOR_MONTHS, OUTDOOR_RMS
from woodref.climate.rooms import room_of
from woodref.reference.library import Reference
from woodref.reference.places import find_place

FILE = (
    Path(os.environ.get("WOODREF_RECALLED") or ROOT.parent / "shared" / "tables" / "recalled")
    / "outdoor_emc_monthly.csv"
)
pytestmark = pytest.mark.skipif(
    not FILE.is_file(), reason="the recalled table is absent: set WOODREF_RECALLED to its folder"
)
#: Names of the table that ours do not hold.
OURS = {"Dallas-Ft. Worth": "Dallas", "Seattle-Tacoma": "Seattle"}
#: Humidity looks low in their record.
FLAGGED = {("CA", "Los Angeles"), ("CO", "Denver")}
#: No station in the table of humidities.
ABSENT = {("SC", "Charleston")}


@pytest.fixture(scope="module")
def errors():
    """Ours less the table [% MC], by state and city."""
    reference = Reference()
    printed = {}
    with FILE.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            if row["country"] == "United States":
                city = (row["state_or_region"], row["city"])
                printed.setdefault(city, {})[int(row["month"])] = float(row["emc_pct"])
    found = {}
    for (state, city), months in printed.items():
        if (state, city) not in ABSENT:
            year = room_of(reference, f"{OURS.get(city, city)}, {state}", "outdoors under cover")
            found[state, city] = [m.outdoor_emc_pct - months[m.month] for m in year.season.months]
    return found


def test_bias_and_spread_are_those_of_the_quality_page(errors):
    differences = [e for city, es in errors.items() if city not in FLAGGED for e in es]
    assert len(differences) == OUTDOOR_MONTHS
    assert fmean(differences) == pytest.approx(OUTDOOR_BIAS, abs=0.005)
    assert fmean(e * e for e in differences) ** 0.5 == pytest.approx(OUTDOOR_RMS, abs=0.005)


def test_the_flagged_places_are_the_ones_that_do_not_fit(errors):
    reference = Reference()
    for state, city in FLAGGED:
        assert find_place(reference, f"{city}, {state}").flag == "humidity looks low"
        assert fmean(errors[state, city]) < -1.0
