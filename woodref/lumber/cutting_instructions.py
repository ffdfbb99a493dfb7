"""A cutting plan for the shop wall: each board in words."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from woodref.cutting.model import Blank, CutBoard, CutPlan, Strip
from woodref.lumber.rough import size_words

#: What is narrower than this is no longer worth keeping [mm].
_LEAST_REST_MM = 25.0


def _times(words: Sequence[str]) -> list[str]:
    """Words that follow one another more than once are told once: 'rail 3 in (2 times)'."""
    runs = [(w, len(list(run))) for w, run in groupby(words)]
    return [w if n == 1 else f"{w} ({n} times)" for w, n in runs]


def blank_words(blank: Blank) -> str:
    """What a blank is for: 'rail', or 'block (4 end to end)' where it holds several."""
    return f"{blank.name} ({blank.pieces} end to end)" if blank.pieces > 1 else blank.name


def cut_words(plan: CutPlan, board: CutBoard, units: str) -> str:
    """The cuts of a board in order: 'crosscut 24 in: rail 3 in (2 times); crosscut ...'.

    Sizes are rough sizes; a blank that is smaller than its section or strip is trimmed.
    """
    verb = "rip" if board.rip_first else "crosscut"
    strips: list[tuple[str, str]] = []
    for strip in board.strips:
        inside = [_piece_words(plan, board, strip, piece, units) for piece in strip.pieces]
        strips.append((f"{verb} {size_words(strip.size_mm, units)}", ", ".join(_times(inside))))
    cuts = []
    for (cut, inside_words), run in groupby(strips):
        n = len(list(run))
        cuts.append(f"{cut}{f' ({n} times)' if n > 1 else ''}: {inside_words}")
    return "; ".join(cuts)


def _piece_words(
    plan: CutPlan, board: CutBoard, strip: Strip, piece: tuple[int, ...], units: str
) -> str:
    """A piece of the second cut: 'rail 3 in', or '3 in, crosscut into rail 12 in, stile 9 in'."""
    pairs = [(plan.blanks[i].length_mm, plan.blanks[i].width_mm) for i in piece]
    sizes = pairs if board.rip_first else [(width, length) for length, width in pairs]
    most = max(size for size, _ in sizes)

    def trimmed(size: float, room: float) -> str:
        return f", trimmed to {size_words(size, units)}" if room - size > 0.05 else ""

    if len(piece) == 1:
        size, other = sizes[0]
        name = blank_words(plan.blanks[piece[0]])
        return f"{name} {size_words(size, units)}{trimmed(other, strip.size_mm)}"
    verb = "ripped" if board.rip_first else "crosscut"
    inside = [
        f"{blank_words(plan.blanks[i])} {size_words(other, units)}{trimmed(size, most)}"
        for i, (size, other) in zip(piece, sizes, strict=True)
    ]
    return f"{size_words(most, units)} {verb} into {' + '.join(_times(inside))}"


def used_pct(plan: CutPlan, board: CutBoard) -> float:
    """Share of the usable face of a board that becomes blanks [%]."""
    return (
        100.0 * sum(plan.blanks[i].area_m2 for i in board.blanks) / plan.stock[board.stock].area_m2
    )


def rest_of(plan: CutPlan, board: CutBoard) -> tuple[float, float] | None:
    """Length and width [mm] of what the first cuts leave of a board in one piece.

    None where it is no longer or no wider than _LEAST_REST_MM; offcuts inside its sections or
    strips come on top of it.
    """
    stock, last = plan.stock[board.stock], board.strips[-1]
    end = last.start_mm + last.size_mm + plan.kerf_mm
    length = stock.length_mm if board.rip_first else stock.length_mm - end
    width = stock.width_mm - end if board.rip_first else stock.width_mm
    return (length, width) if min(length, width) > _LEAST_REST_MM else None


def alike(plan: CutPlan) -> list[tuple[CutBoard, int]]:
    """The boards of a plan, those of one size that are cut alike once, and how many they are."""
    kinds: dict[Any, tuple[CutBoard, int]] = {}
    for board in plan.boards:
        key = (
            plan.stock[board.stock].name,
            board.rip_first,
            tuple(sorted(strip.pieces for strip in board.strips)),
        )
        first, count = kinds.get(key, (board, 0))
        kinds[key] = (first, count + 1)
    return list(kinds.values())
