"""The command about a pile of lumber: tally."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from woodref.answers.tally import tally_answer
from woodref.cli.options import Force, Format, Save, Style, Units, UnitSystem, example
from woodref.cli.output import checked_save, emit
from woodref.errors import InputError, WoodrefError
from woodref.lumber.tally import COLUMNS, parse_board, read_pile, tally, total


def tally_command(
    file: Annotated[
        Path | None,
        typer.Argument(help=f"CSV file of the pile, columns {','.join(COLUMNS)}."),
    ] = None,
    board: Annotated[
        list[str] | None,
        typer.Option(
            "--board", help="Boards of one size, as thickness x width x length x how many wood."
        ),
    ] = None,
    units: Units = UnitSystem.us,
    save: Save = None,
    force: Force = False,
    style: Format = Style.table,
) -> None:
    """Board feet of a pile, by wood and thickness.

    Bare widths are inches and bare lengths feet (millimeters with --units si). Rows of the
    file that cannot be read are counted on stderr and kept, with the reason, in FILE.rejects.csv.
    """
    if file is None and not board:
        board_typed = (
            "4/4 x 7-1/2 x 10ft x 3 red oak"
            if units is UnitSystem.us
            else "27 x 190 x 3000 x 3 red oak"
        )
        raise InputError(f'name a file, or give boards: woodref tally --board "{board_typed}"')
    checked_save(save, force, file)
    boards = [parse_board(text, units) for text in board or ()]
    if file is not None:
        from woodref.cli.boards_file import keep_rejects

        pile = read_pile(file, units)
        boards += pile.boards
        keep_rejects(file, pile.header, pile.rejects, len(pile.boards), force)
    if not boards:
        raise WoodrefError(f"{file}: no row is a board")
    lots = tally(boards)
    emit(tally_answer(lots, total(lots), units), units, style, save, force=force)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "tally",
        epilog=example(
            "woodref tally pile.csv",
            'woodref tally --board "4/4 x 7-1/2 x 10ft x 3 red oak" --board "8/4 x 6 x 8ft ash"',
        ),
    )(tally_command)
