"""begin at the command line: at a terminal, with a file of answers, and with neither."""

import io
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ANSWERS = ROOT / "datasets" / "demo" / "plant-stand-answers.txt"


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.fixture
def typed(woodref, monkeypatch, tmp_path):
    def call(*lines, options=()):
        monkeypatch.chdir(tmp_path)
        monkeypatch.setattr("sys.stdin", Terminal("".join(f"{line}\n" for line in lines)))
        return woodref("begin", *options)

    return call


def test_answers_of_the_demo_give_a_piece_that_estimate_takes(woodref, tmp_path):
    path = tmp_path / "stand.toml"
    result = woodref("begin", "--answers", ANSWERS, "-o", path)
    assert (result.code, result.err) == (0, "")
    assert result.out == f"{path} written; see what it comes to: woodref estimate {path}\n"
    assert woodref("begin", "--answers", ANSWERS, "-o", "-").out == path.read_text()
    assert woodref("estimate", path).code == 0
    assert woodref("begin", "--answers", ANSWERS, "-o", path).code == 2
    assert woodref("begin", "--answers", ANSWERS, "-o", path, "--force").code == 0


def test_without_a_terminal_and_without_answers_it_does_not_wait(woodref, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    result = woodref("begin")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        "woodref: begin asks at a terminal, and there is none here; give the answers in a file "
        "with --answers FILE\n"
    )


def test_a_wrong_answer_is_told_and_asked_again(woodref, typed, tmp_path):
    lines = ["Hall bench", "", "aash", "white ash", "", "Duluth", "", "", "seat, 1, 48", ""]
    lines += ["seat, 1, 48, 14, 7/8, , 3", "leg, 4, 16, 1-3/4, 1-3/4", "", "shellac", "3", "", ""]
    result = typed(*lines)
    assert (result.code, result.err) == (0, "")
    assert "What is the piece called? [My piece]" in result.out
    assert "aash" in result.out
    assert "one part or more" in result.out
    assert "'seat, 1, 48' is no part" in result.out
    assert "part 2: " in result.out
    assert "widest part, seat" in " ".join(result.out.split())
    assert "hall-bench.toml written" in result.out
    text = (tmp_path / "hall-bench.toml").read_text()
    assert 'name = "shellac"\ncoats = 3' in text
    assert woodref("estimate", tmp_path / "hall-bench.toml").code == 0


def test_a_file_that_is_there_is_kept_and_another_name_asked_for(typed, tmp_path):
    (tmp_path / "my-piece.toml").write_text("mine")
    lines = ["", "", "", "", "", "", "top, 1, 14, 9, 1", "", "", "", ""]
    result = typed(*lines, "other.toml")
    assert result.code == 0
    assert "my-piece.toml: exists already" in result.out
    assert (tmp_path / "my-piece.toml").read_text() == "mine"
    assert (tmp_path / "other.toml").read_text().startswith("# A piece of furniture")


def test_answers_that_end_early_write_nothing(typed, tmp_path):
    result = typed("Stand", "")
    assert result.code == 2
    assert "nothing was written" in result.err
    assert list(tmp_path.glob("*.toml")) == [tmp_path / "empty-config.toml"]
