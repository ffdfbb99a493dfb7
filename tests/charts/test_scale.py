"""Axes of sizes: fractions of a rule or whole steps of millimeters, and none below zero."""

import pytest

from woodref.charts.scale import size_ticks, size_words

IN = 25.4


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        (0.0, 0.25, ["0", "1/32", "1/16", "3/32", "1/8", "5/32", "3/16", "7/32", "1/4"]),
        (13.9, 14.3, ["13-15/16", "14", "14-1/16", "14-1/8", "14-3/16", "14-1/4"]),
        (-0.05, 0.05, ["3/64", "1/32", "1/64", "0", "1/64", "1/32", "3/64"]),
        (0.0, 40.0, ["0", "6", "12", "18", "24", "30", "36"]),
    ],
)
def test_inches_are_fractions_of_a_rule(low, high, told):
    places, words = size_ticks(low * IN, high * IN, "us")
    assert words == told
    assert all(low * IN - 1e-6 <= p <= high * IN + 1e-6 for p in places)


def test_millimeters_are_round_steps_without_idle_decimals():
    assert size_ticks(0.0, 3.2, "si")[1] == ["0", "0.5", "1", "1.5", "2", "2.5", "3"]
    assert size_ticks(352.0, 368.0, "si")[1] == [f"{n}" for n in range(352, 369, 2)]
    assert size_ticks(-1.1, 1.1, "si")[1] == ["1", "0.5", "0", "0.5", "1"]


def test_a_size_in_a_picture_is_that_of_the_answers():
    assert size_words(250.0, "us") == "9-27/32 in"
    assert size_words(250.0, "si") == "250 mm"
