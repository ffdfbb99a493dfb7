"""report at the command line: a page written whole or not at all."""

from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
SHELF = DEMO / "wall-shelf.toml"


def test_a_page_for_each_of_the_two(woodref, tmp_path):
    client, shop = tmp_path / "client.html", tmp_path / "shop.html"
    assert woodref("report", SHELF, "-o", client).out.startswith(f"{client} written: ")
    assert woodref("report", SHELF, "--for", "shop", "-o", shop).code == 0
    for page in (client, shop):
        text = page.read_text(encoding="utf-8")
        assert text.startswith("<!doctype html>")
        assert "Wall shelf (invented)" in text
        assert "<script" not in text
    assert "Cut list" in shop.read_text(encoding="utf-8")
    assert "Cut list" not in client.read_text(encoding="utf-8")


def test_costs_are_the_shops_unless_asked(woodref):
    assert "USD" not in woodref("report", SHELF, "-o", "-").out
    assert "USD" in woodref("report", SHELF, "-o", "-", "--costs").out
    assert "USD" in woodref("report", SHELF, "-o", "-", "--for", "shop").out
    assert "USD" not in woodref("report", SHELF, "-o", "-", "--for", "shop", "--no-costs").out


def test_a_page_that_exists_stays_unless_forced(woodref, tmp_path):
    page = tmp_path / "page.html"
    page.write_text("mine")
    result = woodref("report", SHELF, "-o", page)
    assert result.code == 2
    assert "exists already; add --force" in result.err
    assert page.read_text() == "mine"
    assert woodref("report", SHELF, "-o", page, "--force").code == 0
    assert page.read_text(encoding="utf-8").startswith("<!doctype html>")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ([DEMO / "wall-shef.toml", "-o", "-"], "did you mean 'wall-shelf.toml'?"),
        ([SHELF, "-o", "-", "--for", "kitchen"], "client"),
        ([SHELF], "--output"),
        ([SHELF, "-o", "no/such/folder/x.html"], "does not exist; make it first"),
    ],
)
def test_mistakes_are_one_line_and_leave_nothing(woodref, arguments, words):
    result = woodref("report", *arguments)
    assert (result.code, result.out) == (2, "")
    assert words in result.err
    assert result.err.count("\n") == 1
