"""The year of a room as a picture: sizes of every month, the band, what a fixing allows."""

from functools import partial

import pytest
from seen import assert_readable

from woodref.board.movement import CUTS, movement
from woodref.board.panel import Stave, panel_movement
from woodref.charts.figure import svg_text
from woodref.charts.room_year import board_year
from woodref.charts.year import Level, YearLine, seasonal_moisture, seasonal_width
from woodref.climate.rooms import room_of
from woodref.climate.sizes_by_month import sizes_through_year
from woodref.reference.library import Reference

ROOMS = {
    "Savannah": ("Savannah", "air-conditioned-house"),
    "Duluth": ("Duluth", "heated-house"),
    "Portland": ("Portland, Maine", "unheated-shop"),
    "outdoors": ("Tucson", "outdoors-under-cover"),
}


@pytest.fixture(scope="module")
def library():
    return Reference()


@pytest.fixture(params=ROOMS.values(), ids=ROOMS)
def room(library, request):
    return room_of(library, *request.param)


def lines_of(library, room, size_mm=965.2, start=None):
    wood = library.wood("red oak")
    base = room.season.driest.emc_pct if start is None else start
    return [
        YearLine(
            f"{name} sawn",
            sizes_through_year(
                room.season, partial(movement, wood, size_mm, base, ring_angle_deg=angle)
            ),
        )
        for name, angle in CUTS.items()
    ]


def test_sizes_of_the_months_are_those_of_the_movement(library, room):
    (line, *_) = lines_of(library, room, start=8.0)
    wood = library.wood("red oak")
    assert [m.month for m in line.months] == list(range(1, 13))
    for month, size in zip(room.season.months, line.months, strict=True):
        moved = movement(wood, 965.2, 8.0, month.emc_pct, 0.0)
        assert size.moisture_pct == month.emc_pct
        assert size.size_mm == moved.likely_mm


def test_a_panel_is_its_staves(library):
    room = room_of(library, "Duluth", "heated-house")
    wood = library.wood("cherry")
    staves = [Stave(120.0), Stave(100.0, 90.0)]
    sizes = sizes_through_year(room.season, partial(panel_movement, wood, staves, 8.0))
    dry = room.season.driest
    assert sizes[dry.month - 1].size_mm.expected == pytest.approx(
        sum(movement(wood, s.width_mm, 8.0, dry.emc_pct, s.ring_angle_deg).after_mm for s in staves)
    )


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_width_through_the_year_is_readable(library, room, units):
    figure = seasonal_width(
        "Red oak: width through the year", room.label, lines_of(library, room), room.season, units
    )
    told = assert_readable(figure)
    (axes,) = figure.axes
    assert axes.get_ylabel() == ("width (in)" if units == "us" else "width (mm)")
    # Sizes are drawn in millimeters, and numbered in the units asked for.
    drawn = [line.get_ydata() for line in axes.lines if len(line.get_xdata()) == 12]
    for line, ys in zip(lines_of(library, room), drawn, strict=True):
        assert list(ys) == pytest.approx([m.size_mm.expected for m in line.months])
    for month in ("Jan", "Jun", "Dec"):
        assert any(w.startswith(month) for w in told)


@pytest.mark.parametrize("units", ["us", "si"])
def test_levels_stand_in_the_chart_by_their_words(library, room, units):
    figure = seasonal_width(
        "Red oak: width through the year",
        room.label,
        lines_of(library, room, start=8.0)[:1],
        room.season,
        units,
        [Level(965.2, "made"), Level(950.0, "driest"), Level(965.3, "too near to be named")],
    )
    told = assert_readable(figure)
    assert {"made", "driest"} <= set(told)
    assert "too near to be named" not in told


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("start", [8.0, None], ids=["made", "driest"])
def test_a_board_says_what_to_allow_and_where_the_design_ends(library, room, units, start):
    cuts = {"flat": 0.0, "quarter": 90.0}
    figure = board_year(library.wood("red oak"), "width", cuts, 356.0, start, room, units)
    told = assert_readable(figure)
    assert figure.get_suptitle().startswith("Allow ")
    assert any(w.startswith("wettest to design for (flat sawn)") for w in told)
    assert not any(w.startswith("-") for w in told)
    (axes,) = figure.axes
    ticks = [t.get_text() for t in axes.get_yticklabels()]
    assert all("." not in t for t in ticks) or units == "si"


def test_a_flat_year_says_what_holds_it(library):
    held = room_of(library, "Savannah", "humidity-controlled-room")
    cuts = {"flat": 0.0}
    figure = board_year(library.wood("red oak"), "width", cuts, 356.0, 8.0, held, "us")
    note = " ".join(figure.get_supxlabel().split())
    assert "The line is flat where the dehumidifier holds the air" in note
    assert (
        "flat"
        not in seasonal_moisture("A", room_of(library, *ROOMS["outdoors"]).season).get_supxlabel()
    )


def test_the_moisture_of_a_room_is_readable_with_and_without_outdoors(room):
    for room_only in (False, True):
        figure = seasonal_moisture(room.label, room.season, room_only)
        told = assert_readable(figure)
        outdoors = [w for w in told if w.startswith("outdoors under cover")]
        assert bool(outdoors) != room_only
        dry = room.season.driest
        assert any(f"{dry.emc_pct:.1f} %" in w and w.startswith("room") for w in told)


def test_the_same_year_is_the_same_picture(library):
    room = room_of(library, "Duluth", "heated-house")
    draw = partial(seasonal_width, "A", room.label, lines_of(library, room), room.season)
    assert svg_text(draw()) == svg_text(draw())
