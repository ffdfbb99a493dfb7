"""Water through a board in time: against the series for a slab, SciPy's solver and its own water.

Source of the series: Crank (1975), The Mathematics of Diffusion, sections 4.3.2 and 4.3.6
(numbers from memory).
"""

from itertools import pairwise
from math import sin

import numpy as np
import pytest
from examples import FEW
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from woodref.formulas.diffusion import slab_uptake, transverse_diffusivity
from woodref.formulas.slab import diffuse

DAY = 86_400.0
D, THICK = 1e-10, 0.02
DAYS = [n * DAY for n in (1.0, 3.0, 10.0, 30.0, 100.0)]
FACES = ((1e6, 1e6), (1e7, 1e7), (1e8, 1e8))
#: A bare board, one under a film, and one that is finished on one face.
BOARDS = (*FACES, (1e6, 1e9))


def constant(cells, _t):
    return [D] * len(cells)


def rising(gravity=0.56):
    def coefficient(cells, _t):
        return [transverse_diffusivity(min(max(m, 0.0), 30.0), 20.0, gravity) for m in cells]

    return coefficient


def step(_t):
    return 10.0


def seasons(t):
    return 9.0 + 3.0 * sin(t / (58.0 * DAY))


def by_series(faces, times):
    biot = THICK / 2.0 / (D * faces[0])
    return slab_uptake(D * np.array(times) / (THICK / 2.0) ** 2, biot, terms=60)[0]


def error(cells, tolerance_pct=1e-4):
    worst = 0.0
    for faces in FACES:
        made = diffuse(5.0, THICK, faces, DAYS, constant, step, cells, tolerance_pct).mean_pct
        share = (np.array(made) - 5.0) / 5.0
        worst = max(worst, np.abs(share - by_series(faces, DAYS)).max())
    return worst


def by_scipy(start, faces, air, cells=41):
    """The same finite volumes followed by SciPy's LSODA to 1e-9."""
    width = THICK / cells

    def slope(t, moisture):
        d = transverse_diffusivity(np.clip(moisture, 0.0, 30.0), 20.0, 0.56)
        between = 0.5 * (d[1:] + d[:-1]) * np.diff(moisture) / width
        left = (air(t) - moisture[0]) / (faces[0] + width / (2.0 * d[0]))
        right = (air(t) - moisture[-1]) / (faces[1] + width / (2.0 * d[-1]))
        return np.diff(np.concatenate([[-left], between, [right]])) / width

    how = {"rtol": 1e-9, "atol": 1e-9, "lband": 1, "uband": 1}
    found = solve_ivp(slope, (0.0, DAYS[-1]), [start] * cells, "LSODA", DAYS, **how)
    assert found.success
    return found.y.T


def test_a_constant_coefficient_agrees_with_the_series():
    assert error(41) < 1e-3
    assert error(161) < 1e-4


def test_the_error_falls_with_the_square_of_the_cell():
    errors = [error(n) for n in (11, 21, 41)]
    for coarse, fine in pairwise(errors):
        assert 3.0 < coarse / fine < 4.6


@pytest.mark.parametrize("faces", BOARDS, ids=str)
@pytest.mark.parametrize(("start", "air"), [(20.0, step), (9.0, seasons)], ids=["step", "seasons"])
def test_it_agrees_with_the_solver_of_a_library(faces, start, air):
    made = diffuse(start, THICK, faces, DAYS, rising(), air)
    off = np.abs(np.array(made.moisture_pct) - by_scipy(start, faces, air))
    assert off.max() < 0.01
    assert off[-1].max() < 0.005


def test_a_finer_time_step_changes_less_and_less():
    finest = by_scipy(20.0, (1e6, 1e6), step)

    def off(tolerance_pct):
        found = diffuse(20.0, THICK, (1e6, 1e6), DAYS, rising(), step, 41, tolerance_pct)
        return np.abs(np.array(found.moisture_pct) - finest).max()

    errors = [off(t) for t in (0.1, 0.01, 0.001)]
    assert errors[0] > errors[1] > errors[2]
    assert errors[2] < 1e-3


def test_grid_and_step_of_the_program_are_fine_enough_for_a_coefficient_that_varies():
    for faces in FACES[1:]:
        usual = diffuse(20.0, THICK, faces, DAYS, rising(), step)
        fine = diffuse(20.0, THICK, faces, DAYS, rising(), step, 161, 1e-3)
        assert usual.mean_pct == pytest.approx(fine.mean_pct, abs=0.02)
        assert usual.middle_pct == pytest.approx(fine.middle_pct, abs=0.02)


