"""The year of a room: settings, own figures, months that are missing or impossible."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.climate.rooms import room_of
from woodref.climate.seasons import (
    SETTINGS,
    changed,
    checked_months,
    indoor_air,
    month_number,
    season,
    setting_of,
    two_seasons,
)
from woodref.errors import InputError
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.reference.library import Reference
from woodref.reference.places import Weather

HEATED = SETTINGS["heated house"]
COOLED = SETTINGS["air-conditioned house"]
YEAR = tuple(Weather(n, 10.0, 70.0) for n in range(1, 13))

airs = st.builds(Weather, st.just(1), st.floats(-35.0, 40.0), st.floats(5.0, 98.0))


@pytest.fixture(scope="module")
def reference():
    return Reference()


def test_duluth_in_january(reference):
    """Relative humidity 20 %, moisture content 4.5 %: Table 4-2 prints 4.5 at 70 F and 20 %."""
    january = room_of(reference, "Duluth", "heated house").season.months[0]
    assert january.outdoor_c == pytest.approx(-12.1, abs=0.1)
    assert (january.temperature_c, january.humidity_pct) == (21.0, 20.0)
    assert january.emc_pct == pytest.approx(4.5, abs=0.05)
    assert january.outdoor_extrapolated
    assert not january.extrapolated


def test_a_heated_house_by_hand():
    """5 C, 80 %: 6.98 hPa of vapor, 4.31 g/kg; plus 2 g is 10.18 hPa, at 21 C 41.0 %.

    Worked by hand from the Magnus form: saturation 8.72 hPa at 5 C, 24.83 hPa at 21 C.
    """
    celsius, humidity = indoor_air(HEATED, Weather(1, 5.0, 80.0))
    assert celsius == 21.0
    assert humidity == pytest.approx(41.0, abs=0.1)


@given(air=airs)
def test_a_heated_house_keeps_to_its_limits(air):
    celsius, humidity = indoor_air(HEATED, air)
    assert celsius == max(21.0, air.temperature_c)
    assert 20.0 <= humidity <= 60.0


@given(air=airs)
def test_an_air_conditioned_house_keeps_to_its_limits(air):
    celsius, humidity = indoor_air(COOLED, air)
    assert 21.0 <= celsius <= 24.0
    assert 20.0 <= humidity <= 55.0


@given(air=airs)
def test_under_cover_the_air_is_that_outdoors(air):
    celsius, humidity = indoor_air(SETTINGS["outdoors under cover"], air)
    assert (celsius, humidity) == (
        air.temperature_c,
        pytest.approx(air.humidity_pct, abs=1e-9),
    )


@given(air=airs)
def test_a_shop_a_little_warmer_is_a_little_drier(air):
    celsius, humidity = indoor_air(SETTINGS["unheated shop"], air)
    assert celsius == air.temperature_c + 3.0
    assert 0.7 * air.humidity_pct < humidity < air.humidity_pct


@given(air=airs)
def test_a_controlled_room_hardly_moves(air):
    celsius, humidity = indoor_air(SETTINGS["humidity-controlled room"], air)
    assert celsius == 21.0
    assert 40.0 <= humidity <= 50.0


def test_settings_by_name():
    for text in ("heated house", "heated-house", " Heated-House "):
        assert setting_of(text) is HEATED
    with pytest.raises(InputError, match="nearest: heated-house"):
        setting_of("heatd house")
    with pytest.raises(InputError, match=r"use outdoors-under-cover, .*humidity-controlled-room"):
        setting_of("zzz")


def test_every_setting_says_its_rule():
    assert HEATED.rule == (
        "the warmer of 21 C (69.8 F) and the outdoor mean, outdoor air plus 2 g of water per kg, "
        "relative humidity held between 20 and 60 %"
    )
    assert all(s.rule for s in SETTINGS.values())


def test_changed_figures():
    cool = changed(HEATED, indoor_c=18.0, low_pct=None)
    assert indoor_air(cool, Weather(1, 0.0, 80.0))[0] == 18.0
    assert cool.low_pct == 20.0
    # a room of one temperature stays one of one temperature
    room = changed(SETTINGS["humidity-controlled room"], indoor_c=18.0)
    assert indoor_air(room, Weather(7, 25.0, 60.0))[0] == 18.0
    # the cooling limit gives way to a warmer room, and stays for a cooler one
    assert changed(COOLED, indoor_c=26.0).cooled_c == 26.0
    assert changed(COOLED, indoor_c=19.0).cooled_c == 24.0


@pytest.mark.parametrize(
    ("figures", "said"),
    [
        ({"high_pct": 130.0}, "0 to 100 %, not 130"),
        ({"low_pct": 70.0}, "exchange them"),
        ({"added_g_kg": -1.0}, "0 to 20 g"),
        ({"indoor_c": 90.0}, "-20 to 60 C"),
    ],
)
def test_figures_that_make_no_room(figures, said):
    with pytest.raises(InputError, match=said):
        changed(HEATED, **figures)


@pytest.mark.parametrize(
    ("months", "said"),
    [
        (YEAR[:2] + YEAR[3:], "March is missing"),
        (YEAR[:1], "February, March, April"),
        ((*YEAR, YEAR[4]), "May is there twice"),
        ((Weather(13, 10.0, 50.0),), "1 to 12, not 13"),
        ((*YEAR[:11], Weather(12, 10.0, 104.0)), "December: a relative humidity is 0 to 100 %"),
        ((*YEAR[:11], Weather(12, 70.0, 40.0)), "check the unit"),
    ],
)
def test_months_that_make_no_year(months, said):
    with pytest.raises(InputError, match=said):
        checked_months(months)


def test_months_in_any_order():
    assert checked_months(YEAR[::-1]) == YEAR


def test_two_seasons_meet_their_ends():
    year = two_seasons((18.0, 30.0), (25.0, 60.0))
    assert (year[0].temperature_c, year[0].humidity_pct) == (18.0, 30.0)
    assert year[6].humidity_pct == pytest.approx(60.0)
    assert year[3].humidity_pct == pytest.approx(45.0)
    south = two_seasons((18.0, 30.0), (25.0, 60.0), southern=True)
    assert south[0].humidity_pct == 60.0


def test_emc_is_that_of_the_air_and_at_most_fiber_saturation():
    year = season(YEAR, HEATED)
    assert year.months[0].outdoor_emc_pct == equilibrium_moisture_content(10.0, 70.0)
    wet = season([Weather(n, 10.0, 100.0) for n in range(1, 13)], SETTINGS["outdoors under cover"])
    assert wet.wettest.emc_pct <= 30.0


def test_thinner_air_takes_up_a_little_more_from_the_same_water(reference):
    """At elevation the same grams per kg are less vapor pressure: Denver is drier for it."""
    months = [Weather(n, 0.0, 60.0) for n in range(1, 13)]
    low, high = (season(months, HEATED, e).months[0].humidity_pct for e in (0.0, 1600.0))
    assert high < low


def test_extrapolated_months_are_named():
    cold = [Weather(n, -25.0 if n == 1 else 5.0, 70.0) for n in range(1, 13)]
    said = {n.code: n.text for n in season(cold, HEATED).notes}
    assert said["emc-extrapolated"].startswith("extrapolated outdoors")
    assert said["emc-extrapolated"].endswith(": Jan")
    assert "indicative" in said["humidity-coarse"]
    shop = {n.code: n.text for n in season(cold, SETTINGS["unheated shop"]).notes}
    assert shop["emc-extrapolated"].endswith(": Jan")
    assert season(YEAR, HEATED).notes == ()


def test_the_notes_of_a_room(reference):
    denver = {n.code: n for n in room_of(reference, "Denver").notes}
    assert "record-flagged" in denver
    assert denver["setting-rule"].basis == "common_practice"
    assert "common practice, no source" in denver["setting-rule"].text
    vienna = {n.code: n.text for n in room_of(reference, "Vienna").notes}
    assert "Deutscher Wetterdienst, values processed" in vienna["attribution"]
    assert "station-far" in [n.code for n in room_of(reference, "44.5,-110").notes]


@pytest.mark.parametrize("text", ["3", "03", "mar", " March ", "MARCH", "marc"])
def test_a_month_by_its_number_or_its_name(text):
    assert month_number(text) == 3


@pytest.mark.parametrize(
    ("text", "way_on"),
    [
        ("0", "write 1 to 12"),
        ("13", "write 1 to 12"),
        ("0012345", "write 1 to 12"),
        ("\u00b2", "write 1 to 12"),
        ("", "write 1 to 12"),
        ("ma", "nearest: May"),
        ("j", "write 1 to 12"),
        ("thirteenth", "write 1 to 12"),
        ("Janury", "nearest: January"),
        ("Smarch", "nearest: March"),
    ],
)
def test_what_is_no_month_is_refused_with_a_way_on(text, way_on):
    with pytest.raises(InputError, match=f"'{text}' is not a month; {way_on}"):
        month_number(text)
