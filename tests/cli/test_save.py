"""--save: the whole answer as JSON in a file; --explain: how it was computed."""

import json
from math import sqrt
from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
BOARD = ["--length", "2.4m", "--width", "200mm", "--thickness", "27mm"]
QUESTIONS = {
    "movement": ["black cherry", "--width", "8in", "--from", "7", "--to", "9"],
    "density": ["black cherry"],
    "weight": ["black cherry", *BOARD],
    "stability": ["black cherry"],
    "panel": ["black cherry", "--stave", "5in", "--from", "7", "--to", "9"],
    "section": ["black cherry", "--pith-distance", "3in", "--from", "12", "--to", "6",
                "--width", "8in", "--thickness", "1in"],
    "deflection": ["black cherry", "--span", "36in", "--width", "10in", "--thickness", "3/4in"],
    "fixing": ["black cherry", "--kind", "floating-panel", "--width", "14in"],
    "gluing": ["black cherry", "--length", "4in"],
    "joint": ["black cherry", "--kind", "miter", "--width", "3in"],
    "crate": ["--length", "60in", "--depth", "18in", "--height", "34in", "--weight", "140lb"],
    "lag": ["black cherry", "--thickness", "20mm"],
    "acclimate": ["hard maple", "--thickness", "4/4"],
    "delivery": ["black cherry", "--thickness", "3/4in", "--built", "7", "--place", "Duluth"],
    "buy": [DEMO / "shelf-parts.csv", "--waste", "20"],
    "tally": ["--board", "4/4 x 6 x 8ft ash"],
}  # fmt: skip


@pytest.mark.parametrize("command", QUESTIONS)
def test_the_whole_answer_is_saved_and_the_printed_one_stays(woodref, tmp_path, command):
    path = tmp_path / "answer.json"
    asked = [command, *QUESTIONS[command], "--units", "si"]
    printed = woodref(*asked, "--save", path)
    assert printed == woodref(*asked)
    assert printed.code == 0
    saved = json.loads(path.read_text(encoding="utf-8"))
    assert saved == json.loads(woodref(*asked, "--format", "json").out)


EXPLAINED = ("movement", "weight", "deflection", "fixing", "gluing", "joint", "crate")


@pytest.mark.parametrize("command", EXPLAINED)
def test_each_step_can_be_worked_out_again(woodref, tmp_path, command):
    path = tmp_path / "answer.json"
    asked = [command, *QUESTIONS[command], "--explain"]
    printed = woodref(*asked, "--save", path)
    steps = json.loads(path.read_text(encoding="utf-8"))["explain"]
    assert steps == json.loads(woodref(*asked, "--format", "json").out)["explain"]
    assert steps
    for step in steps:
        again = eval(step["numbers"], {"__builtins__": {}}, {"sqrt": sqrt})
        assert again == pytest.approx(step["result"], rel=2e-4, abs=2e-4)
        assert f"Computed: {step['of']}, {step['what']}" in " ".join(printed.out.split())
    assert "Computed:" not in woodref(*asked[:-1]).out


def test_movement_through_the_year_of_a_room_is_explained_too(woodref):
    asked = ["movement", "black cherry", "--width", "8in", "--place", "Duluth", "--explain"]
    out = woodref(*asked).out
    assert out.count("Computed: black cherry, ") == 3


def test_a_file_that_cannot_be_written_is_one_line_and_no_answer(woodref, tmp_path):
    result = woodref("density", "black cherry", "--save", tmp_path / "none" / "x.json")
    assert (result.code, result.out) == (2, "")
    assert "does not exist; make it first" in result.err
    assert result.err.count("\n") == 1
