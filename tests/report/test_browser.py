"""The page of a piece in a real browser: nothing fetched, nothing wrong, and it prints."""

from pathlib import Path
from typing import NamedTuple

import pytest
from browser import MISSING, PAPER, browser, pages_of, points
from page_kit import Page
from pieces import NASTY, demo, named
from PIL import Image

from woodref.report import report_html

pytestmark = pytest.mark.skipif(bool(MISSING), reason=MISSING)

#: The widths of a phone, a tablet and a desk [px].
WIDTHS = (375, 768, 1280)
#: Width between the margins of the narrower paper, A4, at 96 px to the inch [px].
PRINTED_PX = round((210 - 26) / 25.4 * 96)
#: What stands out at the right; on a screen a wide table may scroll in its box.
_WIDEST = """
const limit = document.documentElement.clientWidth;
const scrolled = [...document.querySelectorAll('.wide')];
return [...document.body.querySelectorAll('*')]
  .filter(e => PRINTED || !scrolled.some(w => w !== e && w.contains(e)))
  .filter(e => !e.ownerSVGElement && e.getBoundingClientRect().right > limit + 1)
  .map(e => e.tagName + ' ' + e.className + ': ' + e.textContent.slice(0, 40));
"""


NASTY_WORDS = tuple(f"{i} {w}" for i, w in enumerate(NASTY))
#: A piece, the units of its page.
PIECES = {
    "bench": ("hall-bench", "us"),
    "sideboard": ("sideboard", "us"),
    "table": ("trestle-table", "si"),
    "shelf": ("wall-shelf", "si"),
    "nasty": ("", "us"),
}


@pytest.fixture(scope="module")
def window(tmp_path_factory):
    with browser(tmp_path_factory.mktemp("settings")) as session:
        yield session


class Opened(NamedTuple):
    """A page that stands in the window: for whom it is, its file, what it asked for and said."""

    who: str
    path: Path
    console: list
    requests: list


@pytest.fixture(
    scope="module",
    params=[(name, who) for name in PIECES for who in ("client", "shop")],
    ids="-".join,
)
def page(request, window, tmp_path_factory):
    """A page, opened once for all tests of it."""
    piece, who = request.param
    name, units = PIECES[piece]
    found = demo(name) if name else named(NASTY_WORDS)
    path = tmp_path_factory.mktemp("page") / "page.html"
    path.write_text(
        report_html(found, who, units, price=name == "sideboard" and who == "client"),
        encoding="utf-8",
    )
    window.open(path)
    return Opened(who, path, window.console(), window.requests())


def test_the_page_asks_for_nothing_and_complains_of_nothing(window, page):
    assert window.run("return document.readyState") == "complete"
    assert page.console == []
    asked = [a for a in page.requests if not a.startswith("data:")]
    assert asked == [page.path.resolve().as_uri()]
    assert window.run("return document.scripts.length") == 0


def test_what_the_browser_shows_is_what_was_written(window, page):
    written = Page(page.path.read_text(encoding="utf-8"))
    title, heading, tags = window.run(
        "return [document.title, document.querySelector('h1').textContent,"
        " [...document.querySelectorAll('*')].map(e => e.localName)]"
    )
    assert heading in title
    assert tags == _as_parsed(written)


def test_what_scrolls_is_reached_by_the_keyboard_and_has_a_name(window, page):
    window.media("screen")
    window.resize(375, 900)
    scrolled = window.run(
        "return [...document.querySelectorAll('*')]"
        ".filter(e => e.scrollWidth > e.clientWidth + 1"
        " && ['auto', 'scroll'].includes(getComputedStyle(e).overflowX))"
        ".map(e => [e.tabIndex, e.getAttribute('role'), !!e.getAttribute('aria-label')])"
    )
    assert bool(scrolled) == (page.who == "shop")
    assert {tuple(x) for x in scrolled} <= {(0, "region", True)}


def _as_parsed(page):
    """The tags of a page."""
    return [tag for tag, _ in page.tags]


def test_it_is_seen(window, page, tmp_path):
    window.resize(800, 1000)
    window.media("screen")
    shot = tmp_path / "seen.png"
    window.screenshot(shot)
    image = Image.open(shot).convert("L")
    assert image.size == (800, 1000)
    dark = sum(image.histogram()[:128]) / (800 * 1000)
    assert 0.01 < dark < 0.5


@pytest.mark.parametrize("width", WIDTHS)
def test_it_fits_a_phone_and_a_desk(window, page, width):
    window.media("screen")
    window.resize(width, 900)
    assert window.run("return document.documentElement.scrollWidth") <= width
    assert window.run(_WIDEST.replace("PRINTED", "false")) == []


def test_in_print_no_table_runs_off_the_paper(window, page):
    window.media("print")
    window.resize(PRINTED_PX, 1000)
    assert window.run(_WIDEST.replace("PRINTED", "true")) == []


#: Height of the smallest letters that are seen [px], those of drawings as they are scaled.
_SMALLEST = """
const own = e => [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
const scale = e => {
  const svg = e.ownerSVGElement;
  return svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
};
return Math.min(...[...document.body.querySelectorAll('*')]
  .filter(e => own(e) && e.localName !== 'style')
  .map(e => parseFloat(getComputedStyle(e).fontSize) * scale(e)));
"""


def test_letters_of_the_shop_print_at_nine_points_or_more(window, page):
    if page.who == "shop":
        window.media("print")
        window.resize(PRINTED_PX, 1000)
        assert window.run(_SMALLEST) >= 9.0 / 72.0 * 96.0 - 0.01


@pytest.mark.parametrize("paper", PAPER)
def test_it_prints(window, page, paper):
    window.reset()
    pages, sizes = pages_of(window.pdf(paper))
    assert pages == 1 if page.who == "client" else 1 <= pages <= 6
    wide, high = points(paper)
    assert all(abs(w - wide) <= 1 and abs(h - high) <= 1 for w, h in sizes)
    assert sizes


def test_a_page_that_fetches_or_fails_would_be_noticed(window, tmp_path):
    path = tmp_path / "bad.html"
    path.write_text(
        "<!doctype html><title>bad</title><link rel=icon href='data:,'>"
        "<script>console.error('oh')</script><img src='none.png'>"
    )
    window.open(path)
    assert any("oh" in line for line in window.console())
    assert any(address.endswith("none.png") for address in window.requests())
