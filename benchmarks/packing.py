"""How close cutting plans come to the best values known, of instances of the research literature.

    python benchmarks/packing.py FOLDER [--effort usual] [--only NAME ...]

The folder holds ``instances.json``, a list of ``{name, group, aim, stock: [[length, width], ...],
blanks: [[length, width, quantity], ...], best_known}``, blanks that are not turned and no kerf.
``best_known`` gives a value by kind of pattern; an instance whose best plan has three stages is
planned with a third cut. A best value of other cuts may be worse or better than ours can be.

Without a folder, instances built backwards from full boards are planned: each board is cut up
without any waste, and no plan can do with fewer boards, as nothing is left over.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections import Counter
from pathlib import Path
from time import process_time
from typing import Any, NamedTuple

from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.pack import pack

#: Boards of 8 ft and 6 in wide, a saw kerf of 1/8 in, in steps of 1/8 in and 1/16 in [mm].
LENGTH_MM, WIDTH_MM, KERF_MM = 2438.4, 152.4, 3.175
_INCH = 25.4
#: Divisions of the width [1/8 in], kerfs between them left out: they add up to 48 with 1 each.
_WIDTHS = ((48,), (30, 17), (23, 24), (15, 15, 16), (15, 32), (20, 27), (11, 11, 24), (19, 13, 14))
#: Kinds of pattern that have three stages; the longest board that is planned [mm].
_THREE, _LONGEST = ("3nho", "3hvo", "3hao"), 20_000


class Case(NamedTuple):
    """What is to be planned, and the best value known."""

    name: str
    group: str
    kind: str
    blanks: list[Blank]
    stock: list[StockBoard]
    kerf_mm: float
    aim: str
    best: float


def _lengths(rng: random.Random, most: int) -> list[int]:
    """Lengths that fill a board with a kerf of 1 between them [1/8 in]."""
    lengths = []
    left = most
    while left > 0:
        size = rng.randint(60, 300)
        if left - size - 1 < 60:
            size = left
        lengths.append(size)
        left -= size + 1
    return lengths


def full_boards(seed: int, boards: int = 10) -> Case:
    """The blanks of some full boards, shuffled together."""
    rng = random.Random(seed)
    eighth = _INCH / 8.0
    cut: Counter[tuple[int, int]] = Counter()
    for _ in range(boards):
        if rng.random() < 0.5:
            for length in _lengths(rng, round(LENGTH_MM / eighth)):
                cut.update((length, width) for width in rng.choice(_WIDTHS))
        else:
            for width in rng.choice(_WIDTHS):
                cut.update((length, width) for length in _lengths(rng, round(LENGTH_MM / eighth)))
    kinds = list(cut.items())
    rng.shuffle(kinds)
    blanks = [
        Blank(f"part {k}", length * eighth, width * eighth, n)
        for k, ((length, width), n) in enumerate(kinds, 1)
    ]
    stock = [StockBoard("board", LENGTH_MM, WIDTH_MM)]
    return Case(
        f"full boards {seed}", "full boards", "full", blanks, stock, KERF_MM, "boards", boards
    )


def cases_of(folder: Path) -> list[Case]:
    """The instances of a folder."""
    rows: list[dict[str, Any]] = json.loads((folder / "instances.json").read_text(encoding="utf-8"))
    cases = []
    for row in rows:
        longest = max(length for length, _ in row["stock"])
        scale = 0.1 if longest > _LONGEST else 1.0
        known = row["best_known"]
        kind = next((k for k in _THREE if k in known), next(iter(known)))
        blanks = [
            Blank(f"part {k}", length * scale, width, n)
            for k, (length, width, n) in enumerate(row["blanks"], 1)
        ]
        stock = [StockBoard(f"{a} x {b}", a * scale, b) for a, b in row["stock"]]
        best = float(known[kind]["value"])
        cases.append(Case(row["name"], row["group"], kind, blanks, stock, 0.0, row["aim"], best))
    return cases


def main() -> int:
    """Print a row per instance; the exit code is 1 where a bound is above a plan."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", nargs="?", type=Path)
    parser.add_argument("--effort", default="usual")
    parser.add_argument("--only", nargs="*", default=[], help="Parts of names, or groups.")
    given = parser.parse_args()
    cases = cases_of(given.folder) if given.folder else [full_boards(seed) for seed in range(20)]
    print(f"{'instance':24} {'kind':9} {'plan':>10} {'best known':>10} {'bound':>10} "
          f"{'/ best':>7} {'/ bound':>7} {'seconds':>7}")  # fmt: skip
    by_kind: dict[str, list[tuple[bool, bool]]] = {}
    wrong = False
    for case in cases:
        if given.only and not any(o in case.name or o == case.group for o in given.only):
            continue
        start = process_time()
        plan = pack(case.blanks, case.stock, case.kerf_mm, case.aim, given.effort,
                    third_cut=case.kind in _THREE)  # fmt: skip
        gone = process_time() - start
        boards = case.aim == "boards"
        value = len(plan.boards) if boards else plan.stock_m2 * 1e6
        bound = plan.bound_boards if boards else plan.bound_m2 * 1e6
        wrong |= not plan.complete or bound > value * (1.0 + 1e-9)
        by_kind.setdefault(case.kind, []).append((value <= case.best + 1e-6, plan.proven))
        print(
            f"{case.name[-24:]:24} {case.kind:9} {value:10.0f} {case.best:10.0f} {bound:10.0f} "
            f"{value / case.best:7.4f} {value / bound:7.4f} {gone:7.1f}",
            flush=True,
        )
    for kind, ends in by_kind.items():
        same, proven = (sum(end[k] for end in ends) for k in (0, 1))
        print(f"{kind}: {same} of {len(ends)} at the best known or better, {proven} proven best")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
