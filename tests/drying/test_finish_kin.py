"""Finishes shops use by their nearest tested kin, and finishes by their own resistance."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.drying.finish import finish_on
from woodref.drying.finish_fit import fit_finishes
from woodref.drying.follow import board_of
from woodref.drying.lag import lag_year
from woodref.errors import InputError
from woodref.reference.finish_kin import AIR_PERMEABILITY, KIN, PERM, kin_of, own_resistance
from woodref.reference.finishes import finish_names, finish_rows
from woodref.reference.library import Reference

MONTHS = (6.0, 6.3, 7.0, 7.6, 8.3, 10.1, 12.0, 11.9, 9.8, 8.2, 7.4, 6.4)


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def rows(reference):
    return finish_rows(reference)


def test_every_kin_was_tested_and_says_why(rows):
    names = finish_names(rows)
    for kin in KIN.values():
        assert kin.tested in names
        assert kin.why
        assert kin.coats_each >= 1.0


def test_what_was_tested_itself_needs_no_kin(rows):
    assert kin_of("tung oil") is None
    assert finish_on(rows, "tung oil").label == "Tung oil, 2 coats"
    assert finish_on(rows, "tung oil").sold_as == ""


def test_a_finish_of_the_shop_is_told_with_its_kin(rows):
    hardwax = finish_on(rows, "Hardwax-Oil", 2)
    assert hardwax.label == "Hardwax-Oil (as Linseed oil, 2 coats)"
    assert "film" in hardwax.why
    three_wiped = finish_on(rows, "wiping varnish", 3)
    assert (three_wiped.name, three_wiped.coats) == ("Urethane varnish (oil-modified)", 1)
    assert finish_on(rows, "mineral oil", 9, one_face=True).one_face


def test_a_name_cut_short_is_sent_to_the_nearest_of_the_shop(rows):
    with pytest.raises(InputError, match="nearest: hardwax oil"):
        finish_on(rows, "hardwax")


@given(st.floats(0.1, 50.0))
def test_perms_and_layers_of_air_are_one_figure(perms):
    """1 perm is 5.72e-11 kg/(m2 s Pa): 2.5 perms are 1.4 m of still air (definitions)."""
    layer_m = AIR_PERMEABILITY / (perms * PERM)
    asked = own_resistance(f"{perms} perms")
    assert asked == pytest.approx(own_resistance(f"sd {layer_m} m"), rel=1e-9)
    assert asked == pytest.approx(1.0 / (perms * PERM), rel=1e-9)


def test_the_fit_of_a_tested_film_lies_among_published_permeances(rows):
    """Oil-modified urethane, two coats: one to some perms, as coatings of 2 to 3 mil have.

    The order of magnitude is from memory of permeance tables.
    """
    fitted = fit_finishes(rows).vapor_resistance["Urethane varnish (oil-modified)", 2]
    assert 0.5 < 1.0 / (fitted * PERM) < 6.0


def test_own_resistance_slows_a_board_as_much_as_the_film_it_equals(reference, rows):
    board = board_of(reference.wood("white ash"), 20.0)
    urethane = finish_on(rows, "urethane varnish", 2)
    sd_m = fit_finishes(rows).vapor_resistance[urethane.name, 2] * AIR_PERMEABILITY
    own = finish_on(rows, f"sd {sd_m:.6f} m")
    assert own.label.startswith("your finish, sd ")
    tested, mine, thick = lag_year(board, [urethane, own, finish_on(rows, "sd 20 m")], MONTHS)
    assert mine.mean_share.expected == pytest.approx(tested.mean_share.expected, rel=1e-3)
    assert thick.mean_share.expected < 0.5 * mine.mean_share.expected


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("sd 0.8", "is no resistance"),
        ("sd thick", "is no resistance"),
        ("0 perms", "no finish does"),
        ("sd 5000 m", "0.001 to 1000 m of still air"),
    ],
)
def test_what_is_no_resistance_is_refused(rows, name, said):
    with pytest.raises(InputError, match=said):
        finish_on(rows, name)
