"""What it takes to refuse: python benchmarks/refusing.py [--only WORD].

Each input, of less than 20 MB, cannot be answered. Printed are the processor time and the greatest
memory of the whole command beyond those of the same command that refuses a file of one wrong line:
starting and importing are left out. The aim is 1 s and 200 MB.
"""

from __future__ import annotations

import argparse
import os
import shlex
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "datasets" / "demo"
MOST_SECONDS, MOST_MB = 1.0, 200.0
#: Bytes of an input that may just be read.
_FULL = 19_000_000
#: Processor time after which a command is stopped [s].
_ENOUGH = 20
#: Words of the question that stand in for its file.
FILE = "{}"


class Case(NamedTuple):
    """An input: what it is called, the question that reads it, and the text of its file."""

    name: str
    question: str
    suffix: str
    text: Callable[[], str]
    code: tuple[int, ...] = (1, 2)


class Cost(NamedTuple):
    """What a command took: processor time [s], greatest memory [MB], its exit code."""

    seconds: float
    megabytes: float
    code: int


#: Questions that read a table, by its kind.
TABLES = {
    "price list": f"rank --for shelf --prices {FILE}",
    "cut list": f"buy {FILE} --wood cherry",
    "list of boards": f"buy {DEMO / 'shelf-parts.csv'} --boards {FILE}",
    "own prices": f"own add {FILE} --kind prices --origin x --force",
    "own figures": f"own add {FILE} --kind measurements --origin x --force",
    "own yard": f"own add {FILE} --kind yard --origin x --force",
    "months": f"season --months {FILE}",
    "answers": f"begin --answers {FILE} -o -",
    "catalog": f"batch {FILE} --unit in",
}
#: Texts that are no table, whatever is read of them.
FLOODS: dict[str, Callable[[], str]] = {
    "empty lines": lambda: "\n" * _FULL,
    "commas": lambda: "," * _FULL,
    "quotes": lambda: '"' * _FULL,
    "one cell": lambda: "a" * _FULL,
    "remarks": lambda: "#\n" * (_FULL // 2),
    "rows of one cell": lambda: "a\n" * (_FULL // 2),
}
_PRICES, _PARTS = "species,thickness,price,per\n", "name,length,width,thickness,quantity,species\n"
_PIECE = 'name = "x"\nunits = "us"\n[build]\nmoisture_pct = 8\n[use]\nplace = "Duluth"\n'


def _rows(heading: str, row: str, count: int, last: str = "") -> Callable[[], str]:
    """A table of many rows that are alike but for a number."""
    return lambda: heading + "".join(row.format(n) for n in range(count)) + last


def _parts(count: int, species: str) -> Callable[[], str]:
    part = '[[parts]]\nname = "p{0}"\nspecies = "' + species + '"\nlength = 9\nwidth = 3\n'
    return _rows(_PIECE, part + 'thickness = "3/4"\n', count)


def cases() -> list[Case]:
    """Every input that is refused."""
    made = [
        Case(f"{kind}: {name}", question, ".csv", text)
        for kind, question in TABLES.items()
        for name, text in FLOODS.items()
    ]
    made += [Case(f"piece: {n}", f"estimate {FILE}", ".toml", text) for n, text in FLOODS.items()]
    unknown = "unknown {0} qqz,4/4,5,board foot\n"
    for kind in ("price list", "own prices"):
        question = TABLES[kind]
        made += [
            Case(f"{kind}: 199 unknown names", question, ".csv", _rows(_PRICES, unknown, 199)),
            Case(f"{kind}: 19,000 unknown names", question, ".csv", _rows(_PRICES, unknown, 19000)),
        ]
    many = _rows(_PRICES, "cherry,{0} mm,5,board foot\n", 19_000, "cherry,4/4,x,board foot\n")
    cut = _rows(_PARTS, "p{0},20,4,3/4,1,cherry\n", 19_000, "z,20,4,3/4,1,unknown qqz\n")
    wide = _rows(_PARTS, "p{0},30,4,3/4,9,cherry\n", 60, "z,30,40,3/4,1,cherry\n")
    yard = "--yard-widths 6in --yard-lengths 8ft"
    board = "--board '4/4 x 5in x 6ft x 40 cherry'"
    words = " ".join(f"w{n}" for n in range(2_000))
    made += [
        Case("own yard: 19,000 unknown names", TABLES["own yard"], ".csv",
             _rows("species\n", "unknown {0} qqz\n", 19_000)),
        Case("price list: its last row", TABLES["price list"], ".csv", many),
        Case("price list: 400,000 rows", TABLES["price list"], ".csv",
             _rows(_PRICES, unknown, 400_000)),
        Case("cut list: its last row", TABLES["cut list"], ".csv", cut),
        Case("cut list: 19,000 unknown names", TABLES["cut list"], ".csv",
             _rows(_PARTS, "p{0},20,4,3/4,1,unknown {0} qqz\n", 19_000)),
        Case("cut list: 100,000 parts", TABLES["cut list"], ".csv",
             _rows(_PARTS, "p{0},20,4,3/4,1,cherry\n", 100_000)),
        Case("cut list: a part fits no board", f"buy {FILE} {yard} {board}", ".csv", wide),
        Case("list of boards: 400,000 rows", TABLES["list of boards"], ".csv",
             _rows("thickness,width,length,species\n", "4/4,6,8,cherry {0}\n", 400_000)),
        Case("piece: 2,000 unknown woods", f"estimate {FILE}", ".toml",
             _parts(2_000, "unknown {0} qqz")),
        Case("piece: lists in lists", f"estimate {FILE}", ".toml", lambda: "x = " + "[" * 900_000),
        Case("piece: a key of many names", f"estimate {FILE}", ".toml",
             lambda: "a." * 400_000 + "a = 1"),
        Case("piece: many keys", f"estimate {FILE}", ".toml", _rows("", "a{0} = 1\n", 80_000)),
        Case("place: 2,000 words", f"place '{words}'", ".txt", str),
        Case("wood: 2,000 words", f"show '{words}'", ".txt", str),
        Case("find: 2,000 words", f"find '{words}'", ".txt", str),
        Case("condition: 2,000 words", f"rank --for shelf --where '{words}'", ".txt", str),
        Case("sql: 2,000 words", f"sql '{words}'", ".txt", str),
        Case("term: 2,000 words", f"words '{words}'", ".txt", str),
    ]  # fmt: skip
    return made


def cost_of(words: list[str], folder: Path) -> Cost:
    """What a command takes."""
    environment = {"PATH": os.environ["PATH"], "HOME": str(folder), "PYTHONPATH": str(ROOT)}
    process = subprocess.Popen(
        [
            "sh",
            "-c",
            f'ulimit -t {_ENOUGH}; exec "$@"',
            "sh",
            sys.executable,
            "-m",
            "woodref",
            *words,
        ],
        cwd=folder,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return Cost(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024.0, process.returncode)


def main() -> int:
    """Print what each input takes; 1 where one takes more than the aim, or is answered."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", default="", help="inputs whose name holds this word")
    asked = parser.parse_args()
    missed = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)

        @cache
        def least(question: str, suffix: str) -> Cost:
            file = folder / f"wrong{suffix}"
            file.write_text("?\n", encoding="utf-8")
            return cost_of(shlex.split(question.format(file)), folder)

        print(f"{'refused':34} {'s':>6} {'MB':>6}")
        for case in cases():
            if asked.only not in case.name:
                continue
            file = folder / f"input{case.suffix}"
            file.write_text(case.text(), encoding="utf-8")
            question = case.question if FILE in case.question else case.question.split("'")[0] + "?"
            before = least(question, case.suffix)
            cost = cost_of(shlex.split(case.question.format(file)), folder)
            seconds = max(0.0, cost.seconds - before.seconds)
            megabytes = max(0.0, cost.megabytes - before.megabytes)
            good = seconds <= MOST_SECONDS and megabytes <= MOST_MB and cost.code in case.code
            missed += not good
            said = "" if good else f"  exit code {cost.code}, too much"
            print(f"{case.name:34} {seconds:6.2f} {megabytes:6.0f}{said}", flush=True)
    print(f"{missed} above {MOST_SECONDS:g} s or {MOST_MB:g} MB, or answered")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
