"""What a yard man would say, as a check of the choice: common practice, no source.

Written down before the program was asked. Each holds for the woods of North American yards and
for the use named; a resemblance that print states is told apart and counts for none of them.
"""

import pytest

from woodref.choose.buyable import Buyable
from woodref.choose.profile import load_profile
from woodref.choose.rank import rank
from woodref.choose.substitute import substitutes
from woodref.reference.library import Reference
from woodref.reference.looks import looks_of


@pytest.fixture(scope="module")
def library():
    return Reference(own=False)


def _first(reference, wood, use, most):
    nearest = substitutes(
        reference, reference.wood(wood), load_profile(use), limit=most, buyable=Buyable()
    )
    return [s.species_id for s in nearest.woods]


def test_for_mahogany_its_kin_come_first_and_no_pine(library):
    first = _first(library, "mahogany", "tabletop", 10)
    kin = {"sapele", "African mahogany", "utile", "Spanish-cedar"}
    ids = {i for name in kin for i in library.wood(name).species_ids}
    assert len(ids & set(first)) >= 3
    assert not any(i.startswith(("pinus", "thuja", "juniperus", "sequoia")) for i in first)


def test_for_hard_maple_yellow_birch_is_first_and_beech_near(library):
    first = _first(library, "hard maple", "tabletop", 10)
    assert first[0] == "betula-alleghaniensis"
    assert "fagus-grandifolia" in first[:6]


def test_for_white_oak_red_oak_ash_and_hickory_come_to_mind(library):
    first = _first(library, "white oak", "tabletop", 8)
    for name in ("red oak", "white ash", "hickory"):
        assert set(library.wood(name).species_ids) & set(first), name


def test_for_teak_outdoors_iroko_or_afrormosia(library):
    first = _first(library, "teak", "outdoor-bench", 10)
    ids = {i for name in ("iroko", "afrormosia") for i in library.wood(name).species_ids}
    assert ids & set(first)


def test_for_walnut_no_pale_wood(library):
    first = _first(library, "black walnut", "tabletop", 5)
    looks = {x.species_id: x for x in looks_of(library, first)}
    assert all(float(looks[i].seen["lightness"].value) >= 2.5 for i in first)


def test_a_stable_tabletop_is_of_woods_a_maker_knows(library):
    ranking = rank(library, load_profile("tabletop"), limit=12, buyable=Buyable())
    known = {"walnut", "cherry", "mahogany", "teak", "sapele", "white ash", "red oak", "white oak"}
    ids = {i for name in known for i in library.wood(name).species_ids}
    first = [w.species_id for w in ranking.woods]
    assert len(ids & set(first)) >= 4
    assert all(w.stock == "commonly stocked" for w in ranking.woods[:5])


def test_a_drawer_side_is_of_what_drawers_are_made_of(library):
    ranking = rank(library, load_profile("drawer-side"), limit=10, buyable=Buyable())
    first = [w.species_id for w in ranking.woods]
    usual = {"soft maple", "yellow-poplar", "white oak", "red oak", "white ash"}
    assert {i for name in usual for i in library.wood(name).species_ids} & set(first)
