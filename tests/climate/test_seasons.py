"""The year of a room: settings, own figures, months that are missing or impossible."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.climate.air import checked_air
from woodref.climate.room_figures import read_room_option
from woodref.climate.rooms import Room, room_of
from woodref.climate.seasons import (
    Season,
    checked_months,
    indoor_air,
    month_number,
    season,
    two_seasons,
)
from woodref.climate.settings import SETTINGS, Machine, changed, setting_of, usual_setting
from woodref.errors import InputError
from woodref.formulas.moisture import equilibrium_moisture_content
from woodref.formulas.room import COOLING_BASE_C, HOT_C
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.places import Weather
from woodref.reference.ratings import decay_note

HEATED = SETTINGS["heated house"]
COOLED = SETTINGS["air-conditioned house"]
YEAR = tuple(Weather(n, 10.0, 70.0) for n in range(1, 13))

airs = st.builds(Weather, st.just(1), st.floats(-35.0, 40.0), st.floats(5.0, 98.0))


@pytest.fixture(scope="module")
def reference():
    return Reference()


def test_duluth_in_january(reference):
    """Vapor of the outdoors plus 4 g/m3, worked by hand from the Magnus form.

    -12.1 C and 74 %: 180 Pa; 4 g/m3 at 21 C: 543 Pa; 723 of 2,483 Pa is 29.1 %, and Table 4-2
    prints 6.2 at 70 F and 30 %.
    """
    january = room_of(reference, "Duluth", "heated house").season.months[0]
    assert january.outdoor_c == pytest.approx(-12.1, abs=0.1)
    assert january.temperature_c == 21.0
    assert january.humidity_pct == pytest.approx(29.1, abs=0.2)
    assert january.emc_pct == pytest.approx(6.0, abs=0.05)
    assert january.emcs_pct.low < january.emc_pct - 1.5
    assert january.outdoor_extrapolated
    assert not january.extrapolated
    assert january.machine is None


@given(air=airs)
def test_a_heated_house_has_no_machine(air):
    celsius, humidities, machine = indoor_air(HEATED, air)
    assert celsius == max(21.0, air.temperature_c)
    assert machine is None
    assert humidities.low <= humidities.expected <= humidities.high <= 100.0
    # Windows stand open from 20 C on: what is outdoors is indoors.
    if air.temperature_c >= 21.0:
        assert humidities.high == pytest.approx(air.humidity_pct)


@given(air=airs)
def test_an_air_conditioner_holds_a_band_where_it_runs(air):
    celsius, humidities, machine = indoor_air(COOLED, air)
    assert 21.0 <= celsius <= 24.0
    if air.temperature_c > COOLING_BASE_C:
        assert humidities.expected <= 55.0
        assert humidities.high <= 65.0
        assert humidities.low <= 45.0
        assert machine in (None, Machine.AIR_CONDITIONER)
        if machine:
            assert humidities.expected == 55.0
    else:
        assert machine is None


def test_an_air_conditioner_set_to_a_point_leaves_a_band():
    muggy = indoor_air(COOLED, Weather(7, 28.0, 80.0))
    assert muggy.humidities_pct == Range(55.0, 45.0, 65.0)
    assert muggy.machine is Machine.AIR_CONDITIONER


@given(air=airs)
def test_under_cover_the_air_is_that_outdoors(air):
    celsius, humidities, _ = indoor_air(SETTINGS["outdoors under cover"], air)
    assert celsius == air.temperature_c
    assert list(humidities) == pytest.approx([air.humidity_pct] * 3, abs=1e-9)


@given(air=airs)
def test_a_shop_a_little_warmer_is_a_little_drier(air):
    celsius, humidities, _ = indoor_air(SETTINGS["unheated shop"], air)
    assert celsius == air.temperature_c + 3.0
    assert 0.7 * air.humidity_pct < humidities.low < air.humidity_pct


@given(air=airs)
def test_a_controlled_room_is_held_within_its_band(air):
    celsius, humidities, machine = indoor_air(SETTINGS["humidity-controlled room"], air)
    assert celsius == 21.0
    assert 40.0 <= humidities.expected <= 50.0
    assert humidities.low >= 35.0
    assert humidities.high <= 55.0
    edge = {40.0: Machine.HUMIDIFIER, 50.0: Machine.DEHUMIDIFIER}
    assert machine in (None, edge.get(humidities.expected))


@given(air=airs, gain=st.floats(0.0, 10.0), point=st.floats(20.0, 80.0), band=st.floats(0.0, 20.0))
def test_no_figures_put_the_expected_outside_its_ends(air, gain, point, band):
    room = changed(COOLED, {"gain_g_m3": gain, "cooler_pct": point, "band_pct": band})
    _, humidities, _ = indoor_air(room, air)
    assert humidities.low <= humidities.expected <= humidities.high


@given(
    celsius=st.lists(st.floats(-20.0, 35.0), min_size=12, max_size=12),
    humidity=st.lists(st.floats(20.0, 95.0), min_size=12, max_size=12),
    name=st.sampled_from(sorted(SETTINGS)),
)
def test_a_design_range_is_never_narrow_and_holds_the_year(celsius, humidity, name):
    airs = zip(range(1, 13), celsius, humidity, strict=True)
    year = season([Weather(*air) for air in airs], SETTINGS[name])
    mean, low, high = year.design_pct
    assert low <= max(0.0, mean - 2.0) + 1e-9
    assert high >= min(mean + 2.0, 30.0) - 1e-9
    assert all(low <= m.emcs_pct.low and m.emcs_pct.high <= high for m in year.months)
    course = year.design_course_pct
    assert (min(course), max(course)) == (pytest.approx(low), pytest.approx(high))


def test_a_room_held_all_year_is_designed_for_all_the_same(reference):
    """In Singapore an air-conditioned year used to swing by nothing, and a top got no slot."""
    room = room_of(reference, "Singapore", "air-conditioned house")
    assert room.season.is_still
    _, low, high = room.season.design_pct
    assert high - low >= 3.9
    assert not room.season.design_driest.reached
    assert len(room.season.held[Machine.AIR_CONDITIONER]) == 12


def test_in_the_open_rain_goes_to_fiber_saturation(reference):
    room = room_of(reference, "Savannah", "outdoors")
    assert room.season.design_pct.high == 30.0
    assert "rain-and-sun" in [n.code for n in room.notes]
    covered = room_of(reference, "Savannah", "outdoors under cover")
    assert covered.season.design_pct.high < 20.0


@pytest.mark.parametrize(
    ("place", "name"),
    [
        ("Duluth", "heated house"),
        ("Vienna", "heated house"),
        ("Phoenix", "air-conditioned house"),
        ("Singapore", "air-conditioned house"),
    ],
)
def test_the_usual_setting_is_that_of_the_climate(reference, place, name):
    usual = room_of(reference, place)
    assert usual.season.setting is SETTINGS[name]
    assert "setting-assumed" in [n.code for n in usual.notes]
    assert "setting-assumed" not in [n.code for n in room_of(reference, place, name).notes]
    assert max(m.temperature_c for m in usual.season.months) <= 24.0


def test_settings_by_name():
    for text in ("heated house", "heated-house", " Heated-House ", "heated - house"):
        assert setting_of(text) is HEATED
    with pytest.raises(InputError, match="nearest: heated-house"):
        setting_of("heatd house")
    with pytest.raises(InputError, match=r"use outdoors, .*humidity-controlled-room"):
        setting_of("zzz")


def test_every_setting_says_its_rule():
    assert HEATED.rule("si") == (
        "heated to 21 C, cooking, showers and breathing add 4 g/m3 of moisture in frost "
        "(2 to 6), none from 20 C outdoors on"
    )
    assert HEATED.rule("us").startswith("heated to 70 F, cooking")
    assert HEATED.rule("us").endswith("none from 68 F outdoors on")
    assert "the air conditioner holds 55 % at most (45 to 65 %)" in COOLED.rule("us")
    assert all(s.rule("si") for s in SETTINGS.values())


def test_changed_figures():
    cool = changed(HEATED, {"heated_c": 18.0})
    assert indoor_air(cool, Weather(1, 0.0, 80.0)).temperature_c == 18.0
    # a room of one temperature stays one of one temperature
    room = changed(SETTINGS["humidity-controlled room"], {"heated_c": 18.0})
    assert indoor_air(room, Weather(7, 25.0, 60.0)).temperature_c == 18.0
    # the cooling limit gives way to a warmer room, and stays for a cooler one
    assert changed(COOLED, {"heated_c": 26.0}).figures.cooled_c == 26.0
    assert changed(COOLED, {"heated_c": 19.0}).figures.cooled_c == 24.0
    damp = changed(HEATED, {"humidifier_pct": 40.0, "band_pct": 5.0})
    frost = indoor_air(damp, Weather(1, -10.0, 80.0))
    assert frost.humidities_pct == Range(40.0, 35.0, 45.0)
    assert frost.machine is Machine.HUMIDIFIER


@pytest.mark.parametrize("name", ["humidifier_pct", "dehumidifier_pct"])
def test_air_that_is_as_a_machine_keeps_it_is_not_held(name):
    """The room has the very air outdoors, and the machine is set to its humidity."""
    room = changed(SETTINGS["outdoors under cover"], {name: 40.0})
    assert indoor_air(room, Weather(4, 10.0, 40.0)).machine is None


def test_a_humidifier_may_be_set_to_saturated_air():
    assert changed(HEATED, {"humidifier_pct": 100.0}).figures.humidifier_pct == 100.0


def test_a_swing_of_half_a_percent_is_a_swing():
    months = season(YEAR, HEATED).months
    drier, wetter = (months[0]._replace(emcs_pct=Range(m, m, m)) for m in (8.0, 8.5))
    assert not Season(HEATED, (drier, wetter)).is_still
    assert Season(HEATED, (drier, drier)).is_still


def test_a_warmest_month_at_the_bound_is_not_hot(reference):
    """What is said of the setting that was taken is why it was taken."""
    months = [Weather(n, HOT_C, 50.0) for n in range(1, 13)]
    usual = usual_setting(months)
    assert usual is HEATED
    told = Room(room_of(reference, "Duluth").place, season(months, usual), assumed=True).notes[0]
    assert "outdoors is not over 24 C" in told.text


@pytest.mark.parametrize(
    ("figures", "said"),
    [
        ({"dehumidifier_pct": 130.0}, "0 to 100 %, not 130"),
        ({"humidifier_pct": 70.0, "dehumidifier_pct": 50.0}, "exchange them"),
        ({"gain_g_m3": -1.0}, "0 to 15 g/m3"),
        ({"heated_c": 90.0}, "-20 to 60 C"),
        ({"heated_c": 22.0, "cooled_c": 20.0}, "heated to 71.6 F .22 C. and cooled to 68 F .20 C."),
        ({"band_pct": 60.0}, "usual is 10"),
    ],
)
def test_figures_that_make_no_room(figures, said):
    with pytest.raises(InputError, match=said):
        changed(HEATED, figures)


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


@pytest.mark.parametrize(
    ("ask", "us", "si"),
    [
        (lambda: checked_months((*YEAR[:11], Weather(12, 70.0, 40.0))), "158 F", "70 C"),
        (lambda: changed(HEATED, {"heated_c": 90.0}), "194 F", "90 C"),
        (lambda: changed(HEATED, {"heated_c": 25.0, "cooled_c": 20.0}), "77 F", "25 C"),
        (lambda: checked_air(99.0, 50.0), "210.2 F", "99 C"),
        (lambda: read_room_option(["heated_to"], "C"), "68F", "20C"),
    ],
)
def test_a_mistake_is_told_in_the_units_asked_for(ask, us, si):
    with pytest.raises(InputError) as caught:
        ask()
    american, metric = (caught.value.told(units) for units in ("us", "si"))
    assert us in american
    assert si in metric
    assert not re.search(r"\d ?C\b", american)
    assert not re.search(r"\d ?F\b", metric)


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


def test_outdoors_the_decay_class_is_told(reference):
    oak, ash = (decay_note(reference, reference.wood(n)) for n in ("white oak", "white ash"))
    assert oak.text.startswith("white oak: decay resistance of heartwood resistant")
    assert "slightly or nonresistant" in ash.text
    assert SETTINGS["outdoors"].is_outdoors
    assert not SETTINGS["unheated shop"].is_outdoors
