"""The mistakes of a piece file: all at once, one line each, in the units of the file."""

import re

import pytest

from woodref.errors import InputError, ManyMistakesError
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import parse_piece
from woodref.reference.library import Reference

TOP = """
name = "stool"
units = "si"
[build]
moisture_pct = 8
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 11 }
"""
SEAT = """
[[parts]]
name = "seat"
species = "white oak"
length = 360
width = 320
thickness = 22
"""
SPAN = '[[span]]\npart = "seat"\n'
SHIPPING = "[shipping]\nlength = 9\ndepth = 9\nheight = 9\n"
FIXING = '[[fixing]]\npart = "seat"\nkind = "floating-panel"\n'


def lines(text):
    """The lines of what is wrong with a piece file, without its name."""
    with pytest.raises(InputError) as caught:
        estimate_piece(Reference(own=False), parse_piece(text, "x.toml"))
    told = str(caught.value).split("\n")
    assert all(line.startswith("x.toml: ") for line in told)
    assert isinstance(caught.value, ManyMistakesError) == (len(told) > 1)
    return [line.removeprefix("x.toml: ") for line in told]


def test_mistakes_of_many_tables_come_at_once_in_the_order_of_reading():
    text = (
        TOP.replace("moisture_pct = 8", "moisture_pct = 80")
        + SEAT.replace("length = 360", "lenght = 360").replace("width = 320", "width = 0")
        + SEAT.replace('"seat"', '"rail"').replace("thickness = 22", 'thickness = "thin"')
        + '[[items]]\nname = "pull"\n'
        + "[buying]\nyard_widths = [100]\n"
    )
    assert lines(text) == [
        "build: moisture_pct: 80 is outside 0 to 30 %",
        "parts[1] \"seat\": lenght: unknown key; did you mean 'length'?",
        'parts[1] "seat": width: 0 is 0 mm; must be above 0 and at most 5000 mm',
        "parts[2] \"rail\": thickness: 'thin' is not a length; write for example 1200 mm or 1.2 m",
        'items[1] "pull": mass: is missing; write for example mass = "540 g"',
        "buying: yard_lengths: is missing; a yard sells widths in lengths",
    ]  # fmt: skip


def test_what_names_a_part_with_a_mistake_in_it_is_not_told_too():
    broken = SEAT.replace("thickness = 22", "thickness = 0")
    assert len(lines(TOP + broken + SPAN + FIXING)) == 1
    assert len(lines(TOP + broken + SPAN + FIXING.replace('"seat"', '"lid"'))) == 1
    both = lines(TOP + broken + SEAT.replace('"seat"', '"lid"') + FIXING.replace("seat", "back"))
    assert both[1].startswith("fixing[1]: part: 'back' is not known")


def test_units_come_first_as_no_size_can_be_judged_without_them():
    assert lines((TOP + SEAT).replace('"si"', '"metric"').replace("320", "0")) == [
        "units: 'metric' is not known; use one of us, si"
    ]


def test_every_unknown_wood_is_told():
    other = SEAT.replace('"seat"', '"rail"').replace("white oak", "blakc chery")
    found = lines(TOP + SEAT.replace("white oak", "wite oak") + other)
    assert ["nearest: " in line for line in found] == [True, True]


