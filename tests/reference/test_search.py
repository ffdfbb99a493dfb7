"""Search by a name, a part of one, a misspelt one."""

import pytest

from woodref.reference.library import Reference
from woodref.reference.search import find


@pytest.fixture(scope="module")
def reference():
    return Reference()


def common(candidates):
    return [c.wood.common_name for c in candidates]


def test_an_ambiguous_name_says_what_tells_its_woods_apart(reference):
    found = find(reference, "mahogany")
    assert found.ambiguous
    assert not found.near
    assert {"American mahogany", "African mahogany", "West Indian mahogany"} <= set(
        common(found.exact)
    )
    assert "African" in found.note
    assert "Santos mahogany" in common(found.containing)


def test_a_part_of_a_name_begins_or_ends_a_word(reference):
    names = common(find(reference, "ash").containing)
    assert "Oregon ash" in names
    assert not any("washington" in n.lower() for n in names)
    assert "bur oak" in common(find(reference, "oak").containing)


def test_a_wood_is_listed_once(reference):
    found = find(reference, "oak")
    assert len(set(found.species_ids)) == len(found.species_ids)


def test_a_group(reference):
    found = find(reference, "hickory")
    assert found.group
    assert not found.ambiguous
    assert len(found.exact) > 4


def test_near_names_for_a_misspelt_one(reference):
    found = find(reference, "wite oak")
    assert not found.exact
    assert found.near[0].name == "white oak"
    assert find(reference, "xqzvw").near == ()


def test_candidates_with_data_come_first(reference):
    tiers = [c.wood.data_coverage == "no data" for c in find(reference, "mahogany").containing]
    assert tiers == sorted(tiers)
    assert any(tiers)
