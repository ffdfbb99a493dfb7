"""Which boards in hand are ready for the room a piece goes to."""

from functools import partial

import pytest

from woodref.answers.ready import ready_line
from woodref.climate.rooms import room_of
from woodref.drying.acclimation import acclimate
from woodref.lumber.tally import board_of
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece
from woodref.piece.ready import Readiness, ready_boards
from woodref.reference.library import Reference

PIECE = """
name = "tray (invented)"
units = "us"
[build]
moisture_pct = 8
[use]
place = "Duluth"
setting = "heated-house"
[[parts]]
name = "bottom"
species = "black cherry"
length = "18"
width = "12"
thickness = "1/2"
"""


@pytest.fixture(scope="module")
def reference():
    return Reference(own=False)


@pytest.fixture(scope="module")
def cherry(reference):
    return reference.wood("black cherry")


@pytest.fixture(scope="module")
def tray(reference):
    return parse_piece(PIECE, "tray.toml", Rooms(partial(room_of, reference)))


def boards(cherry, *moistures):
    board = board_of("4/4", "6", "8", "2", "black cherry")
    return [(cherry, board._replace(moisture_pct=pct)) for pct in moistures]


def test_ready_is_near_the_mean_of_the_room(tray, cherry):
    mean = tray.room.season.mean_emc_pct
    found = ready_boards(
        tray, {"black cherry": cherry}, boards(cherry, mean + 1.9, mean + 2.1, mean - 2.1, None)
    )
    assert [b.readiness for b in found] == [
        Readiness.READY,
        Readiness.TOO_WET,
        Readiness.TOO_DRY,
        Readiness.UNKNOWN,
    ]
    assert [b.days is None for b in found] == [True, False, False, True]
    rest = acclimate(cherry, 25.4, mean + 2.1, mean).mean_days
    assert found[1].days == rest
    (line,) = ready_line(found, tray)
    assert line.startswith("Boards: 2 of 8 are ready for Duluth, Minnesota, heated house")
    assert line.endswith("2 too wet, 2 too dry, 2 moisture not given.")


def test_what_to_make_now_comes_to_the_size_of_the_file_at_the_build(tray, cherry):
    from woodref.board.movement import movement

    (wet,) = ready_boards(tray, {"black cherry": cherry}, boards(cherry, 12.0))
    (now,) = wet.sizes
    assert now.width_mm > 304.8
    assert movement(cherry, now.width_mm, 12.0, 8.0).after_mm == pytest.approx(304.8)
    (same,) = ready_boards(tray, {"black cherry": cherry}, boards(cherry, 8.1))
    assert same.sizes == ()


def test_boards_that_say_nothing_are_not_asked_about(tray, cherry):
    assert ready_boards(tray, {"black cherry": cherry}, boards(cherry, None, None)) == ()
    assert ready_line((), tray) == []
