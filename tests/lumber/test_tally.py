import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodref.errors import InputError
from woodref.lumber.tally import (
    Board,
    board_of,
    lot_of,
    parse_board,
    read_pile,
    rejects_beside,
    tally,
    total,
)
from woodref.rows import RejectedRow

MM_PER_FOOT = 304.8


def test_a_board_in_one_line():
    assert parse_board("4/4 x 7-1/2 x 10ft x 3 red oak") == Board(
        "4/4", 25.4, pytest.approx(190.5), pytest.approx(3048.0), 3, "red oak"
    )


@pytest.mark.parametrize(
    ("text", "thickness", "length_ft", "quantity", "species"),
    [
        ("8/4 x 6 x 8ft ash", "8/4", 8, 1, "ash"),
        ("8/4 x 6 x 8 ash", "8/4", 8, 1, "ash"),
        ("8/4 x 6 x 8", "8/4", 8, 1, ""),
        ("8/4x 6 x 8 ft x 12", "8/4", 8, 12, ""),
        ("8/4 × 6in × 8'6\" × 2 Oak, white", "8/4", 8.5, 2, "Oak, white"),
        ("2in X 6 X 8 ft 6 in white   oak", "8/4", 8.5, 1, "white oak"),
        ("3/4 x 6 x 96in mm wood", "3/4 in", 8, 1, "mm wood"),
        ("1-1/4in x 6 x 8ft x 2 2 maple", None, 8, 2, "2 maple"),
    ],
)
def test_ways_to_write_a_board(text, thickness, length_ft, quantity, species):
    if thickness is None:
        with pytest.raises(InputError, match="is not a board"):
            parse_board(text)
        return
    board = parse_board(text)
    assert (board.thickness, board.quantity, board.species) == (thickness, quantity, species)
    assert board.length_mm == pytest.approx(length_ft * MM_PER_FOOT)


def test_a_board_in_millimeters():
    board = parse_board("27 x 180 x 2400 x 4 European beech", "si")
    assert board == Board("27 mm", 27.0, 180.0, 2400.0, 4, "European beech")
    assert parse_board("4/4 x 180 x 2.4m ash", "si").thickness_mm == 25.4


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "is not a board"),
        ("4/4", "is not a board"),
        ("4/4 x 6", "is not a board"),
        ("4/4 x 6 x 8 x 2 x 3", "is not a board"),
        ("4/4 x 6 x 8ft x many oak", "is not a board"),
        ("4/4 x wide x 8ft", "'wide' is not a length"),
        ("4/4 x 0 x 8ft", "width '0' must be above 0"),
        ("4/4 x 6 x 120ft oak", "length '120ft' must be above 0 and at most 787.4 in"),
        ("4ft x 6 x 8ft oak", "thickness '4ft' must be above 0 and at most 19.69 in"),
        ("4/4 x 6 x 8ft x 0 oak", "quantity '0' is not a whole number from 1"),
    ],
)
def test_what_is_no_board(text, message):
    with pytest.raises(InputError, match=message):
        parse_board(text)


@given(st.text(alphabet="0123456789/-. x\"'ftinm oak", max_size=40))
def test_any_text_is_a_board_or_refused_in_one_line(text):
    try:
        board = parse_board(text)
    except InputError as error:
        message = str(error)
    else:
        message = "a board"
        assert board.quantity >= 1
        assert min(board.thickness_mm, board.width_mm, board.length_mm) > 0.0
    assert "\n" not in message


def test_board_feet_by_surface_measure():
    # NHLA rules: 8 in x 10 ft is 80/12 = 6-2/3, a surface measure of 7; 5/4 counts as 1.25 in.
    lot = lot_of(board_of("5/4", "8", "10"))
    assert (lot.surface_measure_ft2, lot.board_feet) == (7.0, 8.75)
    assert lot.unrounded_board_feet == pytest.approx(8.0 * 10.0 / 12.0 * 1.25)
    assert lot.volume_m3 == pytest.approx(1.25 * 8 * 120 * 0.0254**3)


def test_under_4_4_is_counted_as_4_4():
    # NHLA rules (from memory): lumber under 1 in is counted as 1 in.
    thin, full = lot_of(board_of("1/2in", "6", "8")), lot_of(board_of("4/4", "6", "8"))
    assert thin.board_feet == full.board_feet == 4.0
    assert thin.volume_m3 == pytest.approx(full.volume_m3 / 2.0)


def test_a_pile_by_species_and_thickness():
    boards = [
        parse_board("8/4 x 6 x 8 x 2 red oak"),
        parse_board("4/4 x 6 x 8 ash"),
        parse_board("4/4 x 6 x 8 x 3 Oak, red"),
        parse_board("8/4 x 6 x 8 Red Oaks"),
    ]
    lots = tally(boards)
    assert [(lot.species, lot.thickness, lot.boards, lot.board_feet) for lot in lots] == [
        ("Oak, red", "4/4", 3, 12.0),
        ("red oak", "8/4", 3, 24.0),
        ("ash", "4/4", 1, 4.0),
    ]
    assert total(lots).board_feet == 40.0
    assert total(lots).boards == 7


