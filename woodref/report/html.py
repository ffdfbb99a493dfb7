"""A whole piece on one page, for the client or for the shop wall."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from woodref.errors import InputError
from woodref.files import did_you_mean
from woodref.report.client import client_blocks
from woodref.report.markup import Markup, element, joined
from woodref.report.shop import shop_blocks
from woodref.report.view import AUDIENCES, View

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate

#: What a browser may do with a page: show it, and nothing else.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
_UNITS = ("us", "si")
_SUBTITLES = {
    "client": "What it is, what it weighs, and how to live with it",
    "shop": "For the shop wall",
}


def report_html(
    estimate: Estimate,
    audience: str = "client",
    units: str = "us",
    costs: bool | None = None,
    sizes: bool | None = None,
) -> str:
    """A piece as one HTML page that needs nothing else: no script, no picture, no font to fetch.

    The page for the client says how to live with the piece; the page for the shop has the cut
    list, the sizes to make and what to buy. Every word that a person wrote is escaped.

    Parameters: estimate as woodref.piece.estimate.estimate_piece makes it; audience
    'client' or 'shop'; units 'us' or 'si'; costs, whether costs are told, and sizes, whether
    the sizes of joints are, by default in the shop alone.
    Returns: the page, the same for the same estimate.
    Raises: InputError for another audience or units.
    """
    for value, known, what in ((audience, AUDIENCES, "page is for"), (units, _UNITS, "unit is")):
        if value not in known:
            raise InputError(
                f"a {what} {' or '.join(known)}, not {value!r}{did_you_mean(value, known)}"
            )
    ours = audience == "shop"
    view = View(
        estimate,
        audience,
        units,
        ours if costs is None else costs,
        ours if sizes is None else sizes,
    )
    piece = estimate.piece
    style = (files("woodref") / "templates" / "report.css").read_text(encoding="utf-8")
    head = joined(
        [
            element("meta", charset="utf-8"),
            element("meta", http_equiv="Content-Security-Policy", content=_POLICY),
            element("meta", name="viewport", content="width=device-width, initial-scale=1"),
            element("link", rel="icon", href="data:,"),
            element("title", f"{piece.name}: {_SUBTITLES[audience].lower()}"),
            element("style", Markup(f"\n{style}")),
        ]
    )
    blocks = client_blocks(view) if audience == "client" else shop_blocks(view)
    body = joined(
        [
            element(
                "header",
                element("p", _SUBTITLES[audience], class_="kind"),
                element("h1", piece.name, dir="auto"),
                element("p", piece.note, class_="note", dir="auto") if piece.note else "",
            ),
            element("main", joined(blocks)),
            element("footer", element("p", _FOOT)),
        ]
    )
    page = element("html", element("head", head), element("body", body), lang="en")
    return f"<!doctype html>\n{page}\n"


_FOOT = (
    "Estimates, each with the central 90 % of what is likely; a range is part of the figure. "
    "Nothing here is a structural design value. [unchecked] marks what was recalled and not seen "
    "in print."
)
