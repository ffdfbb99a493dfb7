"""Drawers counted as assemblies, tops that turn oval, boards of end grain, short blanks."""

from functools import partial

import pytest

from woodref.climate.rooms import room_of
from woodref.errors import InputError
from woodref.piece.estimate import estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece
from woodref.reference.library import Reference

TOP = """
name = "chest (invented)"
units = "us"
[build]
moisture_pct = 8
[use]
place = "Duluth"
"""
DRAWERS = """
[[assemblies]]
name = "drawer"
quantity = 6
[[parts]]
name = "drawer side"
assembly = "drawer"
quantity = 2
species = "white ash"
length = "17"
width = "6"
thickness = "1/2"
[[items]]
name = "pull"
assembly = "drawer"
quantity = 2
mass = "0.1 lb"
"""
CASE = """
[[parts]]
name = "case top"
species = "white ash"
length = "38"
width = "20"
thickness = "7/8"
staves = 4
"""


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def estimated(reference):
    rooms = Rooms(partial(room_of, reference))

    def of(text):
        return estimate_piece(reference, parse_piece(TOP + text, "chest.toml", rooms))

    return of


def test_six_drawers_weigh_six_times_one_and_are_lifted_one_by_one(estimated):
    chest, plain = estimated(DRAWERS + CASE), estimated(CASE)
    sides = next(p for p in chest.parts if p.part.name == "drawer side")
    assert sides.part.quantity == 12
    (pull,) = chest.piece.items
    assert pull.quantity == 12
    lifts = dict(chest.masses.lifts)
    one = lifts["drawer, each of 6"].expected
    more = chest.mass_kg["build"].expected - plain.mass_kg["build"].expected
    assert 6.0 * one == pytest.approx(more)
    assert chest.masses.heaviest_lift[0] != "drawer, each of 6"


def test_one_drawer_of_an_assembly_is_that_of_a_file_without(estimated):
    text = DRAWERS.replace("quantity = 6", "quantity = 1")
    alone = DRAWERS.partition("[[parts]]")[2].replace('assembly = "drawer"\n', "")
    assert estimated(text).mass_kg["build"] == estimated("[[parts]]" + alone).mass_kg["build"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (DRAWERS.partition("[[parts]]")[2].join(["[[parts]]", ""]), r"no \[\[assemblies\]\]"),
        (DRAWERS.replace('assembly = "drawer"', 'assembly = "drawr"', 1), "did you mean 'drawer'"),
        (DRAWERS.replace("quantity = 6", "quantity = 0"), "quantity"),
        (
            DRAWERS.replace('assembly = "drawer"', 'assembly = "drawer"\nlift = "x"', 1),
            "lifted by itself",
        ),
    ],
)
def test_what_is_no_assembly_is_refused(estimated, text, said):
    with pytest.raises(InputError, match=said):
        estimated(text)


def test_a_round_top_turns_oval(estimated):
    disc = CASE.replace('length = "38"', 'length = "20"') + 'shape = "disc"\n'
    found = estimated(disc)
    (note,) = [n for n in found.remarks if n.code == "turns-oval"]
    assert "20 in along the grain all year" in note.said("us")
    assert "turns-oval" not in [n.code for n in estimated(CASE).remarks]


def test_end_grain_moves_along_both_sides_and_not_in_thickness(estimated):
    board = CASE.replace("staves = 4", 'grain = "end"')
    (part,) = estimated(board).parts
    assert part.thicknesses == ()
    swing, along = part.movements[-1].change_mm, part.lengths[-1].change_mm
    assert along / swing == pytest.approx(38.0 / 20.0, rel=1e-6)
    plain = estimated(CASE).parts[0]
    assert plain.lengths == ()


def test_short_blanks_are_cautioned_of(estimated):
    short = CASE.replace('length = "38"', 'length = "11"').replace('"20"', '"4"')
    assert "short-blank" in [n.code for n in estimated(short).remarks]
    assert "short-blank" not in [n.code for n in estimated(CASE).remarks]


CARTONS = """
[[cartons]]
name = "three drawers"
quantity = 2
holds = ["drawer", "drawer", "drawer"]
length = "18"
depth = "8"
height = "20"
[[cartons]]
name = "the rest"
holds = ["rest"]
length = "40"
depth = "22"
height = "12"
packing_mass = "3 lb"
"""


def test_six_drawers_in_two_cartons(estimated):
    """What does each weigh, and can I carry one alone?"""
    chest = estimated(DRAWERS + CASE + CARTONS)
    drawers, rest = chest.cartons
    one = chest.masses.one_of["drawer"]
    gross, packing = drawers.packed.gross_kg, drawers.packed.packing_kg
    assert gross.expected - packing.expected == pytest.approx(3.0 * one.expected)
    assert rest.packed.gross_kg.expected == pytest.approx(
        chest.mass_kg["build"].expected - 6.0 * one.expected + 3.0 * 0.45359237
    )
    assert (drawers.packed.lifting.people, drawers.plan.quantity) == (1, 2)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (CARTONS.replace("quantity = 2", "quantity = 3"), "hold 9 of drawer, and there is 6"),
        (CARTONS.replace('"drawer", "drawer", "drawer"', '"door"'), "nothing is lifted as 'door'"),
        (CARTONS.replace('holds = ["rest"]', "holds = 1"), "must be a list"),
        (CARTONS.replace('length = "40"\n', ""), "length: is missing"),
    ],
)
def test_cartons_that_cannot_be_are_refused(estimated, text, said):
    with pytest.raises(InputError, match=said):
        estimated(DRAWERS + CASE + text)
