"""How far wood travels at a distance from its fixed line, one way and the other."""

import pytest
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st
from small_woods import SUGAR_MAPLE, WHITE_OAK

from woodref.board.movement import movement
from woodref.errors import InputError
from woodref.joinery.travel import MoistureRange, travel_of
from woodref.quantity import Range

YEAR = MoistureRange(8.0, 6.0, 11.0)
DISTANCES = st.floats(20.0, 1500.0)
MOISTURES = st.tuples(st.floats(2.0, 25.0), st.floats(2.0, 25.0), st.floats(2.0, 25.0))


def whole_range(three):
    build, *ends = three
    return MoistureRange(build, min(ends), max(ends))


def test_travel_is_the_movement_of_the_distance():
    t = travel_of(WHITE_OAK, 250.0, YEAR)
    dry, wet = (movement(WHITE_OAK, 250.0, 8.0, end) for end in (6.0, 11.0))
    assert t.toward.expected == pytest.approx(250.0 - dry.after_mm)
    assert t.away.expected == pytest.approx(wet.after_mm - 250.0)
    assert t.toward.high == pytest.approx(250.0 - dry.likely_mm.low)
    assert t.away.high == pytest.approx(wet.likely_mm.high - 250.0)
    assert t.most == t.away
    assert t.both.expected == pytest.approx(t.toward.expected + t.away.expected)


def test_wood_fitted_outside_its_later_range_travels_one_way():
    t = travel_of(WHITE_OAK, 200.0, MoistureRange(12.0, 5.0, 9.0))
    assert t.away == Range(0.0, 0.0, 0.0)
    assert t.to_driest.expected < t.to_wettest.expected < 0.0
    assert t.toward.expected == -t.to_driest.expected
    assert (t.toward.low, t.toward.high) == (-t.to_driest.high, -t.to_driest.low)
    dry = travel_of(WHITE_OAK, 200.0, MoistureRange(4.0, 5.0, 9.0))
    assert dry.toward == Range(0.0, 0.0, 0.0)
    assert 0.0 < dry.to_driest.expected < dry.to_wettest.expected == dry.away.expected


@given(DISTANCES, MOISTURES, st.floats(0.0, 90.0), st.integers(1, 8))
@SOME
def test_travel_is_never_backward_and_grows_with_the_distance(distance, three, angle, boards):
    moisture = whole_range(three)
    near = travel_of(SUGAR_MAPLE, distance, moisture, angle, boards)
    far = travel_of(SUGAR_MAPLE, 2.0 * distance, moisture, angle, boards)
    for way, twice in ((near.toward, far.toward), (near.away, far.away)):
        assert 0.0 <= way.low <= way.expected <= way.high
        assert twice.expected == pytest.approx(2.0 * way.expected, abs=1e-9)
    if moisture.build_pct <= moisture.driest_pct:
        assert near.toward == Range(0.0, 0.0, 0.0)
    if moisture.build_pct >= moisture.wettest_pct:
        assert near.away == Range(0.0, 0.0, 0.0)


def test_glued_of_more_boards_the_likely_travel_is_narrower():
    one, six = (travel_of(WHITE_OAK, 400.0, YEAR, 0.0, n) for n in (1, 6))
    assert six.away.expected == pytest.approx(one.away.expected)
    assert six.away.high < one.away.high


@pytest.mark.parametrize(
    ("moisture", "distance", "words"),
    [
        (MoistureRange(8.0, 11.0, 6.0), 200.0, "exchange the two"),
        (MoistureRange(40.0, 6.0, 11.0), 200.0, "above fiber saturation"),
        (YEAR, 0.0, "nothing moves"),
    ],
)
def test_impossible_travel(moisture, distance, words):
    with pytest.raises(InputError, match=words):
        travel_of(WHITE_OAK, distance, moisture)
