"""The distance in look: as far there as back, none for equals, made of its parts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.choose.look_distance import (
    HUE_PLACES,
    WEIGHTS,
    Appearance,
    appearance_of,
    band_of,
    look_distance,
    look_distances,
)
from woodref.reference.library import Reference
from woodref.reference.look_words import HUES, LOOK_VALUES
from woodref.reference.looks import looks_of

APPEARANCES = st.builds(
    Appearance,
    st.sampled_from(HUES),
    st.integers(2, 10).map(lambda n: n / 2),
    *(
        st.sampled_from(LOOK_VALUES[cell])
        for cell in ("texture", "pores", "pore_size", "figure", "luster")
    ),
)
CHERRY = Appearance("reddish brown", 3.0, "fine", "diffuse", "fine", "none", "high")


def test_every_hue_has_its_place():
    assert set(HUE_PLACES) == set(HUES)


@given(APPEARANCES, APPEARANCES)
def test_as_far_there_as_back(a, b):
    assert look_distance(a, b) == look_distance(b, a)


@given(APPEARANCES)
def test_nothing_between_equals(a):
    assert look_distance(a, a) == 0
    assert band_of(look_distance(a, a)) == "close"


@given(APPEARANCES, APPEARANCES)
def test_unlike_woods_are_apart_and_no_part_is_negative(a, b):
    apart = look_distances(a, b)
    assert set(apart) == set(WEIGHTS)
    assert all(d >= 0 for d in apart.values())
    assert (look_distance(a, b) > 0) == (a != b)


def changed(**cells):
    return Appearance(**{**CHERRY.__dict__, **cells})


@pytest.mark.parametrize(
    ("other", "expected"),
    [
        # What the description of the distance says of single steps, our own and schematic.
        (changed(lightness=4.0), 0.65),
        (changed(lightness=3.5), 0.325),
        (changed(texture="medium"), 0.296),
        (changed(pores="ring"), 0.671),
    ],
)
def test_single_steps(other, expected):
    assert look_distance(CHERRY, other) == pytest.approx(expected, abs=0.001)


@pytest.mark.parametrize(
    ("distance", "band"),
    [
        (0, "close"),
        (0.35, "close"),
        (0.36, "similar"),
        (0.6, "similar"),
        (0.85, "related"),
        (0.86, "not alike"),
    ],
)
def test_bands(distance, band):
    assert band_of(distance) == band


def test_a_wood_is_placed_as_it_is_sold():
    maple, walnut = looks_of(Reference(own=False), ["acer-saccharum", "juglans-nigra"])
    assert maple.value("heartwood_hue") == "reddish brown"
    assert (appearance_of(maple).hue, appearance_of(maple).lightness) == ("cream", 1.0)
    assert appearance_of(walnut).lightness == 4.0
