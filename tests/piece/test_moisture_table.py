"""Driest and wettest of a piece: given, or the year of a room in a town."""

from functools import partial

import pytest

from woodref.climate.rooms import room_of
from woodref.errors import InputError
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece
from woodref.reference.library import Reference

PIECE = """
name = "Shelf (invented)"
units = "us"
[build]
moisture_pct = 7.0
{use}
[[parts]]
name = "shelf"
species = "sugar maple"
length = "36"
width = "9-1/2"
thickness = "3/4"
"""
GIVEN = "[use]\ndriest = { moisture_pct = 6 }\nwettest = { moisture_pct = 11 }"


@pytest.fixture(scope="module")
def find():
    reference = Reference()
    return partial(room_of, reference)


def piece(use, **rooms):
    return parse_piece(PIECE.format(use=use), "shelf.toml", Rooms(**rooms))


def test_a_town_and_a_room(find):
    read = piece('[use]\nplace = "Savannah"\nsetting = "air-conditioned house"', find=find)
    room = find("Savannah", "air-conditioned-house").season
    dry, wet = room.design_driest, room.design_wettest
    assert read.driest.moisture_pct == dry.moisture_pct
    assert read.wettest.moisture_pct == wet.moisture_pct
    assert read.wettest.temperature_c == wet.month.temperature_c
    # The air told beside it is the one that brings wood to that moisture content.
    assert read.wettest.humidity_pct == pytest.approx(wet.month.humidities_pct.high, abs=0.1)
    told = "Savannah, Georgia, air-conditioned house: designed for "
    assert read.use_notes[0].text.startswith(told)


def test_the_figures_of_a_room_are_changed_in_the_file(find):
    use = '[use]\nplace = "Duluth"\nsetting = "heated-house"\n'
    usual = piece(use, find=find)
    held = piece(f'{use}humidifier_pct = 40\nheated_to = "64F"\nband_pct = 5', find=find)
    assert held.driest.moisture_pct > usual.driest.moisture_pct + 2.0
    assert held.driest.temperature_c == pytest.approx((64.0 - 32.0) / 1.8)
    bare = piece(f"{use}heated_to = 64", find=find)
    assert bare.driest.temperature_c == pytest.approx((64.0 - 32.0) / 1.8)
    front = piece(f"{use}humidifier_pct = 40", find=find, figures={"humidifier_pct": 0.0})
    assert front.driest == usual.driest


def test_in_the_open_the_wettest_is_fiber_saturation(find):
    read = piece('[use]\nplace = "Duluth"\nsetting = "outdoors"', find=find)
    assert (read.wettest.moisture_pct, read.wettest.humidity_pct) == (30.0, None)


def test_the_usual_setting_and_the_usual_place(find):
    assert piece('[use]\nplace = "Duluth"', find=find).driest.moisture_pct == pytest.approx(
        4.2, abs=0.05
    )
    read = piece('[use]\nsetting = "unheated-shop"', find=find, usual_place="Tucson")
    assert read.use_notes[0].text.startswith("Tucson, Arizona, unheated shop")


def test_the_command_line_goes_before_the_file(find):
    for use in (GIVEN, '[use]\nplace = "Savannah"', ""):
        read = piece(use, find=find, place="Duluth", setting="heated-house")
        assert read.use_notes[0].text.startswith("Duluth, Minnesota, heated house")
    read = piece('[use]\nplace = "Savannah"', find=find, setting="unheated-shop")
    assert read.use_notes[0].text.startswith("Savannah, Georgia, unheated shop")


def test_a_default_place_leaves_given_figures_alone(find):
    read = piece(GIVEN, find=find, usual_place="Tucson")
    assert (read.driest.moisture_pct, read.wettest.moisture_pct) == (6.0, 11.0)
    assert read.use_notes == ()


@pytest.mark.parametrize(
    ("use", "said"),
    [
        ('[use]\nplace = "Savanah"', "shelf.toml: use: place: no place is called 'Savanah'"),
        (
            '[use]\nplace = "Duluth"\nheated_to = "warm"',
            "shelf.toml: use: heated_to: heated_to: 'warm' is not a temperature",
        ),
        ('[use]\nplace = "Portland"', "shelf.toml: use: place: several places are called"),
        (
            '[use]\nplace = "Duluth"\nsetting = "heated"',
            "'heated' is no setting; use outdoors, outdoors-under-cover, un",
        ),
        ('[use]\nsetting = "heated-house"', "shelf.toml: use: place: is missing"),
        (GIVEN + '\nplace = "Duluth"', "use: driest: give either driest and wettest, or a place"),
        ('[use]\nplaice = "Duluth"', "use: plaice: unknown key; did you mean 'place'?"),
        ("[use]\nplace = 4", "use: place: must be text"),
        ("", "shelf.toml: use: is missing"),
    ],
)
def test_mistakes_name_file_table_and_key(find, use, said):
    with pytest.raises(InputError) as caught:
        piece(use, find=find)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


def test_without_a_reference_library_a_town_is_refused():
    with pytest.raises(InputError, match="needs the reference library"):
        piece('[use]\nplace = "Duluth"')
