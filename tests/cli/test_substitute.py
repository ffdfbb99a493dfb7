"""substitute: the closest wood and what changes in two lines, a piece, mistakes in one line."""

import json
from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
YARD, SIDEBOARD = DEMO / "yard-prices.csv", DEMO / "sideboard.toml"


def first_lines(out):
    """The lines of the headline, unfolded."""
    return out.partition("\n\n")[0].replace("\n  ", " ").splitlines()


def test_question_26_is_answered_in_the_first_line(woodref):
    asked = ("substitute", "black walnut", "--for", "tabletop")
    result = woodref(*asked)
    (first,) = first_lines(result.out)
    assert first == (
        "In place of black walnut (tabletop), of hardwoods stocked in North America (--all-woods "
        "for the rest): nothing commonly stocked looks like it. Nearest in work: white ash; "
        "nearest in look: Peruvian walnut (close, specialty)."
    )
    assert len(result.out.splitlines()) <= 24
    assert all(len(line) <= 80 for line in result.out.splitlines())
    whole = woodref(*asked, "--prices", YARD, "--width", "20in", "--full").out
    second = whole.splitlines()[1]
    assert "across 20 in)" in second
    assert "by the board foot" in second


def test_look_alikes_come_before_what_serves_as_well(woodref):
    first = first_lines(woodref("substitute", "hard maple", "--for", "tabletop").out)[0]
    assert "birch comes closest; then American holly" in first
    rows = json.loads(
        woodref("substitute", "hard maple", "--for", "tabletop", "--format", "json").out
    )["substitutes"]
    classes = ["close", "similar", "related", "not alike"]
    alike = [min(1, max(0, classes.index(r["look_band"]) - 1)) for r in rows]
    assert alike == sorted(alike)
    assert rows[0]["sold_as"] == "birch"
    assert rows[0]["wood"] == "yellow birch"


def test_a_yard_says_what_can_be_bought(woodref):
    asked = ("substitute", "white ash", "--for", "bent-back")
    yard = woodref(*asked, "--yard", "hickory, birch, white oak")
    first = first_lines(yard.out)[0]
    assert "of hardwoods in your yard (--all-woods for the rest): birch comes closest" in first
    dark = woodref("rank", "--for", "tabletop", "--yard", "cherry, walnut, hard maple")
    assert "of woods in your yard" in dark.out
    assert woodref(*asked, "--yard", " , ").err.startswith("woodref: the yard is empty")
    wrong = woodref(*asked, "--yard", "hickry")
    assert wrong.code == 2
    assert "--yard: no wood is called 'hickry'" in wrong.err
    both = woodref(*asked, "--yard", "hickory", "--all-woods")
    assert "--all-woods and --yard contradict each other" in both.err


def test_the_gate_that_empties_the_list_is_named(woodref, tmp_path):
    prices = tmp_path / "few.csv"
    prices.write_text("species,thickness,price,per\nbasswood,4/4,4,board foot\n")
    result = woodref("substitute", "hard maple", "--for", "tabletop", "--prices", prices)
    assert result.code == 1
    assert "'in few.csv' stops the last" in result.err
    assert "the closest without it is" in result.err


def test_a_piece_with_its_slots(woodref, sideboard):
    result = woodref(
        *("substitute", "white oak", "--for", "tabletop", "--piece", SIDEBOARD, "--part", "top"),
        *("--prices", YARD, "--rows", "2", "--format", "json"),
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
    painted = woodref("substitute", "cherry", "--for", "painted-frame", "--ignore-look", "--full")
    assert "The look is not counted" in " ".join(painted.out.split())
    found = json.loads(
        woodref(
            *("substitute", "cherry", "--for", "painted-frame", "--ignore-look"),
            *("--format", "json"),
        ).out
    )
    assert all(r["distance"] == r["work_distance"] for r in found["substitutes"])


@pytest.mark.parametrize(
    ("arguments", "code", "message"),
    [
        (("cherry", "--for", "tabel"), 2, "did you mean 'tabletop'"),
        (("chery", "--for", "tabletop"), 2, "no wood is called 'chery'"),
        (("cherry", "--for", "tabletop", "--max-price", "3"), 2, "--max-price needs a price list"),
        (("cherry", "--for", "tabletop", "--stock", "rare"), 2, "--stock"),
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
        (("cherry", "--for", "tabletop", "--rows", "0"), 2, "1 to 100"),
        (("cherry", "--for", "tabletop", "--width", "0"), 2, "--width"),
        (
            ("cherry", "--for", "tabletop", "--piece", SIDEBOARD, "--part", "top"),
            2,
            "the part 'top' is of white oak, not of black cherry",
        ),
        (("koa", "--for", "bent-back"), 1, "too little is known of koa"),
    ],
)
def test_mistakes_in_one_line(woodref, arguments, code, message):
    result = woodref("substitute", *arguments)
    assert result.code == code
    assert message in result.err
    assert len(result.err.strip().splitlines()) == 1
    assert result.out == ""