def test_the_middle_agrees_with_the_series_of_the_middle():
    """No resistance at the faces: 1 - 4/pi sum (-1)^n / (2n+1) exp(-(2n+1)^2 pi^2 Fo / 4)."""
    found = diffuse(5.0, THICK, (0.0, 0.0), DAYS, constant, step, 81, 1e-3)
    n = np.arange(60)[:, None]
    fourier = D * np.array(DAYS) / (THICK / 2.0) ** 2
    terms = (-1.0) ** n / (2 * n + 1) * np.exp(-((2 * n + 1) ** 2) * np.pi**2 * fourier / 4.0)
    expected = 1.0 - 4.0 / np.pi * terms.sum(axis=0)
    assert (np.array(found.middle_pct) - 5.0) / 5.0 == pytest.approx(expected, abs=1e-3)


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
    times = [n * DAY for n in (0.5, 5.0, 60.0, 400.0)]

    def around(t):
        return air + 2.0 * sin(t / (30.0 * DAY))

    for faces in ((left, right), (left, left)):
        found = diffuse(start, thickness, faces, times, rising(gravity), around)
        gained = [mean - start for mean in found.mean_pct]
        assert gained == pytest.approx([sum(row) for row in found.inflow_pct], abs=1e-6)


def test_the_half_of_a_board_with_faces_alike_is_as_the_whole():
    """Faces that differ by less than a digit are followed through the whole thickness."""
    half = diffuse(5.0, THICK, (1e7, 1e7), DAYS, rising(), step)
    whole = diffuse(5.0, THICK, (1e7, 1e7 * (1.0 + 1e-12)), DAYS, rising(), step)
    for a, b in zip(half.moisture_pct, whole.moisture_pct, strict=True):
        assert a == a[::-1]
        assert a == pytest.approx(b, abs=1e-6)
    for a, b in zip(half.inflow_pct, whole.inflow_pct, strict=True):
        assert a == pytest.approx(b, abs=1e-6)


def test_a_board_that_goes_on_where_it_was_is_as_one_that_never_stopped():
    def followed(start, times):
        return diffuse(start, THICK, (1e6, 1e8), times, constant, step, tolerance_pct=1e-3)

    first, through = followed(5.0, DAYS[:3]), followed(5.0, DAYS)
    on = followed(first.moisture_pct[-1], [t - DAYS[2] for t in DAYS[2:]])
    assert on.moisture_pct[0] == first.moisture_pct[-1]
    assert on.moisture_pct[-1] == pytest.approx(through.moisture_pct[-1], abs=2e-3)


def test_a_coefficient_that_grows_in_time_makes_time_pass_faster():
    """Where no face resists, a board is what it is with a constant one after the time integral."""

    def growing(cells, t):
        return [D * (1.0 + t / (10.0 * DAY))] * len(cells)

    later = [t + t * t / (20.0 * DAY) for t in DAYS[:3]]
    faster = diffuse(5.0, THICK, (0.0, 0.0), DAYS[:3], growing, step, tolerance_pct=1e-3)
    usual = diffuse(5.0, THICK, (0.0, 0.0), later, constant, step, tolerance_pct=1e-3)
    assert faster.mean_pct == pytest.approx(usual.mean_pct, abs=2e-3)


def test_a_sudden_change_of_the_air_is_followed_from_when_it_comes():
    """A board at rest takes long steps, the one across the change far too long: it is redone."""
    change = 20.0 * DAY
    times = [25.0 * DAY, 60.0 * DAY]

    def sudden(t):
        return 5.0 if t < change else 15.0

    through = diffuse(5.0, THICK, (1e6, 1e6), times, constant, sudden)
    later = diffuse(5.0, THICK, (1e6, 1e6), [t - change for t in times], constant, lambda _: 15.0)
    assert through.mean_pct == pytest.approx(later.mean_pct, abs=0.05)


def test_unequal_faces_make_an_uneven_board():
    other = np.array(diffuse(5.0, THICK, (1e6, 1e9), DAYS, constant, step).moisture_pct)
    assert (other[:3, 0] - other[:3, -1] > 0.5).all()
