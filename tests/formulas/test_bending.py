"""Textbook beam cases, against the beam solver of a general mathematics library (SymPy)."""

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from sympy import Rational, Symbol
from sympy.physics.continuum_mechanics.beam import Beam

from woodref.formulas.bending import (
    UNIFORM,
    deflection_point_cantilever,
    deflection_point_fixed,
    deflection_point_simple,
    deflection_uniform,
    disc_width,
    second_moment,
    second_moment_round,
)

LENGTH, MODULUS, INERTIA = 900, 9000, 140_000


def test_a_round_section_by_integration():
    a = sympy.Symbol("a")
    y = sympy.sin(a) / 2
    strip = sympy.cos(a)  # as wide as the circle at the height y
    by_hand = float(sympy.integrate(strip * y**2 * y.diff(a), (a, -sympy.pi / 2, sympy.pi / 2)))
    assert second_moment_round(1.0) == pytest.approx(by_hand)
    assert second_moment_round(30.0) == pytest.approx(by_hand * 30.0**4)


def test_a_disc_sags_as_a_board_of_its_width_does():
    """Unit load: the deflection under a load in the middle is the integral of M m / (E I)."""
    u = sympy.Symbol("u", positive=True)
    moment = u / 2
    inertia = 2 * sympy.sqrt(u * (1 - u)) / 12
    sag = 2 * sympy.Integral(moment**2 / inertia, (u, 0, sympy.Rational(1, 2))).evalf(12)
    board = deflection_point_simple(1.0, 1.0, 0.5, 1.0, second_moment(disc_width(1.0), 1.0))
    assert board == pytest.approx(float(sag), rel=1e-6)


def solved(support, uniform=0, point=0, at=0):
    """Largest deflection of a beam by SymPy's singularity functions, at a fine grid of points."""
    beam = Beam(LENGTH, MODULUS, INERTIA)
    x = Symbol("x")
    names = ["R0", "R1", "M0", "M1"] if support == "fixed" else ["R0", "R1"]
    if support == "cantilever":
        names = ["R0", "M0"]
    unknown = dict(zip(names, (Symbol(n) for n in names), strict=True))
    if uniform:
        beam.apply_load(Rational(uniform), 0, 0, end=LENGTH)
    if point:
        beam.apply_load(point, at, -1)
    beam.apply_load(unknown["R0"], 0, -1)
    if "R1" in unknown:
        beam.apply_load(unknown["R1"], LENGTH, -1)
    if "M0" in unknown:
        beam.apply_load(unknown["M0"], 0, -2)
    if "M1" in unknown:
        beam.apply_load(unknown["M1"], LENGTH, -2)
    beam.bc_deflection = [(0, 0)] + ([(LENGTH, 0)] if "R1" in unknown else [])
    beam.bc_slope = ([(0, 0)] if "M0" in unknown else []) + (
        [(LENGTH, 0)] if "M1" in unknown else []
    )
    beam.solve_for_reaction_loads(*unknown.values())
    curve = beam.deflection()
    points = [Rational(LENGTH * i, 300) for i in range(301)]
    return max(abs(float(curve.subs(x, p).doit())) for p in points)


@pytest.mark.parametrize("support", ["simple", "fixed", "cantilever"])
def test_uniform_load(support):
    load = 300.0
    ours = deflection_uniform(load, LENGTH, MODULUS, INERTIA, UNIFORM[support])
    assert ours == pytest.approx(solved(support, uniform=Rational(300, LENGTH)), rel=1e-9)


@pytest.mark.parametrize("support", ["simple", "fixed"])
def test_point_load_in_the_middle(support):
    formula = deflection_point_simple if support == "simple" else deflection_point_fixed
    ours = formula(200.0, LENGTH, LENGTH / 2, MODULUS, INERTIA)
    assert ours == pytest.approx(solved(support, point=200, at=LENGTH // 2), rel=1e-9)


@pytest.mark.parametrize("support", ["simple", "fixed"])
def test_point_load_near_an_end(support):
    """The grid of the solver misses the very summit by a little."""
    formula = deflection_point_simple if support == "simple" else deflection_point_fixed
    ours = formula(200.0, LENGTH, 200.0, MODULUS, INERTIA)
    found = solved(support, point=200, at=200)
    assert ours >= found
    assert ours == pytest.approx(found, rel=1e-4)


@pytest.mark.parametrize("at", [300, 900])
def test_point_load_on_a_cantilever(at):
    ours = deflection_point_cantilever(50.0, LENGTH, float(at), MODULUS, INERTIA)
    assert ours == pytest.approx(solved("cantilever", point=50, at=at), rel=1e-9)


@given(st.floats(50, 500), st.floats(10, 100), st.floats(1.01, 3.0))
def test_twice_as_thick_is_eight_times_as_stiff(width, thickness, times):
    assert second_moment(width, times * thickness) == pytest.approx(
        times**3 * second_moment(width, thickness)
    )
