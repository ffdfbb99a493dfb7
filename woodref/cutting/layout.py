"""Where the blanks of a filled board lie."""

from __future__ import annotations

from woodref.cutting.model import CutBoard, Strip
from woodref.cutting.problem import FilledBoard, Problem


def laid_out(problem: Problem, board: FilledBoard) -> CutBoard:
    """The bands with their places, the largest first, the longest piece first."""
    lengths = [b.length_mm for b in problem.blanks]
    widths = [b.width_mm for b in problem.blanks]
    across, along = (widths, lengths) if board.rip_first else (lengths, widths)
    kerf = problem.kerf_mm

    def reach(piece: tuple[int, ...]) -> float:
        return sum(across[i] for i in piece) + kerf * (len(piece) - 1)

    sized = [(max(map(reach, band)), band) for band in board.bands]
    strips, start = [], 0.0
    for most, band in sorted(sized, key=lambda pair: -pair[0]):
        pieces = [tuple(sorted(piece, key=lambda i: (-along[i], i))) for piece in band]
        pieces.sort(key=lambda piece: (-max(along[i] for i in piece), piece))
        strips.append(Strip(start, most, tuple(pieces)))
        start += most + kerf
    return CutBoard(board.stock, board.rip_first, tuple(strips))
