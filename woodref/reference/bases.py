"""How a printed number is known, and how much is known of a wood."""

from __future__ import annotations

from collections.abc import Iterable

OWN = "own"
CHECKED_TWICE = "checked_twice"
CHECKED = "checked"
CORROBORATED = "corroborated"
SECOND_HAND = "second_hand"
IMPLIED = "implied"
UNCHECKED = "unchecked"
COMMON_PRACTICE = "common_practice"
EDITORIAL = "editorial"
ESTIMATED = "estimated"

#: How a printed number is known, best first.
BASES: dict[str, str] = {
    OWN: "the shop's own figure",
    CHECKED_TWICE: "read in two copies of the publication that agree",
    CHECKED: "read in a copy of the publication",
    CORROBORATED: "recalled, and repeated within printed rounding by another table that was "
    "read; the reason names it",
    SECOND_HAND: "read only in another document that quotes the publication",
    IMPLIED: "computed from other printed figures of the same wood",
    UNCHECKED: "recalled, not seen in print",
    COMMON_PRACTICE: "a rule of the trade without a source",
    EDITORIAL: "our own compilation",
    ESTIMATED: "not printed: computed from a general relation",
}
#: Bases of what was read in a copy of the publication.
READ = (CHECKED_TWICE, CHECKED)

#: How much is known of a wood.
FULL = "full"
PARTIAL = "partial"
DENSITY_ONLY = "density only"
NO_DATA = "no data"
DATA_COVERAGE: dict[str, str] = {
    FULL: "basic specific gravity, three shrinkages, and side hardness, modulus of elasticity "
    "and modulus of rupture at 12 %",
    PARTIAL: "some of those",
    DENSITY_ONLY: "a density and nothing else",
    NO_DATA: "the name is known, but no table holds a number",
}

_ORDER = tuple(BASES)


def in_words(basis: str) -> str:
    """A basis as a sentence takes it: 'checked twice'."""
    return basis.replace("_", " ")


def weakest(bases: Iterable[str]) -> str:
    """The basis of an answer that rests on several figures: the one that says least.

    Raises: ValueError for no basis at all, and for a word that is none.
    """
    return max(bases, key=_ORDER.index)
