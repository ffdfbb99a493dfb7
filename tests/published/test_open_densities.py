"""Basic specific gravities of the handbook against open datasets.

- Global Wood Density Database, version 1: Zanne and others (2009), species means.
- US Forest Inventory and Analysis, table REF_SPECIES: Miles and Smith (2009), NRS-38.
- Reyes and others (1992), Wood densities of tropical tree species, GTR SO-88, Table 2.

They stand outside the project: in the folder named by WOODREF_OPEN_DATA, else in
../shared/open-data beside the checkout. Tolerances are those measured when the tables were
first compared. For US woods the database repeats the handbook's own figures, so that is a
check of transcription; for imported woods it is an independent one.
"""

import os
from collections import defaultdict
from pathlib import Path
from statistics import fmean

import pytest
from checked import checked
from printed_tables import ROOT, printed

FOLDER = Path(os.environ.get("WOODREF_OPEN_DATA") or ROOT.parent / "shared" / "open-data")
pytestmark = pytest.mark.skipif(
    not (FOLDER / "gwdd").is_dir(),
    reason="open datasets are absent: set WOODREF_OPEN_DATA to their folder",
)

#: Names the datasets of 1992 to 2009 use for a wood of the handbook.
OLDER_NAMES = {
    "Carya illinoinensis": "Carya illinoensis",
    "Calocedrus decurrens": "Libocedrus decurrens",
    "Notholithocarpus densiflorus": "Lithocarpus densiflorus",
}


def handbook(*tables):
    """Green specific gravity by botanical name, several rows of one name averaged."""
    values = defaultdict(list)
    for table in tables:
        for row in printed(table):
            if row["condition"] == "green" and row["specific_gravity"]:
                values[row["botanical"]].append(float(row["specific_gravity"]))
    return {name: fmean(v) for name, v in values.items()}


def open_data(path, column):
    values = defaultdict(list)
    for row in printed(path, FOLDER):
        if row[column]:
            values[row["botanical"]].append(float(row[column]))
    return {name: fmean(v) for name, v in values.items()}


def differences(ours, theirs):
    """Other less handbook, by botanical name, for species that stand in both."""
    found = {}
    for name, value in ours.items():
        other = theirs.get(name, theirs.get(OLDER_NAMES.get(name, "")))
        if other is not None and "spp." not in name:
            found[name] = other - value
    return found


def bias_and_rms(values):
    """Of the other less the handbook."""
    checked(list(values), [0.0] * len(values), "g/cm3")
    return fmean(values), fmean(v * v for v in values) ** 0.5


@pytest.fixture(scope="module")
def us_woods():
    return handbook("strength_us_hardwoods_si.csv", "strength_us_softwoods_si.csv")


@pytest.fixture(scope="module")
def imported_woods():
    return handbook("strength_imported_us.csv")


def test_us_woods_against_species_means(us_woods):
    means = open_data("gwdd/species_means.csv", "mean_basic_density_g_cm3")
    off = differences(us_woods, means)
    assert len(off) == 108
    bias, rms = bias_and_rms(off.values())
    assert bias == pytest.approx(0.004, abs=0.001)
    assert rms == pytest.approx(0.017, abs=0.001)
    # Woods with a second record from elsewhere; the North American record equals the handbook.
    assert {name for name, d in off.items() if abs(d) > 0.04} == {
        "Quercus nigra",
        "Chamaecyparis thyoides",
        "Quercus stellata",
        "Quercus falcata",
        "Quercus virginiana",
        "Quercus michauxii",
        "Liriodendron tulipifera",
        "Platanus occidentalis",
        "Populus deltoides",
    }


def test_us_woods_against_forest_inventory(us_woods):
    inventory = open_data("fia-ref-species/ref_species_wood.csv", "specific_gravity_green")
    off = differences(us_woods, inventory)
    assert len(off) == 106
    bias, rms = bias_and_rms(off.values())
    assert bias == pytest.approx(0.0, abs=0.001)
    assert rms == pytest.approx(0.005, abs=0.001)
    # The inventory has Sitka and white spruce the other way round.
    assert {n for n, d in off.items() if abs(d) > 0.0051} == {"Picea sitchensis", "Picea glauca"}
    assert off["Picea sitchensis"] == pytest.approx(-off["Picea glauca"])


def test_imported_woods_against_species_means(imported_woods):
    means = open_data("gwdd/species_means.csv", "mean_basic_density_g_cm3")
    off = differences(imported_woods, means)
    assert len(off) == 44
    bias, rms = bias_and_rms(off.values())
    assert bias == pytest.approx(0.016, abs=0.001)
    assert rms == pytest.approx(0.043, abs=0.001)


def test_imported_woods_against_reyes_1992(imported_woods):
    reyes = open_data("reyes-1992/reyes_1992_table2.csv", "basic_density_g_cm3")
    off = differences(imported_woods, reyes)
    assert len(off) == 36
    bias, rms = bias_and_rms(off.values())
    assert bias == pytest.approx(0.0, abs=0.001)
    assert rms == pytest.approx(0.048, abs=0.001)
