"""Diffusion through a board: against the series for a slab, its own water, and finer steps.

Source of the series: Crank (1975), The Mathematics of Diffusion, sections 4.3.2 and 4.3.6
(numbers from memory).
"""

from itertools import pairwise

import numpy as np
import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.diffusion import (
    air_film_resistance,
    diffuse,
    moisture_resistance,
    porosity,
    slab_uptake,
    transverse_diffusivity,
)

DAY = 86_400.0
D, THICK = 1e-10, 0.02
DAYS = np.array([1.0, 3.0, 10.0, 30.0, 100.0]) * DAY
FACES = np.array([[1e6, 1e6], [1e7, 1e7], [1e8, 1e8]])


def constant(_moisture, _t):
    return D


def step(_t):
    return 10.0


def by_series(times):
    biot = THICK / 2.0 / (D * FACES[:, 0])
    return slab_uptake(D * times / (THICK / 2.0) ** 2, biot, terms=60).T


def error(cells, rtol=1e-7):
    found = diffuse(5.0, THICK, FACES, DAYS, constant, step, cells, rtol)
    return np.abs((found.mean_pct - 5.0) / 5.0 - by_series(DAYS)).max()


def test_a_constant_coefficient_agrees_with_the_series():
    assert error(41) < 1e-3
    assert error(161) < 1e-4


def test_the_error_falls_with_the_square_of_the_cell():
    errors = [error(n) for n in (11, 21, 41, 81)]
    for coarse, fine in pairwise(errors):
        assert 3.0 < coarse / fine < 4.6


def test_a_finer_time_step_changes_less_and_less():
    def drying(rtol):
        def rising(moisture, _t):
            return transverse_diffusivity(moisture, 20.0, 0.56)

        return diffuse(20.0, THICK, FACES, DAYS, rising, step, rtol=rtol).moisture_pct

    finest = drying(1e-10)
    errors = [np.abs(drying(r) - finest).max() for r in (1e-3, 1e-5, 1e-7)]
    assert errors[0] > errors[1] > errors[2]
    assert errors[1] < 2e-3
    assert errors[2] < 1e-4


def test_grid_and_step_of_the_program_are_fine_enough_for_a_coefficient_that_varies():
    def rising(moisture, _t):
        return transverse_diffusivity(moisture, 20.0, 0.56)

    usual = diffuse(20.0, THICK, FACES, DAYS, rising, step)
    fine = diffuse(20.0, THICK, FACES, DAYS, rising, step, cells=161, rtol=1e-8)
    assert np.abs(usual.mean_pct - fine.mean_pct).max() < 0.02
    assert np.abs(usual.middle_pct - fine.middle_pct).max() < 0.02


def test_the_middle_agrees_with_the_series_of_the_middle():
    """No resistance at the faces: 1 - 4/pi sum (-1)^n / (2n+1) exp(-(2n+1)^2 pi^2 Fo / 4)."""
    found = diffuse(5.0, THICK, [[0.0, 0.0]], DAYS, constant, step, cells=81, rtol=1e-8)
    n = np.arange(60)[:, None]
    fourier = D * DAYS / (THICK / 2.0) ** 2
    terms = (-1.0) ** n / (2 * n + 1) * np.exp(-((2 * n + 1) ** 2) * np.pi**2 * fourier / 4.0)
    expected = 1.0 - 4.0 / np.pi * terms.sum(axis=0)
    assert (found.middle_pct[:, 0] - 5.0) / 5.0 == pytest.approx(expected, abs=1e-3)


@FEW
@given(
    start=st.floats(2.0, 28.0),
    air=st.floats(2.0, 25.0),
    thickness=st.floats(0.003, 0.1),
    left=st.floats(1e5, 1e9),
    right=st.floats(1e5, 1e9),
    gravity=st.floats(0.3, 0.9),
)
def test_water_is_neither_made_nor_lost(start, air, thickness, left, right, gravity):
    times = np.array([0.5, 5.0, 60.0, 400.0]) * DAY

    def rising(moisture, _t):
        return transverse_diffusivity(np.clip(moisture, 0.0, 30.0), 20.0, gravity)

    def seasons(t):
        return air + 2.0 * np.sin(t / (30.0 * DAY))

    found = diffuse(start, thickness, [[left, right]], times, rising, seasons)
    gained = found.mean_pct[:, 0] - start
    assert gained == pytest.approx(found.inflow_pct[:, 0].sum(axis=1), abs=1e-6)


def test_equal_faces_give_a_symmetric_board_and_unequal_ones_do_not():
    same = diffuse(5.0, THICK, [[1e7, 1e7]], DAYS, constant, step).moisture_pct[:, 0]
    other = diffuse(5.0, THICK, [[1e6, 1e9]], DAYS, constant, step).moisture_pct[:, 0]
    assert same == pytest.approx(same[:, ::-1], abs=1e-6)
    assert (other[:3, 0] - other[:3, -1] > 0.5).all()


def test_cases_side_by_side_do_not_touch_each_other():
    together = diffuse(5.0, THICK, FACES, DAYS, constant, step, rtol=1e-9).moisture_pct
    for i, faces in enumerate(FACES):
        alone = diffuse(5.0, THICK, [faces], DAYS, constant, step, rtol=1e-9).moisture_pct[:, 0]
        assert together[:, i] == pytest.approx(alone, abs=1e-6)


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
