"""substitute: the closest wood and what changes in two lines, a piece, mistakes in one line."""

import json
from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
YARD, SIDEBOARD = DEMO / "yard-prices.csv", DEMO / "sideboard.toml"


def test_question_26_is_answered_in_the_first_two_lines(woodref):
    result = woodref(
        *("substitute", "black walnut", "--for", "tabletop", "--prices", YARD, "--listed"),
        *("--width", "20in"),
    )
    first, second = result.out.splitlines()[:2]
    assert first.startswith("In place of black walnut (tabletop): sapele comes closest; then ")
    assert "black cherry" in first
    assert "weighs 8 % more" in second
    assert "across 20 in)" in second
    assert "costs 33 % less by the board foot" in second  # 8.60 for 12.80
    assert "heartwood, rings and pores not known" in second


def test_a_piece_with_its_slots(woodref, sideboard):
    result = woodref(
        *("substitute", "white oak", "--for", "tabletop", "--piece", SIDEBOARD, "--part", "top"),
        *("--prices", YARD, "--limit", "2", "--format", "json"),
    )
    found = json.loads(result.out)
    assert found["movement_width_in"] == 18  # of the part
    assert found["place"].startswith("Savannah")
    first = found["pieces"][0]
    assert first["parts_changed"] == ["top"]
    assert first["mass_before_lb"] == pytest.approx(sideboard["mass_lb"], abs=0.1)
    assert {r["fixing"] for r in found["sized"] if r["wood"] == first["wood"]} == {
        "outer pegs of the breadboard ends",
        "buttons under the top",
    }


def test_movement_is_that_of_the_movement_command(woodref):
    asked = ("--place", "Duluth", "--setting", "heated-house", "--format", "json", "--units", "si")
    found = json.loads(
        woodref("substitute", "black cherry", "--for", "tabletop", "--width", "400mm", *asked).out
    )
    dry, wet = found["from_moisture_pct"], found["to_moisture_pct"]
    for wood, told in (
        ("black cherry", found["substitutes"][0]["swing_before_mm"]),
        (found["substitutes"][0]["wood"], found["substitutes"][0]["swing_mm"]),
    ):
        moved = json.loads(
            woodref(
                *("movement", wood, "--width", "400mm", "--from", dry, "--to", wet),
                *("--units", "si", "--format", "json"),
            ).out
        )
        flat = next(r for r in moved["movement"] if r["cut"] == "flat")
        assert told == pytest.approx(flat["change_mm"], abs=0.02)


def test_the_look_can_be_left_out(woodref):
    painted = woodref("substitute", "cherry", "--for", "painted-frame", "--ignore-look")
    assert "Look is not counted, as asked." in painted.out
    found = json.loads(
        woodref(
            *("substitute", "cherry", "--for", "painted-frame", "--ignore-look"),
            *("--format", "json"),
        ).out
    )
    assert all(r["distance"] == r["work_distance"] for r in found["substitutes"])


def test_a_class_not_printed_is_said_to_be_unknown(woodref):
    found = json.loads(woodref("substitute", "teak", "--for", "tabletop", "--format", "json").out)
    assert {r["beside_first"] for r in found["look"] if r["feature"] != "kind"} == {"unknown"}


@pytest.mark.parametrize(
    ("arguments", "code", "message"),
    [
        (("cherry", "--for", "tabel"), 2, "did you mean 'tabletop'"),
        (("chery", "--for", "tabletop"), 2, "no wood is called 'chery'"),
        (("cherry", "--for", "tabletop", "--max-price", "3"), 2, "--max-price needs a price list"),
        (("cherry", "--for", "tabletop", "--listed"), 2, "--listed needs a price list"),
        (
            ("cherry", "--for", "tabletop", "--prices", YARD, "--max-price", "1"),
            1,
            "'at most 1.00 USD a board foot in 4/4' stops the last",
        ),
        (
            ("cherry", "--for", "outdoor-bench", "--kind", "softwood", "--origin", "Africa"),
            1,
            "'from Africa' stops the last",
        ),
        (("cherry", "--for", "tabletop", "--part", "top"), 2, "--piece PIECE.toml"),
        (("cherry", "--for", "tabletop", "--limit", "0"), 2, "1 to 100"),
        (("cherry", "--for", "tabletop", "--width", "0"), 2, "--width"),
        (
            ("cherry", "--for", "tabletop", "--piece", SIDEBOARD, "--part", "top"),
            2,
            "the part 'top' is of white oak, not of black cherry",
        ),
        (("balsa", "--for", "bent-back"), 1, "too little is known of balsa"),
    ],
)
def test_mistakes_in_one_line(woodref, arguments, code, message):
    result = woodref("substitute", *arguments)
    assert result.code == code
    assert message in result.err
    assert len(result.err.strip().splitlines()) == 1
    assert result.out == ""
