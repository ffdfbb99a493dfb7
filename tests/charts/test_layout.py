"""The drawing of a cutting plan: every blank where the plan has it, boards alike once."""

from types import SimpleNamespace

import pytest
from matplotlib.patches import Rectangle
from seen import assert_readable

from woodref.answers.buying_words import plan_title
from woodref.charts.board_layout import first_cuts, layout
from woodref.charts.figure import save, svg_text
from woodref.cutting.model import Blank, CutBoard, StockBoard, Strip, blank_positions
from woodref.cutting.pack import pack
from woodref.errors import InputError
from woodref.lumber.cutting_instructions import alike

BOARD = StockBoard("4/4 ash 150 mm x 2400 mm", 2400.0, 150.0)
KERF = 3.0


@pytest.fixture(scope="module")
def plan():
    blanks = [Blank("rail", 1198.0, 73.0, 8), Blank("stile & more", 700.0, 60.0, 2)]
    return pack(blanks, [BOARD], KERF)


def boxes(figure):
    (axes,) = figure.axes
    return [p for p in axes.patches if isinstance(p, Rectangle)]


def words(figure):
    (axes,) = figure.axes
    return [t.get_text() for t in axes.texts]


def test_boards_that_are_cut_alike_are_drawn_once(plan):
    assert [count for _, count in alike(plan)] == [2, 1]
    figure = layout([("4/4 ash, in hand", plan)], "Cutting plan")
    drawn = sum(1 + len(board.blanks) for board, _ in alike(plan))
    assert len(boxes(figure)) == drawn
    said = words(figure)
    assert said[0] == "4/4 ash, in hand"
    first = said[1].replace("\N{NO-BREAK SPACE}", " ")
    assert first.startswith(
        "Boards 1 to 2: 4/4 ash 150 mm x 2400 mm; crosscut at 47-5/32, 94-7/16 in"
    )
    assert any(t.startswith("Board 3: ") for t in said)
    assert any(t == "rail, 47-5/32 x 2-7/8 in\n0 to 47-5/32" for t in said)


def test_blanks_lie_where_the_plan_has_them_to_one_scale(plan):
    figure = layout([("ash", plan)], "Cutting plan", "si")
    board, *blanks = boxes(figure)[: 1 + len(plan.boards[0].blanks)]
    scale = board.get_width() / BOARD.length_mm
    assert board.get_height() == pytest.approx(BOARD.width_mm * scale)
    for box, place in zip(blanks, blank_positions(plan, plan.boards[0]), strict=True):
        assert box.get_x() - board.get_x() == pytest.approx(place.along_mm * scale)
        from_top = board.get_y() + board.get_height() - box.get_y() - box.get_height()
        assert from_top == pytest.approx(place.across_mm * scale)
        assert box.get_width() == pytest.approx(plan.blanks[place.blank].length_mm * scale)
    # What is cut off is told from blanks by hatching, not by color alone.
    assert board.get_hatch()
    assert not blanks[0].get_hatch()


@pytest.mark.parametrize("kind", ["svg", "png"])
def test_it_is_the_same_file_each_time(tmp_path, plan, kind):
    one, two = (
        save(layout([("ash", plan)], "Cutting plan"), tmp_path / f"{i}.{kind}").read_bytes()
        for i in range(2)
    )
    assert one == two


def test_names_are_text_whatever_they_hold():
    plan = pack([Blank("$x_1$ <b> & 'y'", 900.0, 100.0)], [BOARD], KERF)
    figure = layout([("a & b", plan)], "Cutting plan")
    assert "$x_1$ <b> & 'y', 35-7/16 x 3-15/16 in\n0 to 35-7/16" in words(figure)
    assert svg_text(figure).startswith("<?xml")


def test_every_blank_has_its_size_and_its_place_and_its_name_where_that_fits():
    long_name = "a name much longer than its blank"
    blanks = [
        Blank(long_name, 300.0, 100.0),
        Blank("peg", 60.0, 25.0, 2),
        Blank("rail", 900.0, 60.0),
    ]
    plan = pack(blanks, [BOARD], KERF)
    figure = layout([("ash", plan)], "Cutting plan", "si")
    seen = assert_readable(figure)
    assert any(t.startswith("300 x 100 mm\n") for t in seen)
    assert any(t.startswith("rail") and "900 x 60 mm" in t for t in seen)
    # What is too small for words has a letter, and the key below the board tells it.
    key = " ".join(next(t for t in seen if t.startswith("A: ")).split())
    letters = [t for t in seen if len(t) == 1]
    assert set(letters) <= set("ABC")
    for place in (
        p for p in blank_positions(plan, plan.boards[0]) if plan.blanks[p.blank].name == "peg"
    ):
        assert f"peg 60 x 25 mm, {place.along_mm:.1f}".removesuffix(".0") in key


def test_what_is_left_of_a_board_has_its_size():
    plan = pack([Blank("rail", 900.0, 100.0)], [BOARD], KERF)
    seen = assert_readable(layout([("ash", plan)], "Cutting plan", "si"))
    assert "left: 1497 x 150 mm" in seen


def test_the_title_says_how_many_boards_and_what_is_still_short():
    def told(short=(), hand=9, lots=()):
        uncut = tuple(
            SimpleNamespace(part=SimpleNamespace(name=n, pieces=4), quantity=2) for n in short
        )
        return plan_title(
            SimpleNamespace(
                blanks=44, boards_on_hand=hand, lots=lots, uncut=uncut, complete=not uncut
            )
        )

    bought = SimpleNamespace(bought=True, plan=SimpleNamespace(boards=(1, 2)), pieces_left=0)
    assert told() == "Your 9 boards give all 44 blanks; 0 are cut"
    assert told(["top", "rail"]) == (
        "Your 9 boards give 40 of 44 blanks; still short: top (2 of 4), rail (2 of 4)"
    )
    assert told(["a", "b", "c", "d"]).endswith("c (2 of 4) and 1 more part")
    assert told(["top"], lots=[bought]).endswith("42 of 44 blanks; 2 boards to buy give the rest")
    assert told(hand=0, lots=[bought]) == "2 boards to buy give all 44 blanks"
    assert told(hand=0) == "No boards to cut up: all 44 blanks are still short"


def test_nothing_to_draw_is_an_empty_sheet_and_too_much_is_refused():
    empty = pack([Blank("part", 100.0, 50.0)], [], KERF)
    assert boxes(layout([("ash", empty)], "Cutting plan")) == []
    wide = [StockBoard(f"board {k}", 300.0, 250.0, 1) for k in range(60)]
    many = pack([Blank(f"part {k}", 290.0, 240.0) for k in range(60)], wide, KERF)
    with pytest.raises(InputError, match="60 layouts of boards do not fit one drawing"):
        layout([("ash", many)], "Cutting plan")


@pytest.mark.parametrize(
    ("rip_first", "pieces", "told"),
    [
        (False, ((0,), (0,)), "crosscut at 1198 mm, then rip"),
        (False, ((0, 1), (0,)), "crosscut at 1198 mm, then rip, then crosscut again"),
        (True, ((0,),), "rip at 73 mm, then crosscut"),
    ],
)
def test_the_cuts_of_a_board_are_told_in_their_order(plan, rip_first, pieces, told):
    size = 73.0 if rip_first else 1198.0
    board = CutBoard(0, rip_first, (Strip(0.0, size, pieces),))
    assert first_cuts(plan, board, "si") == told
