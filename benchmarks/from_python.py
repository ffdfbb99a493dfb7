"""How long calls from Python take: of one board, on arrays, and of whole pieces.

    python benchmarks/from_python.py
    python benchmarks/from_python.py --pieces 200

Processor time, the best of several runs; the ratio to a plain multiplication of the same arrays,
or to reading the piece file alone, says more than the time.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BENCH = ROOT / "datasets" / "demo" / "hall-bench.toml"
ELEMENTS = 1_000_000
#: The most a call may take [us], an element of an array [ns], and 1,000 pieces [s].
CALL_US, ELEMENT_NS, PIECES_S = 20.0, 50.0, 3.0


def best(call: Callable[[], object], runs: int, times: int = 1) -> float:
    """The least processor time of one call [s]."""
    seconds = []
    for _ in range(runs):
        start = time.process_time()
        for _ in range(times):
            call()
        seconds.append((time.process_time() - start) / times)
    return min(seconds)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--pieces", type=int, default=100, help="pieces estimated (100)")
    options = parser.parse_args()
    sys.path.insert(0, str(ROOT))
    with tempfile.TemporaryDirectory() as folder:
        # Own figures of whoever measures stay out.
        os.environ["WOODREF_DATA"] = folder
        return measured(options.pieces)


def measured(pieces: int) -> int:
    """Print what was measured; 1 where something is over its limit."""
    import numpy as np

    import woodref

    over = 0

    def told(what: str, figure: float, unit: str, limit: float, ratio: str = "") -> None:
        nonlocal over
        over += figure > limit
        late = "  over" if figure > limit else ""
        print(f"{what:44s} {figure:8.1f} {unit:12s} limit {limit:g}{late}{ratio}")

    woodref.movement("white oak", 300, 7, 9)
    woodref.weight("white oak", 1000, 150, 25)
    for name in ("white oak", "sugar maple"):
        one = best(lambda name=name: woodref.movement(name, 300, 7, 9), 15, 500)
        told(f"movement of {name} by name, again", 1e6 * one, "us", CALL_US)
    one = best(lambda: woodref.weight("white oak", 1000, 150, 25), 15, 500)
    told("weight of white oak by name, again", 1e6 * one, "us", CALL_US)

    random = np.random.default_rng(7)
    sizes = random.uniform(50, 900, ELEMENTS)
    dry, wet = random.uniform(5, 9, ELEMENTS), random.uniform(7, 14, ELEMENTS)
    names = np.array(["white oak", "sugar maple", "black cherry", "white ash"])
    woods = names[random.integers(0, len(names), ELEMENTS)]
    plain = best(lambda: sizes * dry, 7)
    calls: dict[str, Callable[[], object]] = {
        "movement, sizes of one wood": lambda: woodref.movement("white oak", sizes, 7, 9),
        "movement, sizes and moisture contents": lambda: woodref.movement(
            "white oak", sizes, dry, wet
        ),
        "movement, a name for each size": lambda: woodref.movement(woods, sizes, 7, 9),
        "weight, lengths of one wood": lambda: woodref.weight("white oak", sizes, 150.0, 25.0),
        "density, moisture contents of one wood": lambda: woodref.density("white oak", wet),
    }
    for what, call in calls.items():
        spent = best(call, 5)
        ratio = f"  {spent / plain:.0f} times a multiplication"
        told(what, 1e9 * spent / ELEMENTS, "ns/element", ELEMENT_NS, ratio)

    woodref.estimate(BENCH)
    spent = best(lambda: woodref.estimate(BENCH), 3, pieces)
    read = best(lambda: tomllib.loads(BENCH.read_text(encoding="utf-8")), 5, 20)
    ratio = f"  {spent / read:.0f} times reading the file"
    told("1,000 hall benches estimated", 1000.0 * spent, "s", PIECES_S, ratio)
    return int(over > 0)


if __name__ == "__main__":
    sys.exit(main())
