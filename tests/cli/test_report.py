"""report at the command line: a page written whole or not at all."""

from pathlib import Path

import pytest

DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
SHELF = DEMO / "wall-shelf.toml"


def test_a_page_for_each_of_the_two(woodref, tmp_path):
    client, shop = tmp_path / "client.html", tmp_path / "shop.html"
    assert woodref("report", SHELF, "-o", client).out.startswith(f"{client} written: ")
    assert woodref("report", SHELF, "--page", "shop", "-o", shop).code == 0
    for page in (client, shop):
        text = page.read_text(encoding="utf-8")
        assert text.startswith("<!doctype html>")
        assert "Wall shelf (invented)" in text
        assert "<script" not in text
    assert "Cut list" in shop.read_text(encoding="utf-8")
    assert "Cut list" not in client.read_text(encoding="utf-8")


def test_costs_are_the_shops(woodref):
    assert "USD" not in woodref("report", SHELF, "-o", "-").out
    assert "USD" in woodref("report", SHELF, "-o", "-", "--page", "shop").out
    assert "USD" not in woodref("report", SHELF, "-o", "-", "--page", "shop", "--no-costs").out


def test_the_maker_comes_from_the_configuration_and_the_day_from_the_option(
    woodref, tmp_path, monkeypatch
):
    config = tmp_path / "config.toml"
    config.write_text('[maker]\nname = "A shop"\naddress = "A street"\nlogo = "mark.svg"\n')
    (tmp_path / "mark.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    monkeypatch.setenv("WOODREF_CONFIG", str(config))
    page = woodref("report", SHELF, "-o", "-", "--date", "2026-01-31").out
    for said in ("A shop", "A street", "January 31, 2026", "data:image/svg+xml;base64,"):
        assert said in page
    config.write_text('[maker]\nnom = "A shop"\n')
    result = woodref("report", SHELF, "-o", "-")
    assert result.code == 2
    assert "maker: nom: unknown key" in result.err


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
        ([SHELF, "-o", "-", "--page", "kitchen"], "client"),
        ([SHELF, "-o", "-", "--for", "shop"], "--for"),
        ([SHELF, "-o", "-", "--price"], "[quote]"),
        ([SHELF, "-o", "-", "--costs"], "--page shop"),
        ([SHELF, "-o", "-", "--page", "shop", "--price"], "--page client"),
        ([SHELF, "-o", "-", "--date", "31.1.2026"], "2026-01-31"),
        ([SHELF], "--output"),
        ([SHELF, "-o", "no/such/folder/x.html"], "does not exist; make it first"),
    ],
)
def test_mistakes_are_one_line_and_leave_nothing(woodref, arguments, words):
    result = woodref("report", *arguments)
    assert (result.code, result.out) == (2, "")
    assert words in result.err
    assert result.err.count("\n") == 1
