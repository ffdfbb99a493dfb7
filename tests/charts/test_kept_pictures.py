"""The pictures kept with the docs: a finding as title and description, words inside the sheet."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

KEPT = sorted((Path(__file__).parents[2] / "docs" / "pictures").glob("*.svg"))
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module", params=KEPT, ids=lambda p: p.stem)
def picture(request):
    return request.param.read_text(encoding="utf-8")


def test_it_says_its_finding_to_those_who_do_not_see_it(picture):
    root = ElementTree.fromstring(picture)
    title, told = root.find(f"{SVG}title").text, root.find(f"{SVG}desc").text
    assert told.startswith(title)
    # A sentence or a clause with a figure or a wood in it, not the name of a kind of picture.
    assert len(title.split()) >= 5
    drawn = " ".join(t.text for t in root.iter(f"{SVG}text") if t.text)
    assert " ".join(drawn.split()).replace("\N{NO-BREAK SPACE}", " ").find(title[:12]) >= 0


def test_its_words_lie_on_the_sheet_and_no_number_is_below_nothing(picture):
    root = ElementTree.fromstring(picture)
    _, _, wide, high = map(float, root.get("viewBox").split())
    assert "nan" not in picture.lower().replace("provenance", "")
    for text in root.iter(f"{SVG}text"):
        moved = re.search(r"translate\((-?[\d.]+)[ ,](-?[\d.]+)\)", text.get("transform") or "")
        x, y = map(float, moved.groups() if moved else (text.get("x"), text.get("y")))
        assert 0.0 <= x <= wide
        assert 0.0 <= y <= high
        assert not re.match(r"-\d", (text.text or "").strip()), text.text


def test_it_is_no_large_file(picture):
    assert len(picture) < 90_000
