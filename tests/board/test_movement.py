"""The movement of one board: its year, its faces, and the shares it shrinks by."""

from dataclasses import replace

import pytest
from small_woods import BARE, SUGAR_MAPLE, UNCHECKED_WOOD, WHITE_OAK, value, wood

from woodref.board.movement import face_angles, movement, seasonal_movement, shares_of, size_for
from woodref.board.movement_basis import MovementMethod, movement_basis
from woodref.errors import InputError, NoDataError


def test_shares_are_those_of_movement():
    s = shares_of(WHITE_OAK, 12.0, 6.0)
    assert 1.0 - s.tangential == pytest.approx(movement(WHITE_OAK, 1.0, 12.0, 6.0).after_mm)
    assert 1.0 - s.radial == pytest.approx(movement(WHITE_OAK, 1.0, 12.0, 6.0, 90.0).after_mm)
    assert shares_of(UNCHECKED_WOOD, 12.0, 6.0).basis.radial.unchecked


def test_the_range_of_a_change_is_that_of_the_size():
    m = movement(WHITE_OAK, 300.0, 8.0, 6.0)
    assert m.likely_change_mm.expected == m.change_mm == m.after_mm - 300.0
    assert m.likely_change_mm.low == m.likely_mm.low - 300.0 < m.change_mm
    assert m.basis.values == (m.basis.tangential, m.basis.radial)


def test_a_board_made_between_the_seasons_starts_from_its_size_at_the_driest():
    swing = seasonal_movement(SUGAR_MAPLE, 300.0, 8.0, 6.0, 11.0)
    assert swing.size_mm == movement(SUGAR_MAPLE, 300.0, 8.0, 6.0).after_mm
    # Exact geometry: by way of the driest or at once, the size at the wettest is the same.
    assert swing.after_mm == pytest.approx(movement(SUGAR_MAPLE, 300.0, 8.0, 11.0).after_mm)
    given = seasonal_movement(SUGAR_MAPLE, 300.0, None, 6.0, 11.0)
    assert given == movement(SUGAR_MAPLE, 300.0, 6.0, 11.0)


def test_the_thickness_meets_the_rings_at_the_complement():
    assert face_angles("", "width") == {"flat": 0.0, "rift": 45.0, "quarter": 90.0}
    assert face_angles("", "thickness") == {"flat": 90.0, "rift": 45.0, "quarter": 0.0}
    assert face_angles(" Quarter", "width") == {"quarter": 90.0}
    assert face_angles("30", "thickness") == {"30": 60.0}
    with pytest.raises(InputError, match="cut 'across' is not known"):
        face_angles("across", "width")


def test_a_width_to_cut_is_that_of_a_flat_board_where_no_rings_are_said():
    assert size_for(WHITE_OAK, 300.0, 8.0, 6.0) == size_for(WHITE_OAK, 300.0, 8.0, 6.0, 0.0)


def test_figures_without_a_spread_have_no_range_of_their_own():
    """What is left of the range is that of the fiber saturation point."""
    even = {key: replace(v, sd=None) for key, v in WHITE_OAK.values.items()}
    known = movement(replace(WHITE_OAK, values=even), 300.0, 8.0, 6.0)
    usual = movement(WHITE_OAK, 300.0, 8.0, 6.0)
    assert known.after_mm == usual.after_mm
    for angle in (0.0, 45.0, 90.0):
        point = known.basis.fiber_saturation.cv
        assert known.basis.cv(angle) == pytest.approx(point * (1.0 + 8.0 * point**2) ** 0.5)


@pytest.mark.parametrize("direction", ["radial", "tangential"])
@pytest.mark.parametrize("kind", ["shrinkage", "change_per_pct", "dimensional_change_coefficient"])
def test_one_direction_alone_says_nothing_of_the_other(kind, direction):
    with pytest.raises(NoDataError, match="no table holds radial and tangential shrinkage"):
        movement(wood("half known wood", {f"{kind}_{direction}": 0.3}), 300.0, 8.0, 6.0)


