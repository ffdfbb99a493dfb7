"""A figure as a part of a page: its SVG with a title and a description, and nothing to fetch."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from woodref.charts.figure import svg_text
from woodref.report.markup import Markup, element, joined

if TYPE_CHECKING:
    from woodref.charts.figure import Figure

#: What the file of a figure holds that a page has no use for.
_LEFT_OUT = re.compile(r"<!--.*?-->|<metadata>.*?</metadata>|<style\b.*?</style>", re.DOTALL)
_VIEW = re.compile(r'viewBox="([\d. -]+)"')
_ID = re.compile(r'(\bid="|href="#|url\(#)')


def inline_svg(figure: Figure, key: str, title: str, description: str) -> Markup:
    """A figure as an SVG element that is as wide as its place.

    Its text is drawn as shapes, so that title and description stand for it where it is read
    aloud. The figure should hold no word of a user: its font may not know the letters.

    Parameters: figure; key, a word that sets its identifiers apart from others of the page;
    title; description.
    """
    whole = svg_text(figure)
    view = _VIEW.search(whole)
    inside = whole[whole.index(">", whole.index("<svg")) + 1 : whole.rindex("</svg>")]
    inside = _LEFT_OUT.sub("", inside).replace("xlink:href", "href")
    inside = _ID.sub(rf"\g<1>{key}-", inside).strip()
    return element(
        "svg",
        joined(
            [
                element("title", title, id=f"{key}-title"),
                element("desc", description, id=f"{key}-desc"),
                Markup(inside),
            ]
        ),
        viewBox=view[1] if view else "",
        role="img",
        aria_labelledby=f"{key}-title {key}-desc",
    )
