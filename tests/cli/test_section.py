"""The end of a board, panels of staves and how stable a wood is, at the command line."""

import json
from math import hypot

import pytest
from shelf import Shelf

pytestmark = pytest.mark.usefixtures("whole_pages")

BOARD = ["section", "sugar maple", "--width", "8in", "--thickness", "1in"]
NEAR = ["--pith-distance", "2in"]
DRYING = ["--from", "12", "--to", "6"]


@pytest.fixture
def shelf(monkeypatch):
    """Answer from the woods of this folder in place of the dataset."""
    for module in ("section", "panel", "stability"):
        monkeypatch.setattr(f"woodref.cli.{module}.reference", Shelf)


def data_of(result):
    assert (result.code, result.err) == (0, "")
    return json.loads(result.out)


@pytest.mark.usefixtures("shelf")
def test_the_first_line_says_how_much_and_which_way(woodref):
    """By hand: the bark side lies 3 in over the pith and reaches 4 in to either side, so its
    corners are 5 in and 53.13 degrees away; they go to 5 in x 0.9616 / 0.9712 and 53.13 degrees
    x 0.9888,
    3.0117 in high, over a middle 2.9703 in high: 0.041 in.
    """
    first = woodref(*BOARD, *NEAR, *DRYING).out.splitlines()[0]
    assert first == (
        "Sugar maple, 8 in x 1 in, the pith 2 in below: from 12 % to 6 % it cups 1/32 in "
        "(1/32 to 1/16), hollow on the bark side."
    )


def test_a_wide_red_oak_board_from_close_to_the_pith(woodref):
    """Wide and near the pith it cups by about a sixteenth, away from the pith."""
    out = woodref(
        *("section", "red oak group", "--width", "10in", "--thickness", "1in", *NEAR, *DRYING)
    ).out
    assert "it cups 1/16 in (1/32 to 3/32), hollow on the bark side" in out.splitlines()[0]
    assert "*" not in out


def test_a_cup_that_rests_on_a_recalled_shrinkage_says_so(woodref):
    jarrah = ("section", "jarrah", "--width", "10in", "--thickness", "1in", *NEAR, *DRYING)
    out = woodref(*jarrah).out
    assert " in* (" in out.partition("\n\n")[0]
    assert "* Unchecked, from memory" in out


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(("side", "hollow"), [("below", "top"), ("above", "bottom")])
def test_the_outline_shows_the_cup(woodref, side, hollow):
    arguments = (*BOARD, *NEAR, *DRYING, "--side", side, "--units", "si", "--format", "json")
    data = data_of(woodref(*arguments))
    faces = {f["face"]: f for f in data["faces"]}
    points = [complex(*p) for p in data["outline_mm"]]
    assert len(points) == 128
    corners = [points[i * 32] for i in range(4)]  # lower left, lower right, upper right, upper left
    assert abs(corners[3] - corners[2]) == pytest.approx(faces["top"]["after_mm"], abs=0.06)
    middle, ends = (points[80], corners[2:]) if hollow == "top" else (points[16], corners[:2])
    deep = abs(sum(e.imag for e in ends) / 2.0 - middle.imag)
    assert deep == pytest.approx(faces[hollow]["cup_mm"], abs=0.02)
    assert faces[hollow]["bend"] == "hollow"
    assert sum(data["corners_deg"]) == pytest.approx(360.0, abs=0.01)


@pytest.mark.usefixtures("shelf")
def test_two_ways_to_say_where_the_pith_lies(woodref):
    style = ("--format", "json")
    one = data_of(woodref(*BOARD, *DRYING, *style, *NEAR, "--offset", "-1.5in"))
    # The middle of the board is 2.5 in above and 1.5 in beside the pith.
    angle, radius = 30.963756532073523, f"{hypot(1.5, 2.5)}in"
    other = data_of(
        woodref(*BOARD, *DRYING, *style, "--ring-angle", angle, "--ring-radius", radius)
    )
    assert one["faces"] == other["faces"]
    assert one["outline_in"] == other["outline_in"]


@pytest.mark.usefixtures("shelf")
def test_legs_rounds_and_flat_boards_in_words(woodref):
    def first(*arguments):
        return woodref("section", "sugar maple", *arguments, *DRYING).out.splitlines()[0]

    leg = ("--width", "2in", "--thickness", "2in")
    assert "it becomes a diamond, its diagonals 1/32 in (" in first(*leg, "--ring-angle", "45")
    # Movement: 2 in x (0.9208 / 0.9406 - 1) along the rings, 2 in x (0.9616 / 0.9712 - 1) across.
    oblong = first(*leg, "--ring-angle", "0")
    assert "its width shrinks 1/32 in and its thickness shrinks 1/32 in" in oblong
    assert oblong.endswith("its corners stay square.")
    assert "becomes oval" in first("--diameter", "2in", "--ring-angle", "0")
    far = first("--width", "8in", "--thickness", "1in", "--pith-distance", "far")
    assert "straight rings at 0 degrees to the face: from 12 % to 6 % it stays flat" in far
    beside = first("--width", "8in", "--thickness", "1in", *NEAR, "--side", "right")
    assert "the pith 2 in to the right: from 12 % to 6 % it stays flat" in beside


