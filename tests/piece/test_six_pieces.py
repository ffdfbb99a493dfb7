"""Six invented pieces unlike one another: no answer invites a mistake that ruins one."""

import re
from functools import partial
from pathlib import Path

import pytest

from woodref.answers.piece import answer_of
from woodref.answers.render import render
from woodref.climate.rooms import room_of
from woodref.piece.estimate import estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece, read_piece
from woodref.reference.library import Reference

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
PEDESTAL = """
name = "round pedestal table (invented)"
units = "us"
[build]
moisture_pct = 8
[use]
place = "New Orleans"
[[parts]]
name = "top"
species = "white oak"
length = "42"
width = "42"
thickness = "1"
staves = 8
shape = "disc"
[[fixing]]
name = "screws in slots across the top"
part = "top"
kind = "slotted-hole"
distance = "16"
screw = "#10"
"""
BED = """
name = "bed (invented)"
units = "si"
[build]
moisture_pct = 9
[use]
place = "Berlin"
[[parts]]
name = "side rail"
species = "European oak"
quantity = 2
length = 2000
width = 180
thickness = 28
[[parts]]
name = "headboard panel"
species = "European oak"
length = 900
width = 500
thickness = 18
staves = 5
[[fixing]]
name = "headboard panel in its frame"
part = "headboard panel"
kind = "floating-panel"
"""
BOOKCASE = """
name = "bookcase (invented)"
units = "us"
[build]
moisture_pct = 7
[use]
place = "Duluth"
[[parts]]
name = "shelf"
species = "eastern white pine"
quantity = 5
length = "36"
width = "10"
thickness = "3/4"
[[span]]
part = "shelf"
span = "35"
load = "books"
"""
BOARD = "".join(
    [
        """
name = "chopping board (invented)"
units = "us"
[build]
moisture_pct = 8
[use]
place = "Tucson"
""",
        *(
            f"""
[[parts]]
name = "{wood} third"
species = "{wood}"
length = "12"
width = "6"
thickness = "1-3/4"
grain = "end"
"""
            for wood in ("sugar maple", "black walnut", "black cherry")
        ),
    ]
)
BENCH = """
name = "open-air bench (invented)"
units = "us"
[build]
moisture_pct = 12
[use]
place = "Portland, Oregon"
setting = "outdoors"
[[parts]]
name = "slat"
species = "white oak"
quantity = 5
length = "60"
width = "3"
thickness = "1"
[[parts]]
name = "leg"
species = "white ash"
quantity = 4
length = "16"
width = "3"
thickness = "3"
"""


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def estimated(reference):
    rooms = Rooms(partial(room_of, reference))

    def of(text):
        piece = (
            read_piece(text, rooms)
            if isinstance(text, Path)
            else parse_piece(text, "piece.toml", rooms)
        )
        return estimate_piece(reference, piece)

    return of


def codes(found):
    return [n.code for n in found.remarks]


def page(found, units):
    return render(answer_of(found, units), units, "table")


def test_a_round_top_in_an_air_conditioned_house_gets_its_slots(estimated):
    found = estimated(PEDESTAL)
    assert "turns-oval" in codes(found)
    move = found.leading[1]
    assert move.change_mm > 6.0  # a quarter of an inch, where a still room promised nothing
    (fixing,) = found.fixings
    slot = fixing.fixing.needs[0]
    assert slot.made_mm("us") > slot.size_mm - 1e-6 > 5.0
    assert page(found, "us").count(" 0 in") == 0


def test_a_metric_bed_stays_metric(estimated):
    text = page(estimated(BED), "si")
    assert not re.search(r"\b\d+/\d+ in\b|board f|\b\d+/4\b|\d in\b| lb\b", text)
    assert re.search(r"\b(40|32) mm\b", text)  # sawn stock of the rails of 28 mm


def test_a_chest_is_lifted_drawer_by_drawer_and_carton_by_carton(estimated):
    found = estimated(DEMO / "drawer-chest.toml")
    assert "drawer, each of 6" in dict(found.masses.lifts)
    assert [c.plan.name for c in found.cartons] == ["three drawers", "the case"]
    assert found.piece.room.assumed


def test_a_shelf_is_tested_under_books(estimated):
    (span,) = estimated(BOOKCASE).spans
    assert span.sag is not None
    assert span.sag.span.uniform_n_m > 100.0  # an empty shelf is never cleared
    assert not all(c.met for c in span.sag.checks)
    assert {c.limit.divisor for c in span.sag.checks} == {144.0, 360.0}


def test_three_woods_of_end_grain_move_apart(estimated):
    found = estimated(BOARD)
    assert codes(found).count("end-grain") == 3
    swings = {p.material: p.movements[-1].change_mm for p in found.parts}
    assert swings["sugar maple"] > swings["black cherry"]
    assert all(
        p.lengths[-1].change_mm == pytest.approx(2 * p.movements[-1].change_mm, rel=1e-6)
        for p in found.parts
    )


def test_a_bench_in_the_open_is_told_what_rain_and_decay_do(estimated):
    found = estimated(BENCH)
    assert found.piece.wettest.moisture_pct == 30.0
    decay = [n.text for n in found.remarks if n.code == "decay-class"]
    assert len(decay) == 2
    assert "slightly or nonresistant" in decay[1]
    assert "rain-and-sun" in [n.code for n in found.assumptions]
