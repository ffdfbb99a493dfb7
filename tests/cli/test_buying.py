"""The command buy: do all parts come out, what to buy, and what it costs."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from woodref.reference.trade import dressed_thicknesses

pytestmark = pytest.mark.usefixtures("whole_pages")

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "datasets" / "demo"
PARTS = "name,length,width,thickness,species,quantity,staves\n"
RAILS = PARTS + "rail,46,2-1/2,3/4,cherry,8,\n"


@pytest.fixture
def parts(tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(RAILS)
    return path


def test_yes_they_all_come_out(woodref, parts):
    # 6 in x 8 ft less 1 in at each end: two lengths of 47 in do not leave a kerf; 9 ft does.
    found = woodref("buy", parts, "--board", "4/4 x 6 x 9ft x 3 cherry")
    assert found.code == 0
    yes, buy = found.out.splitlines()[:2]
    assert yes == "Yes: your 3 boards give all 8 blanks; 2 are cut."
    assert buy == "Nothing to buy; 1 board left over whole."
    assert "proven best" in found.out
    assert "common practice, no source" in found.out
    assert found.err == ""


def test_no_and_what_to_buy_and_its_cost(woodref, parts):
    found = woodref(
        *("buy", parts, "--board", "4/4 x 6 x 9ft cherry"),
        *("--yard-widths", "6", "--yard-lengths", "8,9", "--grade", "FAS"),
        *("--prices", DEMO / "sideboard-prices.csv"),
    )
    assert found.code == 0
    no, buy = found.out.splitlines()[:2]
    assert no == "Your 1 board gives 4 of 8 blanks. Still short: rail (4 of 8)."
    # 6 in x 9 ft x 4/4 is 4.5 board feet, 8.40 each, from 7.80 to 9.30.
    assert buy == "To buy: 1 board, 4.5 board feet; 37.80 USD (35 to 42)."
    assert "8.40 USD per board foot, FAS, 2025-03-31" in found.out


def test_without_a_yard_the_yield_of_the_grade_is_added_once(woodref, parts):
    found = woodref("buy", parts, "--grade", "No. 1 Common", "--format", "json")
    answer = json.loads(found.out)
    faces = 8 * 46 * 2.5 / 144
    (row,) = answer["buy"]
    assert row["buy_board_feet"] == pytest.approx(1.5 * faces, abs=0.06)
    assert row["waste_pct"] == 50
    assert any(
        "No. 1 Common has at least 66.7 % of its face clear [checked twice]" in n
        for n in answer["notes"]
    )
    given = json.loads(woodref("buy", parts, "--waste", "10", "--format", "json").out)
    assert given["buy"][0]["buy_board_feet"] == pytest.approx(1.1 * faces, abs=0.06)
    usual = json.loads(woodref("buy", parts, "--format", "json").out)
    assert any("25 % (20 to 30) waste is added, common practice" in n for n in usual["notes"])
    assert usual["answer"][1].startswith("To buy: about 8.0 board feet with waste; not priced")


def test_rows_that_are_none_are_kept_with_their_reason(woodref, tmp_path):
    path, pile = tmp_path / "parts.csv", tmp_path / "pile.csv"
    path.write_text(RAILS + "leg,28,wide,1,cherry,4,\n")
    pile.write_text("thickness,width,length,quantity,species\n4/4,6,9,3,cherry\n4/4,6,,1,cherry\n")
    found = woodref("buy", path, "--boards", pile)
    assert found.code == 0
    assert found.out.startswith("Yes: your ")
    assert found.out.count("Not counted: 1 row of") == 2
    assert found.err.count("not counted, kept in") == 2
    assert "'wide'" in (tmp_path / "parts.csv.rejects.csv").read_text().splitlines()[1]
    assert (tmp_path / "pile.csv.rejects.csv").exists()


def test_a_piece_in_place_of_a_cut_list(woodref, tmp_path):
    found = woodref("buy", DEMO / "wall-shelf.toml", "--waste", "20", "--format", "json")
    assert found.code == 0, found.err
    answer = json.loads(found.out)
    assert answer["blanks"] > 0
    assert answer["buy"]


def test_softwood_by_nominal_sizes(woodref, tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(PARTS + "slat,46,2-1/2,3/4,eastern white pine,4,\n")
    found = woodref(
        *("buy", path, "--softwood", "--yard-widths", "6", "--yard-lengths", "10"),
        *("--format", "json"),
    )
    answer = json.loads(found.out)
    # Two slats of 2-3/4 in rough do not fit 5-1/2 in beside a kerf, as they would fit 6 in.
    assert [b["boards"] for b in answer["buy_boards"]] == [2]
    assert (answer["buy_boards"][0]["stock"], answer["buy_boards"][0]["width_in"]) == (
        "1 in",
        6,
    )
    assert woodref("buy", path, "--softwood", "--yard-thicknesses", "4/4").code == 2


def test_sawn_thicknesses_in_millimeters(woodref, tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(PARTS + "slat,1100,60,22,European beech,4,\n")
    flags = ("--yard-thicknesses", "27,34", "--yard-widths", "140", "--yard-lengths", "2400")
    found = woodref("buy", path, *flags, "--units", "si", "--planing", "5", "--format", "json")
    assert [b["stock"] for b in json.loads(found.out)["buy_boards"]] == ["27 mm"]
    found = woodref("buy", path, *flags, "--units", "si", "--planing", "6", "--format", "json")
    assert [b["stock"] for b in json.loads(found.out)["buy_boards"]] == ["34 mm"]


def test_a_size_from_memory_says_so(woodref, tmp_path, monkeypatch):
    """Every size of the table was read, so 10/4 is recalled here."""

    def sizes(reference):
        read = dressed_thicknesses(reference)
        return tuple(replace(s, basis="unchecked") if s.nominal == "10/4" else s for s in read)

    monkeypatch.setattr("woodref.lumber.yard.dressed_thicknesses", sizes)
    path = tmp_path / "parts.csv"
    path.write_text(PARTS + "leg,28,2-1/8,2-1/8,cherry,4,\n")
    found = woodref("buy", path)
    assert "The dressed size of 10/4 is recalled, not seen in print." in found.out


@pytest.mark.parametrize(
    ("flags", "said"),
    [
        (["--yard-widths", "6"], "--yard-lengths is missing"),
        (["--yard-widths", "6", "--yard-lengths", "long"], "--yard-lengths: 'long'"),
        (["--yard-widths", "0", "--yard-lengths", "8"], "--yard-widths: a size must be above 0"),
        (["--kerf", "wide"], "--kerf: 'wide'"),
        (
            ["--width-allowance", "30"],
            "an allowance for width is 0 to 19.69 in, not 30 in",
        ),
        (["--yard-thicknesses", "thick"], "--yard-thicknesses: 'thick'"),
        (["--waste", "400"], "--waste: at most 300 %"),
        (["--plot", "plan.txt"], "a chart is .svg or .png"),
        (["--board", "4/4 x 6 x 8ft wuud"], "--board: "),
        (["--boards", "none.csv"], "none.csv"),
        (["--effort", "none"], "--effort"),
        (["--yard-widths", "2", "--yard-lengths", "8"], "offer larger boards"),
    ],
)
def test_mistakes_are_one_line_and_leave_nothing(woodref, parts, flags, said):
    before = sorted(parts.parent.iterdir())
    found = woodref("buy", parts, *flags)
    assert found.code == 2
    assert said in found.err
    assert found.err.count("\n") == 1
    assert found.out == ""
    assert sorted(parts.parent.iterdir()) == before


def test_stock_too_thin_is_an_error(woodref, tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text("name,length,width,thickness,species,stock\ntop,46,5,7/8,cherry,4/4\n")
    found = woodref("buy", path)
    assert found.code == 2
    assert "top: 4/4 dresses to 13/16 in: too thin for 7/8 in; 5/4 reaches it" in found.err


def test_boards_without_a_wood(woodref, parts, tmp_path):
    found = woodref("buy", parts, "--board", "4/4 x 6 x 9ft x 2")
    assert found.out.startswith("Yes: your ")
    parts.write_text(RAILS + "leg,28,1-1/2,1-1/2,white oak,4,\n")
    found = woodref("buy", parts, "--board", "4/4 x 6 x 9ft x 2")
    assert found.code == 2
    assert "a board names no wood, and the parts are of several" in found.err


def test_an_empty_cut_list_is_no_answer(woodref, tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(PARTS + "leg,28,wide,1,cherry,4,\n")
    assert woodref("buy", path).code == 1


def test_the_layout_is_drawn(woodref, parts, tmp_path):
    target = tmp_path / "plan.svg"
    found = woodref("buy", parts, "--board", "4/4 x 6 x 9ft x 3 cherry", "--plot", target)
    assert found.code == 0
    assert found.err == f"woodref: drawn to {target}\n"
    assert target.read_text().startswith("<?xml")


def test_progress_is_for_a_terminal_alone_and_an_interrupt_takes_the_best_so_far(tmp_path):
    """On a terminal of its own, stopped by the key once it tells of progress."""
    pty = pytest.importorskip("pty")

    path = tmp_path / "parts.csv"
    path.write_text(
        PARTS
        + "".join(
            f"part {k},{17 + 3.3 * k:.1f},{1.9 + 0.3 * k:.1f},3/4,cherry,5,\n" for k in range(12)
        )
    )
    master, slave = pty.openpty()
    process = subprocess.Popen(
        [
            sys.executable,
            "-c",
            # A shell turns interrupts off for what it runs behind, and children inherit that.
            "import signal; signal.signal(signal.SIGINT, signal.default_int_handler); "
            "from woodref.cli.main import main; main()",
            "buy",
            str(path),
            "--yard-widths",
            "6,7,8",
            "--yard-lengths",
            "8,10",
            "--effort",
            "long",
        ],
        stdout=subprocess.PIPE,
        stderr=slave,
        cwd=ROOT,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    os.close(slave)
    shown = b""
    while b"Ctrl-C takes the best so far" not in shown:
        shown += os.read(master, 1000)
    process.send_signal(2)
    out, _ = process.communicate(timeout=60)
    os.close(master)
    assert process.returncode == 0
    assert "at least" in shown.decode()
    assert "Stopped by hand: these are the best plans found so far." in out
    assert "No boards in hand: all 60 blanks are to be bought." in out
