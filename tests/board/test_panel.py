"""Panels of staves."""

import pytest
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st
from small_woods import SUGAR_MAPLE, WHITE_OAK

from woodref.board.movement import movement
from woodref.board.panel import Stave, equal_staves, panel_movement, panel_year, parse_stave
from woodref.errors import InputError
from woodref.formulas.spread import sd_of_sum


def test_a_panel_is_the_sum_of_its_staves():
    staves = [Stave(100.0, 0.0), Stave(120.0, 90.0), Stave(90.0, 30.0)]
    p = panel_movement(SUGAR_MAPLE, staves, 7.0, 11.0)
    each = [movement(SUGAR_MAPLE, s.width_mm, 7.0, 11.0, s.ring_angle_deg) for s in staves]
    assert p.size_mm == 310.0
    assert p.after_mm == pytest.approx(sum(m.after_mm for m in each))
    sds = [(m.likely_mm.high - m.likely_mm.low) / 2.0 for m in each]
    assert (p.likely_mm.high - p.likely_mm.low) / 2.0 == pytest.approx(
        sd_of_sum(sds, 0.5), rel=1e-4
    )


@given(st.integers(1, 12), st.floats(3.0, 12.0), st.floats(3.0, 12.0))
@SOME
def test_equal_staves_are_the_boards_of_movement(count, start, end):
    p = panel_movement(WHITE_OAK, [Stave(80.0)] * count, start, end)
    m = movement(WHITE_OAK, 80.0 * count, start, end, boards=count)
    assert p.after_mm == pytest.approx(m.after_mm)
    assert p.likely_mm.low == pytest.approx(m.likely_mm.low, rel=1e-4)
    assert p.likely_mm.high == pytest.approx(m.likely_mm.high, rel=1e-4)


def test_the_year_of_a_panel():
    staves = [Stave(100.0), Stave(100.0, 90.0)]
    dry, wet, swing = panel_year(SUGAR_MAPLE, staves, 8.0, 6.0, 11.0)
    assert dry.change_mm < 0.0 < wet.change_mm
    assert swing.change_mm == pytest.approx(wet.change_mm - dry.change_mm)
    assert swing.size_mm == pytest.approx(dry.after_mm)


def test_staves_of_different_rings_step_at_the_joint():
    staves = [Stave(100.0), Stave(90.0), Stave(100.0, 90.0)]
    dry, wet, swing = panel_year(SUGAR_MAPLE, staves, 8.0, 6.0, 11.0, 25.0)
    flat = movement(SUGAR_MAPLE, 25.0, 8.0, 11.0, 90.0).after_mm  # rings across the thickness
    quarter = movement(SUGAR_MAPLE, 25.0, 8.0, 11.0, 0.0).after_mm
    assert [t.after_mm for t in wet.thicknesses] == [flat, flat, quarter]
    assert wet.step_mm == pytest.approx(quarter - flat)
    after = [t.after_mm for t in swing.thicknesses]
    assert after == pytest.approx([t.after_mm for t in wet.thicknesses])
    assert panel_movement(SUGAR_MAPLE, staves[:2], 8.0, 6.0, [25.0, 25.0]).step_mm == 0.0
    assert panel_movement(SUGAR_MAPLE, staves, 8.0, 6.0).step_mm == 0.0
    assert dry.thicknesses[0].after_mm < 25.0


@pytest.mark.parametrize(
    ("width", "widest", "count"),
    [(600.0, 150.0, 4), (601.0, 150.0, 5), (120.0, 150.0, 1), (900.0, 100.0, 9)],
)
def test_equal_staves_are_as_few_as_the_widest_allows(width, widest, count):
    staves = equal_staves(width, 75.0, widest, 45.0)
    assert len(staves) == count
    assert sum(s.width_mm for s in staves) == pytest.approx(width)
    assert {s.ring_angle_deg for s in staves} == {45.0}


def test_staves_that_cannot_be():
    with pytest.raises(InputError, match="no number of equal staves"):
        equal_staves(210.0, 140.0, 150.0)
    with pytest.raises(InputError, match="not wider than the widest"):
        equal_staves(600.0, 150.0, 75.0)
    with pytest.raises(InputError, match="needs a stave"):
        panel_movement(SUGAR_MAPLE, [], 7.0, 11.0)
    with pytest.raises(InputError, match="above 0"):
        panel_movement(SUGAR_MAPLE, [Stave(0.0)], 7.0, 11.0)


@pytest.mark.parametrize(
    ("text", "unit", "stave"),
    [
        ("5in", "mm", (127.0, 0.0)),
        ("120", "mm", (120.0, 0.0)),
        ("5in quarter", "in", (127.0, 90.0)),
        ("4-1/2 30", "in", (114.3, 30.0)),
        ("4-1/2 in 30deg", "mm", (114.3, 30.0)),
    ],
)
def test_a_stave_as_it_is_written(text, unit, stave):
    assert parse_stave(text, unit) == pytest.approx(stave)


def test_a_stave_that_cannot_be_read():
    with pytest.raises(InputError, match="not a length"):
        parse_stave("wide", "mm")
    with pytest.raises(InputError, match=r"between 0 .* and 90"):
        parse_stave("5in 120", "mm")


def test_thicknesses_are_one_for_each_stave():
    with pytest.raises(ValueError, match="shorter"):
        panel_movement(WHITE_OAK, [Stave(100.0), Stave(90.0)], 8.0, 6.0, [25.0])


def test_a_number_with_two_points_is_no_angle_of_a_stave():
    with pytest.raises(InputError, match="is not a length"):
        parse_stave("5in 4.5.6", "in")


def test_staves_a_little_too_narrow_are_refused():
    with pytest.raises(InputError, match="no number of equal staves"):
        equal_staves(159.0, 80.0, 158.0)
    assert equal_staves(100.0, 0.5, 60.0) == (Stave(50.0),) * 2
