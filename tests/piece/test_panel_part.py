"""A part that is a glued-up panel: its staves, and its thickness through the year."""

import pytest
from small_woods import WHITE_OAK, estimated

from woodref.board.movement import CUTS, movement
from woodref.errors import InputError
from woodref.piece.piece import parse_piece

PANEL = """
name = "top (invented)"
units = "si"
[build]
moisture_pct = 8
[use]
driest = {{ moisture_pct = 6 }}
wettest = {{ moisture_pct = 11 }}
[[parts]]
name = "top"
species = "white oak"
length = 1000
width = 300
thickness = 20
{staves}
"""


def panel_of(staves):
    return estimated(parse_piece(PANEL.format(staves=staves), "x")).parts[0]


def test_a_panel_is_its_staves_each_with_its_own_rings():
    written = "staves = [{ width = 100 }, { width = 100, cut = 'quarter' }, { width = 100 }]"
    top = panel_of(written)
    assert top.part.staves == 3
    flat, quarter = (
        movement(WHITE_OAK, 100.0, 6.0, 11.0, angle) for angle in (CUTS["flat"], CUTS["quarter"])
    )
    dry = 100.0 / movement(WHITE_OAK, 100.0, 6.0, 8.0, 0.0).after_mm
    dry_quarter = 100.0 / movement(WHITE_OAK, 100.0, 6.0, 8.0, 90.0).after_mm
    swing = 2 * flat.change_mm * dry + quarter.change_mm * dry_quarter
    assert top.movements[2].change_mm == pytest.approx(swing, rel=1e-9)
    same = panel_of("staves = [{ width = 100 }, { width = 100 }, { width = 100 }]")
    for own, equal in zip(same.movements, panel_of("staves = 3").movements, strict=True):
        assert own.after_mm == pytest.approx(equal.after_mm, rel=1e-12)
        assert tuple(own.likely_mm) == pytest.approx(tuple(equal.likely_mm), rel=1e-4)


def test_the_narrowest_and_the_widest_stave_a_shop_glues():
    assert panel_of("stave_narrowest = 80\nstave_widest = 130").part.staves == 3


@pytest.mark.parametrize(
    ("staves", "words"),
    [
        ("staves = [{ width = 100 }, { width = 150 }]", "staves: come to 250 mm together"),
        ("staves = [{ width = 100, cut = 'flet' }]", "staves[1]: cut: 'flet' is not known"),
        ("stave_widest = 130", "needs stave_narrowest and stave_widest together"),
        ("staves = 3\nstave_narrowest = 80\nstave_widest = 130", "give either staves, or"),
        ("stave_narrowest = 120\nstave_widest = 130", "no number of equal staves"),
    ],
)
def test_staves_that_make_no_panel_are_told(staves, words):
    with pytest.raises(InputError) as caught:
        panel_of(staves)
    assert words in str(caught.value)
    assert str(caught.value).startswith('x: parts[1] "top"')


def test_the_thickness_moves_by_the_other_direction():
    flat, quarter = panel_of(""), panel_of("cut = 'quarter'")
    other = movement(WHITE_OAK, 20.0, 8.0, 11.0, 90.0)
    assert flat.thicknesses[1].after_mm == pytest.approx(other.after_mm)
    assert quarter.thicknesses[1].change_mm > flat.thicknesses[1].change_mm
