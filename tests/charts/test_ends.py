"""The end of a board, a round, a panel before and after: true outlines, the factor stated."""

from math import inf

import pytest
from seen import assert_readable

from woodref.board.cross_section import board_section, round_section
from woodref.board.outline import FACES, Pith, pith_beside, pith_by_rings
from woodref.board.panel import Stave, panel_movement
from woodref.board.panel_section import panel_section
from woodref.charts.figure import svg_text
from woodref.charts.outline import end_before_and_after, enlarged
from woodref.charts.staves import staves_before_and_after
from woodref.reference.library import Reference

OAK = Reference().wood("red oak")


def board(width=254.0, thickness=25.4, distance=50.8, end=6.0):
    return board_section(
        OAK, width, thickness, pith_beside("below", distance, 0.0, width, thickness), 12.0, end
    )


def panel(count=6, turned=True):
    pith = pith_beside("below", 40.0, 0.0, 100.0, 22.0)
    piths = [pith.turned() if turned and i % 2 else pith for i in range(count)]
    return panel_section(OAK, [100.0] * count, 22.0, piths, 8.0, 5.0)


ENDS = {
    "board": board,
    "wetter": lambda: board(end=20.0),
    "thin": lambda: board(600.0, 12.0, 900.0),
    "leg": lambda: board_section(OAK, 50.0, 50.0, pith_by_rings(45.0), 12.0, 6.0),
    "tall": lambda: board(25.0, 90.0),
    "round": lambda: round_section(OAK, 40.0, Pith(-1.0 + 0j, 50.0), 8.0, 14.0),
    "far round": lambda: round_section(OAK, 40.0, Pith(-1j, inf), 8.0, 14.0),
    "panel": panel,
    "alike": lambda: panel(8, turned=False),
}


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("make", ENDS.values(), ids=ENDS)
def test_ends_are_readable(make, units):
    figure = end_before_and_after(make(), units)
    assert_readable(figure)
    unit = "in" if units == "us" else "mm"
    (axes,) = figure.axes
    assert axes.get_xlabel() == f"across, from the middle ({unit})"
    assert axes.get_ylabel() == f"up ({unit})"
    assert figure.get_size_inches()[0] * figure.dpi == 800
    # Angles are true: a unit is as long upward as across.
    assert axes.get_aspect() == 1.0


@pytest.mark.parametrize("make", [board, panel], ids=["board", "panel"])
def test_the_outline_drawn_is_the_one_computed_times_the_factor(make):
    found = make()
    (axes,) = end_before_and_after(found, "si").axes
    after, before = (
        [complex(x, y) for x, y in line.get_xydata()[:-1]]
        for line in axes.lines
        if len(line.get_xdata()) > 100
    )
    true = [z for name in FACES for z in found.outline[name]]
    times = enlarged(tuple(before), tuple(true))
    assert times > 1
    assert f"{times} times as large" in axes.get_title(loc="left")
    for b, d, t in zip(before, after, true, strict=True):
        assert d == pytest.approx(b + times * (t - b), abs=1e-9)
    assert max(z.real for z in before) == pytest.approx(
        (254.0 if make is board else 600.0) / 2.0, abs=1e-9
    )


def test_a_change_is_enlarged_only_as_far_as_the_piece_stays_in_sight():
    square = (-10 - 10j, 10 - 10j, 10 + 10j, -10 + 10j)
    for share, times in ((0.3, 1), (0.05, 2), (0.011, 10), (1e-9, 100)):
        assert enlarged(square, tuple(z * (1.0 - share) for z in square)) == times


def test_a_piece_that_does_not_change_is_drawn_as_it_is():
    assert_readable(end_before_and_after(board(end=12.0)))


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(
    "staves",
    [
        [Stave(127.0), Stave(100.0, 90.0), Stave(127.0, 30.0), Stave(76.0)],
        [Stave(60.0)] * 12,
        [Stave(120.0)] * 20,
        [Stave(300.0)],
    ],
    ids=["four", "twelve", "twenty", "one"],
)
@pytest.mark.parametrize("end", [5.0, 12.0])
def test_staves_are_readable(staves, end, units):
    moved = panel_movement(OAK, staves, 8.0, end)
    figure = staves_before_and_after(moved, units)
    seen = assert_readable(figure)
    per = 25.4 if units == "us" else 1.0
    change = moved.staves[0].change_mm / per
    told = f"{change:+.3f}" if units == "us" else f"{change:+.2f}"
    assert (told in seen) == (len(staves) <= 12)


def test_the_same_end_is_the_same_picture():
    one, two = (svg_text(end_before_and_after(panel())) for _ in range(2))
    assert one == two
