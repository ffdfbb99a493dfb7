"""What this room answers, whole and in words, as told.txt holds it."""

from math import inf, nan
from pathlib import Path

import pytest
from small_woods import BLACK_WALNUT, WHITE_OAK, wood
from told import assert_held, by_name, said

from woodref.board.shapes import Shape
from woodref.quantity import Range
from woodref.reference.library import Reference
from woodref.reference.shipping import parse_divisor, shipping_facts
from woodref.shipping import crate, lifting, load

FACTS = shipping_facts(Reference(own=False))


def packed(size=(1500.0, 450.0, 800.0), mass=(60.0, 54.0, 66.0), padding=40.0, **packing):
    """A packed piece; ``one`` is what one person lifts."""
    one = packing.pop("one", None)
    return crate.crate(size, Range(*mass), crate.Packing(padding, **packing), FACTS, (), one)


def checked(**packing):
    """A packing that can be; what is wrong with another is told in both units."""
    return said(crate.Packing(packing.pop("padding", 0.0), **packing).check) or "it can be"


def lifted(expected, low, high, one=None):
    """Who can lift so many kilograms."""
    return lifting.lifting(Range(expected, low, high), FACTS, one)


def part(name, of=WHITE_OAK, size=(1000.0, 100.0, 20.0), quantity=1, staves=1, lift="the piece"):
    """A part of solid wood."""
    return load.WoodPart(name, of, Shape("box", *size), quantity, staves, lift)


NAMES = {
    **{m.__name__.rpartition(".")[2]: m for m in (crate, lifting, load)},
    **{f.__name__: f for f in (packed, checked, lifted, part, said, wood, parse_divisor)},
    **{"FACTS": FACTS, "Range": Range, "inf": inf, "nan": nan, "Item": load.Item},
    **{"OAK": WHITE_OAK, "WALNUT": BLACK_WALNUT},
}
HELD = by_name(Path(__file__).with_name("told.txt"))


@pytest.mark.parametrize("about", HELD)
def test_the_answers_are_those_held(about):
    assert_held(HELD[about], NAMES, "shipping")
