"""The tables [[span]] of a piece: what is read, and the sag that comes of it."""

import pytest
from small_woods import WOODS

from woodref.board.beam_material import of_wood
from woodref.board.deflection import SagVerdict, deflection
from woodref.board.span import Span
from woodref.errors import InputError
from woodref.piece.in_use import spans_of
from woodref.piece.piece import parse_piece
from woodref.piece.resolve import resolve
from woodref.reference.library import Reference
from woodref.reference.sag_rules import Carried, sag_rules

LIBRARY = Reference(own=False)
RULES = sag_rules(LIBRARY)

PIECE = """
name = "wall shelf (invented)"
units = "us"
[build]
moisture_pct = 7
[use]
driest = { moisture_pct = 6 }
wettest = { moisture_pct = 10 }
[[sheets]]
name = "ply"
thickness = "1/2"
density = 40
[[parts]]
name = "board"
species = "eastern white pine"
length = 38
width = 10
thickness = "3/4"
[[parts]]
name = "back"
sheet = "ply"
length = 38
width = 10
[[span]]
part = "board"
"""


def piece(more):
    return parse_piece(PIECE + more, "x.toml")


@pytest.fixture(scope="module")
def pine():
    return LIBRARY.wood("eastern white pine")


def test_a_span_takes_the_sizes_of_its_part_and_the_wettest_air(pine):
    read = piece('span = 36\nuniform = "20 lb/ft"\n')
    (found,) = spans_of(read, {"eastern white pine": pine}, RULES)
    shelf = Span(914.4, 254.0, 19.05, uniform_n_m=291.878)
    same = deflection(of_wood(pine, 10.0), shelf, RULES)
    assert found.spec.name == "board"
    assert found.sag.now_mm.expected == pytest.approx(same.now_mm.expected, rel=1e-4)
    assert found.sag.holds


def test_a_usual_load_or_none_named(pine):
    woods = {"eastern white pine": pine}
    (books,) = spans_of(piece('load = "books"\n'), woods, RULES)
    assert books.sag.span.usual.carried is Carried.BOOKS
    (flat,) = spans_of(piece(""), woods, RULES)
    assert flat.sag.span.usual.carried is Carried.SHELF
    assert flat.sag.span.usual_assumed
    (upright,) = spans_of(piece("on_edge = true\n"), woods, RULES)
    assert upright.sag is None
    assert upright.load_missing
    (bare,) = spans_of(piece('on_edge = true\nload = "nothing"\n'), woods, RULES)
    assert bare.sag.verdict is None


def test_on_edge_the_board_stands_upright(pine):
    flat = spans_of(piece('point = "50 lb"\n'), {"eastern white pine": pine}, RULES)[0].sag
    woods = {"eastern white pine": pine}
    sag = spans_of(piece('point = "50 lb"\non_edge = true\n'), woods, RULES)[0].sag
    assert sag.span.thickness_mm == pytest.approx(254.0)
    # The sag goes with the cube of the height and the width: 10 in on 3/4 in.
    assert flat.now_mm.expected / sag.now_mm.expected == pytest.approx((10 / 0.75) ** 2, rel=1e-6)
    assert sag.verdict is SagVerdict.STRAIGHT


def test_every_key_is_read(pine):
    read = piece(
        'name = "shelf"\nspan = 30\nsupport = "fixed"\npoint = "100 N"\nat = 6\ncreep = 3\n'
        'moisture_pct = 8\nshear_free = true\nlimit = "L/240"\n'
    ).spans[0]
    assert read.name == "shelf"
    span = read.span
    assert (span.span_mm, span.width_mm, span.thickness_mm) == pytest.approx((762.0, 254.0, 19.05))
    assert (span.support, span.uniform_n_m, span.point_n) == ("fixed", 0.0, 100.0)
    assert span.point_at_mm == pytest.approx(152.4)
    assert (read.creep_factor, read.moisture_pct, read.shear_free) == (3.0, 8.0, True)
    assert read.limit.divisor == 240.0
    assert piece('load = "row of books"\nshort = true\n').spans[0].load is Carried.BOOK_ROW
    assert piece("short = true\n").spans[0].span.short


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ('support = "simpel"\n', "did you mean 'simple'?"),
        ('uniform = "20 lb"\n', "write for example 20 lb/ft"),
        ('point = "20 lb/ft"\n', "write for example 50 lb"),
        ("span = 39\n", "more than the length of the part"),
        ("on_edge = 1\n", "must be true or false"),
        ("creep = 0.5\n", "outside 1 to 10"),
        ('load = "boks"\n', "did you mean 'books'?"),
        ('limit = "1/16 in"\n', "limit: '1/16 in' is not a limit of sag"),
        ('widht = "3"\n', "unknown key"),
    ],
)
def test_mistakes_name_file_table_and_key(more, words):
    with pytest.raises(InputError) as caught:
        piece(more)
    message = str(caught.value)
    assert message.startswith("x.toml: span[1]")
    assert words in message
    assert "\n" not in message


