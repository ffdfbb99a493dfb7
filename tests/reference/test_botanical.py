"""Botanical names that stand in no names table."""

from woodref.reference.botanical import botanical_meanings, listed_names

KNOWN = [
    {"species_id": "abies-alba", "botanical_name": "Abies alba"},
    {"species_id": "abies-procera", "botanical_name": "Abies procera"},
    {"species_id": "quercus-robur-petraea", "botanical_name": "Quercus robur; Quercus petraea"},
    {"species_id": "tabebuia-spp-roble", "botanical_name": "Tabebuia spp."},
    {"species_id": "tabebuia-spp-lapacho", "botanical_name": "Tabebuia spp."},
]


def ids(name):
    return [i for i, _ in botanical_meanings(name, KNOWN)]


def test_own_name_of_one_of_several_parts():
    assert botanical_meanings("quercus PETRAEA", KNOWN) == [("quercus-robur-petraea", "")]


def test_a_genus_means_all_its_woods():
    for name in ("Abies", "abies spp.", "Abies sp.", "Abies subg. Abies"):
        assert ids(name) == ["abies-alba", "abies-procera"]
    assert botanical_meanings("Abies", KNOWN)[0][1] == "of the genus Abies"


def test_a_species_printed_for_its_genus():
    assert ids("Tabebuia rosea") == ["tabebuia-spp-roble", "tabebuia-spp-lapacho"]
    assert "printed for Tabebuia spp." in botanical_meanings("Tabebuia rosea", KNOWN)[0][1]


def test_an_identifier_parts_woods_of_one_botanical_name():
    assert ids("tabebuia-spp-roble") == ["tabebuia-spp-roble"]


def test_what_nobody_knows():
    for name in ("Abies nova", "Larix", "white oak", "", "()"):
        assert ids(name) == []


def test_listed_names():
    assert listed_names("Swietenia spp.; Khaya spp. ;") == ["Swietenia spp.", "Khaya spp."]
