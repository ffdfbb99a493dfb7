"""How a board lags behind its room, and what a piece does after delivery, month by month."""

from functools import cache

import pytest
from seen import assert_readable

import woodref
from woodref.charts.after_delivery import delivered
from woodref.charts.lagging import lag_through_year
from woodref.drying.ambient import air_of, months_between
from woodref.drying.board_lag import board_lag
from woodref.drying.finish import BARE, finish_on
from woodref.drying.follow import board_of
from woodref.reference.finishes import finish_rows
from woodref.reference.library import Reference

LIBRARY = Reference()
ASH = LIBRARY.wood("white ash")


def title(figure):
    return " ".join(figure.get_suptitle().split())


@cache
def lag_of(room=None, finishes=("linseed oil", "urethane varnish")):
    rows = finish_rows(LIBRARY)
    chosen = [BARE, *(finish_on(rows, name, 2) for name in finishes)]
    emc, celsius = air_of(room.season) if room else (months_between(6.0, 10.0), (21.0,) * 12)
    board = board_of(ASH, 19.0)
    return board_lag(ASH, board, chosen, (min(emc), max(emc)), emc, celsius, 61.0)


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_lag_stands_beside_the_air_with_the_share_of_each_finish(units):
    lag = lag_of()
    figure = lag_through_year(lag, None, units)
    seen = assert_readable(figure)
    size = "3/4 in" if units == "us" else "19 mm"
    assert title(figure).startswith(f"Bare {size} white ash follows ")
    assert "the air" in seen
    for year in lag.years:
        share = f"{100.0 * year.mean_share.expected:.0f} %*"
        assert any(w.startswith(year.finish.label) and share in w for w in seen)
    (axes,) = figure.axes
    drawn = [list(line.get_ydata()) for line in axes.lines]
    assert [m.emc_pct for m in lag.years[0].months] in drawn
    assert [m.mean_pct.expected for m in lag.years[1].months] in drawn


def test_a_held_room_is_flat_and_says_why():
    room = woodref.season("Savannah", "humidity-controlled room")
    figure = lag_through_year(lag_of(room, ()), room)
    assert_readable(figure)
    note = " ".join(figure.get_supxlabel().split())
    assert "The dashed line is flat where the dehumidifier holds the air" in note


@cache
def portland():
    return woodref.season("Portland, Maine", "heated house")


@cache
def sent(built_pct):
    return woodref.delivery(ASH, 22.0, built_pct, portland(), "April", width_mm=762.0)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("built", "way"), [(6.0, "wider"), (14.0, "narrower")])
def test_a_delivered_piece_says_how_far_it_goes(units, built, way):
    figure = delivered(ASH, sent(built), portland(), units)
    seen = assert_readable(figure)
    assert f" {way} by the end of " in title(figure)
    assert {"wider than built", "narrower than built", "built"} <= set(seen)
    assert not any(w.startswith("-") for w in seen)
    if units == "si":
        assert not any(" in*" in w for w in seen)


def test_the_widths_drawn_are_those_computed():
    d = sent(6.0)
    _, width = delivered(ASH, d, portland()).axes
    drawn = next(list(line.get_ydata()) for line in width.lines if len(line.get_xdata()) == 13)
    assert drawn == [0.0, *(m.change_mm.expected for m in d.months)]
