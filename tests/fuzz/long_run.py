"""Try hostile input for long: python tests/fuzz/long_run.py --inputs 50000 --seed 1.

Every input hangs on the seed and on its number alone, so that one that fell is tried again with
--only. Prints what was tried by kind, and each fault once with the first input that shows it.
"""

from __future__ import annotations

import argparse
import resource
import signal
import sys
import tempfile
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any, NoReturn

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

from fuzzing.cases import drawn  # noqa: E402
from fuzzing.faults import faults  # noqa: E402
from fuzzing.workspace import Workspace  # noqa: E402

#: An input that takes longer, or more, is told as a fault.
MOST_SECONDS, MOST_BYTES = 30, 6 << 30


class TooLongError(BaseException):
    """An input takes too long."""


def _stop(*_: Any) -> NoReturn:
    raise TooLongError


def main() -> int:
    """Try the inputs; 0 where none showed a fault."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--inputs", type=int, default=50_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="number of the first input")
    parser.add_argument("--only", type=int, help="try this input alone, and print all of it")
    asked = parser.parse_args()
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    signal.signal(signal.SIGALRM, _stop)
    tried: Counter[str] = Counter()
    codes: Counter[int | None] = Counter()
    seconds: Counter[str] = Counter()
    told: dict[str, list[Any]] = {}
    last = asked.first + asked.inputs
    numbers = [asked.only] if asked.only is not None else range(asked.first, last)
    with tempfile.TemporaryDirectory() as folder:
        workspace = Workspace(Path(folder) / "w")
        for number in numbers:
            case = drawn(workspace, Random(f"{asked.seed} {number}"))
            signal.alarm(MOST_SECONDS)
            outcome = workspace.ask(case)
            signal.alarm(0)
            tried[case.kind] += 1
            seconds[case.kind] += outcome.seconds
            codes[outcome.code] += 1
            for fault in faults(case, outcome):
                if fault not in told:
                    print(f"\n#{number} {fault}\n{case.told()}", flush=True)
                    tail = outcome.traceback.strip().splitlines()[-3:]
                    print("    " + "\n    ".join(tail or outcome.err.splitlines()[:2]), flush=True)
                told.setdefault(fault, []).append(number)
            if asked.only is not None:
                print(case.told(), outcome.out, outcome.err, outcome.traceback, sep="\n")
                print(outcome.made.keys(), f"{outcome.seconds:.2f} s")
            if sum(tried.values()) % 1000 == 0:
                print(f"... {sum(tried.values()):,} inputs", file=sys.stderr, flush=True)
    print(f"\n{sum(tried.values()):,} inputs, seed {asked.seed}: {len(told)} faults")
    for kind, n in sorted(tried.items()):
        print(f"{n:6,} {kind}, {1000 * seconds[kind] / n:.0f} ms each")
    print(
        "by exit code:", ", ".join(f"{code}: {n:,}" for code, n in sorted(codes.items(), key=str))
    )
    for fault, where in told.items():
        print(f"{len(where):6,} times, first #{where[0]}: {fault}")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main())