@pytest.mark.usefixtures("shelf")
def test_panels_alike_and_alternating(woodref):
    def panel(rings):
        return data_of(
            woodref(*BOARD, *NEAR, *DRYING, "--boards", "4", "--rings", rings, "--format", "json")
        )

    alike, alternating = panel("alike"), panel("alternating")
    assert (alike["bend"], alternating["bend"]) == ("hollow above", "wavy")
    assert [b["hollow"] for b in alternating["panel_staves"]] == ["above", "below"] * 2
    assert alternating["out_of_flat_in"] < alike["out_of_flat_in"]
    assert alike["width_in"] == 32.0


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--side", "inside"], "splits: from 12 to 6 % its rings come up short and leave a gap"),
        (["--pith-distance", "0"], "a piece that holds the pith splits"),
        (["--ring-angle", "20", "--ring-radius", "1/4in"], "a piece that holds the pith splits"),
        ([], "say where the pith lies either by --pith-distance"),
        (["--pith-distance", "2in", "--ring-angle", "20"], "say where the pith lies either"),
        (["--pith-distance", "2in", "--side", "under"], "no side 'under'; the pith lies below"),
        (["--pith-distance", "2in", "--ring-radius", "4in"], "--ring-radius goes with"),
        (["--ring-angle", "20", "--offset", "1in"], "--side and --offset go with"),
        (["--ring-angle", "100"], "a ring angle lies between 0 (flat) and 90 (quarter), not 100"),
        (["--ring-angle", "20", "--boards", "0"], "a panel has 1 to 50 boards"),
        (["--ring-angle", "20", "--boards", "51"], "a panel has 1 to 50 boards"),
        (["--ring-angle", "20", "--thickness", "0"], "a thickness must be above 0"),
        (["--ring-angle", "20", "--diameter", "2in"], "give --width and --thickness, or"),
        (["--ring-angle", "20", "--from", "35"], "above fiber saturation wood does not move"),
    ],
)
def test_impossible_questions(woodref, arguments, message):
    result = woodref(*BOARD, *DRYING, *arguments)
    assert (result.code, result.out) == (2, "")
    assert result.err.count("\n") == 1
    assert message in result.err


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--to", "9"], "give each stave"),
        (["--to", "9", "--stave", "5in", "--width", "20in"], "give each stave"),
        (["--to", "9", "--stave", "5in", "--cut", "rift"], "--cut go with --width"),
        (["--to", "9", "--stave", "5in 95"], "between 0 (flat) and 90"),
        (["--to", "9", "--stave", "five"], "'five' is not a length"),
        (["--to", "9", "--width", "8in", "--narrowest", "5in"], "no number of equal staves"),
        (["--stave", "5in"], "give either --to"),
        (["--stave", "5in", "--setting", "heated-house"], "--setting needs a town"),
    ],
)
def test_impossible_panels(woodref, arguments, message):
    result = woodref("panel", "sugar maple", "--from", "7", *arguments)
    assert (result.code, result.out) == (2, "")
    assert message in result.err


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize(
    ("text", "width", "angle"),
    [
        ("5in", 5.0, 0.0),
        ("5in quarter", 5.0, 90.0),
        ("4-1/2in Rift", 4.5, 45.0),
        ("4 1/2 in", 4.5, 0.0),
        ("4 30", 4.0, 30.0),
        ("5in 22.5", 5.0, 22.5),
    ],
)
def test_a_stave_as_a_shop_writes_it(woodref, text, width, angle):
    data = data_of(
        woodref(
            *("panel", "sugar maple", "--stave", text, "--from", "7", "--to", "9"),
            *("--format", "json"),
        )
    )
    assert data["panel_staves"][0]["width_in"] == width
    assert data["panel_staves"][0]["ring_angle_deg"] == angle


@pytest.mark.parametrize("style", ["table", "json", "csv", "markdown"])
@pytest.mark.parametrize("question", ["section", "panel"])
@pytest.mark.usefixtures("shelf")
def test_a_recalled_figure_keeps_the_word_memory(woodref, question, style):
    arguments = {
        "section": ["--width", "8in", "--thickness", "1in", *NEAR],
        "panel": ["--stave", "5in"],
    }
    result = woodref(question, "model wood", *arguments[question], *DRYING, "--format", style)
    assert result.code == 0
    assert ("unchecked" in result.out) == (style != "csv")


def test_the_year_of_a_panel_in_a_town(woodref):
    data = data_of(
        woodref(
            *("panel", "cherry", "--stave", "5in", "--stave", "4in quarter", "--from", "8"),
            *("--place", "Duluth", "--setting", "heated-house", "--format", "json"),
        )
    )
    spans = {row["between"]: row for row in data["panel"]}
    assert list(spans) == ["build to driest", "build to wettest", "driest to wettest"]
    assert data["setting"] == "heated house"
    swing = spans["build to wettest"]["change_in"] - spans["build to driest"]["change_in"]
    assert spans["driest to wettest"]["change_in"] == pytest.approx(swing, abs=2e-4)


