"""Headings of a cut list as shops and spreadsheets write them; common practice, no source."""

import pytest

from woodref.errors import InputError
from woodref.lumber.cut_list import read_cut_list
from woodref.lumber.cut_list_heading import HEADINGS, heading_of

INCH = 25.4


@pytest.mark.parametrize("column", HEADINGS)
def test_every_word_for_a_column_is_known_in_capitals_too(column):
    words = [*HEADINGS[column], f"{HEADINGS[column][0]}."]
    assert heading_of([w.upper() for w in words]).columns == [column] * len(words)


@pytest.mark.parametrize("written", ["L (in)", "Length [in]", "length in", "LEN (inches)"])
def test_a_heading_may_name_the_unit_of_its_sizes(written):
    heading = heading_of([written])
    assert heading.columns == ["length"]
    told = heading.with_units({"length": "19-1/2"})["length"]
    assert told in ("19-1/2 in", "19-1/2 inches")
    assert heading.with_units({"length": "450 mm"}) == {"length": "450 mm"}


def test_an_unknown_word_stays_and_a_unit_alone_means_no_column():
    assert heading_of(["Edge banding", "note (mm)"]).columns == ["edge banding", "note (mm)"]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_the_same_parts_between_commas_semicolons_and_tabs(tmp_path, mark):
    path = tmp_path / "parts.csv"
    rows = [
        ["Thickness (mm)", "Part", "Qty.", "L", "W"],
        ["20", "shelf", "3", "34-1/2", "9"],
        ["3/4 in", "rail", "", "450 mm", '2-1/2"'],
    ]
    path.write_text("\n".join(mark.join(row) for row in rows))
    shelf, rail = read_cut_list(path, wood="cherry").parts
    assert (shelf.quantity, rail.quantity) == (3, 1)
    assert (shelf.length_mm, shelf.width_mm, shelf.thickness_mm) == pytest.approx(
        (34.5 * INCH, 9 * INCH, 20.0)
    )
    assert (rail.length_mm, rail.width_mm, rail.thickness_mm) == pytest.approx(
        (450.0, 2.5 * INCH, 0.75 * INCH)
    )
    assert {shelf.species, rail.species} == {"cherry"}


def test_a_wood_is_meant_where_none_is_written(tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text("name,length,width,thickness,wood\na,9,2,1,ash\nb,9,2,1,\n")
    assert [p.species for p in read_cut_list(path, wood="cherry").parts] == ["ash", "cherry"]
    listed = read_cut_list(path)
    assert [r.reason for r in listed.rejects] == ["species is missing"]
    assert listed.header == ("name", "length", "width", "thickness", "wood")


def test_two_headings_for_one_column_are_refused(tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text("name,part,length,width,thickness,wood\n")
    with pytest.raises(InputError, match="the column 'name' is there twice"):
        read_cut_list(path)
