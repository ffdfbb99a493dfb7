"""The lines of shrinkage on density, judged by woods they were not fitted to."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pipeline.relations import leave_one_out
from woodref.formulas.density import (
    basic_specific_gravity_from,
    specific_gravity_at,
    volumetric_shrinkage_implied,
)
from woodref.reference.densities import basic_by_line, line_sd, shrinkage_by_line

LINE = {"intercept_pct": 4.0, "slope_pct": 19.0, "greatest_gravity": 0.8}
GRAVITY, SHRINKAGE = st.floats(0.2, 1.2), st.floats(4.0, 25.0)


@given(GRAVITY, SHRINKAGE, st.floats(0.0, 20.0))
def test_two_gravities_give_back_the_shrinkage(basic, volumetric, moisture):
    at = specific_gravity_at(basic, moisture, volumetric)
    assert volumetric_shrinkage_implied(basic, at, moisture) == pytest.approx(volumetric)


@given(GRAVITY, st.floats(0.0, 20.0))
def test_a_gravity_turned_back_by_the_line_gives_it_again(gravity, moisture):
    basic = basic_by_line(gravity, moisture, LINE, 30.0)
    shrinkage = shrinkage_by_line(basic, LINE)
    assert specific_gravity_at(basic, moisture, shrinkage) == pytest.approx(gravity, rel=1e-6)
    assert basic == pytest.approx(basic_specific_gravity_from(gravity, moisture, shrinkage))


@given(st.floats(0.8, 1.4))
def test_a_line_is_held_beyond_its_densest_wood(gravity):
    assert shrinkage_by_line(gravity, LINE) == pytest.approx(4.0 + 19.0 * 0.8)


@given(st.floats(0.0, 10.0), st.floats(-10.0, 20.0))
def test_woods_on_a_line_are_hit_without_being_in_the_fit(intercept, slope):
    gravity = np.array([0.3, 0.4, 0.5, 0.6, 0.7])
    off = leave_one_out(gravity, intercept + slope * gravity)
    assert off[:-1] == pytest.approx(0.0, abs=1e-6)
    assert off[-1] == pytest.approx(-0.1 * slope, abs=1e-6)  # held at the densest of the others


def test_the_lines_do_better_than_the_handbooks_relation(frames):
    """Eq. 4-12 of the Wood Handbook, 26.5 Gb: 2.2 points RMS on Table 4-3, 5.8 abroad."""
    rules = frames["shrinkage_relations"].set_index("relation_id")
    for group in ("united-states", "other"):
        fitted, handbook = rules.loc[group], rules.loc[f"{group}-by-handbook"]
        assert fitted["rms_pct"] < handbook["rms_pct"]
        assert abs(fitted["bias_pct"]) < 0.1
        assert fitted["residual_sd_above_0_7_pct"] > fitted["residual_sd_below_0_5_pct"]
    relation = rules.loc["united-states"].to_dict()
    assert line_sd(0.45, relation) == relation["residual_sd_below_0_5_pct"]
    assert line_sd(0.5, relation) == relation["residual_sd_0_5_to_0_7_pct"]
    assert line_sd(0.9, relation) == relation["residual_sd_above_0_7_pct"]
