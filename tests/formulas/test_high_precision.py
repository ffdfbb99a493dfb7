"""Every public formula against an independent one in 50 digits, written from print.

The independent forms stand in tests/kit/exact_*.py, each with its equation; none calls a formula.
"""

import inspect
import random

import exact_density
import exact_mechanics
import exact_moisture
import exact_sizes
import numpy
import pytest
from formula_cases import CASES, FORMULAS
from mpmath import mp, mpc, mpf, mpmathify

from woodref.formulas import bending, diffusion, spread

EXACT = exact_mechanics.EXACT | exact_sizes.EXACT | exact_density.EXACT | exact_moisture.EXACT
#: Public formulas without a number to compare, and why.
NO_NUMBER = {
    "declaration.declaration": "says what a formula is",
    "declaration.formula": "says what a formula is",
    "engine.choose": "takes one of two values as they are",
    "engine.is_known": "gives a truth",
    "spread.difference": "gives a word",
    "slab.diffuse": "a grid in space and time: its own test holds it to a series",
}
#: What each parameter is drawn from; others are drawn about the cases of tests/kit.
DRAWN = {
    "moisture_pct": (0.0, 40.0),
    "from_moisture_pct": (3.0, 40.0),
    "to_moisture_pct": (3.0, 40.0),
    "fiber_saturation_pct": (20.0, 34.0),
    "ring_angle_deg": (0.0, 90.0),
    "temperature_c": (-1.0, 93.0),
    "relative_humidity_pct": (0.0, 99.0),
    "outdoor_c": (-40.0, 45.0),
    "outdoor_humidity_pct": (5.0, 100.0),
    "room_c": (5.0, 35.0),
    "humidity_pct": (0.0, 100.0),
    "basic_specific_gravity": (0.12, 1.1),
    "total_pct": (1.0, 16.0),
    "tangential_pct": (3.0, 16.0),
    "radial_pct": (1.0, 9.0),
    "volumetric_pct": (4.0, 24.0),
    "coefficient_per_pct": (0.0005, 0.006),
    "thickness_in": (0.25, 4.0),
    "correlation": (0.0, 1.0),
}
#: Narrower, where a formula holds for less.
DRAWN_FOR = {
    ("density.volumetric_shrinkage_implied", "moisture_pct"): (0.0, 15.0),
    ("shrinkage.dimensional_change_coefficient", "from_moisture_pct"): (5.0, 15.0),
    ("air.saturation_vapor_pressure", "temperature_c"): (-45.0, 60.0),
    ("diffusion.porosity", "moisture_pct"): (0.0, 30.0),
    ("diffusion.porosity", "basic_specific_gravity"): (0.12, 0.9),
    ("diffusion.transverse_diffusivity", "moisture_pct"): (5.0, 25.0),
    ("diffusion.transverse_diffusivity", "basic_specific_gravity"): (0.12, 0.9),
    ("diffusion.transverse_diffusivity", "temperature_c"): (5.0, 35.0),
}
#: Arguments of the formulas that have no case of every engine.
MORE_CASES = {
    "cross_section.angle_ratio": [(0.02, 0.05), (-0.01, -0.03)],
    "cross_section.gap_deg": [(0.02, 0.05), (-0.01, -0.03)],
    "cross_section.moved": [
        (complex(30.0, 40.0), 0.02, 0.05, complex(0.6, 0.8)),
        (complex(-12.0, 75.0), -0.01, -0.03, 1j),
    ],
    "cross_section.moved_far": [
        (complex(30.0, 40.0), 0.02, 0.05, complex(0.6, 0.8)),
        (complex(-12.0, 75.0), -0.01, -0.03, 1j),
    ],
    "cross_section.length_ratio": [
        (complex(30.0, 40.0), complex(1.0, 0.0), 0.02, 0.05),
        (complex(-12.0, 75.0), complex(0.3, 0.9), -0.01, -0.03),
    ],
    "folded.density_coefficients": [(0.55, 13.3, 28.0), (0.3, 8.0, 24.0)],
    "folded.size_lines": [
        (9.9, 28.0, 0.00353),
        (2.5, 30.0, 0.00165),
        (7.4, 24.0, float("nan")),
    ],
    "folded.lines_as_bends": [(0.9, 3.6e-3, 3.4e-3, 3.5e-3, 28.0), (0.96, 1e-3, 2e-3, 9e-4, 24.0)],
    "moisture.relative_humidity_for": [(6.5, 21.0), (12.0, -1.0), (9.0, 80.0), (0.4, 30.0)],
    "spread.likely_range": [(10.0, 1.0, 0.0, 100.0), (1.0, 2.0, 0.0, 3.5), (-5.0, 2.0, -9.0, -4.0)],
    "spread.sd_of_sum": [([1.0, 2.0, 0.5], 0.5), ([3.0], 0.2), ([0.1] * 7, 0.0)],
    "spread.sd_of_woods": [({"a": [1.0, 2.0], "b": [0.5, 0.5, 3.0]}, 0.5)],
    "spread.chance_greater": [(10.0, 1.0, 8.0, 2.0), (0.4, 0.05, 0.7, 0.07)],
    "diffusion.slab_uptake": [([0.05], [3.0]), ([0.8], [0.2]), ([2.5], [40.0])],
}
#: Results that may be 0 where floats leave the last bit of a difference: exact to that of 1.
BESIDE_1 = {"engine.cos_degrees", "folded.size_lines"}
DRAWS = 6


