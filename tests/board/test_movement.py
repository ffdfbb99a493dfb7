"""The movement of one board: its year, its faces, and the shares it shrinks by."""

import pytest
from small_woods import SUGAR_MAPLE, UNCHECKED_WOOD, WHITE_OAK

from woodref.board.movement import face_angles, movement, seasonal_movement, shares_of
from woodref.errors import InputError


def test_shares_are_those_of_movement():
    s = shares_of(WHITE_OAK, 12.0, 6.0)
    assert 1.0 - s.tangential == pytest.approx(movement(WHITE_OAK, 1.0, 12.0, 6.0).after_mm)
    assert 1.0 - s.radial == pytest.approx(movement(WHITE_OAK, 1.0, 12.0, 6.0, 90.0).after_mm)
    assert shares_of(UNCHECKED_WOOD, 12.0, 6.0).basis.radial.unchecked


def test_the_range_of_a_change_is_that_of_the_size():
    m = movement(WHITE_OAK, 300.0, 8.0, 6.0)
    assert m.likely_change_mm.expected == m.change_mm == m.after_mm - 300.0
    assert m.likely_change_mm.low == m.likely_mm.low - 300.0 < m.change_mm
    assert m.basis.values == (m.basis.tangential, m.basis.radial)


def test_a_board_made_between_the_seasons_starts_from_its_size_at_the_driest():
    swing = seasonal_movement(SUGAR_MAPLE, 300.0, 8.0, 6.0, 11.0)
    assert swing.size_mm == movement(SUGAR_MAPLE, 300.0, 8.0, 6.0).after_mm
    # Exact geometry: by way of the driest or at once, the size at the wettest is the same.
    assert swing.after_mm == pytest.approx(movement(SUGAR_MAPLE, 300.0, 8.0, 11.0).after_mm)
    given = seasonal_movement(SUGAR_MAPLE, 300.0, None, 6.0, 11.0)
    assert given == movement(SUGAR_MAPLE, 300.0, 6.0, 11.0)


def test_the_thickness_meets_the_rings_at_the_complement():
    assert face_angles("", "width") == {"flat": 0.0, "rift": 45.0, "quarter": 90.0}
    assert face_angles("", "thickness") == {"flat": 90.0, "rift": 45.0, "quarter": 0.0}
    assert face_angles(" Quarter", "width") == {"quarter": 90.0}
    assert face_angles("30", "thickness") == {"30": 60.0}
    with pytest.raises(InputError, match="cut 'across' is not known"):
        face_angles("across", "width")
