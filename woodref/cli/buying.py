"""The command about boards to cut and to buy: buy."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.cli.options import (
    Effort,
    Force,
    Format,
    Plot,
    Save,
    SearchEffort,
    Style,
    UnitSystem,
    example,
    reference,
    source_of,
)
from woodref.cli.output import checked_save
from woodref.cli.piece_input import WoodOfParts, refuse_wood
from woodref.cli.plot import checked_plot, emit_with_plot
from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.charts.figure import Figure


def buy_command(
    context: typer.Context,
    file: Annotated[
        Path, typer.Argument(help="The parts: a cut list (CSV) or a piece (TOML).", metavar="parts")
    ],
    wood: WoodOfParts = "",
    boards: Annotated[
        Path | None,
        typer.Option("--boards", metavar="FILE", help="CSV file of boards in hand, as for tally."),
    ] = None,
    board: Annotated[
        list[str] | None,
        typer.Option("--board", help="Boards in hand of one size, as for tally."),
    ] = None,
    surfaced: Annotated[
        bool,
        typer.Option("--surfaced", help="Boards in hand are planed: they are as thick as given."),
    ] = False,
    yard_widths: Annotated[
        str, typer.Option("--yard-widths", help="Widths the yard sells, with commas: 5,6,8.")
    ] = "",
    yard_lengths: Annotated[
        str,
        typer.Option("--yard-lengths", help="Lengths it sells (bare: feet; mm in si): 8,10."),
    ] = "",
    yard_thicknesses: Annotated[
        str,
        typer.Option(
            "--yard-thicknesses",
            help="Rough thicknesses it sells: 4/4,8/4 or 27mm,52mm; else all whole quarters.",
        ),
    ] = "",
    softwood: Annotated[
        bool,
        typer.Option(
            "--softwood", help="It sells dressed softwood by nominal sizes: 1 in, 2 in by 4, 6, 8."
        ),
    ] = False,
    prices: Annotated[
        str,
        typer.Option(
            "--prices", envvar="WOODREF_PRICES", metavar="FILE", help="Price list, a CSV file."
        ),
    ] = "",
    grade: Annotated[str, typer.Option("--grade", help="Grade to buy, as the list has it.")] = "",
    waste: Annotated[
        str,
        typer.Option("--waste", help="Percent to add where no yard is given, and so no plan."),
    ] = "",
    kerf: Annotated[str, typer.Option("--kerf", help="Width of the saw cut.")] = "",
    end_trim: Annotated[
        str, typer.Option("--end-trim", help="Cut off each end of a rough board.")
    ] = "",
    trimming: Annotated[
        str, typer.Option("--length-allowance", help="Added to the length of a part.")
    ] = "",
    jointing: Annotated[
        str, typer.Option("--width-allowance", help="Added to the width of a part.")
    ] = "",
    planing: Annotated[
        str,
        typer.Option("--planing", help="Off both faces of stock that no table of sizes holds."),
    ] = "",
    safe_length: Annotated[
        str,
        typer.Option(
            "--safe-length",
            help="Shorter blanks are cut several end to end; 0 for each by itself.",
        ),
    ] = "",
    third_cut: Annotated[
        bool,
        typer.Option(
            "--third-cut",
            help="What the second cut of a board leaves may be parted once more: less wood, more "
            "handling.",
        ),
    ] = False,
    effort: Effort = SearchEffort.usual,
    seed: Annotated[int, typer.Option("--seed", min=0, help="Start of its random choices.")] = 0,
    plot: Plot = "",
    units: Annotated[
        UnitSystem,
        typer.Option(
            "--units",
            envvar="WOODREF_UNITS",
            help="Units of bare numbers and of output; else those of the piece.",
        ),
    ] = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """Cut parts from boards in hand, and buy what is missing.

    Bare sizes are inches, lengths of boards feet (millimeters with --units si). Rows of a
    file that cannot be read are counted on stderr and kept, with the reason, in
    FILE.rejects.csv.
    """
    from woodref.answers.buying import answer_of
    from woodref.answers.ready import add_ready
    from woodref.cli import buying_inputs as inputs
    from woodref.cli.price_list import price_list
    from woodref.cli.progress import Ticker
    from woodref.climate.rooms import room_of
    from woodref.lumber.buying import buying_plan
    from woodref.lumber.cut_list import woods_of
    from woodref.lumber.prices import in_currency
    from woodref.lumber.stock_on_hand import with_woods
    from woodref.piece.moisture_table import Rooms
    from woodref.piece.piece import read_piece
    from woodref.piece.ready import ready_boards

    checked_plot(plot, force, file, boards)
    checked_save(save, force, file, boards)
    piece = (
        read_piece(file, Rooms(partial(room_of, reference())))
        if file.suffix.lower() == ".toml"
        else None
    )
    if piece:
        refuse_wood(file, wood)
    given = (
        units.value if piece is None or source_of(context, "units") != "DEFAULT" else piece.units
    )
    flags = {
        "length_mm": trimming,
        "width_mm": jointing,
        "end_trim_mm": end_trim,
        "kerf_mm": kerf,
        "planing_mm": planing,
        "safe_length_mm": safe_length,
    }
    parts, remarks = inputs.parts_of(file, wood, piece, given, force)
    pile, more = inputs.boards_of(boards, board or (), piece, given, force)
    woods = woods_of(parts, str(file), reference().wood)
    on_hand = with_woods(pile, woods, reference().wood)
    wanted = grade or (piece.grade if piece else "")
    listed = price_list(prices, source_of(context, "prices") == "COMMANDLINE", piece)
    listed = in_currency(listed, piece.currency) if listed and piece else listed
    stock = inputs.stock_of(yard_thicknesses, softwood, flags, piece, given, woods.values(), listed)
    added = inputs.waste_of(waste, wanted, piece, stock.usual_waste)
    own = piece.buying if piece else None
    ticker = Ticker()
    try:
        plan = buying_plan(
            parts,
            woods,
            stock.sold,
            stock.allowances,
            added.pct,
            on_hand,
            inputs.yard_of(yard_widths, yard_lengths, softwood, piece, given),
            listed,
            wanted,
            own.effort if own and source_of(context, "effort") == "DEFAULT" else str(effort),
            seed,
            ticker,
            given,
            surfaced or softwood,
            third_cut or bool(own and own.third_cut),
        )
    except InputError as error:
        raise error.headed(f"{file}: ") from None
    finally:
        ticker.end()
    answer = answer_of(plan, stock, added, [*remarks, *more], given)
    if piece:
        add_ready(answer, ready_boards(piece, woods, on_hand), piece)

    def draw() -> Figure:
        from woodref.charts.board_layout import buying_layout

        return buying_layout(plan, piece.name if piece else file.stem, given)

    emit_with_plot(answer, given, style.value, plot, draw, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "buy",
        epilog=example(
            "woodref buy parts.csv --boards pile.csv",
            "woodref buy parts.csv --yard-widths 5,6,8 --yard-lengths 8,10 --prices prices.csv "
            "--grade FAS",
        ),
    )(buy_command)
