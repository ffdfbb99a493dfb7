"""Figures with their ranges, and numbers of boards."""

import pytest

from woodref.errors import InputError
from woodref.quantity import (
    MOST_BOARDS,
    Range,
    check_glued,
    exactly,
    times,
    total,
    whole_number,
    with_waste,
)

A, B = Range(3.0, 2.0, 5.0), Range(10.0, 7.0, 20.0)


@pytest.mark.parametrize(
    ("made", "by_hand"),
    [
        (lambda: A.plus(B), (13.0, 9.0, 25.0)),
        (lambda: A.scaled(2.0), (6.0, 4.0, 10.0)),
        (lambda: exactly(4.0), (4.0, 4.0, 4.0)),
        (lambda: times(A, B), (30.0, 14.0, 100.0)),
        (lambda: total([A, B, A]), (16.0, 11.0, 30.0)),
        (lambda: total([]), (0.0, 0.0, 0.0)),
        (lambda: with_waste(80.0, Range(25.0, 15.0, 50.0)), (100.0, 92.0, 120.0)),
        (lambda: Range(-3.0, -5.0, -2.0).unsigned, (3.0, 2.0, 5.0)),
        (lambda: A.unsigned, (3.0, 2.0, 5.0)),
    ],
)
def test_ranges_are_reckoned_end_by_end(made, by_hand):
    """Expected with expected, low with low, high with high."""
    figure = made()
    assert tuple(figure) == pytest.approx(by_hand)
    assert (figure.expected, figure.low, figure.high) == tuple(figure)


def test_a_plain_number_is_no_range():
    assert A.is_range
    assert not exactly(4.0).is_range


@pytest.mark.parametrize(
    ("text", "most", "number"),
    [
        *(("7", 9, 7), ("007", 9, 7), ("1", 9, 1), ("9", 9, 9), ("70", 99, 70)),
        *(("10", 9, None), ("0", 9, None), ("", 9, None), ("-1", 9, None), ("1.5", 9, None)),
        *(
            ("x7", 9, None),
            ("\u0663", 9, None),
            ("\u00b2", 9, None),
            ("9" * 5000, 9, None),
            ("x", 99999, None),
        ),
    ],
)
def test_a_whole_number_of_a_text(text, most, number):
    assert whole_number(text, most) == number


@pytest.mark.parametrize("boards", [0, -1, MOST_BOARDS + 1])
def test_a_width_is_glued_from_some_boards(boards):
    check_glued(1)
    check_glued(MOST_BOARDS)
    with pytest.raises(InputError, match=f"^a width is glued from 1 to 100000 .*not {boards}$"):
        check_glued(boards)
