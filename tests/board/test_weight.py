"""Density and weight, on woods written out here with the figures they need."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.board.shapes import Shape
from woodref.board.weight import (
    DensityFrom,
    ShrinkageFrom,
    density_of,
    weight_of,
    weight_of_shape,
)
from woodref.errors import InputError, NoDataError
from woodref.formulas.density import greatest_density
from woodref.reference.fiber_saturation import fiber_saturation_of
from woodref.reference.properties import PROPERTIES
from woodref.reference.woods import Value, Wood, group_of


def value(property_id, number, basis="checked", **more):
    p = PROPERTIES[property_id]
    return Value(
        property_id=property_id,
        condition=p.columns[0][0],
        value=number,
        unit=p.si_unit,
        sd=p.cv_pct / 100.0 * number,
        basis=basis,
        source="a test",
        printed=str(number),
        **more,
    )


def wood(*values, name="test wood"):
    return Wood(
        species_id=name.replace(" ", "-"),
        common_name=name,
        botanical_name="Arbor exempli",
        family="",
        kind="hardwood",
        trade_group="",
        origin="",
        data_coverage="partial",
        fiber_saturation=fiber_saturation_of(None, "united-states"),
        values={(v.property_id, v.condition): v for v in values},
    )


BASIC = value("basic_specific_gravity", 0.55)
#: White ash: Wood Handbook FPL-GTR-190 (2010), Tables 4-3 and 5-3a.
WHITE_ASH = wood(
    BASIC,
    value("shrinkage_radial", 4.9),
    value("shrinkage_tangential", 7.8),
    value("shrinkage_volumetric", 13.3),
    name="white ash",
)


def test_own_volumetric_shrinkage_comes_first():
    found = density_of(WHITE_ASH, 12.0)
    assert found.density_kg_m3 == pytest.approx(1000 * 0.55 / (1 - 0.133 * 0.6) * 1.12)
    assert [v.property_id for v in found.values] == [
        "basic_specific_gravity",
        "shrinkage_volumetric",
    ]
    assert found.shrinkage_from is ShrinkageFrom.VOLUMETRIC
    assert found.notes == ()


def test_radial_and_tangential_stand_in_for_volumetric():
    found = density_of(
        wood(BASIC, value("shrinkage_radial", 4.9), value("shrinkage_tangential", 7.8)), 12.0
    )
    volumetric = 1.0 - (1.0 - 0.049) * (1.0 - 0.078)
    assert found.density_kg_m3 == pytest.approx(1000 * 0.55 / (1 - volumetric * 0.6) * 1.12)
    assert len(found.values) == 3
    assert found.shrinkage_from is ShrinkageFrom.TWO_DIRECTIONS


def test_general_relation_is_the_last_resort_and_says_so():
    """FPL-GTR-282 (2021), p. 4-13: white ash wholly by equation, 675 kg/m3 at 12 %."""
    found = density_of(wood(BASIC, value("shrinkage_radial", 4.9)), 12.0)
    assert found.density_kg_m3 == pytest.approx(675.0, abs=0.5)
    assert found.values == (BASIC,)
    assert found.shrinkage_from is ShrinkageFrom.GENERAL


@pytest.mark.parametrize(
    ("other", "at_pct", "number"),
    [
        (value("specific_gravity_12pct", 0.60), 12.0, 0.60 * 1120),
        (value("density_12pct", 690.0), 12.0, 690.0),
        (value("density_ovendry", 640.0), 0.0, 640.0),
        (value("density_air_dry", 700.0), 12.0, 700.0),
        (value("density_at_test_moisture", 720.0, moisture_content_pct=15.0), 15.0, 720.0),
    ],
    ids=lambda x: x.property_id if isinstance(x, Value) else None,
)
@pytest.mark.parametrize("shrinkages", [(), (value("shrinkage_volumetric", 14.0),)])
def test_without_basic_specific_gravity_the_printed_density_comes_back(
    other, at_pct, number, shrinkages
):
    found = density_of(wood(other, *shrinkages), at_pct)
    assert found.density_kg_m3 == pytest.approx(number)
    assert found.sd_kg_m3 == pytest.approx(0.1 * number)
    assert found.values[0] is other
    assert found.density_from is DensityFrom.CONVERTED


def test_basic_specific_gravity_is_preferred_to_a_density():
    both = wood(BASIC, value("density_12pct", 900.0))
    assert density_of(both, 12.0).values[0] is BASIC


def test_air_dry_says_what_it_is_taken_for():
    (note,) = density_of(wood(value("density_air_dry", 700.0)), 8.0).notes
    assert "taken as that at 12 %" in note.text
    assert note.basis == "common_practice"


def test_memory_stays_memory():
    unchecked = wood(
        value("basic_specific_gravity", 0.5, "unchecked"), value("shrinkage_volumetric", 12.0)
    )
    assert density_of(unchecked, 8.0).basis == "unchecked"
    assert density_of(WHITE_ASH, 8.0).basis == "checked"


def test_printed_range_says_its_midpoint_is_used():
    ranged = wood(value("density_12pct", 720.0, printed_low=690.0, printed_high=750.0))
    (note,) = density_of(ranged, 12.0).notes
    assert "690 to 750" in note.text


def test_unstated_density_is_never_used():
    with pytest.raises(NoDataError, match=r"unstated moisture condition.*weigh a board"):
        density_of(wood(value("density_unstated", 800.0)), 8.0)
    with pytest.raises(NoDataError, match=r"no table holds a density.*weigh a board"):
        density_of(wood(value("shrinkage_radial", 4.0)), 8.0)


def test_density_at_unknown_test_moisture_is_not_used():
    with pytest.raises(NoDataError):
        density_of(wood(value("density_at_test_moisture", 720.0)), 8.0)


def test_fresh_from_the_mill_the_volume_is_green():
    found = density_of(WHITE_ASH, 60.0)
    assert found.density_kg_m3 == pytest.approx(550.0 * 1.6)
    assert [n.code for n in found.notes] == ["above-fiber-saturation"]


def test_more_water_than_the_wood_holds_is_refused():
    """Eq. 4-3 at 0.55 gives 116.9 %."""
    assert density_of(WHITE_ASH, 116.0).density_kg_m3 < 1540.0
    with pytest.raises(InputError, match=r"white ash .* at most 117 %"):
        density_of(WHITE_ASH, 118.0)


@pytest.mark.parametrize("moisture", [-1.0, float("nan"), float("inf")])
def test_impossible_moisture_is_refused(moisture):
    with pytest.raises(InputError):
        density_of(WHITE_ASH, moisture)


def test_likely_range_is_cut_where_no_void_is_left():
    found = density_of(WHITE_ASH, 116.0)
    assert found.likely_kg_m3.high == pytest.approx(greatest_density(116.0))
    dry = density_of(WHITE_ASH, 8.0)
    assert dry.likely_kg_m3.high - dry.density_kg_m3 == pytest.approx(
        1.6449 * dry.sd_kg_m3, rel=1e-4
    )


def test_group_spread_holds_the_differences_between_its_members():
    members = tuple(
        wood(value("basic_specific_gravity", g), name=f"wood {g}") for g in (0.4, 0.5, 0.6)
    )
    found = density_of(group_of("group", "group", members), 8.0)
    assert found.sd_kg_m3 / found.density_kg_m3 > 0.2
    assert found.notes == ()


def test_group_of_different_test_moistures_has_no_one_density():
    members = tuple(
        wood(value("density_at_test_moisture", 700.0, moisture_content_pct=m), name=f"wood {m}")
        for m in (10.0, 15.0)
    )
    with pytest.raises(NoDataError):
        density_of(group_of("group", "group", members), 8.0)


def test_weight_of_one_board():
    """4/4 x 8 in x 10 ft: 6.67 board feet, rough 1 in thick."""
    board = weight_of(WHITE_ASH, 3048.0, 203.2, 25.4, 8.0)
    assert board.volume_m3 == pytest.approx(0.01573158, abs=1e-8)
    assert board.mass_kg.expected == pytest.approx(board.volume_m3 * board.density.density_kg_m3)
    assert board.mass_kg == board.total_kg
    assert board.mass_kg.low / board.mass_kg.expected == pytest.approx(1.0 - 0.16449, abs=1e-4)


@given(st.integers(2, 500))
def test_many_boards_share_half_of_their_spread(quantity):
    one = weight_of(WHITE_ASH, 1000.0, 100.0, 25.0, 8.0)
    many = weight_of(WHITE_ASH, 1000.0, 100.0, 25.0, 8.0, quantity)
    assert many.mass_kg == one.mass_kg
    assert many.total_kg.expected == pytest.approx(quantity * one.mass_kg.expected)
    shared = (quantity + 0.5 * quantity * (quantity - 1)) ** 0.5
    assert many.total_sd_kg == pytest.approx(shared * one.sd_kg)
    more = many.total_kg.high - many.total_kg.expected
    assert more < quantity * (one.mass_kg.high - one.mass_kg.expected)


@given(st.floats(0.0, 110.0), st.floats(0.1, 5.0))
def test_wetter_boards_are_heavier(moisture, more):
    drier, wetter = (density_of(WHITE_ASH, m).density_kg_m3 for m in (moisture, moisture + more))
    assert wetter > drier


@pytest.mark.parametrize(
    "wrong",
    [
        {"length_mm": 0.0},
        {"width_mm": -5.0},
        {"thickness_mm": float("nan")},
        {"length_mm": 1e6},
        {"quantity": 0},
        {"quantity": 10**9},
    ],
)
def test_impossible_sizes_and_quantities_are_refused(wrong):
    right = {"length_mm": 1000.0, "width_mm": 100.0, "thickness_mm": 25.0, "moisture_pct": 8.0}
    name = next(iter(wrong)).removesuffix("_mm")
    with pytest.raises(InputError, match=name):
        weight_of(WHITE_ASH, **{**right, **wrong})


def test_a_density_without_a_spread_has_no_range():
    known = density_of(wood(replace(BASIC, sd=None)), 8.0)
    assert known.sd_kg_m3 == 0.0
    assert known.likely_kg_m3.low == known.likely_kg_m3.high == known.density_kg_m3


@pytest.mark.parametrize(("between", "known"), [(0.0748, True), (0.075, True), (0.0752, False)])
def test_a_genus_stands_in_for_a_wood_up_to_a_spread_of_15_pct(between, known):
    genus = value("basic_specific_gravity", 0.5, "estimated", between_sd=between)
    guessed = replace(wood(), estimates={(genus.property_id, genus.condition): genus})
    if known:
        assert density_of(guessed, 8.0).density_from is DensityFrom.GENUS_MEAN
    else:
        with pytest.raises(NoDataError, match="15 %, too wide for one number"):
            density_of(guessed, 8.0)


@pytest.mark.parametrize(("other", "word"), [(900.0, "% more"), (450.0, "% less")])
def test_densities_that_disagree_are_told_from_the_one_that_is_used(other, word):
    (note,) = density_of(wood(BASIC, value("density_12pct", other)), 12.0).notes
    assert note.code == "densities-disagree"
    assert note.text.endswith(word)


def test_what_disagrees_twice_is_told_twice():
    (note,) = density_of(
        wood(BASIC, value("density_12pct", 900.0), value("density_ovendry", 800.0)), 12.0
    ).notes
    assert "means 33 % more; ovendry density 800" in note.text
    assert note.text.endswith("means 24 % more")


def test_the_figure_of_the_shop_comes_first_and_of_two_the_basic_one():
    own = value("density_12pct", 720.0, "own")
    assert density_of(wood(BASIC, own), 12.0).values[0] is own
    own_basic = value("basic_specific_gravity", 0.58, "own")
    assert density_of(wood(own_basic, own), 12.0).values[0] is own_basic


def test_nothing_is_said_of_own_figures_nor_of_groups_that_disagree():
    other = value("density_12pct", 900.0)
    own = value("basic_specific_gravity", 0.55, "own")
    assert density_of(wood(own, other), 12.0).notes == ()
    group = group_of("group", "group", (wood(BASIC, other), wood(BASIC, other, name="another")))
    assert density_of(group, 12.0).notes == ()


@pytest.mark.parametrize("shrinkages", [(), (value("shrinkage_volumetric", 14.0),)])
def test_a_printed_density_comes_back_whatever_the_fiber_saturation_point(shrinkages):
    usual = wood(value("density_12pct", 690.0), *shrinkages)
    early = replace(usual, fiber_saturation=usual.fiber_saturation._replace(pct=22.0))
    assert density_of(early, 12.0).density_kg_m3 == pytest.approx(690.0)


def test_a_shape_is_one_piece_where_no_number_is_said():
    box = Shape("box", 1000.0, 100.0, 25.0)
    assert weight_of_shape(WHITE_ASH, box, 8.0) == weight_of_shape(WHITE_ASH, box, 8.0, 1)
