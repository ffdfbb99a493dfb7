import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")


def test_boards_of_the_command_line(woodref):
    result = woodref(
        *("tally", "--board", "4/4 x 7-1/2 x 10ft x 3 red oak"),
        *("--board", "8/4 x 6 x 8ft ash"),
    )
    # NHLA rules: 7.5 x 10 / 12 = 6.25, surface measure 6, three boards 18;
    # 6 x 8 / 12 = 4, at 2 in 8.
    lines = result.out.splitlines()
    assert lines[0] == "26.0 board feet in 4 boards (surface measure 22 ft2)."
    assert lines[3].split() == ["red", "oak", "4/4", "3", "18", "18.0", "18.8"]
    assert lines[4].split() == ["ash", "8/4", "1", "4", "8.0", "8.0"]


def test_bad_rows_are_counted_and_kept(woodref, tmp_path):
    file = tmp_path / "pile.csv"
    file.write_text("thickness,width,length,species\n4/4,8,10,cherry\n4/4,wide,10,cherry\n")
    result = woodref("tally", file, "--board", "4/4 x 6 x 8 cherry", "--format", "json")
    assert result.code == 0
    data = json.loads(result.out)
    assert (data["boards"], data["board_feet"]) == (2, 11.0)
    assert data["lots"][0]["wood"] == "cherry"
    assert result.err.count("\n") == 1
    assert f"1 of 2 rows of {file} not counted" in result.err
    assert "line 3: 'wide' is not a length" in result.err
    assert (tmp_path / "pile.csv.rejects.csv").read_text().splitlines()[1].startswith("3,")


def test_good_rows_leave_no_file_behind(woodref, tmp_path):
    file = tmp_path / "pile.csv"
    file.write_text("thickness,width,length\n4/4,8,10\n")
    before = set(tmp_path.iterdir())
    assert woodref("tally", file).err == ""
    assert set(tmp_path.iterdir()) == before


def test_nothing_to_tally(woodref, tmp_path):
    assert woodref("tally").code == 2
    file = tmp_path / "pile.csv"
    file.write_text("thickness,width,length\n4/4,wide,10\n")
    result = woodref("tally", file)
    assert (result.code, result.out) == (1, "")
    assert result.err.endswith("no row is a board\n")


def test_millimeters(woodref):
    result = woodref("tally", "--board", "27 x 180 x 2400 x 4 beech", "--units", "si")
    assert result.out.startswith("0.047 m3 in 4 boards.\n")
    # What a metric yard does not count in is told to programs alone.
    assert "feet" not in result.out
    asked = ("tally", "--board", "27 x 180 x 2400 x 4 beech", "--units", "si", "--format", "json")
    assert json.loads(woodref(*asked).out)["board_feet"] == 17.01
