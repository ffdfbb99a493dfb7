"""A yard of the shop's own: what it has can be bought, and a wrong name is a rejected row."""

from woodref.lumber.prices import resolver
from woodref.own.intake import take_in
from woodref.own.yard import own_yard


def test_what_the_yard_has_can_be_bought(reference, table):
    taken = take_in(reference, table("species,note\ncherry,\nred oak,\n"), "yard", "walked it")
    assert (taken.kept, taken.bad) == (2, ())
    yard = own_yard(resolver(reference))
    assert "prunus-serotina" in yard
    assert "quercus-rubra" in yard
    assert "juglans-nigra" not in yard


def test_no_list_is_no_yard(reference):
    assert own_yard(resolver(reference)) is None


def test_a_name_that_means_no_wood_is_rejected(reference, table):
    taken = take_in(reference, table("species\ncherry\nchery\n\n"), "yard", "walked it")
    assert taken.kept == 1
    (bad,) = taken.bad
    assert (bad.line, bad.column, bad.value) == (3, "species", "chery")
    assert taken.rejects.exists()
