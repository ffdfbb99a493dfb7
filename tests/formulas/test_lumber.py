import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.lumber import (
    BOARD_FOOT_M3,
    board_feet,
    board_feet_of_surface,
    board_feet_of_volume,
    surface_measure,
    volume_of_board_feet,
)
from woodref.units import BOARD_FOOT_M3 as UNITS_BOARD_FOOT_M3

thicknesses = st.floats(0.25, 6.0)
widths = st.floats(1.0, 24.0)
lengths = st.floats(1.0, 20.0)
counts = st.integers(1, 50)


@given(thicknesses, widths, lengths, counts)
def test_board_feet_scale_with_length_and_width(thickness, width, length, times):
    one = board_feet(thickness, width, length)
    assert board_feet(thickness, width, length * times) == pytest.approx(times * one)
    assert board_feet(thickness, width * times, length) == pytest.approx(times * one)


@given(st.floats(1.0, 6.0), widths, lengths)
def test_board_feet_scale_with_thickness_from_one_inch(thickness, width, length):
    assert board_feet(thickness, width, length) == pytest.approx(
        thickness * board_feet(1.0, width, length)
    )


@given(st.floats(0.1, 1.0), widths, lengths)
def test_thin_boards_count_as_4_4(thickness, width, length):
    assert board_feet(thickness, width, length) == board_feet(1.0, width, length)
    assert board_feet_of_surface(7.0, thickness) == 7.0


@given(widths, st.integers(1, 20))
def test_surface_measure_is_the_nearest_whole_foot(width, feet):
    measured = surface_measure(width, float(feet))
    assert measured == int(measured)
    assert abs(measured - width * feet / 12.0) <= 0.5 + 1e-8


@pytest.mark.parametrize(
    ("width_in", "length_ft", "expected"),
    [
        (8.0, 10.0, 7.0),  # 6.67
        (6.0, 9.0, 5.0),  # 4.5: an exact half goes up
        (6.0, 8.99, 4.0),  # the part of a foot is dropped
        (6.0, 3048.0 / 304.8, 5.0),  # 10 ft written in mm
        (6.0, 9.9999999999, 5.0),  # and with the last bit lost
    ],
)
def test_surface_measure(width_in, length_ft, expected):
    assert surface_measure(width_in, length_ft) == expected


@given(st.floats(0.0, 1e6))
def test_board_feet_there_and_back(feet):
    assert board_feet_of_volume(volume_of_board_feet(feet)) == pytest.approx(feet)


def test_one_board_foot_in_both_places():
    assert pytest.approx(UNITS_BOARD_FOOT_M3, rel=1e-12) == BOARD_FOOT_M3
