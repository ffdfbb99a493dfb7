"""Sizes as a shop reads them: to a 32nd, room that is needed up, room that there is down."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.answers.shop_words import (
    bare_size,
    change_range,
    change_text,
    need_text,
    room_text,
    shown,
)
from woodref.quantity import Range

_MM = st.floats(0.5, 2000.0)


def _inches(text: str) -> Fraction:
    """'1-5/32 in' as a number of inches."""
    return sum(map(Fraction, text.removesuffix(" in").split("-")), Fraction(0))


@given(_MM)
def test_room_that_is_needed_is_never_told_short_and_room_there_is_never_too_large(mm):
    need, room = (_inches(f(mm, "us")) * Fraction("25.4") for f in (need_text, room_text))
    assert room - Fraction(1, 10**4) <= Fraction(mm) <= need + Fraction(1, 10**4)
    assert need - room < Fraction(4, 5)  # a 32nd is 0.794 mm
    assert float(room_text(mm, "si").split()[0].replace(",", "")) <= mm + 1e-6
    assert float(need_text(mm, "si").split()[0].replace(",", "")) >= mm - 1e-6


@pytest.mark.parametrize(
    ("mm", "told"),
    [
        (25.4 * 0.1716, "5/32 in"),  # nearest 32nd
        (25.4 * 9 / 64, "9/64 in"),  # a size that was given, or a bit, keeps its 64th
        (25.4 * 0.0157, "1/32 in"),
        (25.4 * 0.0155, "under 1/64 in"),
    ],
)
def test_a_change_is_told_in_32nds(mm, told):
    assert change_text(mm, "us") == told
    assert shown("change", -mm, "us") in (f"-{told}", told)


def test_whole_millimeters_have_no_decimals_and_one_form_of_range_is_told():
    assert bare_size(150.0, "si") == "150"
    assert change_range(Range(5.6, 3.5, 7.7), "si") == "5.6 mm (3.5 to 7.7)"
    assert change_range(Range(0.1, 0.05, 0.2), "si") == "under 0.3 mm"
    assert shown("density", 645.0, "us", with_unit=False) == "40"
