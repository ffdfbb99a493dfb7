"""The command about a pile of lumber: tally."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from woodref.answers.render import Answer, Column, Section
from woodref.cli.options import Format, Save, Style, Units, UnitSystem, example
from woodref.cli.output import emit
from woodref.errors import InputError, WoodrefError
from woodref.lumber.tally import COLUMNS, Lot, parse_board, read_pile, tally, total, write_rejects
from woodref.units import fixed

_COLUMNS = [
    Column("species", "wood"),
    Column("thickness", "thickness"),
    Column("boards", "boards", "count"),
    Column("surface_measure_ft2", "surface measure, ft2", "count"),
    Column("board_feet", "board feet", "tenths"),
    Column("unrounded_board_feet", "without rounding", "tenths"),
    Column("volume_m3", "true volume, m3", "ratio"),
]
_RULE = (
    "Board feet are surface measure times thickness in inches, under 4/4 counted as 4/4; surface "
    "measure is width in inches times whole feet of length over 12, to the whole square foot for "
    "each board (NHLA rules; dropping the part of a foot and rounding halves up are common "
    "practice, no source)."
)


def _lead(whole: Lot, units: UnitSystem) -> str:
    boards = f"{fixed(whole.boards, 0)} {'board' if whole.boards == 1 else 'boards'}"
    feet = f"{fixed(whole.board_feet, 1)} board feet"
    surface = f"surface measure {fixed(whole.surface_measure_ft2, 0)} ft2"
    volume = f"{whole.volume_m3:.3f} m3"
    if units is UnitSystem.si:
        return f"{volume} in {boards} ({feet} by {surface})."
    return f"{feet} in {boards} ({surface}; {volume})."


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
    style: Format = Style.table,
) -> None:
    """Board feet of a pile, by wood and thickness.

    Bare widths are inches and bare lengths feet (millimeters with --units si). Rows of the
    file that are no boards are counted on stderr and kept, with the reason, in FILE.rejects.csv.
    """
    if file is None and not board:
        raise InputError(
            'name a file, or give boards: woodref tally --board "4/4 x 7-1/2 x 10ft x 3 red oak"'
        )
    boards = [parse_board(text, units) for text in board or ()]
    if file is not None:
        pile = read_pile(file, units)
        boards += pile.boards
        if pile.rejects:
            kept = write_rejects(file, pile.header, pile.rejects)
            first = pile.rejects[0]
            sys.stderr.write(
                f"woodref: {len(pile.rejects)} of {len(pile.rejects) + len(pile.boards)} rows of "
                f"{file} not counted, kept in {kept}; the first, line {first.line}: "
                f"{first.reason}\n"
            )
    if not boards:
        raise WoodrefError(f"{file}: no row is a board")
    lots = tally(boards)
    whole = total(lots)
    answer = Answer(
        headline=[_lead(whole, units)],
        facts=[
            (Column("boards", "", "count"), whole.boards),
            (Column("surface_measure_ft2", "", "count"), whole.surface_measure_ft2),
            (Column("board_feet", "", "tenths"), whole.board_feet),
            (Column("unrounded_board_feet", "", "tenths"), whole.unrounded_board_feet),
            (Column("volume_m3", "", "ratio"), whole.volume_m3),
        ],
        sections=[Section("lots", "", _COLUMNS, [lot._asdict() for lot in lots])],
        notes=[_RULE, "A stack of boards is heavy and slides: lift with two, strap the load."],
    )
    emit(answer, units, style, save)


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    app.command(
        "tally",
        epilog=example(
            "woodref tally pile.csv",
            'woodref tally --board "4/4 x 7-1/2 x 10ft x 3 red oak" --board "8/4 x 6 x 8ft ash"',
        ),
    )(tally_command)
