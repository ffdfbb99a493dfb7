"""Names find places of their own, near their points, on the chart."""

import pytest
from examples import SOME
from hypothesis import given
from hypothesis import strategies as st

from woodref.charts.labels import Box, Spot, Stroke, place

FRAME = Box(0.0, 0.0, 700.0, 450.0)
spots = st.lists(
    st.builds(
        Spot,
        st.floats(20.0, 680.0),
        st.floats(20.0, 430.0),
        st.floats(30.0, 130.0),
        st.just(14.0),
    ),
    min_size=1,
    max_size=8,
)


@SOME
@given(spots)
def test_up_to_eight_names_never_meet_and_stay_on_the_chart(spots):
    boxes = [s.at(*o) for s, o in zip(spots, place(spots, FRAME, []), strict=True)]
    assert all(FRAME.holds(b) for b in boxes)
    assert not any(a.meets(b) for i, a in enumerate(boxes) for b in boxes[:i])


def test_a_name_alone_stands_next_to_its_point():
    spot = Spot(300.0, 200.0, 80.0, 14.0)
    assert spot.gap(*place([spot], FRAME, [])[0]) <= 9.0


def test_eight_names_of_one_point_fan_out():
    crowd = [Spot(300.0, 200.0, 90.0, 14.0)] * 8
    boxes = [s.at(*o) for s, o in zip(crowd, place(crowd, FRAME, []), strict=True)]
    assert not any(a.meets(b) for i, a in enumerate(boxes) for b in boxes[:i])


def test_a_name_leaves_points_free_and_lines_where_it_can():
    spot = Spot(300.0, 200.0, 80.0, 14.0)
    point = Box(306.0, 196.0, 400.0, 204.0)
    line = Stroke(0.0, 200.0, 700.0, 200.0)
    box = spot.at(*place([spot], FRAME, [point], [line])[0])
    assert not box.meets(point)
    assert not line.crosses(box)


def test_a_thin_line_leads_around_the_points_of_others():
    spot = Spot(300.0, 200.0, 80.0, 14.0)
    near = [Box(300.0 + dx, 200.0 + dy, 300.0 + dx, 200.0 + dy) for dx, dy in ((14, 0), (-14, 0))]
    points = [Box(300.0, 200.0, 300.0, 200.0).grown(6.0), *(b.grown(6.0) for b in near)]
    lead = spot.leader(*place([spot], FRAME, points)[0])
    assert not any(lead.crosses(p) for p in points[1:])


@pytest.mark.parametrize(
    ("stroke", "crosses"),
    [
        (Stroke(-1, 5, 11, 5), True),
        (Stroke(5, 5, 6, 6), True),
        (Stroke(-1, 11, 11, 12), False),
        (Stroke(-5, 5, -1, 5), False),
        (Stroke(-2, 8, 4, 14), False),
        (Stroke(-2, 6, 6, 14), True),
        (Stroke(5, -9, 5, -1), False),
    ],
)
def test_a_line_crosses_a_box_where_part_of_it_lies_inside(stroke, crosses):
    assert stroke.crosses(Box(0, 0, 10, 10)) is crosses
