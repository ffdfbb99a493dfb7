"""The head of a page: who made the piece, the day, and a logo that is a part of the page."""

from __future__ import annotations

from base64 import b64encode
from datetime import date
from pathlib import Path

from woodref.climate.seasons import MONTH_NAMES
from woodref.errors import InputError
from woodref.files import read_bytes
from woodref.piece.maker_table import LOGOS
from woodref.report.markup import Markup, element, joined
from woodref.report.view import View

#: A logo larger than this makes a page slow to send [bytes].
MOST_BYTES = 500_000
_PNG = b"\x89PNG\r\n\x1a\n"


def day_words(day: date, units: str) -> str:
    """'November 27, 2026', in metric countries '27 November 2026'."""
    month = MONTH_NAMES[day.month - 1]
    if units == "us":
        return f"{month} {day.day}, {day.year}"
    return f"{day.day} {month} {day.year}"


def logo_address(path: Path) -> str:
    """The picture of a file as an address that holds it, so that a page needs no other file.

    Raises: InputError, naming the file, where it cannot be read, is no PNG or SVG, or is larger
    than MOST_BYTES.
    """
    kind = LOGOS.get(path.suffix.lower())
    data = read_bytes(path, "logo", MOST_BYTES)
    whole = data.startswith(_PNG) if kind == LOGOS[".png"] else b"<svg" in data
    if kind is None or not whole:
        raise InputError(f"{path}: is neither a PNG nor an SVG picture, and no logo")
    return f"data:{kind};base64,{b64encode(data).decode('ascii')}"


def masthead(view: View) -> Markup:
    """The maker's name, address and logo, and the day; nothing where neither is known."""
    maker = view.maker
    day = day_words(view.day, view.units) if view.day else ""
    if maker is None and not day:
        return Markup()
    who = (
        [
            element("img", src=view.logo, alt=f"Logo of {maker.name}") if view.logo else "",
            element(
                "div",
                element("p", maker.name, class_="maker", dir="auto"),
                element("p", maker.address, class_="note", dir="auto") if maker.address else "",
            ),
        ]
        if maker
        else []
    )
    date_ = element("p", element("time", day, datetime=view.day.isoformat())) if view.day else ""
    return element(
        "header",
        element("div", joined(who), class_="who"),
        date_,
        class_="masthead",
    )
