"""fastener at the command line, and the screw of a fixing."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

OAK = ["fastener", "white oak"]
FIXING = ["fixing", "white oak", "--kind", "slotted-hole", "--distance", "9in", "--screw", "#8"]


def test_it_answers_first_and_says_what_is_ours(woodref):
    result = woodref(*OAK, "--screw", "8", "--into", "1in", "--through", "3/4in")
    assert result.code == 0
    first = result.out.split("\n\n")[0]
    assert first.startswith("#8 screw, 1 in deep in white oak: pulls out at 1,190 lb on average")
    assert "one sixth, 198 lb (a rule for nails, which we extend to screws)" in first
    assert "Pilot hole in white oak 3/32 in; shank hole 11/64 in." in first
    assert "3/4 in from the end of the piece it goes through and 3/8 in from the edge" in first
    assert "Never a structural value." in first


def test_json(woodref):
    asked = [*OAK, "--nail", "8d box", "--through", "3/4in", "--units", "si", "--format", "json"]
    data = json.loads(woodref(*asked).out)
    pulled, sideways = data["held_loads"]
    assert pulled["held_low_n"] < pulled["held_n"] < pulled["held_high_n"]
    assert pulled["held_for_long_n"] == pytest.approx(pulled["held_n"] / 6.0, abs=1.0)
    assert sideways["held_for_long_n"] is None
    assert data["gravity"] == 0.68
    assert data["held_for_long_basis"] == "checked_twice"
    assert data["into_mm"] == 44.5
    assert " kg on average" in data["answer"][0]
    assert "lb" not in " ".join(data["answer"])
    screws = json.loads(woodref(*OAK, "--screw", "#8", "--into", "1in", "--format", "json").out)
    assert screws["held_for_long_basis"] == "editorial"


def test_without_a_depth_it_tells_the_holes_alone(woodref):
    data = json.loads(woodref(*OAK, "--lag", "5/16in", "--format", "json").out)
    assert data["held_loads"] == []
    assert [row["size"] for row in data["sizes_to_make"]] == ["pilot hole"] * 2 + ["shank hole"]
    assert "--into" in data["notes"][-1]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ([], "name one screw, one nail or one lag screw"),
        (["--screw", "#8", "--nail", "8d"], "name one screw"),
        (["--screw", "#13"], "nearest: #12"),
        (["--nail", "8d finish"], "common, box, ring"),
        (["--screw", "#8", "--into", "0in"], "above 0 and at most 12 in"),
    ],
)
def test_mistakes_are_one_line(woodref, more, words):
    result = woodref(*OAK, *more)
    assert result.code == 2
    assert words in result.err
    assert result.err.count("\n") == 1


def test_a_fixing_tells_the_pilot_hole_of_its_screw_and_what_it_holds(woodref):
    plain = woodref(*FIXING)
    words = "bore a pilot hole of 3/32 in in a hardwood, 5/64 in in a softwood"
    assert words in plain.out
    data = json.loads(woodref(*FIXING, "--into", "5/8in", "--format", "json").out)
    alone = json.loads(woodref(*OAK, "--screw", "#8", "--into", "5/8in", "--format", "json").out)
    assert data["held_loads"] == alone["held_loads"]
    assert data["pilot_hole_softwood_in"] < data["pilot_hole_hardwood_in"]
    bottom = ["fixing", "white oak", "--kind", "drawer-bottom", "--width", "18in", "--screw", "#6"]
    assert "bites into another wood" in woodref(*bottom, "--into", "1/2in").err
    assert "--into needs a screw" in woodref(*FIXING[:-2], "--into", "1in").err
