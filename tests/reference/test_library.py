"""Names to woods, over the packaged dataset and every name of the table of names."""

import csv
from dataclasses import fields
from pathlib import Path

import pytest

from woodref.errors import AmbiguousNameError, UnknownNameError
from woodref.reference.library import Reference
from woodref.reference.many_names import rows_of_names
from woodref.reference.search import find
from woodref.reference.woods import Wood

ROOT = Path(__file__).resolve().parents[2]
TABLE = ROOT / "datasets" / "sources" / "species_names.csv"


@pytest.fixture(scope="module")
def reference():
    return Reference()


def names_of_row(row):
    """Both word orders, every botanical name, every trade name of a row."""
    yield row["common_name"]
    head, comma, tail = row["common_name"].partition(",")
    if comma:
        yield f"{tail.strip()} {head.strip()}"
    yield row["botanical"]
    yield from row["botanical"].split(";")
    yield from row["other_trade_names"].split(";")


def every_name():
    with TABLE.open(encoding="utf-8", newline="") as file:
        names = [n.strip() for row in csv.DictReader(file) for n in names_of_row(row)]
    return list(dict.fromkeys(n for n in names if n))


def meanings(reference, name):
    """How many woods, or candidates, a name leads to; 0 for a name that nobody knows."""
    try:
        return len(reference.wood(name).species_ids)
    except AmbiguousNameError as error:
        return len(error.candidates)
    except UnknownNameError:
        return 0


def test_every_name_of_the_table_leads_to_a_wood_or_to_candidates(reference):
    names = every_name()
    assert len(names) > 1500
    # All at once, which means what each means alone (test_many_names.py).
    rows = rows_of_names(reference, names)
    assert [n for n in names if not rows[n] and not meanings(reference, n)] == []
    known = {r["species_id"] for r in reference.store.rows("select species_id from {species}")}
    assert {r["species_id"] for of_name in rows.values() for r in of_name} <= known


def test_find_agrees_with_the_look_up(reference):
    for name in every_name()[::40]:
        assert len(find(reference, name).exact) == meanings(reference, name), name


def test_the_data_coverage_of_a_wood_is_what_its_values_say(reference):
    rows = reference.store.rows("select * from {species} order by species_id")
    values = reference.values(r["species_id"] for r in rows)
    for row in rows:
        figures = values.get(row["species_id"], {})
        wood = Wood(**{f.name: row[f.name] for f in fields(Wood) if f.name in row}, values=figures)
        if wood.data_coverage == "no data":
            assert not wood.values, wood.species_id
        # A basic gravity turned back from a printed density of the wood counts as known.
        full = row["basic_specific_gravity"] is not None and all(
            wood.value(p)
            for p in (
                *("side_hardness", "modulus_of_elasticity", "modulus_of_rupture"),
                *("shrinkage_radial", "shrinkage_tangential", "shrinkage_volumetric"),
            )
        )
        assert (wood.data_coverage == "full") == full, wood.species_id


@pytest.mark.parametrize(
    ("name", "species_id"),
    [
        ("white oak", "quercus-alba"),
        ("Oak, white", "quercus-alba"),
        ("WHITE-OAKS", "quercus-alba"),
        ("Quercus alba", "quercus-alba"),
        ("sugar maple", "acer-saccharum"),
        ("teak", "tectona-grandis"),
        ("Tectona grandis", "tectona-grandis"),
        ("Douglas-fir", "pseudotsuga-menziesii-coast"),
        ("redwood", "sequoia-sempervirens-young-growth"),
        ("European beech", "fagus-sylvatica"),
        ("Chlorophora excelsa", "milicia-excelsa-regia"),
    ],
)
def test_a_name_means_the_wood_it_should(reference, name, species_id):
    assert reference.wood(name).species_id == species_id


def test_a_plain_name_says_why_it_leads_where_it_does(reference):
    assert reference.wood("white oak").trade_name.group == "white oak group"
    assert "coast" in reference.wood("Douglas fir").note
    assert len(reference.wood("white oak group").members) > 8


def test_a_group_is_answered_as_a_group(reference):
    for name, member in (
        ("hickory", "carya-ovata"),
        ("soft maple group", "acer-rubrum"),
    ):
        group = reference.wood(name)
        assert group.is_group
        assert member in group.species_ids
        values = [m.value("side_hardness").value for m in group.members if m.value("side_hardness")]
        assert group.value("side_hardness").value == pytest.approx(sum(values) / len(values))


def test_an_ambiguous_name_lists_candidates_that_can_be_asked_for(reference):
    for name in ("maple", "oak", "cedar", "ebony"):
        with pytest.raises(AmbiguousNameError) as caught:
            reference.wood(name)
        for candidate in caught.value.candidates:
            assert reference.wood(candidate).species_id


def test_a_misspelt_name_gets_the_nearest(reference):
    with pytest.raises(UnknownNameError) as caught:
        reference.wood("suger maple")
    assert caught.value.suggestions[0] == "sugar maple"
    with pytest.raises(UnknownNameError, match="'qqqqqq'; try its botanical name"):
        reference.wood("qqqqqq")
    for empty in ("", "()", "\N{HIRAGANA LETTER A}"):
        with pytest.raises(UnknownNameError):
            reference.wood(empty)


def test_a_list_of_botanical_names_is_a_list_of_candidates(reference):
    with pytest.raises(AmbiguousNameError) as caught:
        reference.wood("Swietenia macrophylla; Khaya spp.")
    assert caught.value.candidates == ("American mahogany", "African mahogany")


def test_nothing_asked_is_nothing_found(reference):
    assert reference.woods([]) == {}
    assert reference.names_of([]) == []
    assert reference.woods(["no-such-wood"]) == {}
