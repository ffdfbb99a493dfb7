"""The publications of the dataset, counted and found by name."""

import pytest

from woodref.errors import InputError
from woodref.reference.library import Reference
from woodref.reference.sources import figures_of, source_named, sources_of


@pytest.fixture(scope="module")
def store():
    return Reference(own=False).store


@pytest.fixture(scope="module")
def sources(store):
    return sources_of(store)


def test_every_row_of_the_dataset_is_counted_for_its_source(store, sources):
    (row,) = store.rows("select count(*) as n from {measurements}")
    assert sum(s.measurements for s in sources) == row["n"]
    assert all(sum(s.bases.values()) == s.measurements >= s.preferred for s in sources)
    (cautions,) = store.rows("select count(*) as n from {cautions} where source_id is not null")
    assert sum(s.other_rows for s in sources) >= cautions["n"]


def test_the_figures_of_a_source_are_all_of_them(store, sources):
    source = source_named("FPL-GTR-282", sources)
    figures = figures_of(store, source.source_id)
    assert sum(f.measurements for f in figures) == source.measurements
    assert sum(f.preferred for f in figures) == source.preferred


def test_an_exact_name_goes_before_a_part_of_one(sources):
    for source in sources:
        assert source_named(source.source_id, sources) is source
        if [s.short for s in sources].count(source.short) == 1:
            assert source_named(source.short.upper(), sources) is source
    with pytest.raises(InputError, match="'handbook' is part of"):
        source_named("handbook", sources)
    with pytest.raises(InputError, match="no source is called"):
        source_named("", sources)
