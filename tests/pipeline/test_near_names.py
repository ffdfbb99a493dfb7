"""Names that may be one wood in two spellings."""

import pandas
import pytest

from pipeline.near_names import near_names


@pytest.mark.parametrize(
    ("a", "b", "why"),
    [
        ("Lysiloma latisiliqua", "Lysiloma latisiliquum", "one stem"),
        ("Pinus armandi", "Pinus armandii", "one stem"),
        ("Peltophorum dasyrachis", "Peltophorum dasyrrhachis", "one stem"),
        ("Combretocarpus rotundatus", "Combretocarpus rotuodatus", "a letter apart"),
        ("Licania cayennensis", "Licaria cayennensis", "genera a letter apart"),
    ],
)
def test_two_spellings_are_found(a, b, why):
    assert list(near_names(pandas.Series([a, "Acer rubrum", b]))) == [(*sorted((a, b)), why)]


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("Populus tremula", "Populus tremuloides"),
        ("Acer rubrum", "Acer nigrum"),
        ("Quercus alba", "Quercus falcata"),
        ("Shorea spp.", "Shorea sp."),
        ("Betula alba", "Populus alba"),
    ],
)
def test_two_woods_are_left_apart(a, b):
    assert not list(near_names(pandas.Series([a, b])))


def test_the_dataset_has_few_left(frames):
    """Each spelling that is certain stands in synonyms.csv; the rest are told in QUALITY.md."""
    assert len(list(near_names(frames["species"]["botanical_name"]))) <= 15
