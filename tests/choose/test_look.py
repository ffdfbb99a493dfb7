"""How woods look: printed classes made comparable, and silence where nothing is printed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.choose.look import (
    COLORS,
    FEATURES,
    PORES,
    RINGS,
    Look,
    likeness,
    look_distance,
    looks_of,
    merged,
)
from woodref.reference.library import Reference


@pytest.fixture(scope="module")
def reference() -> Reference:
    return Reference(own=False)


def _verdicts(a: Look, b: Look) -> dict[str, str]:
    return {x.feature: x.verdict for x in likeness(a, b)}


looks = st.builds(
    Look,
    heartwood=st.sampled_from(["", *COLORS]),
    rings=st.sampled_from(["", *RINGS]),
    pores=st.sampled_from(["", *PORES]),
    kind=st.sampled_from(["", "hardwood", "softwood"]),
)


@given(looks, looks)
def test_the_distance_is_symmetric_and_between_0_and_1(a: Look, b: Look) -> None:
    there, back = look_distance(likeness(a, b)), look_distance(likeness(b, a))
    assert there == back
    assert 0.0 <= there <= 1.0 + 1e-12


@given(looks)
def test_a_look_is_like_itself_where_it_is_known(a: Look) -> None:
    for feature, verdict in _verdicts(a, a).items():
        assert verdict == ("same" if getattr(a, feature) else "unknown")


def test_what_counts_comes_to_one() -> None:
    assert sum(FEATURES.values()) == pytest.approx(1.0)


def test_the_classes_the_handbook_prints(reference: Reference) -> None:
    # FPL-GTR-190 (2010) Table 16-1: walnut dark brown, semi-ring; ash light brown, ring porous;
    # eastern white pine cream, gradual. Pore sizes: FPL-GTR-113 (1999).
    ids = {n: reference.wood(n).species_id for n in ("black walnut", "white ash", "sapele")}
    pine = reference.wood("eastern white pine").species_id
    found = looks_of(reference, [*ids.values(), pine])
    assert found[ids["black walnut"]] == Look(
        "Dark brown", "semi-ring porous", "large", "hardwood", frozenset({"pores"})
    )
    assert found[ids["white ash"]].rings == "ring porous"
    assert found[pine] == Look("Cream", "gradual latewood", "none", "softwood")
    assert found[ids["sapele"]] == Look(kind="hardwood")  # no table says more


def test_every_printed_class_is_understood(reference: Reference) -> None:
    for look in looks_of(reference).values():
        assert look.heartwood in ("", *COLORS)
        assert look.rings in ("", *RINGS)
        assert look.pores in ("", *PORES)
    colors = reference.store.rows(
        "select distinct class from {ratings} where starts_with(scale, 'heartwood color')"
    )
    assert {r["class"] for r in colors} == set(COLORS)


def test_same_near_different_unknown() -> None:
    brown = Look("Brown", "diffuse porous", "small", "hardwood")
    assert _verdicts(brown, Look("Dark brown", "ring porous", "", "softwood")) == {
        "heartwood": "near",
        "rings": "different",
        "pores": "unknown",
        "kind": "different",
    }
    assert _verdicts(brown, Look("White", "semi-ring porous", "none", "hardwood")) == {
        "heartwood": "different",
        "rings": "near",
        "pores": "different",
        "kind": "same",
    }


def test_a_group_looks_as_its_members_agree() -> None:
    one = Look("Brown", "ring porous", "large", "hardwood")
    assert merged([one, Look("Light brown", "", "large", "hardwood")]) == Look(
        "", "ring porous", "large", "hardwood"
    )
