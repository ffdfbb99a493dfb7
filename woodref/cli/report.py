"""The command report: a whole piece on one page."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from woodref.cli.options import (
    Force,
    PlaceOption,
    RoomAsked,
    RoomFigures,
    Setting,
    UnitSystem,
    example,
)
from woodref.cli.piece import PieceFile, PieceUnits, Prices, estimate_of, units_of
from woodref.cli.piece_input import WoodOfParts

_PAGES = {"client": "the page for the client", "shop": "the page for the shop wall"}


class Audience(StrEnum):
    """Who a page is for."""

    client = "client"
    shop = "shop"


def report_command(
    context: typer.Context,
    piece: PieceFile,
    output: Annotated[
        Path,
        typer.Option("--output", "-o", metavar="FILE", help="Write the page here; - prints it."),
    ],
    audience: Annotated[Audience, typer.Option("--for", help="Who the page is for.")] = (
        Audience.client
    ),
    costs: Annotated[
        bool | None,
        typer.Option(
            "--costs/--no-costs", help="Say what materials cost; by default for the shop."
        ),
    ] = None,
    sizes: Annotated[
        bool | None,
        typer.Option(
            "--sizes/--no-sizes", help="Give the sizes of fixings; by default for the shop."
        ),
    ] = None,
    wood: WoodOfParts = "",
    prices: Prices = "",
    units: PieceUnits = UnitSystem.us,
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    force: Force = False,
) -> None:
    """A piece on one page to print, for the client or the shop wall.

    The page needs nothing else: no network, no script, no other file.
    """
    from woodref.answers.piece_fixings import fixing_line
    from woodref.cli.output import checked_save
    from woodref.files import write_text
    from woodref.report.care import fixings_hold
    from woodref.report.html import report_html

    printed = str(output) == "-"
    if not printed:
        checked_save(output, force, piece)
    asked = RoomAsked(place, setting, room_figures)
    estimate, remarks = estimate_of(context, piece, prices, asked, force)
    shown = units_of(context, units, estimate.piece)
    page = report_html(estimate, audience.value, shown, costs, sizes)
    if printed:
        sys.stdout.write(page)
        return
    write_text(output, page, overwrite=force)
    typer.echo(f"{output} written: {_PAGES[audience]}; open it in a browser and print it there")
    for remark in remarks:
        typer.echo(f"woodref: {remark}", err=True)
    if audience is Audience.client and not sizes:
        for line in fixing_line(estimate, shown) if not fixings_hold(estimate) else []:
            typer.echo(f"woodref: not on the page: {line}", err=True)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command("report", epilog=example("woodref report PIECE.toml --for shop -o bench.html"))(
        report_command
    )
