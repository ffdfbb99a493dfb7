"""A whole piece on pages to print, for the client or for the shop wall."""

from __future__ import annotations

from datetime import date
from importlib.resources import files
from typing import TYPE_CHECKING

from woodref.errors import InputError, NoDataError
from woodref.files import did_you_mean
from woodref.report.client import client_blocks
from woodref.report.markup import Markup, element, joined
from woodref.report.masthead import day_words, logo_address, masthead
from woodref.report.shop import shop_blocks
from woodref.report.view import AUDIENCES, View

if TYPE_CHECKING:
    from woodref.piece.estimate import Estimate
    from woodref.piece.maker_table import Maker

#: What a browser may do with a page: show it, and nothing else.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
_UNITS = ("us", "si")
_SUBTITLES = {"client": "About your piece", "shop": "For the shop"}


def report_html(
    estimate: Estimate,
    audience: str = "client",
    units: str = "us",
    costs: bool = True,
    price: bool = False,
    sources: bool = False,
    maker: Maker | None = None,
    day: date | None = None,
) -> str:
    """A piece as one HTML page that needs nothing else: no script, no font, no file to fetch.

    The page for the client is one page of paper: what the piece is, and how to live with it. The
    pages for the shop have the cut list and the sizes to make, how boards are cut and what to buy,
    and the figures behind them. Every word that a person wrote is escaped.

    Parameters: estimate as woodref.piece.estimate.estimate_piece makes it; audience
    'client' or 'shop'; units 'us' or 'si'; costs, whether the shop's pages tell what things cost;
    price, whether the client's page gives the price of the quote; sources, whether a last page
    says what it rests on; maker, where the piece names none; day written on it.
    Returns: the page, the same for the same estimate and day.
    Raises: InputError for another audience or units, a price without a quote, or a logo that is no
    picture; NoDataError for the price of a quote that leaves something out.
    """
    for value, known, what in ((audience, AUDIENCES, "page is for"), (units, _UNITS, "unit is")):
        if value not in known:
            raise InputError(
                f"a {what} {' or '.join(known)}, not {value!r}{did_you_mean(value, known)}"
            )
    if price:
        _check_price(estimate)
    named = estimate.piece.maker or maker
    logo = logo_address(named.logo) if named and named.logo else ""
    view = View(estimate, audience, units, costs, price, sources, named, logo, day)
    blocks = joined(client_blocks(view) if audience == "client" else shop_blocks(view))
    return f"<!doctype html>\n{_page(view, blocks)}\n"


def _check_price(estimate: Estimate) -> None:
    """Refuse to give a price that is none.

    Raises: InputError without a quote; NoDataError where it leaves something out.
    """
    told = estimate.quote
    if told is None:
        raise InputError(f"{estimate.piece.file}: a price needs a table [quote]")
    if not told.complete:
        raise NoDataError(
            f"{estimate.piece.name} has no price for the client: {'; '.join(told.without)}"
        )


def _page(view: View, blocks: Markup) -> Markup:
    """The page around its blocks."""
    piece, subtitle = view.estimate.piece, _SUBTITLES[view.audience]
    style = (files("woodref") / "templates" / "report.css").read_text(encoding="utf-8")
    head = joined(
        [
            element("meta", charset="utf-8"),
            element("meta", http_equiv="Content-Security-Policy", content=_POLICY),
            element("meta", name="viewport", content="width=device-width, initial-scale=1"),
            element("link", rel="icon", href="data:,"),
            element("title", f"{piece.name}: {subtitle.lower()}"),
            element("style", Markup(f"\n{style}")),
        ]
    )
    ours = view.audience == "shop"
    day = f", {day_words(view.day, view.units)}" if ours and view.day else ""
    title = [
        element("p", subtitle, day, class_="kind"),
        element("h1", piece.name, dir="auto"),
        element("p", piece.note, class_="note", dir="auto") if piece.note else "",
    ]
    body = ["" if ours else masthead(view), element("main", joined(title), blocks)]
    return element(
        "html",
        element("head", head),
        element("body", joined(body), class_=view.audience),
        lang="en",
    )
