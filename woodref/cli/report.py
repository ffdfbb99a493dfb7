"""The command report: a whole piece on one page."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
    Effort,
    Force,
    PlaceOption,
    RoomAsked,
    RoomFigures,
    SearchEffort,
    Setting,
    UnitSystem,
    example,
    source_of,
)
from woodref.cli.piece import PieceFile, PieceUnits, Prices, estimate_of, units_of
from woodref.cli.piece_input import WoodOfParts
from woodref.cli.say import complain, say

if TYPE_CHECKING:
    from woodref.piece.maker_table import Maker

_PAGES = {"client": "the page for the client", "shop": "the pages for the shop wall"}


class Page(StrEnum):
    """Which page of a piece."""

    client = "client"
    shop = "shop"


def _day(text: str) -> date:
    """A day as written.

    Raises: InputError for what is none.
    """
    from woodref.errors import InputError

    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(f"--date '{text}' is not a day; write 2026-01-31") from None


def _maker() -> Maker | None:
    """The maker of the configuration file, None where it names none."""
    from woodref.config import MAKER, maker_table
    from woodref.piece.maker_table import MAKER as KEYS
    from woodref.piece.maker_table import read_maker
    from woodref.toml_reader import TomlTable

    named = maker_table()
    if named is None:
        return None
    file, table = named
    return read_maker(TomlTable(table, str(file), MAKER, KEYS))


def report_command(
    context: typer.Context,
    piece: PieceFile,
    output: Annotated[
        Path,
        typer.Option("--output", "-o", metavar="FILE", help="Write the page here; - prints it."),
    ],
    page: Annotated[Page, typer.Option("--page", help="Which page.")] = Page.client,
    price: Annotated[
        bool, typer.Option("--price", help="Client: give the price of the quote.")
    ] = False,
    costs: Annotated[
        bool, typer.Option("--costs/--no-costs", help="Shop: say what things cost.")
    ] = True,
    sources: Annotated[
        bool, typer.Option("--sources", help="Add the figures behind it, sources and assumptions.")
    ] = False,
    day: Annotated[
        str, typer.Option("--date", metavar="DATE", help="Date on the page; today if left out.")
    ] = "",
    wood: WoodOfParts = "",
    prices: Prices = "",
    units: PieceUnits = UnitSystem.us,
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    effort: Effort = SearchEffort.usual,
    force: Force = False,
) -> None:
    """A piece on pages to print, for the client or the shop wall.

    The page needs nothing else: no network, no script, no other file.
    """
    from woodref.cli.output import checked_save
    from woodref.cli.plot import quiet_drawing
    from woodref.errors import InputError
    from woodref.files import write_text
    from woodref.report.care import fixings_hold
    from woodref.report.html import report_html

    quiet_drawing()
    client = page is Page.client
    if price and not client:
        raise InputError("--price is for --page client; the shop's pages tell the whole quote")
    if client and source_of(context, "costs") == "COMMANDLINE":
        raise InputError("--costs and --no-costs are for --page shop; --price is the client's")
    on = _day(day) if day else date.today()
    printed = str(output) == "-"
    if not printed:
        checked_save(output, force, piece)
    asked = RoomAsked(place, setting, room_figures)
    estimate, remarks = estimate_of(context, piece, prices, asked, force)
    shown = units_of(context, units, estimate.piece)
    text = report_html(estimate, page.value, shown, costs, price, sources, _maker(), on)
    if printed:
        say(text, end="")
        return
    write_text(output, text, overwrite=force)
    say(f"{output} written: {_PAGES[page]}; open it in a browser and print it there")
    for remark in remarks:
        complain(f"woodref: {remark}")
    if client and not fixings_hold(estimate):
        # What a client cannot mend stays off that page, and the maker hears of it.
        from woodref.answers.piece_fixings import fixing_line

        for line in fixing_line(estimate, shown):
            complain(f"woodref: not on the page: {line}")


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "report",
        epilog=example(
            "woodref report PIECE.toml -o piece.html",
            "woodref report PIECE.toml --page shop -o bench.html",
        ),
    )(report_command)
