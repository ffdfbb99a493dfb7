"""The drawing of a cutting plan: every blank where the plan has it, boards alike once."""

import pytest
from matplotlib.patches import Rectangle

from woodref.charts.board_layout import layout
from woodref.charts.figure import save, svg_text
from woodref.cutting.model import Blank, StockBoard, blank_positions
from woodref.cutting.pack import pack
from woodref.errors import InputError
from woodref.lumber.cutting_instructions import alike

BOARD = StockBoard("4/4 ash 150 mm x 2400 mm", 2400.0, 150.0)
KERF = 3.0


@pytest.fixture(scope="module")
def plan():
    blanks = [Blank("rail", 1198.0, 73.0, 8), Blank("stile & more", 700.0, 60.0, 2)]
    return pack(blanks, [BOARD], KERF, seconds=1.0)


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
    assert said[1].startswith("Boards 1 to 2: 4/4 ash 150 mm x 2400 mm, crosscut first")
    assert any(t.startswith("Board 3: ") for t in said)
    assert any(t.startswith("rail, 47-5/32 in x 2-7/8 in") for t in said)


def test_blanks_lie_where_the_plan_has_them_to_one_scale(plan):
    figure = layout([("ash", plan)], "Cutting plan", "si")
    board, *blanks = boxes(figure)[: 1 + len(plan.boards[0].blanks)]
    scale = board.get_width() / BOARD.length_mm
    assert board.get_height() == pytest.approx(BOARD.width_mm * scale)
    for box, place in zip(blanks, blank_positions(plan, plan.boards[0]), strict=True):
        assert box.get_x() == pytest.approx(place.along_mm * scale)
        assert box.get_y() - board.get_y() == pytest.approx(place.across_mm * scale)
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
    assert "$x_1$ <b> & 'y', 35-7/16 in x 3-15/16 in" in words(figure)
    assert svg_text(figure).startswith("<?xml")


def test_a_name_that_does_not_fit_its_blank_is_left_out():
    plan = pack([Blank("a name much longer than its blank", 60.0, 50.0)], [BOARD], KERF)
    said = words(layout([("ash", plan)], "Cutting plan"))
    assert not any("much longer" in t for t in said)


def test_nothing_to_draw_is_an_empty_sheet_and_too_much_is_refused():
    empty = pack([Blank("part", 100.0, 50.0)], [], KERF)
    assert boxes(layout([("ash", empty)], "Cutting plan")) == []
    wide = [StockBoard(f"board {k}", 300.0, 250.0, 1) for k in range(60)]
    many = pack([Blank(f"part {k}", 290.0, 240.0) for k in range(60)], wide, KERF, seconds=1.0)
    with pytest.raises(InputError, match="60 layouts of boards do not fit one drawing"):
        layout([("ash", many)], "Cutting plan")
