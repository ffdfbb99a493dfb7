"""Try hostile input for long: python tests/fuzz/long_run.py --inputs 50000 --seed 1.

Every input hangs on the seed and on its number alone, so that one that fell is tried again with
--only. With --every-key each key of the piece files holds each hostile value, once. Prints what
was tried by kind, and each fault once with the first input that shows it.
"""

from __future__ import annotations

import argparse
import resource
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from math import inf
from pathlib import Path
from random import Random
from time import time
from typing import Any, NoReturn

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

from fuzzing.case import Case, Outcome  # noqa: E402
from fuzzing.cases import drawn, every_key, one_key  # noqa: E402
from fuzzing.faults import faults  # noqa: E402
from fuzzing.workspace import Workspace  # noqa: E402

#: An input that takes more of the processor, of the day or of memory is told as a fault.
MOST_SECONDS, MOST_WAITED, MOST_BYTES = 60, 1200, 6 << 30


class TooLongError(BaseException):
    """An input takes too long."""


def _stop(*_: Any) -> NoReturn:
    raise TooLongError


class Tally:
    """What was tried, and what fell."""

    def __init__(self) -> None:
        self.tried: Counter[str] = Counter()
        self.seconds: Counter[str] = Counter()
        self.codes: Counter[int | None] = Counter()
        self.fell: dict[str, list[int]] = {}

    def add(self, number: int, case: Case, outcome: Outcome) -> None:
        """Count an input, and tell a fault that is new."""
        self.tried[case.kind] += 1
        self.seconds[case.kind] += outcome.seconds
        self.codes[outcome.code] += 1
        for fault in faults(case, outcome):
            if fault not in self.fell:
                tail = outcome.traceback.strip().splitlines()[-3:]
                said = "\n    ".join(tail or outcome.err.splitlines()[:2])
                print(f"\n#{number} {fault}\n{case.told()}\n    {said}", flush=True)
            self.fell.setdefault(fault, []).append(number)

    def tell(self, seed: int) -> None:
        """What came of it all."""
        print(f"\n{self.tried.total():,} inputs, seed {seed}: {len(self.fell)} faults")
        for kind, n in sorted(self.tried.items()):
            print(f"{n:6,} {kind}, {1000 * self.seconds[kind] / n:.0f} ms each")
        codes = (f"{code}: {n:,}" for code, n in sorted(self.codes.items(), key=str))
        print("by exit code:", ", ".join(codes))
        for fault, where in self.fell.items():
            print(f"{len(where):6,} times, first #{where[0]}: {fault}")


def _cases(asked: argparse.Namespace, workspace: Workspace) -> Iterator[tuple[int, Case]]:
    if asked.every_key:
        for number, chosen in enumerate(every_key(workspace)):
            if asked.first <= number < asked.first + asked.inputs and asked.only in (None, number):
                yield number, one_key(workspace, chosen, Random(f"{asked.seed} {number}"))
        return
    last = asked.first + asked.inputs
    for number in range(asked.first, last) if asked.only is None else [asked.only]:
        yield number, drawn(workspace, Random(f"{asked.seed} {number}"))


def main() -> int:
    """Try the inputs; 0 where none showed a fault."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--inputs", type=int, default=50_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="number of the first input")
    parser.add_argument("--only", type=int, help="try this input alone, and print all of it")
    parser.add_argument("--every-key", action="store_true", help="each key with each value")
    parser.add_argument("--minutes", type=float, help="stop after so many")
    asked = parser.parse_args()
    ends = time() + 60.0 * asked.minutes if asked.minutes else inf
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    for late in (signal.SIGALRM, signal.SIGPROF):
        signal.signal(late, _stop)
    tally = Tally()
    with tempfile.TemporaryDirectory() as folder:
        workspace = Workspace(Path(folder) / "w")
        for number, case in _cases(asked, workspace):
            if time() > ends:
                break
            signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)
            signal.alarm(MOST_WAITED)
            outcome = workspace.ask(case)
            signal.setitimer(signal.ITIMER_PROF, 0)
            signal.alarm(0)
            tally.add(number, case, outcome)
            if asked.only is not None:
                print(case.told(), outcome.out, outcome.err, outcome.traceback, sep="\n")
                print(list(outcome.made), f"{outcome.seconds:.2f} s")
            if tally.tried.total() % 1000 == 0:
                print(f"... {tally.tried.total():,} inputs", file=sys.stderr, flush=True)
    tally.tell(asked.seed)
    return 1 if tally.fell else 0


if __name__ == "__main__":
    sys.exit(main())