def test_how_stable_in_a_town_and_between_two_moistures(woodref):
    lines = woodref("stability", "cherry", "--from", "10", "--to", "6").out.splitlines()
    assert lines[0].startswith(
        "Black cherry: a foot of width moves 1/8 in (1/16 to 5/32) flat sawn"
    )
    assert "between 6 % and 10 %" in lines[0]
    assert "of 240 woods 73 move less" in lines[1]
    assert lines[2].startswith("Tangential movement is 1.9 times radial")
    si = data_of(woodref("stability", "black cherry", "--units", "si", "--format", "json"))
    assert si["movement_width_mm"] == 300.0
    assert si["woods_moving_less"] + si["woods_moving_more"] < si["woods_ranked"]
    room = woodref("stability", "cherry", "--place", "Duluth").out.splitlines()[0]
    assert room.endswith("Duluth, Minnesota, heated house.")
    assert woodref("stability", "cherry", "--from", "6").code == 2
    both = woodref("stability", "cherry", "--from", "6", "--to", "9", "--place", "Duluth")
    assert "not both" in both.err


CHERRY = ["section", "cherry", "--width", "8in", "--thickness", "4/4", *NEAR]
DULUTH = ["--place", "Duluth", "--setting", "heated-house"]


def duluth(woodref):
    """(driest, wettest) to design for in the room, as season tells it."""
    found = data_of(woodref("season", "Duluth", "--setting", "heated-house", "--format", "json"))
    return found["design_driest_pct"], found["design_wettest_pct"]


def test_a_room_is_its_driest_and_its_wettest_month(woodref):
    dry, wet = duluth(woodref)
    found = data_of(woodref(*CHERRY, *DULUTH, "--format", "json"))
    assert (found["from_moisture_pct"], found["to_moisture_pct"]) == (dry, wet)
    assert (found["place"], found["setting"]) == ("Duluth, Minnesota", "heated house")
    assert any(
        line == f"As made at the driest to design for, {dry:.1f} % (January), then at the wettest "
        f"to design for, {wet:.1f} % (August): Duluth, Minnesota, heated house."
        for line in found["answer"]
    )
    by_hand = data_of(woodref(*CHERRY, "--from", dry, "--to", wet, "--format", "json"))
    assert by_hand["faces"][0]["cup_in"] == pytest.approx(found["faces"][0]["cup_in"], abs=2e-4)
    assert (by_hand["place"], by_hand["setting"]) == (None, None)


@pytest.mark.parametrize(("made", "far", "near"), [("9", 0, 1), ("5", 1, 0)])
def test_made_at_a_moisture_the_year_is_told_at_its_far_end_and_the_other(woodref, made, far, near):
    ends = duluth(woodref)
    names = ("the driest to design for", "the wettest to design for")
    found = data_of(woodref(*CHERRY, *DULUTH, "--from", made, "--format", "json"))
    assert found["from_moisture_pct"] == float(made)
    assert found["to_moisture_pct"] == ends[far]
    told = next(x for x in found["answer"] if x.startswith("Farthest"))
    assert names[far] in told
    other = next(x for x in found["answer"] if x.startswith(f"To {names[near]}, "))
    # The same words as asked for by itself.
    alone = woodref(*CHERRY, "--from", made, "--to", ends[near]).out.splitlines()[0]
    assert alone.partition(": ")[2].partition(". Yards")[0].rstrip(".") in other


def test_a_room_tells_rounds_and_panels_too(woodref):
    for piece in (["--diameter", "2in"], ["--width", "4in", "--thickness", "1in", "--boards", "3"]):
        found = woodref("section", "cherry", *piece, *NEAR, *DULUTH, "--from", "9")
        assert (found.code, found.err) == (0, "")
        assert "Farthest from that in the year is the driest to design for, 4.2 %" in found.out
        assert "To the wettest to design for, 12.1 % (August), from 9 % to 12.1 % it" in found.out


def test_a_place_that_is_only_a_default_gives_way(woodref, monkeypatch):
    monkeypatch.setenv("WOODREF_PLACE", "Duluth")
    found = woodref(*CHERRY, *DRYING)
    assert "January" not in found.out
    assert "from 12 % to 6 %" in found.out.splitlines()[0]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "--from is missing; give --from and --to, for example --from 12 --to 6, or a town"),
        (["--from", "12"], "--to is missing"),
        ([*DULUTH, "--to", "8"], "--to does not go with a place; leave one out"),
        (["--setting", "heated-house", "--from", "8"], "--setting needs a town"),
        (["--place", "Dulut", "--from", "8"], "Dulut"),
    ],
)
def test_half_a_question_is_one_line(woodref, words, said):
    found = woodref(*CHERRY, *words)
    assert (found.code, found.out) == (2, "")
    assert said in found.err
    assert found.err.count("\n") == 1
