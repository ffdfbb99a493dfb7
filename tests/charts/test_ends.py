"""The end of a board, a round, a panel before and after: true outlines, the factor stated."""

import re
from cmath import phase
from math import degrees, inf

import pytest
from seen import assert_readable

from woodref.answers.section import change_words
from woodref.answers.shop_words import change_text
from woodref.board.cross_section import board_section, round_section
from woodref.board.outline import FACES, Pith, pith_beside, pith_by_rings
from woodref.board.panel import Stave, panel_movement
from woodref.board.panel_section import panel_section
from woodref.charts.figure import svg_text
from woodref.charts.outline import end_before_and_after, enlarged
from woodref.charts.staves import panel_year, staves_before_and_after
from woodref.climate.rooms import room_of
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
def test_ends_are_readable_and_their_titles_say_what_becomes_of_them(make, units):
    piece = make()
    figure = end_before_and_after(piece, units)
    seen = assert_readable(figure)
    told = " ".join(figure.get_suptitle().split())
    assert told.endswith(change_words(piece, units))
    # Every dimension has its unit, and none is below zero.
    unit = " in" if units == "us" else " mm"
    sizes = [w for w in seen[1:] if w[0].isdigit()]
    assert len(sizes) >= 3
    assert all(unit in size for size in sizes)
    assert not any(w.startswith("-") for w in seen)
    assert figure.get_size_inches()[0] * figure.dpi == 800


@pytest.mark.parametrize("make", [board, panel], ids=["board", "panel"])
def test_the_outline_drawn_is_the_one_computed_times_the_factor(make):
    piece = make()
    wide = 254.0 if make is board else 600.0
    (axes,) = end_before_and_after(piece, "si").axes
    after, before = (
        [complex(x, y) for x, y in line.get_xydata()[:-1]]
        for line in axes.lines
        if len(line.get_xdata()) > 100
    )
    scale = (max(z.real for z in before) - min(z.real for z in before)) / wide
    middle = (max(z.real for z in before) + min(z.real for z in before)) / 2.0
    times = int(re.search(r"(\d+) times as large", axes.get_title(loc="left"))[1])
    assert times > 1
    # The corners: each face begins where the one before it ends.
    spread = [max(z.real for z in piece.outline[n]) for n in FACES]
    drawn = (max(z.real for z in after) - middle) / scale
    assert drawn == pytest.approx(wide / 2.0 + times * (max(spread) - wide / 2.0), abs=1e-6)


def test_an_estimated_figure_is_marked_in_the_title_too():
    wood = Reference(own=False).wood("Honduran rosewood")
    pith = pith_beside("below", 50.0, 0.0, 200.0, 25.0)
    figure = end_before_and_after(board_section(wood, 200.0, 25.0, pith, 12.0, 6.0))
    assert "in~ (" in figure.get_suptitle().replace("\N{NO-BREAK SPACE}", " ")


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
        [Stave(120.0)] * 30,
        [Stave(300.0)],
    ],
    ids=["four", "twelve", "thirty", "one"],
)
@pytest.mark.parametrize("end", [5.0, 12.0])
def test_staves_are_readable(staves, end, units):
    moved = panel_movement(OAK, staves, 8.0, end)
    figure = staves_before_and_after(moved, units)
    seen = assert_readable(figure)
    way = "shrinks" if end < 8.0 else "swells"
    assert way in figure.get_suptitle()
    told = f"{way} {change_text(moved.staves[0].change_mm, units)}"
    assert (told in seen) == (len(staves) <= 4)


@pytest.mark.parametrize("angle", [0.0, 30.0, 45.0, 90.0])
def test_the_rings_of_a_stave_run_at_its_angle_in_its_middle(angle):
    moved = panel_movement(OAK, [Stave(100.0, angle)], 8.0, 6.0)
    (axes,) = staves_before_and_after(moved).axes
    box, ring = axes.patches[0], axes.patches[1]
    x, y = box.get_x() + box.get_width() / 2.0, box.get_y() + box.get_height() / 2.0
    points = [complex(*p) for p in ring.get_path().vertices]
    codes = list(ring.get_path().codes)
    pairs = [(a, b) for a, b, c in zip(points, points[1:], codes[1:], strict=False) if c == 2]
    a, b = min(pairs, key=lambda ends: abs((ends[0] + ends[1]) / 2.0 - complex(x, y)))
    run = (b - a) / abs(b - a)
    told = abs(degrees(phase(run))) % 180.0
    assert min(abs(told - t) for t in (angle, 180.0 - angle)) < 12.0


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_panel_in_a_room_has_its_staves_and_its_year(units):
    room = room_of(Reference(), "Savannah", "heated-house")
    figure = panel_year(OAK, [Stave(127.0), Stave(100.0, 90.0)], 8.0, room, units)
    seen = assert_readable(figure)
    assert figure.get_suptitle().startswith("Allow ")
    first, second = ("1: 5 in flat", "2: 3-15/16 in quarter") if units == "us" else (
        "1: 127 mm flat", "2: 100 mm quarter")  # fmt: skip
    assert {first, second} <= set(seen)
    assert any(w.startswith("wettest to design for") for w in seen)


def test_the_same_end_is_the_same_picture_and_no_large_file():
    one, two = (svg_text(end_before_and_after(panel())) for _ in range(2))
    assert one == two
    assert len(one) < 40_000
