"""How long a look-up takes as a whole process, beside importing its two main packages.

    python benchmarks/startup.py
    python benchmarks/startup.py --runs 40 -- movement "sugar maple" --width 38in --from 7 --to 9

Runs alternate, so that a change in the load of the machine meets both alike.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import time

LIMIT = 1.5
BASELINE = [sys.executable, "-c", "import typer, duckdb"]


def seconds(command: list[str], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True, env=environment)
    return time.perf_counter() - start


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--runs", type=int, default=21, help="runs of each (21)")
    parser.add_argument("command", nargs="*", default=["show", "white oak"], help="arguments")
    options = parser.parse_args()
    # Bytecode is kept between runs, as it is in any installation.
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    command = [sys.executable, "-m", "woodref", *options.command]
    for warm_up in (BASELINE, command):
        seconds(warm_up, environment)
    pairs = [
        (seconds(BASELINE, environment), seconds(command, environment)) for _ in range(options.runs)
    ]
    baseline, look_up = (statistics.median(times) for times in zip(*pairs, strict=True))
    ratio = look_up / baseline
    print(f"python -c 'import typer, duckdb'  median {1000 * baseline:6.1f} ms")
    print(f"woodref {' '.join(options.command):24s}  median {1000 * look_up:6.1f} ms")
    print(f"ratio {ratio:.2f} (limit {LIMIT}), {options.runs} runs of each")
    return int(ratio > LIMIT)


if __name__ == "__main__":
    sys.exit(main())
