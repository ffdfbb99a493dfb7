import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.formulas.density import (
    basic_specific_gravity_from,
    basic_specific_gravity_from_general,
    density_at,
    density_from_ovendry,
    greatest_density,
    specific_gravity_at,
    specific_gravity_at_general,
    specific_gravity_from_another,
    specific_gravity_from_density,
    volumetric_shrinkage,
    volumetric_shrinkage_from_ovendry_density,
    volumetric_shrinkage_general,
)
from woodref.formulas.moisture import maximum_moisture_content
from woodref.formulas.shrinkage import shrinkage_to

basics = st.floats(0.1, 1.1)
moistures = st.floats(0.0, 80.0)
volumetrics = st.floats(3.0, 25.0)


@given(basics, moistures, volumetrics)
def test_density_there_and_back_with_own_shrinkage(basic, moisture, volumetric):
    density = density_at(specific_gravity_at(basic, moisture, volumetric), moisture)
    at = specific_gravity_from_density(density, moisture)
    assert basic_specific_gravity_from(at, moisture, volumetric) == pytest.approx(basic)


@given(basics, moistures)
def test_density_there_and_back_with_the_general_relation(basic, moisture):
    density = density_at(specific_gravity_at_general(basic, moisture), moisture)
    at = specific_gravity_from_density(density, moisture)
    assert basic_specific_gravity_from_general(at, moisture) == pytest.approx(basic)


# Above 23 % volumetric shrinkage a bone-dry wood would shrink faster than it loses mass.
@given(basics, st.floats(0.0, 29.0), st.floats(3.0, 22.0))
def test_drier_wood_has_a_higher_specific_gravity_and_a_lower_density(basic, moisture, volumetric):
    drier, wetter = (specific_gravity_at(basic, m, volumetric) for m in (moisture, moisture + 1.0))
    assert drier > wetter >= basic
    assert density_at(drier, moisture) < density_at(wetter, moisture + 1.0)


@given(basics, st.floats(30.0, 200.0), volumetrics)
def test_above_fiber_saturation_specific_gravity_stays_basic(basic, moisture, volumetric):
    assert specific_gravity_at(basic, moisture, volumetric) == basic
    assert specific_gravity_at_general(basic, moisture) == basic


@given(basics, st.floats(0.0, 30.0), volumetrics)
def test_density_from_ovendry_agrees_with_that_from_basic(basic, moisture, volumetric):
    """Eq. 4-15 against Eq. 4-11 with 4-14."""
    ovendry = density_at(specific_gravity_at(basic, 0.0, volumetric), 0.0)
    assert density_from_ovendry(ovendry, moisture, volumetric) == pytest.approx(
        density_at(specific_gravity_at(basic, moisture, volumetric), moisture)
    )


@given(basics)
def test_both_general_relations_are_one(basic):
    """Eq. 4-16 against Eq. 4-12 through the ovendry density."""
    ovendry = density_at(specific_gravity_at_general(basic, 0.0), 0.0)
    assert volumetric_shrinkage_from_ovendry_density(ovendry) == pytest.approx(
        volumetric_shrinkage_general(basic)
    )


@given(basics, st.floats(0.0, 30.0), st.floats(0.0, 30.0), volumetrics)
def test_specific_gravity_from_another_skips_the_basic_one(basic, first, second, volumetric):
    """Eq. 4-10 against Eq. 4-11 twice."""
    other = specific_gravity_from_another(
        specific_gravity_at(basic, first, volumetric),
        shrinkage_to(volumetric, first),
        shrinkage_to(volumetric, second),
    )
    assert other == pytest.approx(specific_gravity_at(basic, second, volumetric))


@given(st.floats(0.0, 15.0), st.floats(0.0, 15.0))
def test_volumetric_shrinkage_lies_between_the_larger_and_the_sum(radial, tangential):
    volumetric = volumetric_shrinkage(radial, tangential)
    assert max(radial, tangential) - 1e-9 <= volumetric <= radial + tangential + 1e-9


@given(basics)
def test_greatest_density_is_that_of_full_wood(basic):
    full = maximum_moisture_content(basic)
    assert greatest_density(full) == pytest.approx(density_at(basic, full))


def test_greatest_density_of_dry_wood_is_that_of_the_cell_wall():
    assert greatest_density(0.0) == pytest.approx(1540.0)
