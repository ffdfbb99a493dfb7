"""What every first screen keeps to: one screen, no line cut, and units of one system alone."""

import json
import re

import pytest

#: What no answer in inches and pounds says, and none in metric units: a size, a mass, a place.
METRIC = re.compile(r"\d ?(?:mm|cm|kg|km|m3|m2|MPa|N|C)\b|kg/m3|g/m3")
CUSTOMARY = re.compile(r"\d ?(?:in|ft|lb|lbf|psi|F|miles)\b|board f[eo]|lb/ft|million psi")
#: A question of each kind, its sizes with their units.
QUESTIONS = {
    "compare": ["black cherry", "white oak"],
    "density": ["white oak"],
    "fastener": ["white oak", "--screw", "#8", "--into", "25mm"],
    "finishes": [],
    "fixing": ["white oak", "--kind", "floating-panel", "--width", "300mm", "--gap", "4.5mm"],
    "gluing": ["white oak", "--length", "100mm"],
    "joint": ["white oak", "--kind", "miter", "--width", "75mm"],
    "movement": ["white oak", "--width", "300mm", "--place", "Duluth"],
    "panel": ["white oak", "--width", "500mm", "--widest", "120mm", "--from", "7", "--to", "11"],
    "place": ["--at", "46.8,-92.1"],
    "season": ["Duluth", "--setting", "heated-house"],
    "section": [
        *("white oak", "--width", "200mm", "--thickness", "25mm", "--pith-distance", "50mm"),
        *("--from", "12", "--to", "6"),
    ],
    "stability": ["white oak"],
    "weight": ["white oak", "--length", "2m", "--width", "150mm", "--thickness", "25mm"],
}


@pytest.fixture
def screen(woodref):
    """The first screen of a question, as a file or a pipe gets it."""

    def ask(*words):
        result = woodref(*words)
        assert (result.code, result.err) == (0, "")
        return result.out

    return ask


@pytest.mark.parametrize(("command", "words"), QUESTIONS.items(), ids=QUESTIONS)
def test_a_first_screen_fits_and_holds_the_units_of_one_system(screen, command, words):
    for units, foreign in (("us", METRIC), ("si", CUSTOMARY)):
        out = screen(command, *words, "--units", units)
        assert not foreign.search(out), out
        lines = out.rstrip("\n").splitlines()
        assert len(lines) <= 24
        assert all(len(line) <= 80 for line in lines)
        assert lines[-1].startswith("More: --full")
        told = [line for line in lines if line and not line.startswith(" ")]
        assert len(set(told)) == len(told)


@pytest.mark.parametrize(("command", "words"), QUESTIONS.items(), ids=QUESTIONS)
def test_the_notes_of_a_whole_page_hold_the_units_of_one_system(woodref, command, words):
    for units, foreign in (("us", METRIC), ("si", CUSTOMARY)):
        result = woodref(command, *words, "--units", units, "--format", "json")
        # The vapor of a household has no unit of the trade beside grams in a cubic meter.
        notes = " ".join(json.loads(result.out)["notes"]).replace("g/m3 of moisture", "vapor")
        assert not foreign.search(notes), foreign.search(notes)


def test_no_foreign_unit_would_be_missed():
    assert METRIC.search("3 mm")
    assert METRIC.search("8 km away")
    assert CUSTOMARY.search("3/4 in wide")
    assert CUSTOMARY.search("15 lb")


def test_a_figure_from_memory_is_marked_on_the_first_screen_and_the_mark_is_told(screen):
    jarrah = ["jarrah", "--width", "8in", "--thickness", "1in", "--pith-distance", "2in"]
    questions = (
        ["section", *jarrah, "--from", "12", "--to", "6"],
        ["movement", *jarrah[:3], "--from", "12", "--to", "6"],
        ["joint", "jarrah", "--kind", "miter", "--width", "3in"],
        ["fixing", "jarrah", "--kind", "round-hole", "--distance", "9in"],
        ["gluing", "jarrah", "--length", "4in"],
    )
    for question in questions:
        out = screen(*question)
        assert " in* (" in out, out
        assert "* unchecked, from memory" in out
