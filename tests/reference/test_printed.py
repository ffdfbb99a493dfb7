"""Printed figures: used and not used, in agreement or not, in either system of units."""

import pytest

from woodref.reference.library import Reference
from woodref.reference.printed import preferred_values, printed_figures
from woodref.reference.ratings import ratings_for
from woodref.reference.ready import COUNTERPART_COLUMNS, VALUE_COLUMNS
from woodref.reference.unit_systems import agree, values_of
from woodref.reference.woods import pooled
from woodref.units import LBF_TO_N

KEY = ("side_hardness", "12pct")


@pytest.fixture(scope="module")
def reference():
    return Reference()


def cell(number, unit, factor, counterpart="", flag="", rounding=100.0, wood="a"):
    """A row of the measurements table, an invented one."""
    return dict.fromkeys((*VALUE_COLUMNS, *COUNTERPART_COLUMNS)) | {
        "species_id": wood,
        "property_id": KEY[0],
        "condition": KEY[1],
        "measurement_id": f"{wood}:{unit}",
        "unit_counterpart_id": counterpart,
        "value": number * factor,
        "rounding": rounding,
        "printed_value": str(number),
        "printed_unit": unit,
        "plausibility_flag": flag,
        "basis": "checked",
        "source_id": "table",
        "short": "a table",
    }


METRIC = cell(6000, "N", 1.0, "a:lbf")
US = cell(1360, "lbf", LBF_TO_N, "a:N", rounding=10 * LBF_TO_N)


def in_units(metric, us, units):
    return values_of([metric, us])["a:N"].in_units(units).value


def test_agreement_is_within_half_of_both_roundings():
    # 49.6 N apart, 50 + 22.2 N allowed.
    assert agree(6000.0, 100.0, 1360 * LBF_TO_N, 10 * LBF_TO_N)
    assert not agree(6000.0, 100.0, 6100.0, 10.0)


def test_each_system_shows_the_figure_printed_in_it():
    assert in_units(METRIC, US, "us") / LBF_TO_N == pytest.approx(1360)
    assert in_units(METRIC, US, "si") == 6000.0
    us = values_of([METRIC, US])["a:lbf"]
    assert us.in_units("si").printed == "6000 N"
    assert us.in_units("us") is us


@pytest.mark.parametrize(
    "counterpart",
    [
        {"value": 5000.0},
        {"plausibility_flag": "below the green value"},
        {"measurement_id": "another"},
        {"printed_unit": "kN"},
    ],
    ids=["disagrees", "in doubt", "absent", "of the same system"],
)
def test_a_counterpart_that_cannot_stand_for_the_figure_does_not(counterpart):
    assert in_units(METRIC, US | counterpart, "us") == 6000.0


def test_a_group_shows_the_mean_of_what_its_members_show():
    a = values_of([METRIC, US])["a:N"]
    b = values_of([cell(4000, "N", 1.0, wood="b")])["b:N"]
    assert pooled([a, b]).in_units("us").value == pytest.approx((1360 * LBF_TO_N + 4000.0) / 2)
    assert pooled([a, b]).in_units("si").value == pooled([a, b]).value == 5000.0


def test_white_oak_and_sugar_maple_as_printed_in_inches_and_pounds(reference):
    # Wood Handbook FPL-GTR-190 (2010), Table 5-3b: side hardness 1,360 and 1,450 lbf, modulus
    # of rupture 15,200 and 15,800 lbf/in2 at 12 %.
    for name, hardness, rupture in (("white oak", 1360, 15200), ("sugar maple", 1450, 15800)):
        wood = reference.wood(name)
        shown = {p: wood.value(p).in_units("us").value for p in (KEY[0], "modulus_of_rupture")}
        assert shown[KEY[0]] / LBF_TO_N == pytest.approx(hardness)
        assert shown["modulus_of_rupture"] / 0.006894757 == pytest.approx(rupture)


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
