"""Fixings of a piece: those of the library, at the moisture contents of the piece."""

import pytest
from small_woods import WOODS

from woodref.errors import InputError
from woodref.joinery.clearance import fixing_of
from woodref.joinery.fit import Verdict
from woodref.joinery.fixing_types import Sizes, fixing_spec
from woodref.joinery.travel import MoistureRange
from woodref.piece.in_use import fixings_of
from woodref.piece.piece import parse_piece

PIECE = """
name = "top (invented)"
units = "us"
[build]
moisture_pct = 8
[use]
driest = {{ moisture_pct = 6 }}
wettest = {{ moisture_pct = 11 }}
[[parts]]
name = "top"
species = "{species}"
length = 40
width = 18
thickness = "3/4"
[[fixing]]
name = "screws"
part = "top"
kind = "round-hole"
{sizes}
"""
SIZES = 'screw = "#8"\nhole = "3/8"\nwasher = "5/8"\nrecess = "7/8"\n'


def piece(sizes=SIZES, species="white oak"):
    return parse_piece(PIECE.format(sizes=sizes, species=species), "x.toml")


def test_it_is_the_fixing_of_the_library_at_the_air_of_the_piece():
    (found,) = fixings_of(piece(), WOODS)
    sizes = Sizes(screw=0.164 * 25.4, hole=9.525, washer=15.875, recess=22.225)
    spec = fixing_spec("round-hole", width_mm=457.2, sizes=sizes)
    same = fixing_of(spec, WOODS["white oak"], MoistureRange(8.0, 6.0, 11.0))
    assert found.fixing.travel.most.high == pytest.approx(same.travel.most.high)
    assert found.fixing.verdict == same.verdict is Verdict.HOLDS_FOR_AVERAGE
    assert found.fixing.worst.short_mm > 0.0


def test_a_wood_without_shrinkage_is_said_not_guessed():
    (found,) = fixings_of(piece(species="bare wood"), WOODS)
    assert found.fixing is None
    assert "no table holds" in found.unknown


@pytest.mark.parametrize(
    ("sizes", "words"),
    [
        ('screw = "3/8"\nhole = "1/4"\n', "hole"),
        ('fixed = "20 in"\n', "outside the part"),
        ('slot = "1/4"\n', "slot"),
    ],
)
def test_what_cannot_be_names_file_and_fixing(sizes, words):
    with pytest.raises(InputError) as caught:
        fixings_of(piece(sizes), WOODS)
    assert str(caught.value).startswith('x.toml: fixing[1] "screws"')
    assert words in str(caught.value)
