"""Plans that were found before, kept by what they are plans of in the user's cache folder."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from hashlib import sha256
from itertools import groupby
from pathlib import Path
from typing import Any

from woodref.cache import keep
from woodref.cutting.model import Blank, CutBoard, CutPlan, Progress, StockBoard, Strip
from woodref.cutting.pack import ALGORITHM, USUAL, pack
from woodref.user_folders import user_folder

#: Plans kept at most; the oldest go first.
_MOST = 400


def kept_or_packed(
    blanks: Sequence[Blank],
    stock: Sequence[StockBoard],
    kerf_mm: float,
    aim: str = "boards",
    effort: str = USUAL,
    seed: int = 0,
    report: Callable[[Progress], None] | None = None,
    third_cut: bool = False,
) -> CutPlan:
    """As woodref.cutting.pack.pack, taken from the cache where the same was asked before.

    A kept plan that is damaged, or of another version of the search, is found anew; a folder that
    cannot be written keeps none.
    """
    key = _key(blanks, stock, kerf_mm, aim, effort, seed, third_cut)
    file = user_folder("cache") / "plans" / f"{key}.json"
    plan = _read(file, blanks, stock, kerf_mm, aim)
    if plan is None:
        plan = pack(blanks, stock, kerf_mm, aim, effort, seed, report, third_cut)
        if not plan.interrupted:
            _write(file, plan)
    return plan


def _key(
    blanks: Sequence[Blank],
    stock: Sequence[StockBoard],
    kerf_mm: float,
    aim: str,
    effort: str,
    seed: int,
    third_cut: bool,
) -> str:
    """What a plan hangs on, and nothing else, as a hash."""
    asked = [
        ALGORITHM,
        [[b.length_mm, b.width_mm, b.quantity] for b in blanks],
        [[s.length_mm, s.width_mm, s.quantity] for s in stock],
        *(kerf_mm, aim, effort, seed, third_cut),
    ]
    return sha256(json.dumps(asked).encode()).hexdigest()


def _digest(body: Any) -> str:
    return sha256(json.dumps(body).encode()).hexdigest()


def _read(
    file: Path, blanks: Sequence[Blank], stock: Sequence[StockBoard], kerf_mm: float, aim: str
) -> CutPlan | None:
    """The plan of a file, None where there is none or it is damaged."""
    try:
        entry = json.loads(file.read_bytes())
        body = entry["plan"]
        if entry["digest"] != _digest(body):
            return None
        runs, left, too_large, bound_boards, bound_m2, short = body
        boards = [
            CutBoard(
                of,
                rip_first,
                tuple(
                    Strip(start, size, tuple(map(tuple, pieces))) for start, size, pieces in strips
                ),
            )
            for of, rip_first, strips, times in runs
            for _ in range(times)
        ]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return CutPlan(
        tuple(blanks),
        tuple(stock),
        kerf_mm,
        tuple(boards),
        tuple(left),
        tuple(too_large),
        bound_boards,
        bound_m2,
        aim,
        short,
    )


def _write(file: Path, plan: CutPlan) -> None:
    """Keep a plan."""
    runs = [
        [board.stock, board.rip_first, [[s.start_mm, s.size_mm, s.pieces] for s in board.strips], n]
        for board, same in groupby(plan.boards)
        for n in [len(list(same))]
    ]
    body = [runs, plan.left, plan.too_large, plan.bound_boards, plan.bound_m2, plan.short]
    # As it will be read: lists for tuples.
    body = json.loads(json.dumps(body))
    text = json.dumps({"digest": _digest(body), "plan": body})
    keep(file, text.encode(), _MOST)
