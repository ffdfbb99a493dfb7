"""Where the processor time of one command goes: start, imports, open, queries, compute, render.

    python benchmarks/profile_command.py rank --for tabletop
    python benchmarks/profile_command.py --modules 15 estimate datasets/demo/hall-bench.toml
    python benchmarks/profile_command.py --functions 30 --queries show "white oak"

Options of this program stand before the command, and two dashes before one that begins with an
option: ``-- --help``. Each run is a process of its own; the table holds
medians. ``start`` is the interpreter until its first line, ``open`` the connecting to DuckDB,
``render`` the putting of an answer on paper; what is in none of them is ``compute``.
"""

from __future__ import annotations

import argparse
import builtins
import json
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
PHASES = ("start", "imports", "open", "queries", "compute", "render")


class Clock:
    """Processor time by phase; a phase within another counts for itself alone."""

    def __init__(self) -> None:
        self.spent = dict.fromkeys(PHASES, 0.0)
        self.spent["start"] = time.process_time()
        self._stack = ["compute"]
        self._since = self.spent["start"]

    def _settle(self) -> None:
        now = time.process_time()
        self.spent[self._stack[-1]] += now - self._since
        self._since = now

    def timed(self, phase: str, call: Callable[..., Any]) -> Callable[..., Any]:
        """The call, its time counted for the phase."""

        def within(*args: Any, **kwargs: Any) -> Any:
            self._settle()
            self._stack.append(phase)
            try:
                return call(*args, **kwargs)
            finally:
                self._settle()
                self._stack.pop()

        return within

    def finish(self) -> dict[str, float]:
        """The time of all phases until now [s]."""
        self._settle()
        return self.spent


class Connection:
    """A DuckDB connection whose time counts for queries, with the text of each."""

    def __init__(self, behind: Any, clock: Clock, asked: list[tuple[float, str]]) -> None:
        self._behind, self._clock, self._asked = behind, clock, asked

    def execute(self, query: Any, *more: Any) -> Connection:
        start = time.process_time()
        cursor = self._clock.timed("queries", self._behind.execute)(query, *more)
        self._asked.append((time.process_time() - start, str(query)))
        return Connection(cursor, self._clock, self._asked)

    def __getattr__(self, name: str) -> Any:
        of = getattr(self._behind, name)
        return self._clock.timed("queries", of) if callable(of) else of


def probe(arguments: list[str], to: str) -> None:
    """Run one command in this process and write what it spent."""
    clock = Clock()
    asked: list[tuple[float, str]] = []
    modules: dict[str, float] = {}
    plain_import = builtins.__import__
    depth: list[float] = []

    def counted(name: str, *args: Any, **kwargs: Any) -> Any:
        before = len(sys.modules)
        start = time.process_time()
        depth.append(0.0)
        module = clock.timed("imports", plain_import)(name, *args, **kwargs)
        whole, inner = time.process_time() - start, depth.pop()
        if depth:
            depth[-1] += whole
        if len(sys.modules) > before:
            modules[name] = modules.get(name, 0.0) + whole - inner
        return module

    builtins.__import__ = counted
    from woodref.cli import output
    from woodref.cli.main import run
    from woodref.reference import store

    store.engine = clock.timed("imports", store.engine)
    connect = clock.timed("open", store.connect)
    store.connect = lambda: Connection(connect(), clock, asked)  # type: ignore[assignment]
    output.emit = clock.timed("render", output.emit)
    code = run(arguments)
    spent = clock.finish()
    Path(to).write_text(
        json.dumps({"code": code, "spent": spent, "asked": asked, "modules": modules})
    )


def one_run(arguments: list[str], to: Path) -> dict[str, Any]:
    """What one process spent."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPATH"] = str(ROOT)
    line = [sys.executable, __file__, "--probe", str(to), "--", *arguments]
    subprocess.run(line, stdout=subprocess.DEVNULL, env=environment, check=False)
    spent: dict[str, Any] = json.loads(to.read_text())
    return spent


def functions(arguments: list[str], count: int) -> None:
    """Print the functions that take the most time of their own, once all is imported."""
    sys.path.insert(0, str(ROOT))
    import contextlib
    import cProfile
    import io
    import pstats

    from woodref.cli.main import run

    profile = cProfile.Profile()
    with contextlib.redirect_stdout(io.StringIO()):
        run(arguments)
        profile.runcall(run, arguments)
    pstats.Stats(profile).sort_stats("tottime").print_stats(count)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--runs", type=int, default=5, help="processes (5)")
    parser.add_argument("--modules", type=int, default=0, help="list the N slowest imports")
    parser.add_argument("--queries", action="store_true", help="list the queries of the last run")
    parser.add_argument("--functions", type=int, default=0, help="list the N slowest functions")
    parser.add_argument("--probe", help=argparse.SUPPRESS)
    parser.add_argument(
        "command", nargs=argparse.REMAINDER, help="a woodref command (show 'white oak')"
    )
    options = parser.parse_args()
    # Two dashes part the options of this program from a command that begins with an option.
    options.command = options.command[options.command[:1] == ["--"] :] or ["show", "white oak"]
    if options.probe:
        probe(options.command, options.probe)
        return 0
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        to = Path(folder) / "spent.json"
        runs = [one_run(options.command, to) for _ in range(options.runs + 1)][1:]
    for phase in PHASES:
        spent = statistics.median(r["spent"][phase] for r in runs)
        print(f"{phase:8s} {1000 * spent:7.1f} ms")
    whole = statistics.median(sum(r["spent"].values()) for r in runs)
    print(f"{'all':8s} {1000 * whole:7.1f} ms, {len(runs[-1]['asked'])} queries")
    if runs[-1]["code"]:
        print(f"the command ended with {runs[-1]['code']}")
    slowest = sorted(runs[-1]["modules"].items(), key=lambda item: -item[1])
    for name, seconds in slowest[: options.modules]:
        print(f"  {1000 * seconds:6.1f} ms  import {name}")
    for seconds, query in runs[-1]["asked"] if options.queries else ():
        print(f"  {1000 * seconds:6.1f} ms  {' '.join(query.split())[:140]}")
    if options.functions:
        functions(options.command, options.functions)
    return 0


if __name__ == "__main__":
    sys.exit(main())
