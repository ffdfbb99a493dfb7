"""What a formula takes where nothing is said: the values of its docstring and its constants."""

import inspect
from math import inf

import pytest
from formula_cases import CASES, FORMULAS

#: The value of every optional parameter, by its name; of one formula by both names.
DEFAULTS = {
    "fiber_saturation_pct": 30.0,
    "from_moisture_pct": 10.0,
    "calibration_c": (70.0 - 32.0) / 1.8,
    "fiber_saturation_cv": 0.0,
    "intersection_pct": 25.0,
    "correlation": 0.5,
    "deviate": 1.6448536269514722,
    "warmer_c": 0.0,
    "heated_c": None,
    "cooled_c": None,
    "gain_g_m3": 0.0,
    "least_pct": 0.0,
    "most_pct": 100.0,
    "slope": 1.0,
}
#: Formulas without a case of every engine, and those of several results: arguments, the rest.
OTHERS = {
    "spread.likely_range": ((1.0, 2.0), {"low": 0.0, "high": inf}),
    "spread.sd_of_sum": (([1.0, 2.0],), {"correlation": 0.5}),
    "spread.sd_of_woods": (({"a": [1.0, 2.0]},), {"correlation": 0.5}),
    "cross_section.moved": ((complex(3.0, 4.0), 0.02, 0.05), {"facing": 1.0}),
    "cross_section.moved_far": ((complex(3.0, 4.0), 0.02, 0.05), {"facing": 1.0}),
    "folded.density_coefficients": ((0.55, 13.3), {"fiber_saturation_pct": 30.0}),
}


def optional(name):
    parameters = inspect.signature(FORMULAS[name]).parameters.values()
    return [p.name for p in parameters if p.default is not p.empty]


@pytest.mark.parametrize("name", [name for name in CASES if optional(name)])
def test_what_is_not_said_has_its_documented_value(name):
    first = {p: column[0] for p, column in CASES[name].items()}
    given = {p: v for p, v in first.items() if p not in optional(name)}
    said = {p: DEFAULTS[p] for p in optional(name)}
    assert FORMULAS[name](**given) == FORMULAS[name](**given, **said)


@pytest.mark.parametrize("name", OTHERS)
def test_what_is_not_said_of_the_others(name):
    arguments, said = OTHERS[name]
    assert FORMULAS[name](*arguments) == FORMULAS[name](*arguments, **said)


def test_the_series_has_twelve_terms():
    uptake = FORMULAS["diffusion.slab_uptake"]
    early = [0.002], [3.0]
    assert uptake(*early)[0, 0] == uptake(*early, terms=12)[0, 0]
    assert uptake(*early)[0, 0] != uptake(*early, terms=13)[0, 0]