@pytest.mark.parametrize("direction", ["radial", "tangential"])
def test_an_estimate_of_one_direction_alone_is_none(direction):
    estimate = value(f"shrinkage_{direction}", 5.0, "estimated")
    guessed = replace(BARE, estimates={(estimate.property_id, estimate.condition): estimate})
    with pytest.raises(NoDataError, match="no table holds radial and tangential shrinkage"):
        movement(guessed, 300.0, 8.0, 6.0)


def test_coefficients_alone_stand_for_shrinkages():
    """C = 1 / (30 * 100 / S - 30 + M), half way from 6 to 14 %: Eq. 13-1 of FPL-GTR-190 (2010)."""
    figures = {f"dimensional_change_coefficient_{d}": 0.002 for d in ("radial", "tangential")}
    basis = movement_basis(wood("coefficients alone", figures))
    for shrinkage, direction in ((basis.radial, "radial"), (basis.tangential, "tangential")):
        assert shrinkage.property_id == f"shrinkage_{direction}"
        assert shrinkage.unit == "%"
        assert shrinkage.printed == "from the coefficient 0.002"


def test_coefficients_alone_are_those_of_the_own_fiber_saturation_point():
    """From 6 to 14 % a board changes by its coefficient, wherever its saturation point lies."""
    figures = {f"dimensional_change_coefficient_{d}": 0.002 for d in ("radial", "tangential")}
    usual = wood("coefficients alone", figures)
    early = replace(usual, fiber_saturation=usual.fiber_saturation._replace(pct=24.0))
    assert movement_basis(early).fiber_saturation is early.fiber_saturation
    for one in (usual, early):
        after = movement(one, 100.0, 10.0, 12.0).after_mm
        assert after == pytest.approx(100.0 * (1.0 + 0.002 * 2.0), rel=1e-4)
    assert movement_basis(early).radial.value < movement_basis(usual).radial.value


@pytest.mark.parametrize(("direction", "angle"), [("radial", 90.0), ("tangential", 0.0)])
def test_a_coefficient_of_one_direction_governs_that_one(direction, angle):
    """Far off the shrinkage that is printed beside it, it goes before that from 6 to 14 %."""
    figures = {"shrinkage_radial": 4.0, "shrinkage_tangential": 8.0}
    one = wood(
        "half governed wood", {**figures, f"dimensional_change_coefficient_{direction}": 0.004}
    )
    basis = movement_basis(one)
    assert basis.by_coefficient
    assert movement(one, 100.0, 8.0, 10.0, angle).change_mm == pytest.approx(0.8, rel=0.02)
    other = movement(one, 100.0, 8.0, 10.0, 90.0 - angle).change_mm
    plain = movement(wood("plain wood", figures), 100.0, 8.0, 10.0, 90.0 - angle).change_mm
    assert other == pytest.approx(plain)


def test_a_change_per_pct_holds_up_to_the_ends_of_its_range():
    pine = wood("per cent wood", {"change_per_pct_radial": 0.2, "change_per_pct_tangential": 0.3})
    assert movement(pine, 100.0, 20.0, 5.0).notes == ()
    assert movement(pine, 100.0, 5.0, 20.0).notes == ()
    assert [n.code for n in movement(pine, 100.0, 20.1, 5.0).notes] == ["beyond-change-per-pct"]


def test_changes_per_pct_of_two_publications_are_not_mixed():
    figures = {"change_per_pct_radial": 0.2, "change_per_pct_tangential": 0.3}
    one = wood("per cent wood", figures)
    assert movement_basis(one).method is MovementMethod.CHANGE_PER_PCT
    radial = replace(one.value("change_per_pct_radial"), source_id="another")
    mixed = {**one.values, (radial.property_id, radial.condition): radial}
    with pytest.raises(NoDataError):
        movement_basis(replace(one, values=mixed))
    shrunk = wood("shrinking wood", {"shrinkage_radial": 4.0, "shrinkage_tangential": 8.0})
    other = replace(shrunk.value("shrinkage_radial"), source_id="another")
    values = {**shrunk.values, (other.property_id, other.condition): other}
    assert movement_basis(replace(shrunk, values=values)).method is MovementMethod.SHRINKAGE
