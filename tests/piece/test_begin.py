"""A piece by questions: what the answers come to, and what is refused with its line."""

import pytest
from pieces import library, rooms

from woodref.errors import InputError
from woodref.piece.begin import KEYS, Defaults, WrittenAnswers, begin
from woodref.piece.estimate import estimate_piece
from woodref.piece.piece import parse_piece
from woodref.piece.start_file import piece_file

PART = "part: top, 1, 14, 14, 7/8, , 3\n"
ALL = (
    """# invented
Name: Stand
units: us
wood: white ash
moisture: 7 %
place: Duluth, Minnesota
setting: heated house
"""
    + PART
    + """part: "leg, long", 4, 26, 1-1/2, 1-1/2, black cherry
part: shelf, 1, 11, 11, 1/2, plywood
finish: shellac
coats: 3
fixing: button
prices: list.csv
"""
)


def begun(text, defaults=Defaults()):
    return begin(WrittenAnswers(text, "answers.txt"), library(), defaults)


def test_the_answers_make_a_piece_that_is_estimated(tmp_path):
    (tmp_path / "list.csv").write_text("species,thickness,price,per\nwhite ash,any,5,board foot\n")
    units, start = begun(ALL, Defaults(folder=tmp_path))
    piece = parse_piece(piece_file("", units, start), str(tmp_path / "stand.toml"), rooms())
    assert (piece.name, piece.units, piece.build.moisture_pct) == ("Stand", "us", 7.0)
    assert [(p.name, p.quantity, p.species) for p in piece.parts] == [
        ("top", 1, "white ash"),
        ("leg, long", 4, "black cherry"),
        ("shelf", 1, ""),
    ]
    assert piece.parts[0].staves == 3
    assert piece.room.label == "Duluth, Minnesota, heated house"
    assert (piece.finish.name, piece.finish.coats) == ("shellac", 3)
    assert [(f.part, f.kind) for f in piece.fixings] == [("top", "button")]
    assert piece.price_file == tmp_path / "list.csv"
    assert estimate_piece(library(), piece).fixings[0].fixing
    assert {key for key in KEYS if f"{key}:" in ALL.lower()} == set(KEYS)


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_part_is_enough_and_the_rest_is_usual(units):
    text = "part: top, 1, 600, 300, 20\n" if units == "si" else PART
    units, start = begun(text, Defaults(units=units))
    piece = parse_piece(piece_file("", units, start), "piece.toml", rooms())
    assert piece.units == units
    assert piece.build.moisture_pct == 8.0
    assert (piece.finish, piece.fixings, piece.prices) == (None, (), "")
    assert piece.parts[0].width_mm == pytest.approx(300 if units == "si" else 14 * 25.4)


def test_defaults_of_the_user_serve_and_an_answer_goes_before_them():
    assert begun(PART, Defaults(place="Tucson")).start.place == "Tucson"
    assert begun(PART + "place: Duluth", Defaults(place="Tucson")).start.place == "Duluth"
    assert begun("units: us\n" + PART, Defaults(units="si")).units == "us"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("wood ash\n", "line 1: 'wood ash' is no answer; write for example wood: ash"),
        ("wod: ash\n", "line 1: unknown key 'wod'; did you mean 'wood'?"),
        ("wood: ash\nwood: oak\n", "line 2: 'wood' is there twice"),
        ("wood: aash\n" + PART, "line 1: "),
        ("units: feet\n" + PART, "line 1: units cannot be 'feet'; use us or si"),
        ("moisture: 40\n" + PART, "line 1: '40' is above fiber saturation, 30 %"),
        ("setting: attic\n" + PART, "line 1: "),
        ("place: Nowhere At All\n" + PART, "line 1: "),
        ("part: top, 1, 14\n", "line 1: 'top, 1, 14' is no part: write name, how many"),
        ("part: top, 1, 14, x, 1\n", "line 1: 'x' is not a length"),
        (PART + PART, "line 2: name 'top' is there twice; raise its quantity"),
        ("part: back, 1, 14, 9, 1/4, plywood, 3\n", "a part of sheet goods takes no staves"),
        (PART + "finish: shelac\n", "line 2: no finish is called 'shelac'; nearest: Shellac"),
        (PART + "finish: shellac\ncoats: 9\n", "line 3: Shellac was tested with"),
        (PART + "finish: shellac\ncoats: two\n", "line 3: coats 'two' is not a whole number"),
        (PART + "fixing: glue\n", "line 2: 'glue' is not a kind of fixing; did you mean 'glued'?"),
        (PART + "prices: no-such.csv\n", "line 2: no-such.csv: there is no such price list"),
        ("name: Stand\n", "a piece has one part or more"),
    ],
)
def test_an_answer_that_cannot_be_used_is_one_line(text, said):
    with pytest.raises(InputError) as caught:
        begun(text)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)
