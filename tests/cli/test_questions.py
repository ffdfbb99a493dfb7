"""The screen of the program without a command: every command on it answers."""

import shlex
import shutil
from pathlib import Path

import pytest

from woodref.cli.main import COMMANDS
from woodref.cli.questions import QUESTIONS

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
#: The demo files that stand for those of a shop.
FILES = {
    "PARTS.csv": "shelf-parts.csv",
    "PIECE.toml": "wall-shelf.toml",
    "wall-shelf-prices.csv": "wall-shelf-prices.csv",
}
TYPED = [typed for group in QUESTIONS for _, typed in group]


def test_it_fits_a_terminal_and_shows_every_question(woodref):
    result = woodref()
    lines = result.out.splitlines()
    assert (result.code, result.err) == (0, "")
    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert len(TYPED) >= 12
    assert [typed for typed in TYPED if typed not in result.out] == []
    assert [asked for group in QUESTIONS for asked, _ in group if asked not in result.out] == []


@pytest.mark.parametrize("typed", TYPED)
def test_every_command_answers_as_it_stands(woodref, monkeypatch, tmp_path, typed):
    for name, demo in FILES.items():
        shutil.copy(DEMO / demo, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    program, *words = shlex.split(typed)
    assert program == "woodref"
    if words == ["begin"]:  # which asks at a terminal
        words += ["--answers", str(DEMO / "plant-stand-answers.txt")]
    result = woodref(*words)
    assert (result.code, result.err) == (0, "")
    assert words[0] in (*COMMANDS, "--help")
    assert result.out
