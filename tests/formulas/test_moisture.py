import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.moisture import (
    CELL_WALL_SPECIFIC_GRAVITY,
    EMC_TEMPERATURE_RANGE_C,
    equilibrium_moisture_content,
    maximum_moisture_content,
    meter_moisture_content,
    moisture_content,
    relative_humidity_for,
    sink_moisture_content,
)

temperatures = st.floats(*EMC_TEMPERATURE_RANGE_C)
humidities = st.floats(0.0, 99.0)


@given(temperatures, humidities)
def test_humidity_there_and_back(temperature, humidity):
    emc = equilibrium_moisture_content(temperature, humidity)
    assert relative_humidity_for(emc, temperature) == pytest.approx(humidity, abs=1e-8)


@given(temperatures, st.floats(0.0, 20.0))
def test_moisture_there_and_back(temperature, emc):
    back = equilibrium_moisture_content(temperature, relative_humidity_for(emc, temperature))
    assert back == pytest.approx(emc, abs=1e-9)


@given(temperatures, humidities, st.floats(0.01, 0.99))
def test_wetter_air_makes_wetter_wood(temperature, humidity, more):
    assert equilibrium_moisture_content(temperature, humidity + more) > (
        equilibrium_moisture_content(temperature, humidity)
    )


def test_inverse_takes_arrays_that_broadcast():
    emc = numpy.array([[6.0], [8.0]])
    celsius = numpy.array([5.0, 20.0, 35.0])
    humidity = relative_humidity_for(emc, celsius)
    assert humidity.shape == (2, 3)
    assert humidity[1, 2] == pytest.approx(relative_humidity_for(8.0, 35.0), abs=1e-9)
    assert relative_humidity_for(emc, 20.0).shape == (2, 1)
    assert relative_humidity_for(8.0, celsius).shape == (3,)


@pytest.mark.parametrize(
    "emc",
    [
        -0.1,
        equilibrium_moisture_content(20.0, 100.0),  # of saturated air itself
        60.0,
        float("nan"),
        numpy.array([8.0, 60.0]),
    ],
)
def test_inverse_refuses_what_no_air_gives(emc):
    with pytest.raises(ValueError, match=r"^no relative humidity below 100 % gives that"):
        relative_humidity_for(emc, 20.0)


def test_moisture_content_is_on_ovendry_mass():
    assert moisture_content(412.0, 371.0) == pytest.approx(11.05, abs=0.005)
    assert moisture_content(200.0, 100.0) == 100.0


@given(st.floats(0.05, 1.3))
def test_a_wood_sinks_before_it_is_full_and_full_wood_has_no_void(basic):
    full = maximum_moisture_content(basic)
    assert sink_moisture_content(basic) < full
    cell_wall, water = basic / CELL_WALL_SPECIFIC_GRAVITY, basic * full / 100.0
    assert cell_wall + water == pytest.approx(1.0)


@given(st.floats(6.0, 30.0), st.floats(-20.0, 50.0))
def test_meter_reads_low_in_the_cold(reading, celsius):
    at_calibration = meter_moisture_content(reading, 20.0, 20.0)
    assert at_calibration == reading
    corrected = meter_moisture_content(reading, celsius, 20.0)
    assert (corrected - reading) * (20.0 - celsius) >= 0.0
    colder = meter_moisture_content(reading, celsius - 10.0 / 1.8, 20.0)
    assert colder - corrected == pytest.approx(0.5)
