"""estimate --with and substitute --with: the answer first, and mistakes in one line."""

import json
from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
SHELF = DEMO / "wall-shelf.toml"


def test_what_changes_is_answered_in_the_first_lines(woodref):
    lines = woodref(
        *("estimate", DEMO / "trestle-table.toml", "--with", "ash=European beech")
    ).out.splitlines()
    first = " ".join(line.strip() for line in lines[:4])
    assert first.startswith(
        "Trestle table (invented) in European beech in place of white ash: see to 1 thing: "
        "- Batten, outer screws: slot 18 mm, was 16. It weighs 5.3 kg more"
    )
    assert not any(" in " in line for line in lines[5:-6])


def test_both_commands_say_the_same_of_a_piece(woodref):
    estimated = woodref("estimate", SHELF, "--with", "cherry=teak", "--format", "json")
    replaced = woodref(
        *("substitute", "black cherry", "--with", "teak", "--piece", SHELF, "--format", "json")
    )
    assert estimated.out == replaced.out


def test_the_piece_as_drawn_has_the_figures_of_its_estimate(woodref):
    drawn = json.loads(woodref("estimate", SHELF, "--format", "json").out)
    beside = json.loads(woodref("estimate", SHELF, "--with", "cherry=teak", "--format", "json").out)
    for name in ("mass_lb", "mass_high_lb", "cost", "heaviest_lift"):
        before = name.replace("mass", "mass_before") if "mass" in name else f"{name}_before"
        assert beside[before] == drawn[name]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("estimate", SHELF, "--with", "white oak"), "write the wood it has, =, and the wood"),
        (("estimate", SHELF, "--with", "=teak"), "write the wood it has, =, and the wood"),
        (("estimate", SHELF, "--with", "a=b=c"), "write the wood it has, =, and the wood"),
        (("estimate", SHELF, "--with", "oak=teak"), "no part is of 'oak'; it has black cherry"),
        (("estimate", SHELF, "--with", "cherry=tek"), "no wood is called 'tek'; nearest: Teak"),
        (("estimate", SHELF, "--with", "cherry=teak", "--explain"), "--explain goes without"),
        (("substitute", "cherry", "--with", "a=teak"), "--with takes the wood in its place alone"),
        (
            ("substitute", "cherry", "--with", "teak", "--rows", "3"),
            "--rows goes with a choice among",
        ),
        (("substitute", "cherry", "--with", "cherry"), "in place of itself changes nothing"),
        (
            ("substitute", "cherry", "--with", "teak", "--piece", SHELF, "--width", "9in"),
            "--width is that of the piece",
        ),
        (("substitute", "cherry"), "--for is missing"),
    ],
)
def test_a_mistake_is_told_in_one_line(woodref, words, message):
    result = woodref(*words)
    assert result.code == 2
    assert message in result.err
    assert result.err.count("\n") == 1