SIZES = st.tuples(
    st.integers(1, 16), st.integers(3, 20), st.integers(4, 16), st.integers(1, 9)
).map(lambda s: board_of(f"{s[0]}/4", str(s[1]), str(s[2]), str(s[3]), f"wood {s[0] % 3}"))


@given(st.lists(SIZES, min_size=1, max_size=12))
def test_lots_add_up_and_order_does_not_matter(boards):
    whole = total(tally(boards))
    assert whole.boards == sum(b.quantity for b in boards)
    assert whole.board_feet == pytest.approx(sum(lot_of(b).board_feet for b in boards))
    assert total(tally(boards[::-1])).board_feet == pytest.approx(whole.board_feet)
    # Half a square foot of rounding at most for each board, times its thickness.
    slack = sum(b.quantity * max(b.thickness_mm / 25.4, 1.0) / 2.0 for b in boards)
    assert abs(whole.board_feet - whole.unrounded_board_feet) <= slack + 1e-9


@pytest.fixture
def pile(tmp_path):
    def write(text, encoding="utf-8"):
        path = tmp_path / "pile.csv"
        path.write_bytes(text.encode(encoding))
        return path

    return write


GOOD = "thickness,width,length,quantity,species\n4/4,8,10,2,cherry\n5/4,6-1/4,8ft 5in,,ash\n"


def test_remarks_are_skipped(pile):
    remarked = read_pile(pile("# ours; kept dry, in two stacks\n" + GOOD + "# no board, this\n"))
    assert (remarked.boards, remarked.rejects) == (read_pile(pile(GOOD)).boards, [])
    with pytest.raises(InputError, match="is empty"):
        read_pile(pile("# nothing but a remark\n"))


@pytest.mark.parametrize(
    "text",
    [
        GOOD,
        GOOD.replace("\n", "\r\n"),
        "\n\n" + GOOD + "\n,,,,\n",
        "\ufeff" + GOOD,
        GOOD.replace(",", ";"),
        GOOD.replace(",", "\t"),
        "species,Length, WIDTH ,thickness,quantity\ncherry,10,8,4/4,2\nash,8ft 5in,6-1/4,5/4\n",
    ],
)
def test_files_as_spreadsheets_write_them(pile, text):
    read = read_pile(pile(text))
    assert read.rejects == []
    assert [(b.species, b.quantity) for b in read.boards] == [("cherry", 2), ("ash", 1)]


def test_no_row_is_lost(pile):
    text = GOOD + "4/4,eight,10,1,oak\n4/4,8,10,1,oak,extra\n4/4,8\n4/4,8,10,-1,oak\n"
    path = pile(text)
    read = read_pile(path)
    assert len(read.boards) == 2
    assert [r.line for r in read.rejects] == [4, 5, 6, 7]
    assert "'eight' is not a length" in read.rejects[0].reason
    assert "6 cells under 5 columns" in read.rejects[1].reason
    target = rejects_beside(path, read.header, read.rejects)
    assert target.name == "pile.csv.rejects.csv"
    with target.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    assert rows[0] == ["line", "reason", "thickness", "width", "length", "quantity", "species"]
    assert [r[0] for r in rows[1:]] == ["4", "5", "6", "7"]
    assert rows[1][2:] == ["4/4", "eight", "10", "1", "oak"]
    assert sorted(p.name for p in path.parent.iterdir()) == ["pile.csv", "pile.csv.rejects.csv"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "is empty"),
        (" \n \n", "is empty"),
        ("thickness,width\n4/4,8\n", "line 1: no column length"),
        ("thickness,width,lenght\n4/4,8,10\n", "unknown column 'lenght'; nearest: length"),
        ("4/4,8,10\n", "line 1: unknown column '4/4'; use thickness, width, length"),
    ],
)
def test_files_that_are_no_pile(pile, text, message):
    with pytest.raises(InputError, match=message):
        read_pile(pile(text))


def test_files_that_cannot_be_read(pile, tmp_path):
    with pytest.raises(InputError, match="there is no such list of boards"):
        read_pile(tmp_path / "none.csv")
    with pytest.raises(InputError, match="is a folder, not a list of boards"):
        read_pile(tmp_path)
    with pytest.raises(InputError, match="UTF-8"):
        read_pile(pile(GOOD.replace("ash", "\N{LATIN SMALL LETTER E WITH ACUTE}"), "latin-1"))


def test_rejects_that_cannot_be_written_are_still_told(tmp_path):
    path = tmp_path / "none" / "pile.csv"
    told = r"does not exist; make it first \(1 row of pile.csv not read: line 4: no length\)"
    with pytest.raises(InputError, match=told):
        rejects_beside(path, ("thickness",), [RejectedRow(4, "row", "", "no length", ("x",))])


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device here")
def test_a_device_without_end_is_no_pile():
    with pytest.raises(InputError, match="is larger than 20 MB"):
        read_pile(Path("/dev/zero"))
