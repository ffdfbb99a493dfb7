"""A piece as a command is given it: a piece file, or a cut list with the wood and the place."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from woodref.errors import InputError

if TYPE_CHECKING:
    from woodref.piece.moisture_table import Rooms
    from woodref.piece.piece import Piece

WoodOfParts = Annotated[
    str,
    typer.Option(
        "--wood", metavar="WOOD", help="With a cut list: the wood of parts that name none."
    ),
]
Town = Annotated[
    str,
    typer.Option(
        "--place", envvar="WOODREF_PLACE", metavar="TOWN", help="The town it will stand in."
    ),
]


def refuse_wood(file: Path, wood: str) -> None:
    """Refuse a wood that is named beside a piece file, which has its own."""
    if wood:
        raise InputError(f"--wood goes with a cut list; {file} names the wood of each part")


def read_any_piece(
    file: Path, rooms: Rooms, units: str, wood: str, force: bool
) -> tuple[Piece, list[str]]:
    """The piece of a file, by the ending of its name; what to say of rows that are no parts.

    Parameters: file; rooms; units of bare sizes of a cut list; wood of its parts that name
    none; force, whether a file of other rejected rows may be replaced.
    Raises: InputError, NoDataError, one line naming the file.
    """
    from woodref.lumber.cut_list import is_cut_list
    from woodref.piece.cut_list_piece import read_cut_list_piece
    from woodref.piece.piece import read_piece

    if not is_cut_list(file):
        refuse_wood(file, wood)
        return read_piece(file, rooms), []
    from woodref.cli.boards_file import keep_rejects

    listed = read_cut_list_piece(file, units, wood, rooms)
    good = len(listed.piece.parts)
    return listed.piece, keep_rejects(file, listed.header, listed.rejects, good, force)
