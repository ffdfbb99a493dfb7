"""How Sphinx makes the site of its pages."""

import re
from pathlib import Path
from typing import Any

from sphinx.application import Sphinx

import woodref

project = "woodref"
author = "The woodref contributors"
copyright = "the woodref contributors, MIT; dataset CC0 1.0"
version = release = woodref.__version__
language = "en"
extensions = ["myst_parser", "sphinx.ext.autodoc", "sphinx.ext.napoleon"]
source_suffix = {".md": "markdown", ".rst": "restructuredtext"}
myst_heading_anchors = 3
# A run of two hyphens is an option, not a dash.
smartquotes = False
# Text of a terminal is no program in any language.
highlight_language = "text"
autodoc_typehints = "none"
autodoc_member_order = "bysource"
napoleon_google_docstring = False
napoleon_use_rtype = False
html_theme = "pydata_sphinx_theme"
html_title = "woodref"
templates_path = ["templates"]
html_search_scorer = str(Path(__file__).parent / "scorer.js")
# A summary is fetched from the page, which a browser refuses where the site is opened as files.
html_show_search_summary = False
html_static_path = ["static"]
html_css_files = ["woodref.css"]
html_copy_source = False
html_show_sourcelink = False
html_show_sphinx = False
html_theme_options = {
    "navbar_end": ["theme-switcher"],
    "icon_links": [],
    "header_links_before_dropdown": 7,
    "show_prev_next": False,
    "show_nav_level": 1,
    "navigation_depth": 2,
    "back_to_top_button": False,
    "footer_start": ["copyright"],
    "footer_end": [],
    "search_bar_text": "Search",
    "pygments_light_style": "a11y-high-contrast-light",
    "pygments_dark_style": "a11y-high-contrast-dark",
}
# A page without others of its kind has no menu beside it, nor has one of hundreds.
html_sidebars = {"start": [], "glossary": [], "woods/**": [], "data/publications/**": []}
#: How a default that is made anew for each object is written by Python.
_MADE_ANEW = re.compile(r"<dataclasses\._MISSING_TYPE object[^>]*>")
#: What stands above the pages that no menu lists, by the folder they are in.
_ABOVE = {
    "woods": [("woods/index", "Woods")],
    "data/publications": [("data/index", "The data"), ("data/publications/index", "Publications")],
}


def _above(app: Sphinx, name: str, _template: str, context: dict[str, Any], _tree: object) -> None:
    """Lead back from a page that no menu lists."""
    folder, _, page = name.rpartition("/")
    if folder in _ABOVE and page != "index":
        context["parents"] = [
            {"link": app.builder.get_relative_uri(name, target), "title": title}
            for target, title in _ABOVE[folder]
        ]


def _signature(
    _app: Sphinx,
    _what: str,
    _name: str,
    _object: object,
    _options: object,
    signature: str | None,
    returns: str | None,
) -> tuple[str | None, str | None]:
    """Show a default that is made anew for each object as what it is to a caller: left out."""
    return signature and _MADE_ANEW.sub("...", signature), returns


def setup(app: Sphinx) -> None:
    """Take part in the making of each page."""
    app.connect("html-page-context", _above)
    app.connect("autodoc-process-signature", _signature)
