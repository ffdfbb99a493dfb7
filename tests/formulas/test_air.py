"""Moist air against a general-purpose reference library, above freezing.

Below freezing that library takes saturation over ice, weather records over liquid water;
the two are not comparable there, and a test says by how much they part.
"""

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.air import (
    STANDARD_PRESSURE_PA,
    humidity_ratio,
    relative_humidity_after,
    relative_humidity_of,
    saturation_vapor_pressure,
    standard_pressure,
)

psychrolib.SetUnitSystem(psychrolib.SI)

ABOVE_FREEZING = [0.5, 5.0, 10.0, 15.0, 21.0, 25.0, 30.0, 40.0, 50.0]
temperatures = st.floats(0.5, 45.0)
humidities = st.floats(1.0, 99.0)


@pytest.mark.parametrize("celsius", ABOVE_FREEZING)
def test_saturation_within_three_tenths_of_a_percent_of_the_reference(celsius):
    assert saturation_vapor_pressure(celsius) == pytest.approx(
        psychrolib.GetSatVapPres(celsius), rel=0.003
    )


@pytest.mark.parametrize(("celsius", "pascal"), [(0.0, 611.2), (10.0, 1228.2), (20.0, 2339.3)])
def test_saturation_at_points_of_the_steam_tables(celsius, pascal):
    """Steam tables (IAPWS formulation of 1995; the three values from memory)."""
    assert saturation_vapor_pressure(celsius) == pytest.approx(pascal, rel=0.003)


@pytest.mark.parametrize(("celsius", "factor"), [(-5.0, 1.05), (-10.0, 1.10), (-20.0, 1.22)])
def test_below_freezing_the_reference_is_over_ice(celsius, factor):
    ice = psychrolib.GetSatVapPres(celsius)
    assert saturation_vapor_pressure(celsius) / ice == pytest.approx(factor, abs=0.005)


@given(celsius=temperatures, humidity=humidities, elevation=st.floats(0.0, 3000.0))
def test_humidity_ratio_against_the_reference(celsius, humidity, elevation):
    pascal = standard_pressure(elevation)
    assert pascal == pytest.approx(psychrolib.GetStandardAtmPressure(elevation), rel=1e-6)
    expected = 1000.0 * psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100.0, pascal)
    # the reference does not go below 1e-7 kg per kg
    assert humidity_ratio(celsius, humidity, pascal) == pytest.approx(expected, rel=0.004, abs=2e-4)


@given(celsius=temperatures, humidity=humidities, warmer=st.floats(0.0, 20.0))
def test_heating_against_the_reference(celsius, humidity, warmer):
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100.0, STANDARD_PRESSURE_PA)
    expected = psychrolib.GetRelHumFromHumRatio(celsius + warmer, ratio, STANDARD_PRESSURE_PA)
    found = relative_humidity_after(celsius, humidity, celsius + warmer)
    assert found == pytest.approx(100.0 * expected, rel=0.006, abs=0.01)


@given(celsius=temperatures, humidity=humidities, added=st.floats(0.1, 6.0))
def test_water_added_against_the_reference(celsius, humidity, added):
    ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100.0, STANDARD_PRESSURE_PA)
    bounded = min(ratio + added / 1000.0, psychrolib.GetSatHumRatio(celsius, STANDARD_PRESSURE_PA))
    expected = 100.0 * psychrolib.GetRelHumFromHumRatio(celsius, bounded, STANDARD_PRESSURE_PA)
    found = relative_humidity_after(celsius, humidity, celsius, added)
    assert found == pytest.approx(expected, rel=0.005)


@given(celsius=st.floats(-30.0, 45.0), humidity=humidities, elevation=st.floats(0.0, 3000.0))
def test_there_and_back(celsius, humidity, elevation):
    pascal = standard_pressure(elevation)
    ratio = humidity_ratio(celsius, humidity, pascal)
    assert relative_humidity_of(ratio, celsius, pascal) == pytest.approx(humidity, rel=1e-9)


@given(celsius=st.floats(-30.0, 45.0), humidity=humidities, cooler=st.floats(0.0, 40.0))
def test_cooling_never_goes_beyond_saturation(celsius, humidity, cooler):
    found = relative_humidity_after(celsius, humidity, celsius - min(cooler, celsius + 40.0))
    assert humidity - 1e-9 <= found <= 100.0


def test_without_water_added_the_pressure_does_not_matter():
    low, high = (relative_humidity_after(-10.0, 75.0, 21.0, 0.0, p) for p in (80e3, 101e3))
    assert low == pytest.approx(high, rel=1e-9)
