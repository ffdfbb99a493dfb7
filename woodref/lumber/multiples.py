"""Short parts cut in multiples: several end to end in one blank that is long enough to machine."""

from __future__ import annotations

from math import ceil, inf
from typing import NamedTuple

from woodref.lumber.cut_list import CutPart
from woodref.lumber.rough import Allowances

#: Sizes nearer than this are one size [mm].
_SAME_MM = 1e-6


class Multiple(NamedTuple):
    """Blanks of a part that hold ``pieces`` of it end to end: how many, and their rough size [mm].

    One piece of a panel is one of its staves, one of a glued turning one of its layers.
    """

    part: CutPart
    pieces: int
    blanks: int
    length_mm: float
    width_mm: float


def split(
    pieces: int, piece_mm: float, kerf_mm: float, safe_mm: float, most_mm: float = inf
) -> list[tuple[int, int]]:
    """How pieces share blanks: (pieces in a blank, blanks of that kind), the longest first.

    As many blanks as reach the safe length, the pieces even among them; all pieces in one where
    they do not reach it together. Where boards are too short for that, more and shorter ones.

    Parameters: pieces in all; piece_mm rough length of one; kerf_mm between two; safe_mm the
    shortest blank to be machined by itself, 0 for none; most_mm the longest that boards give [mm].
    """
    if pieces < 2 or piece_mm >= safe_mm - _SAME_MM:
        return [(1, pieces)]
    least = ceil((safe_mm + kerf_mm) / (piece_mm + kerf_mm) - _SAME_MM)
    blanks = max(1, pieces // least)
    while blanks < pieces and end_to_end(-(-pieces // blanks), piece_mm, kerf_mm) > most_mm:
        blanks += 1
    each, more = divmod(pieces, blanks)
    kinds = [(each + 1, more), (each, blanks - more)]
    return [(n, count) for n, count in kinds if count]


def end_to_end(pieces: int, piece_mm: float, kerf_mm: float) -> float:
    """Length of a blank that holds pieces end to end, a cut between each two [mm]."""
    return pieces * piece_mm + (pieces - 1) * kerf_mm


def multiples_of(
    part: CutPart, allowances: Allowances, pieces: int | None = None, most_mm: float = inf
) -> list[Multiple]:
    """The blanks of a part: of one piece each where that is long enough to be machined.

    Parameters: part; allowances, with the safe length; pieces to cut, all of them where None;
    most_mm the longest blank that boards give [mm].
    Source: the safe length is common practice, no source.
    """
    a = allowances
    piece_mm = part.length_mm + a.length_mm
    count = part.pieces if pieces is None else pieces
    return [
        Multiple(
            part, n, blanks, end_to_end(n, piece_mm, a.kerf_mm), part.blank_width_mm + a.width_mm
        )
        for n, blanks in split(count, piece_mm, a.kerf_mm, a.safe_length_mm, most_mm)
    ]
