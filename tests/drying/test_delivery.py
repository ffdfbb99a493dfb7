"""A piece built in one place that lives in another."""

import pytest
from small_woods import WHITE_OAK

from woodref.board.movement import movement
from woodref.climate.rooms import room_of
from woodref.drying.delivery import delivery, extremes, month_after
from woodref.drying.finish import finish_on
from woodref.errors import InputError
from woodref.reference.finishes import finish_rows
from woodref.reference.library import Reference


@pytest.fixture(scope="module")
def reference():
    return Reference()


@pytest.fixture(scope="module")
def portland(reference):
    return room_of(reference, "Portland, Maine", "heated house").season


@pytest.fixture(scope="module")
def oak(portland, reference):
    varnish = finish_on(finish_rows(reference), "urethane varnish", 3)
    return delivery(WHITE_OAK, 762.0, 22.2, 6.5, portland, 4, varnish)


def test_a_piece_delivered_in_spring_swells_until_autumn(oak):
    narrow, wide = extremes(oak.months)
    assert [m.month for m in oak.months] == [4, 5, 6, 7, 8, 9, 10, 11, 12, 1, 2, 3]
    assert wide.month in (8, 9, 10)
    assert wide.change_mm.expected > narrow.change_mm.expected
    for m in oak.months:
        assert m.change_mm.low < m.change_mm.expected < m.change_mm.high
        assert m.mean_pct.low <= m.mean_pct.expected <= m.mean_pct.high


def test_the_width_is_that_of_the_mean(oak):
    m = oak.months[5]
    moved = movement(WHITE_OAK, 762.0, 6.5, m.mean_pct.expected)
    assert m.change_mm.expected == pytest.approx(moved.change_mm)


def test_the_swing_lies_between_narrowest_and_widest(oak):
    between = oak.widest_mm.expected - oak.narrowest_mm.expected
    assert oak.swing_mm.expected == pytest.approx(between, rel=1e-6)
    assert oak.swing_mm.low < oak.swing_mm.expected < oak.swing_mm.high
    assert oak.year.mean_share.expected < 1.0


def test_after_a_year_the_start_is_forgotten(portland):
    """Bare thin wood built wet and dry are alike a year on, and in the year that repeats."""
    wet, dry = (delivery(WHITE_OAK, 300.0, 10.0, p, portland, 1) for p in (12.0, 5.0))
    assert wet.months[-1].mean_pct.expected == pytest.approx(
        dry.months[-1].mean_pct.expected, abs=0.05
    )
    assert wet.year.wettest_pct.expected == pytest.approx(dry.year.wettest_pct.expected, abs=1e-9)
    assert wet.months[0].mean_pct.expected > dry.months[0].mean_pct.expected


def test_staves_share_their_spread(portland):
    one, six = (delivery(WHITE_OAK, 762.0, 22.0, 6.5, portland, 4, boards=n) for n in (1, 6))
    assert six.swing_mm.expected == pytest.approx(one.swing_mm.expected)
    assert six.swing_mm.high < one.swing_mm.high


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        ({"month": 13}, "a month is 1 to 12, not 13"),
        ({"built_pct": 35.0}, "the build moisture content 35"),
        ({"thickness_mm": 500.0}, "a thickness of 1/32 to 6 in"),
        ({"size_mm": 0.0}, "a size must be above 0"),
    ],
)
def test_impossible_pieces(portland, change, problem):
    given = {"size_mm": 300.0, "thickness_mm": 20.0, "built_pct": 7.0, "month": 1, **change}
    with pytest.raises(InputError, match=problem):
        delivery(WHITE_OAK, use=portland, **given)


def test_a_piece_arrives_in_the_month_after_its_build():
    assert [month_after(built) for built in (0, 1, 11, 12)] == [1, 2, 12, 1]
