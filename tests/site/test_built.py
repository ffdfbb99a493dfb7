"""The finished site in a real browser; ``make site`` names the folder it has made.

``npm install --no-save axe-core`` in the folder of the project installs the rules of accessible
pages; without them, or without a browser, what needs them is skipped.
"""

import os
from pathlib import Path
from urllib.parse import quote

import pytest
from browser import MISSING, browser
from selenium.webdriver.support.ui import WebDriverWait

SITE = os.environ.get("WOODREF_SITE", "")
CHECKER = Path(__file__).resolve().parents[2] / "node_modules" / "axe-core" / "axe.min.js"
pytestmark = pytest.mark.skipif(
    not SITE or bool(MISSING), reason=MISSING or "WOODREF_SITE names no finished site: make site"
)
#: A page of each kind.
PAGES = (
    "index.html",
    "start.html",
    "search.html",
    "glossary.html",
    "how-to/index.html",
    "how-to/movement-and-joints.html",
    "woods/index.html",
    "woods/prunus-serotina.html",
    "woods/acacia-koa.html",
    "commands/index.html",
    "commands/show.html",
    "files/piece-file.html",
    "python/index.html",
    "python/movement.html",
    "data/index.html",
    "data/tables/species.html",
    "data/publications/wood-handbook-2010.html",
    "trust/accuracy.html",
    "trust/method.html",
    "about/cite.html",
)
#: The widths of a phone, a tablet and a desk [px].
WIDTHS = (375, 768, 1280)
_WIDE = "return document.documentElement.scrollWidth - document.documentElement.clientWidth"
#: What breaks a rule gravely, as text.
_BROKEN = """
return axe.run(document, {resultTypes: ['violations']}).then(result => result.violations
  .filter(v => ['serious', 'critical'].includes(v.impact))
  .map(v => v.id + ': ' + v.nodes[0].html.slice(0, 120)));
"""
_FOUND = "return [...document.querySelectorAll('#search-results li > a')].map(a => a.textContent)"


@pytest.fixture(scope="module")
def window(tmp_path_factory):
    with browser(tmp_path_factory.mktemp("settings")) as session:
        session.media("screen")
        yield session


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("page", PAGES)
def test_a_page_fits_asks_for_nothing_elsewhere_and_is_accessible(window, page, width):
    window.resize(width, 900)
    window.open(Path(SITE) / page)
    assert window.run(_WIDE) == 0
    assert [x for x in window.requests() if not x.startswith(("file:", "data:"))] == []
    if CHECKER.exists():
        assert window.run(f"{CHECKER.read_text(encoding='utf-8')};{_BROKEN}") == []


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("black cherry", "Black cherry (Prunus serotina)"),
        ("prunus serotina", "Black cherry (Prunus serotina)"),
        ("white oak", "White oak (Quercus alba)"),
        ("movement", "woodref movement"),
    ],
)
def test_search_answers_without_a_server(window, asked, first):
    window.resize(1280, 900)
    address = (Path(SITE) / "search.html").resolve().as_uri()
    window.driver.get(f"{address}?q={quote(asked)}")
    found = WebDriverWait(window.driver, 20, 0.2).until(lambda _: window.run(_FOUND))
    assert first in found[:3]