def drawn(name, parameter, random_number, row):
    """A value for a parameter of a formula, about that of a case where it has no range."""
    low, high = DRAWN_FOR.get((name, parameter)) or DRAWN.get(parameter) or (0.0, 0.0)
    if high:
        return random_number.uniform(low, high)
    return row[parameter] * random_number.uniform(0.9, 1.1)


def arguments(name):
    """Sets of arguments for a formula: its cases and seeded draws."""
    if name in MORE_CASES:
        return MORE_CASES[name]
    columns = CASES[name]
    order = list(inspect.signature(FORMULAS[name]).parameters)
    rows = [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]
    random_number = random.Random(name)
    more = [
        {p: drawn(name, p, random_number, rows[n % len(rows)]) for p in columns}
        for n in range(DRAWS)
    ]
    return [tuple(row[p] for p in order) for row in rows + more]


def exactly(value):
    """An argument with the digits a float has."""
    if isinstance(value, list):
        return [exactly(v) for v in value]
    if isinstance(value, dict):
        return {key: exactly(v) for key, v in value.items()}
    return mpmathify(value)


def flat(value):
    """The numbers of a result, one after the other."""
    if isinstance(value, numpy.ndarray):
        return [float(v) for v in value.ravel()]
    return list(value) if isinstance(value, list | tuple) else [value]


@pytest.fixture(autouse=True)
def fifty_digits():
    with mp.workdps(50):
        yield


def test_every_public_formula_has_an_independent_one():
    assert set(EXACT) | set(NO_NUMBER) == set(FORMULAS)
    assert not set(EXACT) & set(NO_NUMBER)


@pytest.mark.parametrize("name", EXACT)
def test_the_formula_gives_the_number_of_50_digits(name):
    for values in arguments(name):
        computed = flat(FORMULAS[name](*values))
        exact = [exactly(v) for v in values]
        if name == "diffusion.slab_uptake":
            exact = [one[0] for one in exact]
        expected = flat(EXACT[name](*exact))
        assert len(computed) == len(expected)
        for mine, theirs in zip(computed, expected, strict=True):
            scale = max(abs(theirs), mpf(name in BESIDE_1))
            of_mine = mpc(mine) if isinstance(mine, complex) else mpf(mine)
            assert abs(of_mine - theirs) <= mpf("1e-12") * scale, (values, mine, theirs)


def test_the_coefficients_of_a_spread_load_are_those_of_its_moments():
    """The moment of a spread load integrated twice, to the middle or the tip, for each hold."""
    moments = {
        # Between the supports, at x from one end, of a unit load on a unit length.
        "simple": lambda x: x / 2 - x**2 / 2,
        "fixed": lambda x: x / 2 - x**2 / 2 - mpf(1) / 12,
        "cantilever": lambda x: -((1 - x) ** 2) / 2,
    }
    half = mpf(1) / 2
    for hold, moment in moments.items():
        at = mpf(1) if hold == "cantilever" else half
        # The slope at the end is none where it is held, and by symmetry at the middle elsewhere.
        start = mp.quad(moment, [0, half]) if hold == "simple" else mpf(0)
        sag = start * at - mp.quad(lambda s, at=at, m=moment: (at - s) * m(s), [0, at])
        assert abs(abs(sag) - mpf(bending.UNIFORM[hold])) < mpf("1e-17"), hold


def test_the_series_of_a_slab_leaves_out_nothing_that_counts():
    """From the earliest time it is for: 40 terms add less than 1e-8 to the 12."""
    for biot in (0.2, 5.0, 60.0):
        short = float(diffusion.slab_uptake([0.01], [biot])[0, 0])
        long = exact_moisture.slab_uptake(mpf("0.01"), mpf(biot), terms=20)
        assert abs(short - long) < 1e-8


def test_the_deviate_of_a_likely_range():
    assert abs(mp.ncdf(mpf(spread.Z90)) - mpf("0.95")) < mpf("1e-16")


def test_the_constants_for_degrees_fahrenheit_give_the_same_moisture_content():
    """FPL-GTR-190 (2010), p. 4-3, has both sets: within 0.02 % from 30 to 200 degF."""
    emc = FORMULAS["moisture.equilibrium_moisture_content"]
    for fahrenheit in range(30, 201, 34):
        for humidity in (5, 35, 65, 90):
            other = exact_moisture.emc(mpf(fahrenheit), mpf(humidity), exact_moisture.SIMPSON_F)
            celsius = (fahrenheit - 32) / 1.8
            assert abs(emc(celsius, float(humidity)) - other) < 0.02