def test_an_unknown_part_is_told_with_the_nearest():
    text = PIECE.replace('[[span]]\npart = "board"', '[[span]]\npart = "bord"')
    with pytest.raises(InputError, match=r"span\[1\]: part: 'bord' is not known; did you mean"):
        parse_piece(text, "x.toml")


def shaped(shape, *span, width=10):
    """The span of the board in another shape, 10 in long and 1 in thick."""
    sizes = 'length = 38\nwidth = 10\nthickness = "3/4"'
    assert sizes in PIECE
    text = PIECE.replace(sizes, f"length = 10\nwidth = {width}\nthickness = 1\nshape = {shape}")
    return parse_piece("\n".join((text.rstrip(), *span)) + "\n", "x").spans[0].span


def test_a_cylinder_is_a_round_beam():
    rail = shaped('"cylinder"', 'point = "50 lb"', width=1)
    assert rail.is_round
    assert rail.width_mm == rail.thickness_mm == pytest.approx(25.4)
    assert rail.section_mm2 == pytest.approx(25.4**2 * 0.785398, rel=1e-5)


def test_a_disc_is_the_board_that_sags_as_it_does():
    seat = shaped('"disc"', 'point = "200 lb"', "short = true")
    assert not seat.is_round
    assert seat.width_mm == pytest.approx(0.9358 * 254.0, rel=1e-4)
    assert seat.thickness_mm == pytest.approx(25.4)


@pytest.mark.parametrize(
    ("shape", "more", "kind"),
    [('"disc"', "on_edge = true", "disc"), ('"ring"\ninner = 4', "", "ring")],
)
def test_other_shapes_are_no_beams(shape, more, kind):
    with pytest.raises(InputError, match=f"is a {kind}, whose sag cannot be computed"):
        shaped(shape, more)


def test_a_load_outside_is_refused(pine):
    with pytest.raises(InputError, match=r"x\.toml: span\[1\]: the point load stands at 37 in"):
        spans_of(piece('span = 36\npoint = "5 lb"\nat = 37\n'), {"eastern white pine": pine}, RULES)


def back(*sheet, more=""):
    """The back of sheet goods as the span, with these lines in its sheet and in the span."""
    lines = "\n".join(("density = 40", *sheet))
    text = PIECE.replace("density = 40", lines).replace(
        '[[span]]\npart = "board"', '[[span]]\npart = "back"'
    )
    return resolve(LIBRARY, parse_piece(text + more, "x"))


def test_sheet_goods_sag_by_their_panel_or_by_a_modulus_of_their_own():
    resolved = back('panel = "plywood"')
    (printed,) = spans_of(resolved.piece, resolved.woods, RULES)
    assert printed.sag.material.name == "ply"
    assert printed.sag.material.modulus_mpa.expected == pytest.approx(7755.0)
    assert printed.sag.material.density_kg_m3 == pytest.approx(640.74, abs=0.01)  # the maker's own
    resolved = back('modulus = "1.8 million psi"')
    (own,) = spans_of(resolved.piece, resolved.woods, RULES)
    assert own.sag.material.modulus_mpa.expected == pytest.approx(12411.0, abs=1.0)


def test_sheet_goods_of_unknown_stiffness_are_refused():
    with pytest.raises(InputError, match=r"x: span\[1\]: nothing says how stiff and heavy ply is"):
        spans_of(back().piece, {}, RULES)
    damp = back('panel = "MDF"', more="moisture_pct = 8\n").piece
    with pytest.raises(InputError, match="are for a part of solid wood"):
        spans_of(damp, {}, RULES)
    with pytest.raises(InputError, match="did you mean 'plywood'"):
        back('panel = "plywod"')
    with pytest.raises(InputError, match="modulus: '12' is not a modulus of elasticity"):
        back('modulus = "12"')


def test_a_wood_without_a_modulus_is_said_not_guessed():
    text = PIECE.replace("eastern white pine", "white oak")
    # The wood written out for tests has a density and shrinkages, and no modulus.
    (found,) = spans_of(parse_piece(text, "x"), WOODS, RULES)
    assert found.sag is None
    assert "no table holds the modulus of elasticity" in found.unknown
