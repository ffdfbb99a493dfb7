"""Names folded for look-up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.reference.names import fold, natural_order

WORDS = st.from_regex(r"[a-z]{2,9}", fullmatch=True)


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("Oak, White", "white oak"),
        ("white-oaks", "white oak"),
        ("  White   Oak ", "white oak"),
        ("Cerejeira-Roxa", "cerejeira roxa"),
        ("Gonçalo Alves", "goncalo alve"),
        ("goncalo alves", "goncalo alve"),
        ("Chêne d'Europe", "chene deurope"),
        ("Oak, white (commercial)", "white oak"),
        ("cherries", "cherry"),
        ("birches", "birch"),
        ("boxes", "box"),
        ("Pinus strobus", "pinus strobus"),
        ("cypress", "cypress"),
        ("Quercus palustris", "quercus palustris"),
        ("", ""),
        ("(only a remark)", ""),
    ],
)
def test_fold(typed, key):
    assert fold(typed) == key


@given(st.text(max_size=60))
def test_folding_twice_changes_nothing(text):
    assert fold(fold(text)) == fold(text)


@given(st.text(max_size=60))
def test_a_key_is_plain(text):
    key = fold(text)
    assert key == key.strip()
    assert set(key) <= set("abcdefghijklmnopqrstuvwxyz0123456789 ")


@given(st.lists(WORDS, min_size=1, max_size=3), WORDS)
def test_word_order_case_hyphens_and_spaces_do_not_matter(tail, head):
    key = fold(" ".join([*tail, head]))
    assert fold(f"{head}, {' '.join(tail)}") == key
    assert fold("-".join([*tail, head]).upper()) == key
    assert fold("  ".join([*tail, head]).title()) == key


#: Words whose plural reads like that of another word: 'axes' of an ax or an axe.
UNCLEAR = ("s", "x", "xe", "sse", "ie", "ch", "che", "sh", "she", "i", "u")


@given(WORDS.filter(lambda w: len(w) > 3 and not w.endswith(UNCLEAR)))
def test_a_plural_is_its_singular(word):
    assert fold(f"red {word}s") == fold(f"red {word}")


def test_natural_order():
    assert natural_order("Oak, white") == "white oak"
    assert natural_order("Cedar, Port-Orford") == "Port-Orford cedar"
    assert natural_order("teak") == "teak"
    assert natural_order("a, b, c") == "a, b, c"
