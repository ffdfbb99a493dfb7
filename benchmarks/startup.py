"""Processor time of whole commands, beside importing the two main packages.

    python benchmarks/startup.py
    python benchmarks/startup.py --runs 40 show rank
    python benchmarks/startup.py -- movement "sugar maple" --width 38in --from 7 --to 9

Every run goes through all commands and the import in turn, so that a change in the load of the
machine meets all alike. Processor time is that of all threads, system calls included.
"""

from __future__ import annotations

import argparse
import compileall
import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BASELINE = [sys.executable, "-c", "import typer, duckdb"]
BENCH = "datasets/demo/hall-bench.toml"
#: Arguments of each command measured, and the most it may take [times the baseline].
COMMANDS: dict[str, tuple[list[str], float]] = {
    "show": (["show", "white oak"], 1.35),
    "movement": (
        ["movement", "sugar maple", "--width", "38in", "--from", "7", "--to", "9"],
        1.35,
    ),
    "weight": (
        ["weight", "cherry", "--length", "8ft", "--width", "6in", "--thickness", "4/4"],
        1.35,
    ),
    "find": (["find", "maple"], 1.35),
    "season": (["season", "Duluth"], 1.35),
    "compare": (["compare", "hickory", "hard maple"], 1.35),
    "density": (["density", "sugar maple"], 1.35),
    "--help": (["--help"], 0.8),
    "--version": (["--version"], 0.8),
    "estimate": (["estimate", BENCH], 1.6),
    "rank": (["rank", "--for", "tabletop"], 2.5),
    "substitute": (["substitute", "cherry", "--for", "tabletop"], 2.5),
    "delivery": (
        [
            *("delivery", "white oak", "--thickness", "7/8in", "--width", "30in"),
            *("--built", "8", "--place", "Duluth", "--finish", "shellac"),
        ],
        3.0,
    ),
    "report": (["report", BENCH, "-o", "{out}"], 1.8),
}
#: Limit of a command given on the command line.
LOOK_UP_LIMIT = 1.35


def processor_seconds(command: list[str], environment: dict[str, str]) -> float:
    """User and system time of one process [s].

    Raises: CalledProcessError where it fails.
    """
    process = subprocess.Popen(
        command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, command)
    return usage.ru_utime + usage.ru_stime


def measured(
    commands: dict[str, tuple[list[str], float]], runs: int
) -> tuple[float, dict[str, float]]:
    """The median of the baseline and of each command [s]."""
    # Bytecode is kept between runs, as it is in any installation; own figures and settings of
    # whoever measures stay out.
    environment = {
        k: v
        for k, v in os.environ.items()
        if k != "PYTHONDONTWRITEBYTECODE" and not k.startswith("WOODREF")
    }
    environment["PYTHONPATH"] = str(ROOT)
    with tempfile.TemporaryDirectory() as folder:
        environment |= {"WOODREF_DATA": folder, "XDG_CONFIG_HOME": folder}
        page = str(Path(folder) / "page.html")
        lines = {"": BASELINE}
        for name, (arguments, _) in commands.items():
            given = [page if a == "{out}" else a for a in arguments]
            lines[name] = [sys.executable, "-m", "woodref", *given]
        times: dict[str, list[float]] = {name: [] for name in lines}
        for run in range(runs + 1):
            for name, line in lines.items():
                Path(page).unlink(missing_ok=True)
                seconds = processor_seconds(line, environment)
                if run:  # the first one warms up
                    times[name].append(seconds)
    medians = {name: statistics.median(of) for name, of in times.items()}
    return medians.pop(""), medians


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--runs", type=int, default=11, help="runs of each (11)")
    parser.add_argument("command", nargs="*", help="names of the list, or one command of its own")
    options = parser.parse_args()
    commands = COMMANDS
    if options.command and all(name in COMMANDS for name in options.command):
        commands = {name: COMMANDS[name] for name in options.command}
    elif options.command:
        commands = {options.command[0]: (options.command, LOOK_UP_LIMIT)}
    # As after an installation; where Python keeps nothing it compiles, it would do so in each run.
    compileall.compile_dir(ROOT / "woodref", quiet=1)
    baseline, medians = measured(commands, options.runs)
    print(f"python -c 'import typer, duckdb': {1000 * baseline:.0f} ms of processor time")
    print(f"{'woodref':12s} {'median':>8s} {'ratio':>6s} {'limit':>6s}")
    over = 0
    for name, seconds in medians.items():
        ratio, limit = seconds / baseline, commands[name][1]
        over += ratio > limit
        late = "  over" if ratio > limit else ""
        print(f"{name:12s} {1000 * seconds:5.0f} ms {ratio:6.2f} {limit:6.2f}{late}")
    print(f"medians of {options.runs} runs of each")
    return int(over > 0)


if __name__ == "__main__":
    sys.exit(main())
