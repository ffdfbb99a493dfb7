import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.cli.options import UnitSystem, moisture
from woodref.errors import InputError

US, SI = UnitSystem.us, UnitSystem.si


@pytest.mark.parametrize(
    ("text", "units", "expected"),
    [
        ("8", US, 8.0),
        (" 8.5 % ", US, 8.5),
        ("0", US, 0.0),
        ("green", US, 30.0),
        ("Green ", SI, 30.0),
        # FPL-GTR-190 (2010), Table 4-2, 70 F.
        ("70F,40%", US, 7.7),
        ("70,40", US, 7.7),
        ("21.1, 40 %", SI, 7.7),
        ("70 F,65%", SI, 12.0),
    ],
)
def test_ways_to_say_how_wet(text, units, expected):
    assert moisture(text, units) == pytest.approx(expected, abs=0.06)


@pytest.mark.parametrize(
    "text",
    ["", "dry", "8,", ",40", "8;40", "68F,40%,3", "68F,-3", "68F,100", "-1", "nan", "10F,40"],
)
def test_what_is_no_moisture_content(text):
    with pytest.raises(InputError):
        moisture(text, US)


def answered(text):
    """A moisture content, or the message it was refused with."""
    try:
        return moisture(text, US)
    except InputError as error:
        return str(error)


@given(st.one_of(st.text(max_size=20), st.from_regex(r"-?[0-9]{1,4}F?,-?[0-9]{1,3}%?")))
def test_any_text_is_a_moisture_content_or_refused_in_one_line(text):
    found = answered(text)
    if isinstance(found, str):
        assert "\n" not in found
    else:
        assert found >= 0.0


def test_an_option_cut_short_is_answered_with_the_one_that_begins_so(woodref):
    asked = ["section", "red oak", "--width", "10in", "--thickness", "1in", "--pith", "1in"]
    assert "no option --pith; nearest: --pith-distance" in woodref(*asked).err


def test_a_weight_given_as_a_usual_load_and_a_porch_are_shown_the_way(woodref):
    shelf = ["deflection", "cherry", "--span", "36in", "--width", "10in", "--thickness", "3/4in"]
    assert "is a uniform load" in woodref(*shelf, "--load", "20 lb/ft").err
    room = ["movement", "cherry", "--width", "8in", "--place", "Savannah", "--setting", "porch"]
    assert "a porch is outdoors-under-cover or" in woodref(*room).err
