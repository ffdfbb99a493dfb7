"""When a part is fitted, and the driest and the wettest of its life."""

import pytest

from woodref.climate.part_seasons import BuildMoisture, built_in, part_seasons
from woodref.climate.rooms import room_of
from woodref.climate.usual_year import DAMPEST_PCT, DRIEST_PCT
from woodref.reference.library import Reference


@pytest.fixture(scope="module")
def duluth():
    return room_of(Reference(), "Duluth")


@pytest.fixture(scope="module")
def shop():
    return room_of(Reference(), "Tucson", "unheated shop")


def codes(seasons):
    return [n.code for n in seasons.notes]


def test_nothing_said_is_the_middle_of_a_usual_year():
    seasons = part_seasons()
    assert seasons.moistures_pct == (8.0, DRIEST_PCT, DAMPEST_PCT)
    assert codes(seasons) == ["build-assumed", "usual-year"]
    assert {n.code: n.basis for n in seasons.notes}["usual-year"] == "editorial"


def test_what_is_given_needs_no_note():
    seasons = part_seasons(BuildMoisture(7.0), ends_pct=(6.0, 11.0))
    assert seasons.moistures_pct == (7.0, 6.0, 11.0)
    assert (seasons.notes, seasons.room) == ((), None)


def test_a_room_gives_the_ends_and_the_mean_of_its_year(duluth):
    seasons = part_seasons(room=duluth)
    year = duluth.season
    assert seasons.moistures_pct == tuple(year.design_pct)
    assert codes(seasons)[0] == "build-assumed"
    assert codes(seasons)[-1] == "thin-bare-wood"


def test_built_in_the_room_it_lives_in_or_elsewhere(duluth, shop):
    here, there = built_in(duluth, 2), built_in(shop, 3)
    assert here.moisture_pct == duluth.season.months[1].emc_pct
    assert "build-assumed" not in codes(part_seasons(here, duluth))
    assert "built-in-room" not in codes(part_seasons(here, duluth))
    assert codes(part_seasons(there, duluth))[0] == "built-in-room"
    (note,) = there.notes
    assert note.text.startswith("built in Tucson, Arizona, unheated shop, at ")
    assert "rest there in March" in note.text
    mean = built_in(shop)
    assert (mean.moisture_pct, mean.month) == (shop.season.mean_emc_pct, 0)
    assert "mean of its year" in mean.notes[0].text
