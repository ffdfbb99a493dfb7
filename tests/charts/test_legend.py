"""A picture marks what is estimated, and says what the mark means; read figures bear no mark."""

import pytest
from seen import assert_readable

from woodref.board.cross_section import board_section
from woodref.board.outline import pith_beside
from woodref.board.panel import Stave, panel_movement
from woodref.charts.dumbbell import dumbbells
from woodref.charts.outline import end_before_and_after
from woodref.charts.room_year import board_year
from woodref.charts.scatter import hardness_density
from woodref.charts.staves import panel_year, staves_before_and_after
from woodref.choose.compare import compare
from woodref.choose.overview import USUAL_BOARDS
from woodref.climate.rooms import room_of
from woodref.reference.library import Reference

LIBRARY = Reference(own=False)
#: Shrinkage of the first stands in no table; it is estimated from specific gravity.
ESTIMATED, PRINTED = LIBRARY.wood("Gymnocladus dioicus"), LIBRARY.wood("black cherry")
BOARDS = (Stave(120.0), Stave(120.0))


def ends(wood):
    pith = pith_beside("below", 50.0, 0.0, 200.0, 25.0)
    return end_before_and_after(board_section(wood, 200.0, 25.0, pith, 12.0, 6.0))


def year(draw):
    room = room_of(LIBRARY, "Duluth", "heated-house")
    return lambda wood: draw(wood, room)


PICTURES = {
    "staves": lambda wood: staves_before_and_after(panel_movement(wood, BOARDS, 7.0, 10.0)),
    "end": ends,
    "board": year(
        lambda wood, room: board_year(wood, "width", {"flat": 0.0}, 200.0, 8.0, room, "us")
    ),
    "panel": year(lambda wood, room: panel_year(wood, BOARDS, 8.0, room, "us")),
    "figures": lambda wood: dumbbells(compare([wood, PRINTED], USUAL_BOARDS["us"])),
    "hardness": lambda wood: hardness_density(compare([wood, PRINTED], USUAL_BOARDS["us"])),
}


@pytest.mark.parametrize("name", PICTURES)
def test_what_is_estimated_is_marked_and_explained(name):
    told = " ".join(assert_readable(PICTURES[name](ESTIMATED)))
    assert "~" in told.partition("~ estimated or second-hand")[0]
    assert "~ estimated or second-hand" in " ".join(told.split())


@pytest.mark.parametrize("name", ["staves", "end", "board", "panel"])
def test_what_was_read_bears_no_mark(name):
    assert "~" not in " ".join(assert_readable(PICTURES[name](PRINTED)))
