"""How a number is known: the order of the words, and what several of them come to."""

import pytest

from woodref.reference.bases import BASES, in_words, weakest


def test_recalled_is_weaker_than_read():
    assert weakest(["checked_twice", "unchecked", "checked"]) == "unchecked"
    assert weakest(["checked_twice", "checked"]) == "checked"
    assert weakest(iter(["own"])) == "own"


def test_a_word_that_is_no_basis_is_refused():
    with pytest.raises(ValueError, match="not in tuple"):
        weakest(["memory", "checked"])


def test_every_basis_is_one_word_that_reads_as_several():
    assert all(basis.replace("_", "").isalpha() for basis in BASES)
    assert in_words("checked_twice") == "checked twice"
