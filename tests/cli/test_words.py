"""The glossary at the command line: two lines a term, a screen of all, and every name of a term."""

import json

import pytest

from woodref.cli.main import COMMANDS
from woodref.errors import InputError
from woodref.reference.glossary import glossary, word_of

#: What a maker meets in the answers and in the shop.
ASKED_FOR = {
    "MC": "moisture content",
    "emc": "equilibrium moisture content",
    "FSP": "fiber saturation point",
    "MOE": "modulus of elasticity",
    "MOR": "modulus of rupture",
    "SG": "basic specific gravity",
    "bf": "board foot",
    "Board Feet": "board foot",
    "4/4": "quarter notation",
    "plain-sawn": "flat sawn",
    "Janka": "side hardness",
    "S2S": "dressed",
    "breadboard": "breadboard end",
}
TERMS = [
    "rift sawn",
    "quarter sawn",
    "radial",
    "tangential",
    "creep",
    "kerf",
    "crook",
    "cup",
    "bow",
    "twist",
    "dimensional change coefficient",
    "design range",
    "sapwood",
    "heartwood",
    "ring porous",
    "diffuse porous",
    "rough",
    "likely range",
    "stave",
    "acclimation",
]


@pytest.mark.parametrize(("typed", "term"), ASKED_FOR.items())
def test_a_term_goes_by_its_abbreviation_and_its_other_names(typed, term):
    assert word_of(typed).term == term


def test_the_terms_of_the_trade_are_there_in_order():
    terms = [word.term for word in glossary()]
    assert set(TERMS) <= set(terms)
    assert terms == sorted(terms, key=str.casefold)
    names = [n.casefold() for w in glossary() for n in (w.term, *w.aliases)]
    assert len(names) == len(set(names))
    assert {word.command for word in glossary()} - {""} <= set(COMMANDS)


def test_every_term_is_told_in_two_lines(woodref):
    for word in glossary():
        said = woodref("words", *word.term.split()).out.partition("\n\n")[0].splitlines()
        assert 1 <= len(said) <= 2, word.term
        assert max(map(len, said)) <= 80
        assert said[0].startswith(word.headed[:40])


def test_all_terms_stand_on_one_screen(woodref):
    lines = woodref("words").out.splitlines()
    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert all(any(word.term in line for line in lines) for word in glossary())


def test_a_program_gets_all_terms_with_their_meaning(woodref):
    answer = json.loads(woodref("words", "--format", "json").out)
    assert [row["term"] for row in answer["words"]] == [word.term for word in glossary()]
    assert all(row["meaning"] for row in answer["words"])
    (one,) = json.loads(woodref("words", "moe", "--format", "json").out)["words"]
    assert one["term"] == "modulus of elasticity"
    assert one["command"] == "deflection"


def test_a_number_in_a_meaning_names_its_source():
    """Sizes that a source gives are named with it; the rest are definitions or examples."""
    assert word_of("FSP").source.startswith("Wood Handbook, FPL-GTR-282")
    assert word_of("side hardness").source.startswith("Wood Handbook, FPL-GTR-282")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("boardfeet", "the glossary has no 'boardfeet'; nearest: board foot"),
        ("modulus", "the glossary has no 'modulus'; nearest: modulus of elasticity, modulus of"),
        ("zzzz", "the glossary has no 'zzzz'; woodref words lists its terms"),
        ("/", "the glossary has no '/'; "),
        ("", "the glossary has no ''; "),
    ],
)
def test_a_wrong_term_leads_to_the_nearest(typed, said):
    with pytest.raises(InputError) as caught:
        word_of(typed)
    assert str(caught.value).startswith(said)
