"""Woods side by side."""

from dataclasses import replace

import pytest

from woodref.choose.compare import compare
from woodref.choose.overview import SHOP_PCT, USUAL_BOARDS, overview
from woodref.reference.fiber_saturation import fiber_saturation_of
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value, Wood

SI = USUAL_BOARDS["si"]


def wood(name, condition="12pct", **figures):
    values = {}
    for property_id, number in figures.items():
        p = PROPERTIES[property_id]
        usual = p.columns[0][0]
        at = condition if usual == "12pct" else usual
        sd = None if p.cv_pct is None else p.cv_pct / 100.0 * number
        values[property_id, at] = Value(
            property_id, at, number, p.si_unit, sd, "checked", f"table of {name}", str(number)
        )
    point = fiber_saturation_of(None, "united-states")
    return Wood(
        name,
        name,
        f"Arbor {name}",
        "",
        "hardwood",
        "",
        "",
        "partial",
        fiber_saturation=point,
        values=values,
    )


SHRINKAGE = {"shrinkage_radial": 4.8, "shrinkage_tangential": 9.9, "shrinkage_volumetric": 14.7}
# Sugar maple, Wood Handbook FPL-GTR-282 (2021), Table 4-3, and FPL-GTR-190 (2010), Table 5-3a.
MAPLE = wood("sugar maple", basic_specific_gravity=0.56, side_hardness=6400.0, **SHRINKAGE)
SOFT = wood("a soft wood", side_hardness=2000.0)
NEAR = wood("a near wood", side_hardness=6000.0)


def verdict(a, b):
    (contrast,) = compare([a, b], SI).row("side_hardness").contrasts
    return contrast


def test_clear_slight_and_within_natural_spread():
    # Chances by hand from the normal distribution: coefficient of variation 20 %.
    assert verdict(MAPLE, SOFT).verdict == "clear"
    near = verdict(MAPLE, NEAR)
    assert near.verdict == "within natural spread"
    assert near.chance == pytest.approx(0.590, abs=1e-3)  # 400 / hypot(1280, 1200) = 0.228
    assert near.ratio == pytest.approx(6400 / 6000)
    slight = verdict(MAPLE, wood("between", side_hardness=5000.0))
    assert slight.verdict == "slight"
    assert slight.chance == pytest.approx(0.806, abs=1e-3)  # 1400 / hypot(1280, 1000) = 0.862


def test_turned_round_the_chance_is_the_other_one():
    assert verdict(SOFT, MAPLE).chance == pytest.approx(1.0 - verdict(MAPLE, SOFT).chance)
    assert verdict(SOFT, MAPLE).verdict == "clear"
    assert verdict(SOFT, MAPLE).ratio == pytest.approx(1.0 / verdict(MAPLE, SOFT).ratio)


def test_the_first_is_set_against_each_other():
    row = compare([MAPLE, SOFT, NEAR], SI).row("side_hardness")
    assert [c.verdict for c in row.contrasts] == ["clear", "within natural spread"]


def test_what_a_wood_lacks_is_none_and_has_no_contrast():
    found = compare([MAPLE, SOFT], SI)
    row = found.row("movement_flat")
    assert row.cells[1] is None
    assert row.contrasts == (None,)
    assert found.row("brinell_hardness") is None
    assert any("a soft wood" in m for m in found.overviews[1].missing)


def test_janka_and_brinell_never_share_a_row():
    brinell = wood("brinell", brinell_hardness=30.0)
    found = compare([MAPLE, brinell], SI)
    rows = [r for r in found.rows if "hardness" in r.label]
    assert len(rows) == 2
    assert all(r.contrasts == (None,) for r in rows)


def test_unlike_conditions_never_share_a_row():
    unstated = wood("unstated", condition="unstated", modulus_of_rupture=100.0)
    usual = wood("usual", modulus_of_rupture=110.0)
    rows = [r for r in compare([usual, unstated], SI).rows if r.property_id == "modulus_of_rupture"]
    assert [r.condition for r in rows] == ["12pct", "unstated"]
    assert all(r.contrasts == (None,) for r in rows)
    both = compare([unstated, unstated], SI).rows
    assert [(r.condition, r.contrasts[0].ratio) for r in both] == [("unstated", 1.0)]


def test_green_stands_in_only_where_it_is_asked_for():
    green = wood("green", condition="green", side_hardness=3000.0)
    assert compare([green, green], SI).rows == ()
    (row,) = compare([green, green], SI, ["side_hardness"]).rows
    assert (row.key, row.condition) == ("side_hardness_green", "green")


def test_rows_asked_for_alone():
    found = compare([MAPLE, NEAR], SI, ["side_hardness", "board_mass"])
    assert [r.key for r in found.rows] == ["board_mass", "side_hardness"]
    with pytest.raises(KeyError):
        compare([MAPLE, NEAR], SI, ["sturdiness"])


def test_computed_rows_are_those_of_the_overview():
    found, g = compare([MAPLE, MAPLE], SI), overview(MAPLE, SI)
    assert found.row("board_mass").cells[0].value == g.weight.mass_kg.expected
    assert found.row("movement_quarter").cells[0].value == g.quarter.change_mm
    assert found.row("density").cells[0].value == g.density.density_kg_m3
    assert found.row("movement_flat").contrasts[0].chance == pytest.approx(0.5)


def test_overview_of_sugar_maple():
    g = overview(MAPLE, SI)
    # Shrinkage along a straight line below 30 %: D = D_green (1 - S (30 - M) / 3000), for
    # 300 mm from 6 to 10 %: FPL-GTR-282 (2021), Eq. 4-9.
    flat = 300.0 * ((1 - 0.099 * 20 / 30) / (1 - 0.099 * 24 / 30) - 1)
    assert g.flat.change_mm == pytest.approx(flat)
    assert g.weight.volume_m3 == pytest.approx(0.025 * 0.150 * 2.4)
    assert g.weight.density.moisture_pct == SHOP_PCT
    assert g.missing == ()
    assert {v.property_id for v in g.values} == {
        "basic_specific_gravity",
        "side_hardness",
        *SHRINKAGE,
    }


def test_overview_of_a_wood_that_nobody_measured():
    bare = replace(MAPLE, values={})
    g = overview(bare, SI)
    assert (g.weight, g.flat, g.quarter, g.density, g.hardness) == (None,) * 5
    assert len(g.missing) == 2
    assert g.values == ()


def test_the_usual_boards_are_the_same_in_both_systems_within_two_percent():
    us, si = USUAL_BOARDS["us"], SI
    for a, b in (
        (us.thickness_mm, si.thickness_mm),
        (us.width_mm, si.width_mm),
        (us.length_mm, si.length_mm),
        (us.across_mm, si.across_mm),
    ):
        assert a == pytest.approx(b, rel=0.02)
