"""What a user may change of a room, on the command line and in a piece file."""

import pytest

from woodref.climate.room_figures import ROOM_KEYS, read_room_option, room_figures
from woodref.errors import InputError
from woodref.formulas.room import RoomFigures


def test_every_key_stands_for_a_figure_and_its_example_is_read():
    for key, k in ROOM_KEYS.items():
        assert k.field in RoomFigures._fields
        assert room_figures({key: k.example}, "C")[k.field] > 0.0


def test_figures_of_the_command_line():
    figures = read_room_option(["heated_to=68F", " dehumidifier_pct = 50 "], "C")
    assert figures == {"heated_c": pytest.approx(20.0), "dehumidifier_pct": 50.0}
    assert read_room_option(["heated_to=68"], "F")["heated_c"] == pytest.approx(20.0)


@pytest.mark.parametrize(
    ("values", "said"),
    [
        (["heated_to"], "takes a key and a value"),
        (["heated_to="], "takes a key and a value"),
        (["heatd_to=68F"], "a room has no heatd_to.*heated_to"),
        (["band_pct=10", "band_pct=5"], "band_pct is given twice"),
        (["vapor_gain_g_m3=some"], "vapor_gain_g_m3: 'some' is not a number"),
    ],
)
def test_what_is_no_figure_is_refused(values, said):
    with pytest.raises(InputError, match=said):
        read_room_option(values, "C")
