"""Volumes of shapes against exact integration by SymPy, and what must hold of any of them."""

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from woodref.board.shapes import SHAPES, Shape, parse_shape, parse_volume, volume_of
from woodref.errors import InputError

SIZES = st.floats(1.0, 3000.0)
X, R = sympy.symbols("x r", positive=True)
TURN = 2 * sympy.pi


def tapered(length, width, thickness, end_width, end_thickness):
    """The area of the cross section integrated along the leg."""
    along = X / length
    area = (width + (end_width - width) * along) * (thickness + (end_thickness - thickness) * along)
    return sympy.integrate(area, (X, 0, length))


@pytest.mark.parametrize(
    ("shape", "integral"),
    [
        (Shape("box", 700, 45, 20), sympy.Integer(700 * 45 * 20)),
        (
            Shape("disc", width_mm=600, thickness_mm=22),
            sympy.integrate(TURN * R, (R, 0, 300)) * 22,
        ),
        (Shape("cylinder", 720, 38), sympy.integrate(TURN * R, (R, 0, 19)) * 720),
        (
            Shape("ring", width_mm=600, thickness_mm=22, inner_mm=420),
            sympy.integrate(TURN * R, (R, 210, 300)) * 22,
        ),
        (
            Shape("tapered leg", 700, 50, 50, end_width_mm=25),
            tapered(700, 50, 50, 25, 25),
        ),
        (
            Shape("tapered leg", 700, 60, 40, end_width_mm=20, end_thickness_mm=30),
            tapered(700, 60, 40, 20, 30),
        ),
        (
            Shape("tapered leg", 400, 20, 30, end_width_mm=70, end_thickness_mm=30),
            tapered(400, 20, 30, 70, 30),
        ),
        (Shape("volume", volume_mm3=125_000.0), sympy.Integer(125_000)),
    ],
    ids=lambda x: x.kind if isinstance(x, Shape) else "",
)
def test_volume_is_the_integral(shape, integral):
    assert volume_of(shape) == pytest.approx(float(integral), rel=1e-12)


@given(SIZES, SIZES, SIZES)
def test_a_leg_that_does_not_taper_is_a_box(length, width, thickness):
    leg = Shape("tapered leg", length, width, thickness, width, thickness)
    assert volume_of(leg) == pytest.approx(volume_of(Shape("box", length, width, thickness)))


@given(SIZES, SIZES, SIZES, SIZES, SIZES)
def test_a_leg_turned_end_for_end_is_the_same(length, a, b, c, d):
    assert volume_of(Shape("tapered leg", length, a, b, c, d)) == pytest.approx(
        volume_of(Shape("tapered leg", length, c, d, a, b))
    )


@given(SIZES, SIZES, st.floats(0.01, 0.99))
def test_a_ring_and_its_hole_are_the_disc(width, thickness, share):
    inner = width * share
    ring = Shape("ring", width_mm=width, thickness_mm=thickness, inner_mm=inner)
    hole = Shape("disc", width_mm=inner, thickness_mm=thickness)
    disc = Shape("disc", width_mm=width, thickness_mm=thickness)
    assert volume_of(ring) + volume_of(hole) == pytest.approx(volume_of(disc))
    bored = Shape("disc", width_mm=width, thickness_mm=thickness, removed_mm3=volume_of(hole))
    assert volume_of(bored) == pytest.approx(volume_of(ring))


@given(SIZES, SIZES, SIZES, st.floats(0.1, 10.0))
def test_volume_goes_as_the_cube_of_the_size(length, width, thickness, scale):
    one = Shape("tapered leg", length, width, thickness, width / 2, thickness / 3)
    other = Shape(
        "tapered leg",
        length * scale,
        width * scale,
        thickness * scale,
        width * scale / 2,
        thickness * scale / 3,
    )
    assert volume_of(other) == pytest.approx(volume_of(one) * scale**3)


@given(SIZES, SIZES, SIZES, st.floats(0.0, 0.999))
def test_what_is_removed_is_gone(length, width, thickness, share):
    whole = length * width * thickness
    cut = Shape("box", length, width, thickness, removed_mm3=whole * share)
    assert volume_of(cut) == pytest.approx(whole * (1 - share))


