"""The command about a whole piece: estimate."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.beside import Output, With, emit_piece_beside, pairs_of
from woodref.cli.options import (
    Effort,
    Explain,
    Force,
    Format,
    Full,
    PlaceOption,
    Plot,
    RoomAsked,
    RoomFigures,
    Save,
    SearchEffort,
    Setting,
    Style,
    UnitSystem,
    example,
    reference,
    room_changes,
    source_of,
)
from woodref.cli.output import checked_save
from woodref.cli.piece_input import WoodOfParts
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.charts.figure import Figure
    from woodref.lumber.prices import PriceList
    from woodref.piece.estimate import Estimate
    from woodref.piece.moisture_table import Rooms
    from woodref.piece.piece import Piece


def rooms_asked(context: typer.Context, asked: RoomAsked) -> Rooms:
    """How the room of the piece is found; a place that is only a default comes last."""
    from woodref.climate.rooms import room_of
    from woodref.piece.moisture_table import Rooms

    named = source_of(context, "place") == "COMMANDLINE"
    place = asked.place if named else ""
    figures = room_changes(asked.figures)
    return Rooms(partial(room_of, reference()), place, asked.setting, figures, asked.place)


def _estimated(
    piece: Piece, prices: PriceList | None, force: bool, units: str, effort: str
) -> tuple[Estimate, list[str]]:
    """The piece estimated, with the boards in hand it names; what to say of rows that are none.

    The effort of the search is that of the piece where none is given. What is known of the piece
    shows on a terminal while the boards are planned.
    """
    from woodref.piece.estimate import estimate_piece

    if piece.buying is None:
        return estimate_piece(reference(), piece, prices), []
    from woodref.cli.boards_file import boards_of_piece
    from woodref.cli.progress import Ticker

    if effort:
        piece = replace(piece, buying=replace(piece.buying, effort=effort))
    boards, remarks = boards_of_piece(piece, force)
    ticker = Ticker()
    if ticker.shown:
        from woodref.answers.piece import known_before

        known = estimate_piece(reference(), replace(piece, buying=None), prices)
        ticker.first(known_before(known, units))
    try:
        return estimate_piece(reference(), piece, prices, boards, ticker), remarks
    finally:
        ticker.end()


PieceFile = Annotated[
    Path, typer.Argument(help="The piece, a TOML file; or its parts, a cut list (CSV).")
]
Prices = Annotated[
    str,
    typer.Option(
        "--prices",
        envvar="WOODREF_PRICES",
        metavar="FILE",
        help="Price list, a CSV file, in place of the one the piece names; the environment "
        "and the configuration give one for pieces that name none.",
    ),
]
PieceUnits = Annotated[
    UnitSystem,
    typer.Option(
        "--units", envvar="WOODREF_UNITS", help="Units of the output; else those of the piece."
    ),
]


def piece_of(
    context: typer.Context, file: Path, prices: str, asked: RoomAsked, force: bool
) -> tuple[Piece, PriceList | None, list[str]]:
    """A piece file or a cut list with its prices and room; what to say of rows that are no parts.

    Raises: as estimate_of.
    """
    from woodref.cli.piece_input import read_any_piece
    from woodref.cli.price_list import price_list

    units, wood = str(context.params["units"]), context.params["wood"]
    read, said = read_any_piece(file, rooms_asked(context, asked), units, wood, force)
    by_flag = source_of(context, "prices") == "COMMANDLINE"
    return read, price_list(prices, by_flag, read), said


def estimate_of(
    context: typer.Context,
    file: Path,
    prices: str,
    asked: RoomAsked,
    force: bool,
) -> tuple[Estimate, list[str]]:
    """The estimate of a piece or a cut list, its prices, room and boards; what to say of those.

    With ``force`` a file of other rows that cannot be read is replaced.

    Raises: InputError, NoDataError, one line naming the file.
    """
    read, listed, said = piece_of(context, file, prices, asked, force)
    shown = units_of(context, context.params["units"], read)
    given = source_of(context, "effort") != "DEFAULT"
    effort = str(context.params["effort"]) if given else ""
    estimate, remarks = _estimated(read, listed, force, shown, effort)
    return estimate, [*said, *remarks]


def units_of(context: typer.Context, units: UnitSystem, piece: Piece) -> str:
    """The units of the output: those asked for, else those of the piece."""
    return piece.units if source_of(context, "units") == "DEFAULT" else str(units)


def estimate_command(
    context: typer.Context,
    piece: PieceFile,
    wood: WoodOfParts = "",
    prices: Prices = "",
    units: PieceUnits = UnitSystem.us,
    place: PlaceOption = "",
    setting: Setting = "",
    room_figures: RoomFigures = None,
    explain: Explain = False,
    plot: Plot = "",
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
    replaced: With = None,
    effort: Effort = SearchEffort.usual,
    full: Full = False,
) -> None:
    """What a piece weighs, costs, moves and needs.

    With --place, --setting or --room it stands in that room, whatever the file says of its use.
    With --with what another wood changes in it. --plot draws where its weight is.
    """
    from woodref.answers.piece import answer_of

    checked_plot(plot, force, piece)
    checked_save(save, force, piece)
    asked = RoomAsked(place, setting, room_figures)
    if replaced:
        if explain:
            raise InputError("--explain goes without --with: ask it of each of the two pieces")
        if plot:
            raise InputError("--plot goes without --with: draw each of the two pieces")
        pairs = pairs_of(replaced)
        read, listed, remarks = piece_of(context, piece, prices, asked, force)
        shown, out = units_of(context, units, read), Output(style, full, save, force)
        emit_piece_beside(read, pairs, listed, shown, out, remarks=remarks)
        return
    estimate, remarks = estimate_of(context, piece, prices, asked, force)
    shown = units_of(context, units, estimate.piece)
    people = style in (Style.table, Style.markdown)
    answer = answer_of(estimate, shown, people, explain)
    # What is saved is what programs get; it is not made where nobody asks for it.
    whole = answer_of(estimate, shown, False, explain) if people and save else answer
    for told in dict.fromkeys((answer, whole)):
        told.notes[:0] = remarks

    def draw() -> Figure:
        from woodref.charts.weights import weight_by_part

        return weight_by_part(estimate, shown)

    emit_with_plot(answer, shown, style.value, plot, draw, save, whole, force)


def register(app: typer.Typer) -> None:
    """Add the command of this module to the program."""
    app.command(
        "estimate",
        epilog=example(
            "woodref estimate PIECE.toml --prices PRICES.csv",
            'woodref estimate PARTS.csv --wood "white oak" --place Boston',
            'woodref estimate PIECE.toml --with "white oak=European oak"',
        ),
    )(estimate_command)
