"""Printed figures: used and not used, in agreement or not, in either system of units."""

from dataclasses import replace

import pytest

from woodref.reference.library import Reference
from woodref.reference.printed import (
    Printed,
    in_printed_units,
    preferred_values,
    printed_figures,
)
from woodref.reference.ratings import ratings_for
from woodref.reference.woods import Value, Wood, group_of
from woodref.units import LBF_TO_N

KEY = ("side_hardness", "12pct")


@pytest.fixture(scope="module")
def reference():
    return Reference()


def figure(number_n, unit, rounding_n, wood="a", preferred=True, counterpart=""):
    value = Value(*KEY, number_n, "N", None, "checked", "a table", "")
    return Printed(
        wood, f"{wood}:{unit}", counterpart, value, rounding_n, preferred, "", "", unit, "", "", ""
    )


METRIC = figure(6000.0, "N", 100.0, counterpart="a:lbf")
US = figure(1360 * LBF_TO_N, "lbf", 10 * LBF_TO_N, preferred=False, counterpart="a:N")
WOOD = Wood("a", "a", "Arbor a", "", "hardwood", "", "", "partial", values={KEY: METRIC.value})


def test_agreement_is_within_half_of_both_roundings():
    assert METRIC.agrees_with(US)  # 49.6 N apart, 50 + 22.2 N allowed
    assert not METRIC.agrees_with(figure(6100.0, "N", 10.0))
    assert US.difference_pct(METRIC) == pytest.approx(0.826, abs=1e-3)


def test_each_system_shows_the_figure_printed_in_it():
    assert in_printed_units(WOOD, [METRIC, US], "us")[KEY] / LBF_TO_N == pytest.approx(1360)
    assert in_printed_units(WOOD, [METRIC, US], "si")[KEY] == 6000.0


@pytest.mark.parametrize(
    "counterpart",
    [
        replace(US, value=replace(US.value, value=5000.0)),
        replace(US, plausibility_flag="below the green value"),
        replace(US, measurement_id="another"),
    ],
    ids=["disagrees", "in doubt", "absent"],
)
def test_a_counterpart_that_cannot_stand_for_the_figure_does_not(counterpart):
    assert in_printed_units(WOOD, [METRIC, counterpart], "us")[KEY] == 6000.0


def test_a_group_shows_the_mean_of_what_its_members_show():
    other = figure(4000.0, "N", 100.0, wood="b")
    b = replace(WOOD, species_id="b", values={KEY: other.value})
    group = group_of("g", "g", (WOOD, b))
    shown = in_printed_units(group, [METRIC, US, other], "us")[KEY]
    assert shown == pytest.approx((1360 * LBF_TO_N + 4000.0) / 2)


def test_white_oak_and_sugar_maple_as_printed_in_inches_and_pounds(reference):
    # Wood Handbook FPL-GTR-190 (2010), Table 5-3b: side hardness 1,360 and 1,450 lbf, modulus
    # of rupture 15,200 and 15,800 lbf/in2 at 12 %.
    for name, hardness, rupture in (("white oak", 1360, 15200), ("sugar maple", 1450, 15800)):
        wood = reference.wood(name)
        shown = in_printed_units(wood, printed_figures(reference, wood.species_ids), "us")
        assert shown[KEY] / LBF_TO_N == pytest.approx(hardness)
        assert shown["modulus_of_rupture", "12pct"] / 0.006894757 == pytest.approx(rupture)


def test_one_figure_is_used_for_each_property_and_condition(reference):
    wood = reference.wood("European beech")
    figures = printed_figures(reference, wood.species_ids)
    assert preferred_values(figures) == {wood.species_id: wood.values}
    assert [p.key for p in figures if p.preferred] == sorted(wood.values)
    assert all(p.preference for p in figures)
    one = printed_figures(reference, wood.species_ids, "shrinkage_radial")
    assert {p.value.property_id for p in one} == {"shrinkage_radial"}
    assert printed_figures(reference, []) == ()


def test_ratings_name_their_edition_and_are_never_mixed(reference):
    found = ratings_for(reference, ["quercus-alba"])
    decay = [r for r in found if r.scale.startswith("decay resistance")]
    assert found[: len(decay)] == tuple(decay)
    assert len({r.table for r in decay}) == len(decay) > 1
    assert all(r.table in r.scale and any(c.isdigit() for c in r.table) for r in found)
    shares = [r for r in found if r.share_pct is not None]
    assert all(0.0 <= r.share_pct <= 100.0 for r in shares)
    assert any(r.unchecked for r in shares)
    assert ratings_for(reference, []) == ()
