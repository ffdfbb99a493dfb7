"""What thickness and finishes leave of a board's movement."""

import pytest
from small_woods import WHITE_OAK

from woodref.board.movement import movement
from woodref.drying.ambient import ROOM_C, months_between
from woodref.drying.board_lag import COURSE_DAYS, board_lag
from woodref.drying.finish import BARE, finish_on
from woodref.drying.follow import board_of
from woodref.drying.lag import lag_step
from woodref.reference.finishes import finish_rows
from woodref.reference.library import Reference

WARM = (ROOM_C,) * 12


@pytest.fixture(scope="module")
def finishes():
    return (BARE, finish_on(finish_rows(Reference()), "shellac"))


def lag(finishes, **width):
    board = board_of(WHITE_OAK, 20.0)
    return board_lag(
        WHITE_OAK, board, finishes, (6.0, 10.0), months_between(6.0, 10.0), WARM, 45.0, **width
    )


def test_the_day_asked_for_is_followed_beside_the_course(finishes):
    oak = lag(finishes)
    assert set(oak.steps[0].days) == {*COURSE_DAYS, 45.0}
    (bare,) = lag_step(oak.board, [BARE], 6.0, 10.0, [45.0])
    assert oak.made[0].expected == pytest.approx(bare.mean_share[0].expected, abs=1e-3)
    assert oak.made[1].expected < oak.made[0].expected
    assert all(m.expected < a.expected for m, a in zip(oak.made_in_middle, oak.made, strict=True))
    assert (oak.width_mm, oak.movement, oak.width_changes) == (None, None, ())


def test_a_width_changes_by_what_its_mean_has_made(finishes):
    oak = lag(finishes, width_mm=300.0, ring_angle_deg=90.0)
    assert oak.movement == movement(WHITE_OAK, 300.0, 6.0, 10.0, 90.0)
    for made, change in zip(oak.made, oak.width_changes, strict=True):
        reached = movement(WHITE_OAK, 300.0, 6.0, 6.0 + 4.0 * made.expected, 90.0)
        assert change.expected == pytest.approx(reached.change_mm)
        assert change.low < change.expected < change.high < oak.movement.likely_change_mm.high * 1.2
