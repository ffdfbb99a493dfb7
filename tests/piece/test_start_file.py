"""Piece files to start from: each kind is estimated as printed, and shows every key there is."""

import re
import tomllib

import pytest
from pieces import library, rooms

from woodref.errors import InputError
from woodref.piece import (
    assembly_table,
    buying_table,
    carton_table,
    finish_table,
    fixing_table,
    maker_table,
    moisture_table,
    parts_table,
    piece,
    quote_table,
    shipping_table,
    span_table,
)
from woodref.piece.cut_list_piece import read_parts
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import parse_piece
from woodref.piece.start_file import FILES, KINDS, Start, piece_file, template_file
from woodref.report.care import fixings_hold

KEYS = {
    *piece._TOP,
    *piece._WASTE,
    *parts_table.SHEET,
    *parts_table.PART,
    *span_table.SPAN,
    *fixing_table.FIXING_KEYS,
    *shipping_table.ITEM_KEYS,
    *shipping_table.SHIPPING_KEYS,
    *maker_table.MAKER,
    *quote_table.QUOTE,
    *carton_table.CARTON,
    *assembly_table.ASSEMBLY,
    *finish_table.FINISH,
    *buying_table.BUYING,
    *moisture_table.BUILD,
    *moisture_table.USE,
}
NOT_IN_EXAMPLES = ("mahogany", "poplar", "low table", "coffee")
LIST = 'part,qty,L,W,T,wood\n"say ""<a|b> {wood}""",2,30,5,7/8,\nback,1,30,20,1/4,plywood\n'


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_is_estimated_as_printed_and_its_example_holds(kind, units):
    estimate = estimate_piece(library(), parse_piece(piece_file(kind, units), kind, rooms()))
    assert estimate.piece.units == units
    assert "(invented)" in estimate.piece.name
    assert estimate.unweighed == ()
    assert estimate.crate
    assert fixings_hold(estimate)
    for span in estimate.spans:
        assert span.sag.checks[0].met  # the limit that decides


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_shows_every_key_and_no_other(kind, units):
    text = piece_file(kind, units)
    shown = set(re.findall(r"^(?:# )?(?:\[+)?(\w+)(?:\]+$| = )", text, re.MULTILINE))
    told = set(re.findall(r"price_per_\w+", text))
    assert shown | told == KEYS
    assert max(map(len, text.splitlines())) <= 100
    assert text.endswith("\n")
    assert "invented example" in text
    assert not any(word in text.lower() for word in NOT_IN_EXAMPLES)
    assert not re.search(r"[{<]\w+[}|]", text)


@pytest.mark.parametrize("kind", KINDS)
def test_metric_files_have_no_inches_and_no_pounds(kind):
    values = re.findall(r'^(?:# )?\w+ = (\[?".*)', piece_file(kind, "si"), re.MULTILINE)
    assert values
    assert [v for v in values if re.search(r"\d ?(in|ft|lb|F)\b|\d/\d|#", v.split(" # ")[0])] == []


def test_the_parts_of_a_maker_take_the_place_of_the_example(tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(LIST)
    rows = read_parts(path, "us", "white oak").cells
    for kind in KINDS:
        text = piece_file(kind, "us", Start(name='A "piece"\x7f', rows=rows, place="Boston"))
        read = parse_piece(text, kind, rooms())
        assert read.name == 'A "piece"\x7f'
        assert [(p.name, p.quantity) for p in read.parts] == [
            ('say "<a|b> {wood}"', 2),
            ("back", 1),
        ]
        assert read.parts[0].species == "white oak"
        assert read.parts[1].sheet.panel == "plywood"
        assert "Boston" in read.room.label
        assert (read.fixings, read.spans, read.items, read.finish, read.shipping) == (
            *((), (), ()),
            *(None, None),
        )


def test_what_a_maker_says_besides_stands_in_the_file(tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(LIST)
    rows = read_parts(path, "us", "ash").cells
    start = Start(
        "stand",
        place="Boston",
        setting="heated-house",
        prices="mine.csv",
        rows=rows,
        finish=("shellac", 3),
        fixing=('say "<a|b> {wood}"', "button"),
    )
    data = tomllib.loads(piece_file("", "us", start))
    assert (data["name"], data["prices"]) == ("stand", "mine.csv")
    assert data["use"] == {"place": "Boston", "setting": "heated-house"}
    assert data["finish"] == {"name": "shellac", "coats": 3}
    assert data["fixing"] == [{"part": 'say "<a|b> {wood}"', "kind": "button"}]


def test_a_wood_goes_into_every_part_of_the_kind_of_wood():
    species = {
        p["species"] for p in tomllib.loads(piece_file("bed", "us", Start(wood="beech")))["parts"]
    }
    assert species == {"beech"}


def test_another_kind_or_file_is_refused_with_the_nearest():
    with pytest.raises(
        InputError, match="no kind of piece is called 'bookcse'; did you mean 'bookcase'"
    ):
        piece_file("bookcse", "us")
    with pytest.raises(InputError, match="no template is called 'price'; did you mean 'prices'"):
        template_file("price")
    assert all(template_file(name).endswith("\n") for name in FILES)
