"""Files of parts and of boards on hand: what was read, and what to say of rows that are none."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from woodref.cli.say import complain
from woodref.lumber.stock_on_hand import WrittenBoard
from woodref.lumber.tally import read_pile, rejects_beside
from woodref.piece.piece import Piece
from woodref.rows import RejectedRow


def keep_rejects(
    file: Path, header: Sequence[str], rejects: Sequence[RejectedRow], good: int, force: bool
) -> list[str]:
    """Keep rows that were not read, and complain on stderr; what to say of them in the answer.

    Parameters: file; header and rejects; good, how many rows were read; force, whether a file
    of other rejected rows may be replaced.
    """
    if not rejects:
        return []
    kept = rejects_beside(file, header, rejects, force)
    first = rejects[0]
    complain(
        f"woodref: {len(rejects)} of {len(rejects) + good} rows of {file} not counted, kept in "
        f"{kept}; the first, line {first.line}: {first.reason}"
    )
    rows = "1 row" if len(rejects) == 1 else f"{len(rejects)} rows"
    return [f"Not counted: {rows} of {file}, kept with the reasons in {kept}."]


def boards_in(file: Path, units: str, force: bool) -> tuple[list[WrittenBoard], list[str]]:
    """The boards of a file, and what to say of rows that are none.

    Raises: as woodref.lumber.tally.read_pile.
    """
    pile = read_pile(file, units)
    said = keep_rejects(file, pile.header, pile.rejects, len(pile.boards), force)
    return [WrittenBoard(board, str(file)) for board in pile.boards], said


def boards_of_piece(piece: Piece, force: bool) -> tuple[list[WrittenBoard], list[str]]:
    """The boards of the file that a piece names, and what to say of rows that are none."""
    file = piece.boards_file
    return boards_in(file, piece.units, force) if file else ([], [])
