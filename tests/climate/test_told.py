"""What this room answers, whole and in words, as told.txt holds it."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy
import pandas
import pytest
from told import assert_held, by_name

from woodref.board.movement import movement
from woodref.climate import (
    air,
    monthly_csv,
    part_seasons,
    room_figures,
    rooms,
    seasons,
    settings,
    sizes_by_month,
)
from woodref.formulas.room import ROOM_FIGURES, RoomFigures
from woodref.reference.library import Reference
from woodref.reference.places import Place, Weather

REFERENCE = Reference()


@cache
def room(place, setting=""):
    """A room of the dataset."""
    return rooms.room_of(REFERENCE, place, setting)


def year(celsius=10.0, humidity=70.0, **months):
    """Twelve months of one air, but for those that are given as jan=(-5.0, 80.0)."""
    given = {seasons.month_number(name): air for name, air in months.items()}
    return [Weather(n, *given.get(n, (celsius, humidity))) for n in range(1, 13)]


def of(setting, months):
    """The year of a room."""
    return seasons.season(months, settings.setting_of(setting))


def figures(**given):
    """A heated house with some of its figures changed."""
    return settings.changed(settings.SETTINGS["heated house"], given)


NAMES = {
    **{m.__name__.rpartition(".")[2]: m for m in (air, monthly_csv, room_figures, rooms)},
    **{m.__name__.rpartition(".")[2]: m for m in (part_seasons, seasons, settings)},
    **{"sizes_by_month": sizes_by_month, "REFERENCE": REFERENCE, "room": room, "year": year},
    **{"of": of, "figures": figures, "Place": Place, "Weather": Weather, "replace": replace},
    **{"numpy": numpy, "pandas": pandas, "movement": movement, "Path": Path},
    **{"RoomFigures": RoomFigures, "ROOM_FIGURES": ROOM_FIGURES},
    "HEADER": "month,temperature,humidity_pct\n",
}
HELD = by_name(Path(__file__).with_name("told.txt"))


@pytest.mark.parametrize("about", HELD)
def test_the_answers_are_those_held(about):
    assert_held(HELD[about], NAMES, "climate")
