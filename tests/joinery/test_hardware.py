"""Screws and bits: what is drilled rounds up."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.joinery.hardware import (
    INCH_BITS,
    METRIC_BITS_MM,
    SCREW_NUMBERS,
    gap_up,
    least_gap,
    next_bit,
    parse_screw,
    screw_number,
    screw_shank,
    size_up,
)


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("#8", "in", 0.164 * 25.4),
        ("no. 10", "mm", 0.190 * 25.4),
        ("8", "in", 0.164 * 25.4),
        ("4", "mm", 4.0),
        ("4.5mm", "in", 4.5),
        ("3/16in", "mm", 4.7625),
        ("3/16", "in", 4.7625),
    ],
)
def test_screws_are_read_as_a_shop_writes_them(text, unit, mm):
    assert parse_screw(text, unit) == pytest.approx(mm)


@pytest.mark.parametrize("text", ["", "#", "#3", "#13", "#99", "long", "2in", "0", "-4mm", "#8.5"])
def test_what_is_no_screw_is_refused_with_a_way_on(text):
    with pytest.raises(InputError, match=r"nearest: #|write #8"):
        parse_screw(text)


@given(st.text(max_size=8), st.sampled_from(["in", "mm"]))
def test_any_text_is_a_screw_or_an_error_of_one_line(text, unit):
    with contextlib.suppress(InputError):
        assert 0.0 < parse_screw(text, unit) <= 25.0


def test_thicker_screws_have_higher_numbers():
    shanks = [screw_shank(n) for n in SCREW_NUMBERS]
    assert shanks == sorted(shanks)
    assert [screw_number(s) for s in shanks] == list(SCREW_NUMBERS)
    assert screw_number(4.0) is None


@given(st.floats(0.1, 50.0), st.sampled_from(["us", "si"]))
def test_the_next_bit_is_the_smallest_that_clears(diameter, units):
    bits = METRIC_BITS_MM if units == "si" else [b * 25.4 for b in INCH_BITS]
    bit = next_bit(diameter, units)
    assert bit in [pytest.approx(b) for b in bits]
    assert bit >= diameter - 1e-5
    assert not [b for b in bits if diameter + 1e-5 < b < bit - 1e-5]


def test_no_bit_above_the_largest():
    assert next_bit(50.9, "us") is None
    assert next_bit(50.1, "si") is None
    assert next_bit(25.4 * 27 / 64, "us") == pytest.approx(25.4 * 27 / 64)


@given(st.floats(0.0, 500.0), st.sampled_from(["us", "si"]))
def test_sizes_round_up_by_less_than_a_step(size, units):
    gap = gap_up(size, units)
    assert gap >= least_gap(units)
    steps = [(size_up(size, units), 25.4 / 32 if units == "us" else 0.5)]
    if size > least_gap(units):
        steps.append((gap, 25.4 / 64 if units == "us" else 0.1))
    for rounded, step in steps:
        assert -1e-5 <= rounded - size < step
        assert rounded / step == pytest.approx(round(rounded / step))
