"""Which woods a printed row speaks for."""

from __future__ import annotations

import pytest
from sources_kit import SmallRegistry

from pipeline.sources.members import (
    botanical_parts,
    domestic_first,
    grows_in,
    growth_of,
    is_group,
    sold_as,
    woods_of,
)

REGISTRY = SmallRegistry()


def test_a_genus_written_by_its_letter_is_written_out():
    assert botanical_parts("Taxus chinensis; T. cuspidata; Picea spp.") == [
        "Taxus chinensis",
        "Taxus cuspidata",
        "Picea spp.",
    ]


@pytest.mark.parametrize(
    ("botanical", "name", "woods"),
    [
        ("Quercus alba", "Oak, white", ["quercus-alba"]),
        ("Quercus spp. (red oak group)", "Oak, red", ["quercus-rubra"]),
        ("Quercus alba; Quercus rubra", "oak", ["quercus-alba", "quercus-rubra"]),
        ("Sequoia sempervirens", "Redwood", ["sequoia-old-growth", "sequoia-young-growth"]),
        ("Sequoia sempervirens", "Redwood, old growth", ["sequoia-old-growth"]),
        ("Sequoia sempervirens", "Redwood, second-growth", ["sequoia-young-growth"]),
        ("Shorea spp.", "Meranti (lauan), Light red", ["shorea-spp-light"]),
        ("Shorea spp.", "Balau", ["shorea-spp-balau"]),
        ("Shorea spp.", "meranti, any", ["shorea-spp-balau", "shorea-spp-light"]),
        # a name that is a wood's own does not narrow a genus of whole species
        ("Celtis spp.", "Hackberry", ["celtis-occidentalis", "celtis-laevigata"]),
        # a species that is only traded with its genus
        ("Khaya anthotheca", "African mahogany", ["khaya-spp"]),
        ("Nerium oleander", "Oleander", []),
    ],
)
def test_woods_of(botanical, name, woods):
    assert woods_of(REGISTRY, botanical, name) == woods


def test_a_listed_species_speaks_for_its_varieties_only_where_asked():
    assert woods_of(REGISTRY, "Taxus chinensis") == []
    assert woods_of(REGISTRY, "Taxus chinensis", varieties=True) == ["taxus-chinensis"]


def test_a_domestic_genus_leaves_out_european_woods():
    oaks = woods_of(REGISTRY, "Quercus spp.", "Oak")
    assert "quercus-robur" in oaks
    assert domestic_first(REGISTRY, oaks) == ["quercus-alba", "quercus-rubra"]
    assert domestic_first(REGISTRY, ["khaya-spp"]) == ["khaya-spp"]


def test_cedars_are_found_by_name():
    assert sold_as(REGISTRY, "Cedars") == ["thuja-plicata"]


@pytest.mark.parametrize(
    ("botanical", "woods", "group"),
    [
        ("Alnus spp.", ["alnus-rubra"], True),
        ("Khaya spp.", ["khaya-spp"], False),
        ("Quercus alba", ["quercus-alba"], False),
        ("Acer rubrum; Acer saccharinum", ["acer-rubrum", "acer-saccharinum"], True),
    ],
)
def test_is_group(botanical, woods, group):
    assert is_group(botanical, woods) is group


def test_regions_and_growth():
    assert grows_in("Africa", "Gabon and Cameroon")
    assert not grows_in("Africa", "Andaman Islands")
    with pytest.raises(KeyError):
        grows_in("Atlantis", "Europe")
    assert growth_of("Baldcypress (young growth)") == "young growth"
    assert growth_of("Redwood") == ""
