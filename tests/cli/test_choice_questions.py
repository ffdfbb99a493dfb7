"""What makers ask of the choice of a wood, each answered by one command in its first lines."""

from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
YARD, SIDEBOARD = DEMO / "yard-prices.csv", DEMO / "sideboard.toml"

#: The question, its command, and what stands in the first lines of the answer.
QUESTIONS = [
    (
        "Allergic to exotic dust and wants it dark: what, from my yard?",
        ("rank", "--for", "tabletop", "--shade", "dark", "--exclude-allergens"),
        ("--yard", "walnut, cherry, hard maple, sapele", "--origin", "North America"),
        "in your yard (--all-woods for the rest): black cherry comes first",
    ),
    (
        "Ash is gone from my yard: what for bent backs?",
        ("substitute", "white ash", "--for", "bent-back"),
        ("--yard", "hickory, white oak, cherry, red oak"),
        "pecan hickory comes closest; then hickory, red oak",
    ),
    (
        "The same piece in European oak in place of white oak: what changes?",
        ("estimate", SIDEBOARD, "--with", "white oak=European oak"),
        (),
        "in European oak in place of white oak",
    ),
    (
        "What does cherry look like, and does my yard sell anything close?",
        ("substitute", "cherry", "--for", "tabletop"),
        ("--yard", "sapele, red oak, hard maple"),
        "sapele comes closest",
    ),
    (
        "Stable, harder than cherry, under 9 a board foot, no trade papers",
        ("rank", "--for", "tabletop", "--harder-than", "cherry", "--exclude-controlled"),
        ("--prices", YARD, "--max-price", "9"),
        "honeylocust comes first",
    ),
]


@pytest.mark.parametrize(
    ("question", "command", "options", "words"), QUESTIONS, ids=[q[0] for q in QUESTIONS]
)
def test_the_first_lines_answer(woodref, question, command, options, words):
    result = woodref(*command, *options)
    assert result.code == 0, result.err
    lines = result.out.splitlines()
    assert words in " ".join(result.out.partition("\n\n")[0].split())
    assert len(lines) <= 24
    assert all(len(line) <= 80 for line in lines)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("rank", "--for", "tabletop", "--region", "Asia"), "no region is called 'Asia'"),
        (("rank", "--for", "tabletop", "--stock", "rare"), "--stock"),
        (("rank", "--for", "tabletop", "--yard", ","), "the yard is empty"),
        (("rank", "--for", "tabletop", "--yard", "basswood"), "stops the last"),
        (("rank", "--for", "tabletop", "--shade", "brown"), "--shade"),
        (("rank", "--for", "tabletop", "--part", "top"), "--part needs the piece"),
    ],
)
def test_a_gate_that_is_wrong_or_lets_nothing_through_is_named(woodref, arguments, words):
    result = woodref(*arguments)
    assert result.code in (1, 2)
    assert words in result.err
    assert result.err.count("\n") == 1
