"""The steps of --explain: worked out again, the printed numbers give the printed result."""

from functools import partial
from math import sqrt
from pathlib import Path

import pytest

from woodref.climate.rooms import room_of
from woodref.explain.piece import steps_of
from woodref.lumber.prices import read_prices, resolver
from woodref.piece.estimate import estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece, read_piece
from woodref.reference.library import Reference

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module", params=["hall-bench", "wall-shelf", "sideboard", "trestle-table"])
def demo(request, reference):
    rooms = Rooms(partial(room_of, reference))
    piece = read_piece(DEMO / f"{request.param}.toml", rooms)
    prices = read_prices(DEMO / piece.prices, resolver(reference))
    return estimate_piece(reference, piece, prices)


def worked_out(numbers):
    return eval(numbers, {"__builtins__": {}}, {"sqrt": sqrt})


def test_every_step_can_be_worked_out_again(demo):
    steps = steps_of(demo)
    assert len(steps) > 10
    for step in steps:
        # Six digits of each number; a difference of two sizes keeps fewer.
        close = pytest.approx(step.result, rel=2e-4, abs=2e-4)
        assert worked_out(step.numbers) == close, step


def test_every_part_wood_and_line_is_there(demo):
    steps = steps_of(demo)
    told = {step.of for step in steps}
    assert {p.part.name for p in demo.parts if p.wood} <= told
    assert {p.wood.common_name for p in demo.parts if p.wood} <= told
    assert {r.spec.name for r in (*demo.spans, *demo.fixings)} <= told
    for step in steps:
        assert all((step.what, step.formula, step.numbers, step.source)), step


def test_a_change_per_1_percent_and_a_point_load_on_every_support(reference):
    text = """
name = "x"
units = "si"
[build]
moisture_pct = 9
[use]
driest = { moisture_pct = 7 }
wettest = { moisture_pct = 12 }
[[parts]]
name = "a"
species = "white oak"
length = 1000
width = 100
thickness = 20
"""
    for support in ("simple", "fixed", "cantilever"):
        for at in ("", "at = 300\n"):
            text += f'[[span]]\npart = "a"\nsupport = "{support}"\npoint = "90 N"\n{at}'
    found = estimate_piece(reference, parse_piece(text, "x"))
    sags = [s for s in steps_of(found) if s.what == "sag now"]
    assert len(sags) == 6
    for step in sags:
        assert worked_out(step.numbers) == pytest.approx(step.result, rel=1e-4)
