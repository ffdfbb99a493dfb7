"""Moist air against a general-purpose reference library, above freezing.

Below freezing that library takes saturation over ice, weather records over liquid water;
the two are not comparable there, and a test says by how much they part.
"""

import psychrolib
import pytest

from woodref.formulas.air import saturation_vapor_pressure

psychrolib.SetUnitSystem(psychrolib.SI)

ABOVE_FREEZING = [0.5, 5.0, 10.0, 15.0, 21.0, 25.0, 30.0, 40.0, 50.0]


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
