"""Many names at once mean what each of them means alone."""

import random

import pytest

from woodref.reference.library import Reference
from woodref.reference.many_names import rows_of_names

ODD = [
    "",
    "hickory",
    "white oak",
    "Oak, white",
    "white-oaks",
    "wite oak",
    "Quercus",
    "Khaya nyasica",
]
ODD += ["Swietenia spp.; Khaya spp.", "quercus-alba", "Abies", "\\N", "meranti", "Populus spp."]
ODD += ["walnut", "oak", "hard maple", "hard maple group", "yellow pine", "chestnut", "red oaks"]


@pytest.fixture(scope="module", params=["North America", "Europe", ""])
def reference(request):
    return Reference(own=False, region=request.param)


def test_a_species_id_means_its_wood_wherever_one_is(reference):
    """So that a wood whose name is shared, or hidden behind another, can be asked for."""
    ids = [r["species_id"] for r in reference.store.rows("select species_id from {species}")]
    meant = {
        i: {r["species_id"] for r in rows} for i, rows in rows_of_names(reference, ids).items()
    }
    assert meant == {i: {i} for i in ids}


def test_as_one_by_one(reference):
    known = [r["name"] for r in reference.store.rows("select name from {names} order by all")]
    names = [*ODD, *random.Random(7).sample(known, 60)]
    found = rows_of_names(reference, names)
    assert found == {name: reference.meant_rows(name) for name in names}
    assert found["wite oak"] == []
