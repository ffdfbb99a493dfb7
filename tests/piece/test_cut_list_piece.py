"""A cut list as a piece: the same estimate as a piece file of the same parts."""

from functools import partial

import pytest

from woodref.climate.rooms import room_of
from woodref.errors import InputError, WoodrefError
from woodref.piece.cut_list_piece import read_cut_list_piece
from woodref.piece.estimate import estimate_piece
from woodref.piece.moisture_table import Rooms
from woodref.piece.piece import parse_piece, read_piece
from woodref.reference.library import Reference

LIST = """Part,Qty,L,W,T,Wood,Cut,Staves,Stock,Shape,End,Note
top,1,60,18,7/8,,quarter,4,,,,dry
leg,4,28,1-3/4,1-3/4,,22.5,,8/4,tapered leg,1-1/8,
back,1,50,20,1/4,birch plywood,,,,,,
apron,2,450 mm,3-1/2,3/4,cherry,,,,,,
"""
FILE = """name = "parts"
units = "us"
[build]
moisture_pct = {mean}
[use]
place = "Boston"
[[parts]]
name = "top"
note = "dry"
length = "60"
width = "18"
thickness = "7/8"
species = "white oak"
cut = "quarter"
staves = 4
[[parts]]
name = "leg"
quantity = 4
length = "28"
width = "1-3/4"
thickness = "1-3/4"
species = "white oak"
cut = 22.5
stock = "8/4"
shape = "tapered leg"
end_width = "1-1/8"
[[parts]]
name = "back"
length = "50"
width = "20"
sheet = "birch plywood, 1/4"
[[parts]]
name = "apron"
quantity = 2
length = "450 mm"
width = "3-1/2"
thickness = "3/4"
species = "cherry"
[[sheets]]
name = "birch plywood, 1/4"
thickness = "1/4"
panel = "plywood"
"""


@pytest.fixture(scope="module")
def reference():
    return Reference()


@pytest.fixture(scope="module")
def boston(reference):
    return Rooms(partial(room_of, reference), place="Boston")


@pytest.fixture
def written(tmp_path):
    def write(text, name="parts.csv"):
        path = tmp_path / name
        path.write_text(text)
        return path

    return write


def test_a_cut_list_is_estimated_as_the_same_piece_file(reference, boston, written):
    listed = read_cut_list_piece(written(LIST), "us", "white oak", boston)
    assert listed.rejects == ()
    mean = repr(listed.piece.room.season.mean_emc_pct)
    same = parse_piece(FILE.format(mean=mean), listed.piece.file, boston)
    assert listed.piece.parts == same.parts
    assert listed.piece.build == same.build
    assert (listed.piece.driest, listed.piece.wettest) == (same.driest, same.wettest)
    ours, theirs = (estimate_piece(reference, p) for p in (listed.piece, same))
    assert ours.mass_kg == theirs.mass_kg
    assert ours.leading[1] == theirs.leading[1]
    assert [n.code for n in listed.piece.use_notes][:1] == ["room-of-build"]


def test_what_no_part_can_be_is_rejected_with_its_line(boston, written):
    rows = (
        "thin stock,1,20,5,1-1/2,,,,4/4,,,\nstaved ply,1,20,5,1/4,plywood,,3,,,,\n"
        "odd cut,1,20,5,1,,across,,,,,\n"
    )
    listed = read_cut_list_piece(written(LIST + rows), "us", "ash", boston)
    assert [p.name for p in listed.piece.parts] == ["top", "leg", "back", "apron"]
    assert [r.line for r in listed.rejects] == [6, 7, 8]
    thin, staved, odd = (r.reason for r in listed.rejects)
    assert "stock: 4/4 is 1 in rough, thinner than the part" in thin
    assert "staves: a part of sheet goods takes no staves" in staved
    assert "cut 'across' is not known" in odd


def test_a_list_without_a_part_a_place_or_a_wood_is_refused_in_one_line(boston, written):
    bad = written("name,length,width,thickness,wood\na,x,2,1,ash\n")
    with pytest.raises(WoodrefError, match="no row is a part; line 2: 'x' is not a length"):
        read_cut_list_piece(bad, "us", "", boston)
    none = Rooms(boston.find)
    with pytest.raises(InputError, match=r"names no room; say where .* --place Boston"):
        read_cut_list_piece(bad, "us", "", none)
    with pytest.raises(InputError, match=r"column 'species' is missing; .* with --wood"):
        read_cut_list_piece(written("name,length,width,thickness\n"), "us", "", boston)


def test_bare_sizes_are_millimeters_in_si(boston, written):
    path = written("part\tL\tW\tT\nrail\t600\t60\t20\n", "parts.tsv")
    (rail,) = read_cut_list_piece(path, "si", "ash", boston).piece.parts
    assert (rail.length_mm, rail.width_mm, rail.thickness_mm) == (600.0, 60.0, 20.0)


def test_a_command_that_needs_a_piece_file_says_how_to_make_one(written):
    with pytest.raises(InputError, match=r"is a cut list, .* woodref template table --from parts"):
        read_piece(written(LIST))
