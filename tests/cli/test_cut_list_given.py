"""A cut list where a piece file is usual: estimate, report and buy take it with its wood."""

import json

import pytest

pytestmark = pytest.mark.usefixtures("whole_pages")

LIST = "part,qty,L,W,T,wood\ntop,1,60,18,7/8,\nrail,2,x,2,1,\nback,1,50,20,1/4,plywood\n"


@pytest.fixture
def parts(tmp_path):
    path = tmp_path / "parts.csv"
    path.write_text(LIST)
    return path


def test_estimate_says_which_rows_it_left_and_keeps_them(woodref, parts):
    words = ("estimate", parts, "--wood", "ash", "--place", "Boston", "--format", "json")
    result = woodref(*words)
    assert result.code == 0
    assert result.err.startswith(f"woodref: 1 of 3 rows of {parts} not counted, kept in ")
    answer = json.loads(result.out)
    assert [p["part"] for p in answer["parts"]] == ["top", "back"]
    assert answer["notes"][0].startswith("Not counted: 1 row of ")
    kept = parts.with_name("parts.csv.rejects.csv").read_text().splitlines()
    assert kept[0] == "line,reason,part,qty,L,W,T,wood"
    assert kept[1].startswith("3,")


def test_report_and_buy_take_it_too(woodref, parts):
    page = woodref("report", parts, "--wood", "ash", "--place", "Boston", "-o", "-")
    assert page.code == 0
    assert "top" in page.out
    bought = woodref("buy", parts, "--wood", "ash")
    assert bought.code == 0
    assert "Sheet goods are not in the plan (1 of 2 parts)." in bought.out


def test_substitute_takes_it_with_its_parts_of_the_wood_asked_about(woodref, parts):
    words = ("substitute", "white ash", "--for", "tabletop", "--rows", "1", "--piece", parts)
    result = woodref(*words, "--place", "Boston", "--format", "json")
    assert result.code == 0
    assert "1 of 3 rows" in result.err
    assert "parts in " in " ".join(json.loads(result.out)["answer"])


def test_a_wood_beside_a_piece_file_is_refused(woodref, tmp_path):
    for command in ("estimate", "buy"):
        result = woodref(command, "datasets/demo/wall-shelf.toml", "--wood", "ash")
        assert (result.code, result.out) == (2, "")
        assert "--wood goes with a cut list" in result.err


def test_a_place_by_default_serves_a_cut_list(woodref, parts, monkeypatch):
    monkeypatch.setenv("WOODREF_PLACE", "Boston")
    assert woodref("estimate", parts, "--wood", "ash").code == 0
    monkeypatch.delenv("WOODREF_PLACE")
    result = woodref("estimate", parts, "--wood", "ash")
    assert (result.code, result.out) == (2, "")
    assert "names no room" in result.err
