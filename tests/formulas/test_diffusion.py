"""The relations of diffusion through a board, and the series for a slab."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.diffusion import (
    air_film_resistance,
    moisture_resistance,
    porosity,
    slab_uptake,
    transverse_diffusivity,
)


def test_no_air_at_the_faces_is_the_series_without_resistance():
    """Crank: the mean has made 2 sqrt(Fo / pi) of its change while the middle is untouched."""
    fourier = np.array([0.01, 0.05, 0.1])
    found = slab_uptake(fourier, 1e9, terms=60)[0]
    assert found == pytest.approx(2.0 * np.sqrt(fourier / np.pi), rel=2e-3)


def test_a_face_that_holds_nearly_everything_back_makes_a_slow_exponential():
    found = slab_uptake([1.0, 100.0, 1000.0], 1e-3)[0]
    assert found == pytest.approx(1.0 - np.exp([-1e-3, -0.1, -1.0]), rel=1e-3)


def test_the_coefficient_of_the_test_wood():
    """Figures worked by hand from the same relation: 5.6e-11 at 6 %, 2.2e-10 m2/s at 20 %."""
    assert transverse_diffusivity(6.0, 26.7, 0.38) == pytest.approx(5.6e-11, rel=0.02)
    assert transverse_diffusivity(20.0, 26.7, 0.38) == pytest.approx(2.2e-10, rel=0.02)


@given(st.floats(0.2, 0.85), st.floats(0.0, 28.0), st.floats(0.0, 40.0))
def test_a_denser_drier_or_colder_board_is_slower(gravity, moisture, celsius):
    d = transverse_diffusivity(moisture, celsius, gravity)
    assert 0.0 < porosity(gravity, moisture) < 1.0
    assert transverse_diffusivity(moisture, celsius, gravity + 0.05) < d
    assert transverse_diffusivity(moisture + 1.0, celsius, gravity) > d
    assert transverse_diffusivity(moisture, celsius + 1.0, gravity) > d


def test_the_densest_wood_has_no_pores_left_and_passes_water_as_its_walls_do():
    assert porosity(1.1, 25.0) == 0.0
    walls = 7e-6 * np.exp(-(38500.0 - 290.0 * 25.0) / (8.314462618 * 293.15))
    assert transverse_diffusivity(25.0, 20.0, 1.1) == pytest.approx(walls, rel=1e-9)


def test_the_resistance_of_still_air():
    """2.5 W/(m2 K) at 20 degC: 1.5e-8 kg/(m2 s Pa) by the relation of Lewis, worked by hand."""
    assert 1.0 / air_film_resistance(2.5, 20.0) == pytest.approx(1.53e-8, rel=0.01)


def test_a_resistance_is_the_same_flux_in_either_form():
    vapor, density, per_pct = 6e7, 500.0, 150.0
    flux_by_vapor = 2.0 * per_pct / vapor
    flux_by_moisture = density * 2.0 / 100.0 / moisture_resistance(vapor, density, per_pct)
    assert flux_by_moisture == pytest.approx(flux_by_vapor, rel=1e-12)
