"""[build] in a town: the moisture content wood rests at in the shop in that month."""

from functools import partial

import pytest

from woodref.climate.rooms import room_of
from woodref.errors import InputError
from woodref.piece.estimate import estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece
from woodref.reference.library import Reference

PIECE = """
name = "Rail (invented)"
units = "si"
[build]
{build}
[use]
driest = {{ moisture_pct = 6 }}
wettest = {{ moisture_pct = 10 }}
[[parts]]
name = "rail"
species = "white ash"
quantity = 1
length = 600
width = 80
thickness = 20
"""


@pytest.fixture(scope="module")
def rooms():
    reference = Reference(own=False)
    return Rooms(partial(room_of, reference))


def built(text, rooms):
    return parse_piece(PIECE.format(build=text), "piece.toml", rooms)


def test_the_month_of_the_shop(rooms):
    piece = built('place = "Tucson"\nsetting = "unheated-shop"\nmonth = "March"', rooms)
    season = rooms.find("Tucson", "unheated-shop").season
    assert piece.build.moisture_pct == season.months[2].emc_pct
    assert piece.use_notes[0].text.startswith("built in March, Tucson, Arizona")


def test_without_a_month_the_mean_of_the_year(rooms):
    piece = built('place = "Tucson"', rooms)
    season = rooms.find("Tucson", "unheated-shop").season
    assert piece.build.moisture_pct == pytest.approx(season.mean_emc_pct)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('place = "Tucsno"', "Tucson"),
        ('place = "Portland"', "several places"),
        ('place = "Tucson"\nmonth = "Smarch"', "is not a month"),
        ('place = "Tucson"\nmoisture_pct = 7', "not both"),
        ('setting = "heated-house"', "place: is missing"),
        ('place = "Tucson"\nsetting = "cave"', "setting"),
        ('month = "March"', "place: is missing"),
    ],
)
def test_mistakes_name_the_table_and_key(rooms, text, words):
    with pytest.raises(InputError) as caught:
        built(text, rooms)
    message = str(caught.value)
    assert message.startswith("piece.toml: build: ")
    assert words in message
    assert "\n" not in message


LIVES = 'place = "Portland, Maine"\nmonth = "{month}"'


def delivered(month, rooms):
    text = PIECE.replace(
        "driest = {{ moisture_pct = 6 }}\nwettest = {{ moisture_pct = 10 }}", "{use}"
    )
    use = LIVES.format(month=month) if month else 'place = "Portland, Maine"'
    build = 'place = "Tucson"\nmonth = "March"'
    return parse_piece(text.format(build=build, use=use), "piece.toml", rooms)


def test_it_arrives_in_its_month_or_in_the_one_after_the_build(rooms):
    reference = Reference(own=False)
    for month, first in (("May", 5), ("", 4)):
        found = estimate_piece(reference, delivered(month, rooms))
        assert found.delivery.months[0].month == first
        assert len(found.delivery.months) == 12


def test_a_month_of_arrival_that_is_none(rooms):
    with pytest.raises(InputError, match="use: month: 'Smarch' is not a month"):
        delivered("Smarch", rooms)


def test_a_month_of_arrival_without_a_town(rooms):
    text = PIECE.replace("wettest = {{ moisture_pct = 10 }}", 'month = "May"')
    with pytest.raises(InputError, match="use: driest: give either driest and wettest, or a place"):
        parse_piece(text.format(build="moisture_pct = 7"), "piece.toml", rooms)