#: Mistakes a piece file can hold, each with the words of its message that are the same in both.
MISTAKES = {
    "a size that is none": SEAT.replace("320", '"wide"'),
    "a size of an unknown unit": SEAT.replace("320", '"3 furlongs"'),
    "a size that is too large": SEAT.replace("320", "900000"),
    "a size that is missing": SEAT.replace("length = 360", ""),
    "thicker than wide": SEAT.replace("thickness = 22", 'thickness = "330 mm"'),
    "no stock so thick": SEAT.replace("thickness = 22", 'thickness = "200 mm"'),
    "stock that is too thin": SEAT + 'stock = "10 mm"',
    "stock that is none": SEAT + 'stock = "x"',
    "stock of another kind": SEAT + "stock = true",
    "staves too narrow": SEAT + 'stave_narrowest = "180 mm"\nstave_widest = "200 mm"',
    "staves of another sum": SEAT + 'staves = [{ width = "50 mm" }]',
    "a volume that is none": SEAT + 'shape = "volume"\nvolume = "much"',
    "more removed than there is": SEAT + 'removed = "9 m3"',
    "a ring": SEAT.replace("360", "320") + 'shape = "ring"\ninner = "320 mm"',
    "a density that is none": SEAT + '[[sheets]]\nname = "ply"\nthickness = 12\ndensity = "x"',
    "a density too high": SEAT + '[[sheets]]\nname = "ply"\nthickness = 12\ndensity = 90000',
    "a span too long": SEAT + SPAN + 'span = "9 m"',
    "a load that is none": SEAT + SPAN + 'uniform = "much"',
    "a point that is none": SEAT + SPAN + 'point = "much"',
    "a load outside": SEAT + SPAN + 'point = "9 N"\nat = "900 mm"',
    "no beam": SEAT + SPAN + 'span = "30 mm"',
    "a screw that is none": SEAT + FIXING.replace("floating-panel", "slot") + 'screw = "x"',
    "a fixing outside": SEAT + FIXING.replace("floating-panel", "slot") + 'at = "900 mm"',
    "a gap that is too large": SEAT + FIXING + 'gap = "4 m"',
    "a gap beyond its groove": SEAT + FIXING + 'gap = "20 mm"\ngroove = "10 mm"',
    "air too hot": SEAT + "air",
    "a temperature that is none": SEAT + "warm",
    "an area that is none": SEAT + '[finish]\nname = "varnish"\narea = "all"',
    "a coverage that is none": SEAT + '[finish]\nname = "varnish"\ncoverage = "all"',
    "a coverage that is missing": SEAT + '[finish]\nname = "varnish"\nprice_per_l = 9',
    "a weight that is none": SEAT + '[[items]]\nname = "pull"\nmass = "x"',
    "a weight of another kind": SEAT + '[[items]]\nname = "pull"\nmass = true',
    "a weight too high": SEAT + '[[items]]\nname = "pull"\nmass = "900000 kg"',
    "a divisor that is none": SEAT + SHIPPING + 'divisors = ["x"]',
    "divisors that are none": SEAT + SHIPPING + "divisors = 1",
    "too much padding": SEAT + SHIPPING + 'padding = "2 m"',
    "an allowance": SEAT + '[buying]\nboards = "x.csv"\nkerf = "600 mm"',
    "widths that are none": SEAT + "[buying]\nyard_widths = 5\nyard_lengths = [900]",
}  # fmt: skip
INCHES = re.compile(r"\b(inch|ft|lb|in3|ft[23]|gallon|oz|F)\b|[0-9] in\b|[0-9]F\b|[0-9]/[0-9]")
METRIC = re.compile(r"[0-9] ?(mm|cm|m|kg|g|C)\b|\b(kg|cm3|m2|m3|C|L)\b")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_file_hears_of_no_units_but_its_own(mistake, units):
    top, text = TOP.replace('"si"', f'"{units}"'), MISTAKES[mistake]
    if units == "us":
        for size in ("length = 360", "width = 320", "thickness = 22"):
            text = text.replace(size, size.replace("= ", '= "') + ' mm"')
    for word, wettest in (("air", '"400 F"'), ("warm", '"warm"')):
        if text.endswith(word):
            text = text.removesuffix(word)
            top = top.replace("moisture_pct = 11", f"temperature = {wettest}, humidity_pct = 40")
    for line in lines(top + text):
        # Without what the file itself says.
        said = re.sub(r"'[^']*'|\"[^\"]*\" is |[0-9]+ mm is ", "", line)
        assert not (INCHES if units == "si" else METRIC).search(said), line


def test_a_mistake_in_the_size_of_the_piece_is_told_once():
    text = f"{TOP}{SEAT}[size]\nlength = 0\ndepth = 300\nheight = 400\n[shipping]\n"
    assert lines(text) == ["size: length: 0 is 0 mm; must be above 0 and at most 20000 mm"]