@pytest.mark.parametrize(
    ("shape", "message"),
    [
        (Shape("ball"), "'ball' is no shape; use one of box, disc"),
        (
            Shape("box", 700, 45, 0),
            "box: thickness must be above 0 and below 328 ft or 100 m",
        ),
        (Shape("box", 700, float("nan"), 20), "width must be"),
        (Shape("box", 700, -5, 20), r"not -0\.1969 in \(-5 mm\)"),
        (Shape("cylinder", 0, 38), "cylinder: length must be"),
        (Shape("disc", width_mm=600), "disc: thickness"),
        (Shape("ring", width_mm=600, thickness_mm=22), "inner diameter must be above 0"),
        (Shape("ring", width_mm=600, thickness_mm=22, inner_mm=600), "is not less than the outer"),
        (
            Shape("tapered leg", 700, 50, 50),
            "width at its end must be above 0 and below 328 ft or 100 m, not none",
        ),
        (Shape("tapered leg", 700, 50, 30, end_width_mm=25), "thickness at its end must be"),
        (Shape("volume"), "needs a volume above 0"),
        (Shape("volume", volume_mm3=float("inf")), "needs a volume above 0"),
        (Shape("box", 10, 10, 10, removed_mm3=1000.0), r"0\.06102 in3 \(1 cm3\) cannot be removed"),
        (Shape("box", 10, 10, 10, removed_mm3=-1.0), "cannot be removed"),
        (Shape("box", 10, 10, 10, removed_mm3=float("nan")), "cannot be removed"),
    ],
)
def test_an_impossible_shape_is_an_error(shape, message):
    with pytest.raises(InputError, match=message):
        volume_of(shape)


def test_every_shape_is_tried_here():
    assert SHAPES == ("box", "disc", "cylinder", "tapered leg", "ring", "volume")


@pytest.mark.parametrize(
    ("text", "mm3"),
    [
        ("12 in3", 12 * 25.4**3),
        ("12in³", 12 * 25.4**3),
        ("250 cm3", 250e3),
        ("0.4 L", 0.4e6),
        (".5 ft3", 0.5 * 304.8**3),
        ("0.002 m3", 2e6),
        ("800 mm3", 800.0),
    ],
)
def test_volumes_as_they_are_written(text, mm3):
    assert parse_volume(text) == pytest.approx(mm3)


@pytest.mark.parametrize("text", ["", "12", "12 in", "in3", "-1 in3", "1e3 cm3", "12 gallons"])
def test_other_text_is_no_volume(text):
    with pytest.raises(InputError, match="is not a volume; write for example 12 in3"):
        parse_volume(text)


@given(st.floats(0.0, 1e6).map(lambda x: round(x, 3)))
def test_a_volume_written_out_is_read_back(number):
    assert parse_volume(f"{number:.3f} cm3") == pytest.approx(number * 1e3)


def test_a_shape_as_a_shop_writes_its_sizes():
    sizes = {
        "length": "28 in",
        "width": "2in",
        "thickness": "8/4",
        "end_width": "1",
        "removed": "2 L",
    }
    assert parse_shape("Tapered-leg", sizes, "in") == Shape(
        "tapered leg", 28 * 25.4, 50.8, 50.8, end_width_mm=25.4, removed_mm3=2e6
    )
    assert parse_shape("volume", {"volume": "3 cm3"}, "in") == Shape("volume", volume_mm3=3e3)


@pytest.mark.parametrize(
    ("kind", "sizes", "message"),
    [
        ("disk", {}, "'disk' is no shape; did you mean 'disc'"),
        ("ring", {"width": "3"}, "<inner> is missing; a ring needs <width>, <inner>, <thickness>"),
        ("volume", {"volume": "3 cm3", "width": "3"}, "<width> does not go with a volume"),
    ],
)
def test_sizes_that_make_no_shape(kind, sizes, message):
    with pytest.raises(InputError, match=message):
        parse_shape(kind, sizes, "mm", lambda size: f"<{size}>")


def test_what_cannot_be_removed_is_told_in_the_units_asked_for():
    with pytest.raises(InputError) as caught:
        volume_of(Shape("disc", width_mm=10.0, thickness_mm=10.0, removed_mm3=1e6))
    assert "cm3" in caught.value.told("si")
    assert "in3" not in caught.value.told("si")
    assert "cm3" not in caught.value.told("us")


def test_the_smallest_volume_is_one():
    assert volume_of(Shape("volume", volume_mm3=0.5)) == 0.5
