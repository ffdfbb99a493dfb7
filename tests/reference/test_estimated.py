"""Estimates for woods without printed shrinkage or density."""

from dataclasses import replace

import pytest

from woodref.board.movement import movement
from woodref.board.movement_basis import movement_basis
from woodref.board.weight import DensityFrom, density_of, weight_of
from woodref.errors import InputError, NoDataError, UnknownNameError
from woodref.formulas.density import density_at, specific_gravity_at
from woodref.own.shrinkage import parse_shrinkage, with_shrinkage
from woodref.reference.densities import density_compared
from woodref.reference.fiber_saturation import FiberSaturation
from woodref.reference.library import Reference
from woodref.reference.strengths import strength_estimates


@pytest.fixture(scope="module")
def reference():
    return Reference()


def test_a_wood_with_shrinkage_needs_no_estimate(reference):
    assert reference.wood("white oak").estimates == {}


def test_ziricote_moves_by_an_estimate(reference):
    ziricote = reference.wood("ziricote")
    basis = movement_basis(ziricote)
    assert basis.tangential.basis == basis.radial.basis == "estimated"
    relation = reference.store.rows(
        "select * from {shrinkage_relations} where relation_id = 'other'"
    )[0]
    gravity = ziricote.value("basic_specific_gravity").value
    within = min(gravity, relation["greatest_gravity"])
    volumetric = relation["intercept_pct"] + relation["slope_pct"] * within
    assert basis.tangential.value == pytest.approx(relation["tangential_share"] * volumetric)
    assert basis.radial.value == pytest.approx(relation["radial_share"] * volumetric)
    # wider than the spread of a printed shrinkage
    assert basis.tangential.cv_pct > 15.0
    m = movement(ziricote, 300.0, 6.0, 10.0)
    assert m.likely_change_mm.low < m.change_mm < m.likely_change_mm.high


def test_weight_of_a_density_only_wood_uses_the_estimated_shrinkage(reference):
    ziricote = reference.wood("ziricote")
    volumetric = ziricote.estimate("shrinkage_volumetric").value
    gravity = ziricote.value("basic_specific_gravity").value
    point = ziricote.fiber_saturation.pct
    expected = density_at(specific_gravity_at(gravity, 8.0, volumetric, point), 8.0)
    assert density_of(ziricote, 8.0).density_kg_m3 == pytest.approx(expected)
    assert weight_of(ziricote, 1000.0, 200.0, 25.0, 8.0).mass_kg.expected == pytest.approx(
        expected * 0.005
    )


def test_a_wood_of_north_america_uses_the_line_of_its_region(reference):
    """Oregon myrtle: no shrinkage in any table."""
    myrtle = reference.wood("Oregon myrtle")
    relation = reference.relation_of(myrtle)
    gravity = myrtle.value("basic_specific_gravity").value
    assert relation["relation_id"] == "united-states"
    line = relation["intercept_pct"] + relation["slope_pct"] * gravity
    assert myrtle.estimate("shrinkage_volumetric").value == pytest.approx(line)


def test_gravities_meet_at_the_fiber_saturation_point_of_the_wood(reference):
    """Dried from a lower point to 12 %, wood has shrunk less: 10 % of it spread over 20 and 30 %
    give 4 and 6 % (FPL-GTR-282 (2021), Eq. 4-9)."""
    ziricote = reference.wood("ziricote")
    functions = reference.store.rows("select * from {strength_functions}")
    shrinkage = replace(ziricote.estimate("shrinkage_volumetric"), value=10.0)
    known = {("shrinkage_volumetric", "range"): shrinkage}
    basic = ziricote.value("basic_specific_gravity").value
    rule = next(
        f for f in functions if (f["property_id"], f["kind"]) == ("side_hardness", "hardwood")
    )
    for pct, shrunk in ((20.0, 0.04), (30.0, 0.06)):
        wood = replace(ziricote, fiber_saturation=FiberSaturation(pct))
        found = strength_estimates(wood, known, functions)["side_hardness", "12pct"]
        expected = rule["coefficient"] * (basic / (1.0 - shrunk)) ** rule["exponent"]
        assert found.value == pytest.approx(expected)
        assert density_compared("basic_specific_gravity", basic, 12.0, 10.0, pct) == pytest.approx(
            1120.0 * basic / (1.0 - shrunk)
        )


def test_spread_of_a_compiled_mean_is_wider(reference):
    compiled = reference.wood("ziricote").value("basic_specific_gravity")
    parts = compiled.spread_parts
    assert parts.boards == pytest.approx(0.10 * compiled.value)
    assert 0.03 < parts.mean < 0.06
    assert compiled.sd == pytest.approx((parts.boards**2 + parts.mean**2) ** 0.5)


def test_a_wide_genus_gives_no_headline_number(reference):
    """Koa is in no table; the acacias differ too much for one number."""
    koa = reference.wood("koa")
    genus = koa.estimate("basic_specific_gravity")
    assert genus.members > 100
    assert genus.printed_low < 0.5
    assert genus.printed_high > 1.0
    with pytest.raises(NoDataError, match=r"too wide for one number; weigh a board"):
        density_of(koa, 8.0)


def test_a_narrow_genus_stands_in_as_a_range(reference):
    """A wood without a density whose genus varies by at most 15 %: used, and said."""
    woods = reference.store.rows("select species_id from {species} where data_coverage = 'no data'")
    found = [
        wood
        for wood in reference.woods(r["species_id"] for r in woods).values()
        if (g := wood.estimate("basic_specific_gravity")) and g.between_sd / g.value <= 0.15
    ]
    assert found
    for wood in found:
        density = density_of(wood, 10.0)
        assert density.basis == "estimated"
        assert density.density_from is DensityFrom.GENUS_MEAN


def test_a_species_in_no_table_has_its_genus(reference):
    unknown = reference.wood("Acacia fantasia")
    assert unknown.data_coverage == "no data"
    assert "its genus Acacia is" in unknown.note
    with pytest.raises(NoDataError, match="too wide for one number"):
        density_of(unknown, 8.0)


def test_a_slip_is_not_taken_for_an_unknown_species(reference):
    with pytest.raises(UnknownNameError, match="Quercus alba"):
        reference.wood("Quercus albba")


def test_own_shrinkage_goes_before_the_estimate(reference):
    ziricote = with_shrinkage(reference.wood("ziricote"), *parse_shrinkage("8.1, 4.9%"))
    basis = movement_basis(ziricote)
    assert (basis.tangential.value, basis.radial.value) == (8.1, 4.9)
    assert basis.tangential.basis == "own"
    assert density_of(ziricote, 8.0).values[1].basis == "own"


@pytest.mark.parametrize("text", ["8.1", "x,y", "8.1,99", "-1,4", "8.1;4.9", "nan,4"])
def test_a_shrinkage_that_cannot_be_is_refused(text):
    with pytest.raises(InputError):
        parse_shrinkage(text)
