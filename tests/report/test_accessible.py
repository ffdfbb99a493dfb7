"""The pages by the rules for accessible pages, where the checker is installed.

``npm install --no-save axe-core`` in the folder of the project installs it.
"""

from pathlib import Path

import pytest
from browser import MISSING, browser
from pieces import demo

from woodref.report import report_html

CHECKER = Path(__file__).resolve().parents[2] / "node_modules" / "axe-core" / "axe.min.js"
WHY = MISSING or ("" if CHECKER.exists() else "axe-core is not installed (npm install axe-core)")
pytestmark = pytest.mark.skipif(bool(WHY), reason=WHY)
#: What breaks a rule of WCAG 2.2 AA or of good practice, as text.
_BROKEN = """
return axe.run(document, {resultTypes: ['violations']}).then(
  result => result.violations.map(v => v.id + ': ' + v.nodes[0].html.slice(0, 120)));
"""


@pytest.fixture(scope="module")
def window(tmp_path_factory):
    with browser(tmp_path_factory.mktemp("settings")) as session:
        yield session


@pytest.mark.parametrize("who", ["client", "shop"])
@pytest.mark.parametrize("width", [375, 768, 1280])
def test_no_rule_is_broken(window, tmp_path, who, width):
    path = tmp_path / "page.html"
    client = who == "client"
    page = report_html(demo("sideboard"), who, price=client, sources=True)
    path.write_text(page, encoding="utf-8")
    window.open(path)
    window.media("screen")
    window.resize(width, 900)
    checker = CHECKER.read_text(encoding="utf-8")
    assert window.run(f"{checker};{_BROKEN}") == []


def test_a_page_that_breaks_a_rule_would_be_noticed(window, tmp_path):
    path = tmp_path / "bad.html"
    path.write_text("<!doctype html><html><title>bad</title><p style='color:#aaa'>pale</p></html>")
    window.open(path)
    broken = window.run(f"{CHECKER.read_text(encoding='utf-8')};{_BROKEN}")
    assert any("color-contrast" in line for line in broken)
    assert any("html-has-lang" in line for line in broken)
