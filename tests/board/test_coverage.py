"""What is called a likely range holds 9 boards in 10: boards are drawn and counted.

A drawn board has figures of its own: specific gravity, shrinkage along and across the rings and
fiber saturation, each normal about the printed one with the spread the library states; boards of
one wood correlate by one half. Each goes through the equations by itself, so the claim is
not repeated but tried: the ranges are straight lines about the expected value, the equations are
not. Within 2 points of 90 %, where counting is certain to about a quarter of a point.
"""

import numpy
import pytest

import woodref
from woodref.board.movement import movement
from woodref.board.movement_basis import movement_basis
from woodref.board.panel import Stave, panel_movement
from woodref.board.weight import density_of, weight_of, wood_shrinkage
from woodref.formulas.density import density_at, specific_gravity_at
from woodref.formulas.movement import size_across
from woodref.formulas.spread import chance_greater
from woodref.shipping.load import WoodPart, load

DRAWS = 20_000
#: A ring-porous wood, a diffuse-porous one, a softwood, one that shrinks much, one known by its
#: coefficients alone, and one whose printed coefficients go before its shrinkage.
WOODS = ("white oak", "black cherry", "eastern white pine", "hickory", "apple", "teak")


def deviates(seed, boards):
    """Standard normal deviates of boards of one wood that correlate by one half."""
    source = numpy.random.default_rng(seed)
    shared = source.standard_normal((DRAWS, 1))
    return (shared + source.standard_normal((DRAWS, boards))) / 2.0**0.5


def share_within(drawn, likely):
    return 100.0 * numpy.mean((likely.low <= drawn) & (drawn <= likely.high))


def drawn_densities(wood, moisture_pct, seed, boards=1):
    """Densities of boards, each by its own gravity and its own shrinkage [kg/m3]."""
    known, shrinkage = density_of(wood, moisture_pct), wood_shrinkage(wood)
    cv = known.sd_kg_m3 / known.density_kg_m3
    gravity = known.basic_specific_gravity * (1.0 + cv * deviates(seed, boards))
    assert shrinkage.total_pct is not None
    volumetric = shrinkage.total_pct * (1.0 + 0.15 * deviates(seed + 1, boards))
    at = specific_gravity_at(gravity, moisture_pct, volumetric, shrinkage.fiber_saturation_pct)
    return density_at(at, moisture_pct)


def drawn_sizes(wood, size, start, end, angle, seed, boards=1):
    """Sizes of boards after a change of moisture content, each by its own figures [mm]."""
    basis = movement_basis(wood)
    together = deviates(seed, boards)
    tangential, radial = (
        1.0 + together * (v.sd or 0.0) / v.value for v in (basis.tangential, basis.radial)
    )
    point = basis.fiber_saturation
    own = point.pct + point.sd_pct * deviates(seed + 1, boards)
    # The change per 1 % of a board is its shrinkage over its fiber saturation point.
    per_pct = point.pct / own
    _, _, _, by_t, by_r = basis.curve
    return size_across(
        size,
        start,
        end,
        angle,
        basis.tangential.value * tangential,
        basis.radial.value * radial,
        own,
        by_t * tangential * per_pct,
        by_r * radial * per_pct,
    )


@pytest.mark.parametrize("name", WOODS)
def test_weight_of_one_board_and_of_many(name):
    wood = woodref.wood(name)
    one = weight_of(wood, 1200.0, 180.0, 25.0, 8.0)
    alone = drawn_densities(wood, 8.0, 1)[:, 0] * one.volume_m3
    assert share_within(alone, one.mass_kg) == pytest.approx(90.0, abs=2.0)
    many = weight_of(wood, 1200.0, 180.0, 25.0, 8.0, quantity=7)
    together = drawn_densities(wood, 8.0, 2, boards=7).sum(axis=1) * many.volume_m3
    assert share_within(together, many.total_kg) == pytest.approx(90.0, abs=2.0)


@pytest.mark.parametrize("angle", [0.0, 45.0, 90.0])
@pytest.mark.parametrize("name", WOODS)
def test_movement_of_one_board(name, angle):
    wood = woodref.wood(name)
    for start, end in ((12.0, 6.0), (7.0, 11.0)):
        claimed = movement(wood, 300.0, start, end, angle)
        drawn = drawn_sizes(wood, 300.0, start, end, angle, 3)[:, 0]
        assert share_within(drawn, claimed.likely_mm) == pytest.approx(90.0, abs=2.0)


@pytest.mark.parametrize("name", WOODS)
def test_movement_of_a_panel_of_staves(name):
    wood = woodref.wood(name)
    staves = [Stave(110.0, angle) for angle in (0.0, 20.0, 45.0, 0.0)]
    claimed = panel_movement(wood, staves, 7.0, 11.0)
    drawn = sum(
        drawn_sizes(wood, 110.0, 7.0, 11.0, s.ring_angle_deg, 5, boards=4)[:, n]
        for n, s in enumerate(staves)
    )
    assert share_within(drawn, claimed.likely_mm) == pytest.approx(90.0, abs=2.0)


def test_the_weight_of_a_piece_of_two_woods():
    """A frame and its panels: woods are independent of each other, boards of one wood are not."""
    sizes = (("white oak", 1500.0, 90.0, 28.0, 4, 1), ("black cherry", 600.0, 450.0, 15.0, 2, 4))
    parts = [
        WoodPart(name, woodref.wood(name), woodref.Shape("box", *size), quantity, staves)
        for name, *size, quantity, staves in sizes
    ]
    claimed = load(parts, [], 8.0, 8.0).shipped_kg
    drawn = numpy.zeros(DRAWS)
    for n, (name, *size, quantity, staves) in enumerate(sizes):
        volume = numpy.prod(size) * 1e-9 / staves
        boards = drawn_densities(woodref.wood(name), 8.0, 20 + 2 * n, boards=quantity * staves)
        drawn += volume * boards.sum(axis=1)
    assert share_within(drawn, claimed) == pytest.approx(90.0, abs=2.0)
    assert numpy.mean(drawn) == pytest.approx(claimed.expected, rel=0.005)


def test_the_chance_that_one_board_exceeds_another():
    a, b = (woodref.wood(name).value("side_hardness") for name in ("white oak", "black cherry"))
    source = numpy.random.default_rng(9)
    one, other = (v.value + v.sd * source.standard_normal(DRAWS) for v in (a, b))
    claimed = chance_greater(a.value, a.sd, b.value, b.sd)
    assert 100.0 * numpy.mean(one > other) == pytest.approx(100.0 * claimed, abs=1.0)
