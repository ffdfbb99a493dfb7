"""The air of a room against a reference library for moist air, and against its own limits."""

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.room import COOLING_BASE_C, RoomFigures, held_humidity, room_humidity

psychrolib.SetUnitSystem(psychrolib.SI)

temperatures = st.floats(0.5, 45.0)
humidities = st.floats(1.0, 99.0)
SEA_LEVEL_PA = 101_325.0


@given(celsius=temperatures, humidity=humidities, warmer=st.floats(0.0, 20.0))
def test_heating_against_the_reference(celsius, humidity, warmer):
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100.0, SEA_LEVEL_PA)
    expected = psychrolib.GetRelHumFromHumRatio(celsius + warmer, ratio, SEA_LEVEL_PA)
    found = room_humidity(celsius, humidity, celsius + warmer)
    assert found == pytest.approx(100.0 * expected, rel=0.006, abs=0.01)


@given(celsius=st.floats(0.5, 19.0), humidity=st.floats(1.0, 80.0), gain=st.floats(0.5, 6.0))
def test_vapor_added_against_the_reference(celsius, humidity, gain):
    """Grams per m3 are those of the room's own air: mixing ratio over its specific volume."""
    room = 22.0
    pa = psychrolib.GetVapPresFromRelHum(celsius, humidity / 100.0)
    before = psychrolib.GetHumRatioFromVapPres(pa, SEA_LEVEL_PA)
    after = psychrolib.GetHumRatioFromRelHum(
        room, room_humidity(celsius, humidity, room, gain) / 100.0, SEA_LEVEL_PA
    )
    grams = [
        1000.0 * w / psychrolib.GetMoistAirVolume(room, w, SEA_LEVEL_PA) for w in (before, after)
    ]
    share = (20.0 - celsius) / 20.0
    # The two take the vapor pressure of saturated air from different equations.
    assert grams[1] - grams[0] == pytest.approx(gain * share, rel=0.02, abs=0.06)


@pytest.mark.parametrize(("outdoor_c", "pascal"), [(-15.0, 540.0), (0.0, 540.0), (10.0, 270.0)])
def test_the_humidity_class_of_a_dwelling(outdoor_c, pascal):
    """ISO 13788, upper line of class 2: 540 Pa at 0 degC and below, none at 20 (from memory)."""
    dry, lived_in = (room_humidity(outdoor_c, 0.0, 20.0, gain) for gain in (0.0, 4.0))
    assert dry == 0.0
    assert lived_in / 100.0 * psychrolib.GetSatVapPres(20.0) == pytest.approx(pascal, rel=0.01)


@given(celsius=st.floats(20.0, 45.0), humidity=humidities, gain=st.floats(0.0, 6.0))
def test_living_adds_nothing_when_windows_are_open(celsius, humidity, gain):
    assert room_humidity(celsius, humidity, celsius, gain) == pytest.approx(humidity, rel=1e-12)


@given(celsius=st.floats(-30.0, 45.0), humidity=humidities, cooler=st.floats(0.0, 40.0))
def test_cooling_never_goes_beyond_saturation(celsius, humidity, cooler):
    found = room_humidity(celsius, humidity, celsius - min(cooler, celsius + 40.0))
    assert humidity - 1e-9 <= found <= 100.0


@given(humidity=humidities, least=st.floats(0.0, 50.0), most=st.floats(50.0, 100.0))
def test_machines_hold_between_their_points(humidity, least, most):
    held = held_humidity(humidity, least, most)
    assert least <= held <= most
    assert held == humidity or held in (least, most)


def test_a_room_of_figures_is_its_vapor_and_its_machines():
    """Each end moves every figure by its band; none below 0, nor above saturation."""
    room = RoomFigures(
        gain_g_m3=1.0,
        gain_band_g_m3=2.0,
        humidifier_pct=8.0,
        dehumidifier_pct=95.0,
        cooler_pct=60.0,
        band_pct=10.0,
    )
    for outdoor, humidity, inside in ((-10.0, 80.0, 21.0), (5.0, 100.0, 6.0), (30.0, 85.0, 24.0)):
        for end, gain, least, dry, cool in (
            (-1, 0.0, 0.0, 85.0, 50.0),
            (0, 1.0, 8.0, 95.0, 60.0),
            (1, 3.0, 18.0, 100.0, 70.0),
        ):
            most = min(dry, cool) if outdoor > COOLING_BASE_C else dry
            by_hand = min(max(room_humidity(outdoor, humidity, inside, gain), least), most)
            assert room.humidity(outdoor, humidity, inside, end) == pytest.approx(by_hand)
    assert room.humidity(30.0, 85.0, 24.0) == room.humidity(30.0, 85.0, 24.0, 0)


def test_a_room_without_machines_is_left_to_its_vapor():
    """A humidifier at 0 and a dehumidifier at 100 % are none, whatever the band."""
    for end, gain in ((-1, 2.0), (0, 4.0), (1, 6.0)):
        free = room_humidity(-10.0, 30.0, 21.0, gain)
        dwelling = RoomFigures(heated_c=21.0, gain_g_m3=4.0, gain_band_g_m3=2.0)
        assert dwelling.humidity(-10.0, 30.0, 21.0, end) == pytest.approx(free)
    frost = room_humidity(-30.0, 20.0, 21.0)
    assert frost < 0.5
    for end in (-1, 0, 1):
        assert RoomFigures().humidity(-30.0, 20.0, 21.0, end) == pytest.approx(frost)
    assert [held_humidity(x) for x in (frost, 100.5)] == [frost, 100.0]
    # A humidifier set to 1 % is one, whose low end is nothing.
    least = RoomFigures(humidifier_pct=1.0, band_pct=5.0)
    assert least.humidity(-30.0, 20.0, 21.0) == 1.0
    assert least.humidity(-30.0, 20.0, 21.0, -1) == pytest.approx(frost)
    assert RoomFigures(band_pct=5.0).humidity(20.0, 100.0, 15.0, -1) == 100.0
    # At the base itself an air conditioner does not run yet.
    still = RoomFigures(cooler_pct=50.0)
    assert still.humidity(COOLING_BASE_C, 90.0, COOLING_BASE_C) == pytest.approx(90.0)
    assert still.humidity(COOLING_BASE_C + 0.1, 90.0, COOLING_BASE_C + 0.1) == 50.0
    # A dehumidifier set to 1 % takes the air to nothing at its low end, not below.
    assert RoomFigures(dehumidifier_pct=1.0).humidity(20.0, 90.0, 20.0, -1) == 0.0
