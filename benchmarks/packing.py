"""How close cutting plans come to a known optimum: instances built backwards from full boards.

Each board is cut up without any waste, its sections a whole number of widths across, and the
widths repeat across the boards, so that blanks of one board tempt into the next. No plan can
do with fewer boards, as nothing is left over.

    python benchmarks/packing.py [--instances 20] [--seconds 10] [--boards 10]
"""

from __future__ import annotations

import argparse
import random
import sys
from collections import Counter
from time import monotonic

from woodref.cutting.model import Blank, StockBoard
from woodref.cutting.pack import pack

#: Boards of 8 ft and 6 in wide, a saw kerf of 1/8 in, in steps of 1/8 in and 1/16 in [mm].
LENGTH_MM, WIDTH_MM, KERF_MM = 2438.4, 152.4, 3.175
_INCH = 25.4
#: Divisions of the width [1/8 in], kerfs between them left out: they add up to 48 with 1 each.
_WIDTHS = ((48,), (30, 17), (23, 24), (15, 15, 16), (15, 32), (20, 27), (11, 11, 24), (19, 13, 14))


def _lengths(rng: random.Random, most: int) -> list[int]:
    """Lengths that fill a board with a kerf of 1 between them [1/8 in]."""
    found = []
    left = most
    while left > 0:
        size = rng.randint(60, 300)
        if left - size - 1 < 60:
            size = left
        found.append(size)
        left -= size + 1
    return found


def instance(seed: int, boards: int) -> tuple[list[Blank], StockBoard]:
    """The blanks of some full boards, shuffled together, and the board they were cut from."""
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
    return blanks, StockBoard("board", LENGTH_MM, WIDTH_MM)


def main() -> int:
    """Print a row per instance; the exit code is 1 where one misses the optimum by over 1."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--instances", type=int, default=20)
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--boards", type=int, default=10)
    given = parser.parse_args()
    print("seed  parts  optimum  boards  bound  seconds")
    missed = 0
    for seed in range(given.instances):
        blanks, board = instance(seed, given.boards)
        start = monotonic()
        plan = pack(blanks, [board], KERF_MM, "boards", given.seconds, seed)
        gone = monotonic() - start
        found = len(plan.boards)
        good = (
            plan.complete
            and plan.bound_boards <= given.boards <= found <= given.boards + 1
            and gone <= given.seconds
        )
        missed += not good
        print(
            f"{seed:4d}  {sum(b.quantity for b in blanks):5d}  {given.boards:7d}  {found:6d}  "
            f"{plan.bound_boards:5d}  {gone:7.1f}{'' if good else '  missed'}",
            flush=True,
        )
    print(f"{given.instances - missed} of {given.instances} within one board of the optimum")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
