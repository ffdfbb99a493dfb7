"""The steps of --explain: worked out again, the printed numbers give the printed result."""

from math import sqrt

import pytest
from pieces import NAMES, demo, library

from woodref.explain.piece import steps_of
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import parse_piece


@pytest.fixture(params=NAMES)
def estimated(request):
    return demo(request.param)


def worked_out(numbers):
    return eval(numbers, {"__builtins__": {}}, {"sqrt": sqrt})


def test_every_step_can_be_worked_out_again(estimated):
    steps = steps_of(estimated)
    assert len(steps) > 10
    for step in steps:
        # Six digits of each number; a difference of two sizes keeps fewer.
        close = pytest.approx(step.result, rel=2e-4, abs=2e-4)
        assert worked_out(step.numbers) == close, step


def test_every_part_wood_and_line_is_there(estimated):
    steps = steps_of(estimated)
    told = {step.of for step in steps}
    assert {p.part.name for p in estimated.parts if p.wood} <= told
    assert {p.wood.common_name for p in estimated.parts if p.wood} <= told
    assert {r.spec.name for r in (*estimated.spans, *estimated.fixings)} <= told
    for step in steps:
        assert all((step.what, step.formula, step.numbers, step.source)), step


def test_a_change_per_1_percent_and_a_point_load_on_every_support():
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
    found = estimate_piece(library(), parse_piece(text, "x"))
    sags = [s for s in steps_of(found) if s.what == "sag now"]
    assert len(sags) == 6
    for step in sags:
        assert worked_out(step.numbers) == pytest.approx(step.result, rel=1e-4)
