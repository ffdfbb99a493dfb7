"""The handbook's figure on how flats, squares and rounds distort in drying, in words.

Wood Handbook FPL-GTR-190 (2010), chapter 4, 'Characteristic shrinkage and distortion of flat,
square, and round pieces as affected by direction of growth rings' (Figure 4-3, number and content
from memory): tangential shrinkage about twice radial; a flat-sawn board cups away from the pith,
so its bark side is hollow; a quartersawn board stays flat; a square with diagonal rings turns to
a diamond, one with rings along its sides to an oblong; a round turns oval.
"""

import pytest
from small_woods import WHITE_OAK

from woodref.board.cross_section import board_section, round_section
from woodref.board.outline import pith_beside, pith_by_rings


def dried(width, thickness, pith):
    return board_section(WHITE_OAK, width, thickness, pith, 30.0, 0.0)


def test_a_flat_sawn_board_is_hollow_on_the_bark_side():
    s = dried(200.0, 25.0, pith_beside("below", 60.0, 0.0, 200.0, 25.0))
    assert s.cupped.side == "bark"
    assert s.cupped.cup_mm.expected > 2.0


def test_a_quartersawn_board_stays_flat():
    quarter = dried(200.0, 25.0, pith_beside("left", 60.0, 0.0, 200.0, 25.0))
    flat = dried(200.0, 25.0, pith_beside("below", 60.0, 0.0, 200.0, 25.0))
    assert abs(quarter.cupped.cup_mm.expected) < 0.02 * flat.cupped.cup_mm.expected
    assert quarter.faces["top"].after_mm > flat.faces["top"].after_mm


def test_a_square_with_diagonal_rings_becomes_a_diamond():
    s = dried(50.0, 50.0, pith_by_rings(45.0, 120.0))
    # The pith lies toward the lower left, so that diagonal runs across the rings and stays longer.
    assert s.diagonals_mm[0] > s.diagonals_mm[1]
    assert abs(s.out_of_square_deg) > 1.0


def test_a_square_with_rings_along_its_side_becomes_an_oblong():
    s = dried(50.0, 50.0, pith_by_rings(0.0))
    assert s.faces["right"].after_mm > s.faces["top"].after_mm
    assert s.out_of_square_deg == pytest.approx(0.0, abs=1e-9)


def test_a_round_becomes_oval_shorter_along_the_rings():
    r = round_section(WHITE_OAK, 50.0, pith_by_rings(0.0, 120.0), 30.0, 0.0)
    assert r.widest_mm - r.narrowest_mm > 1.0
    height = max(z.imag for z in r.outline) - min(z.imag for z in r.outline)
    assert height == pytest.approx(r.widest_mm, rel=1e-6)
