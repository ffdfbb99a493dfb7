"""Time a catalog of any size beside a bare scan of it and a copy of the same columns.

    python benchmarks/catalog.py --rows 10000000
    python benchmarks/catalog.py --invent datasets/demo/invented-catalog.csv --rows 2000 --seed 7

The catalog is invented, the same for the same seed and number of rows. A bare scan reads every
cell of the catalog and sums lengths or values; a copy writes the columns of the answers, those of
the catalog among them, from one Parquet file to another. ``counted`` sums and counts the answers,
``batch`` writes them too. All are measured in one run, the median of several. With --ids the names
are species_ids, with --spellings so many ways of writing the names.
"""

from __future__ import annotations

import argparse
import resource
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import duckdb

from woodref.catalog.request import Request, Want, parse_want
from woodref.catalog.run import compute_files
from woodref.reference.library import Reference

REMARK = "# An invented catalog of parts: no real shop, no real part. Sizes in inches.\n"
WOODS = (
    *("white oak", "red oak", "sugar maple", "black cherry", "white ash", "yellow birch"),
    *("Quercus alba", "Prunus serotina", "Acer saccharum", "black walnut", "Juglans nigra"),
    *("American beech", "shagbark hickory", "red alder", "American basswood", "sassafras"),
    *("eastern white pine", "western redcedar", "Douglas-fir", "Sitka spruce", "teak", "iroko"),
    *("sapele", "white oak group", "red maple", "silver maple", "black locust", "sweetgum"),
)
LENGTHS = ("19-1/2", "23 3/4", "30", "36-1/4", "41.5", "48", "15-7/8", "72", "8 ft", "6'2\"")
WIDTHS = ("2-1/4", "3", "3-1/2", "4.25", "5-1/2", "6", "7-1/4", "1-3/4")
THICKNESSES = ("3/4", "4/4", "5/4", "7/8", "8/4", "1-1/2", "1/2", "1")
CUTS = ("flat", "rift", "quarter", "")
#: One row in so many names a wood that is none, or lacks a size.
FLAWED = 997
_MODULUS = 2147483647


def catalog_sql(rows: int, seed: int, numbers: bool, names: tuple[str, ...] = WOODS) -> str:
    """The invented catalog as a query.

    Parameters: rows; seed; numbers, whether sizes are numbers in place of shop notation; names
    of woods.
    """

    def drawn(which: int) -> str:
        start = f"(i + {seed * 7919 + which * 104729})"
        return f"({start} * 48271 % {_MODULUS} * 69621 % {_MODULUS})"

    def one_of(which: int, choices: tuple[str, ...]) -> str:
        listed = ", ".join("'" + c.replace("'", "''") + "'" for c in choices)
        return f"([{listed}])[{drawn(which)} % {len(choices)} + 1]"

    if numbers:
        length, width = f"12 + {drawn(2)} % 960 / 16.0", f"1 + {drawn(3)} % 144 / 16.0"
        thickness = f"0.5 + {drawn(4)} % 25 / 16.0"
        sizes = [f"({x})::double" for x in (length, width, thickness)]
    else:
        sizes = [one_of(2, LENGTHS), one_of(3, WIDTHS), one_of(4, THICKNESSES)]
    return f"""
        select concat('P', lpad(i::varchar, 9, '0')) as part,
            case when i % {FLAWED} = 11 then 'no such wood' else {one_of(1, names)} end as wood,
            1 + {drawn(5)} % 12 as quantity, {sizes[0]} as length,
            case when i % {FLAWED} = 500 then null else {sizes[1]} end as width,
            {sizes[2]} as thickness, {one_of(6, CUTS)} as cut,
            round(6 + {drawn(7)} % 60 / 10.0, 1)::double as moisture
        from range(1, {rows + 1}) r(i)
    """


def invent(
    file: Path, rows: int, seed: int, numbers: bool = False, names: tuple[str, ...] = WOODS
) -> None:
    """Write the invented catalog to a Parquet or CSV file."""
    connection = duckdb.connect()
    query = catalog_sql(rows, seed, numbers, names)
    if file.suffix == ".parquet":
        connection.execute(f"copy ({query}) to '{file}' (format parquet)")
        return
    connection.execute(f"copy ({query}) to '{file}' (format csv, header)")
    file.write_text(REMARK + file.read_text(encoding="utf-8"), encoding="utf-8")


def seconds(work: Callable[[], object], runs: int) -> float:
    """Median time of some runs [s]."""
    took = []
    for _ in range(runs):
        begun = perf_counter()
        work()
        took.append(perf_counter() - begun)
    return statistics.median(took)


def measure(file: Path, folder: Path, request: Request, runs: int) -> dict[str, float]:
    """Seconds of a bare scan, of the catalog, and of a copy of its answers."""
    connection = duckdb.connect()
    columns = connection.execute(f"describe select * from '{file}'").fetchall()
    sums = ", ".join(
        f"sum(strlen({name}))" if kind == "VARCHAR" else f"sum({name})"
        for name, kind, *_ in columns
    )
    reference = Reference(own=False)
    out = folder / "out.parquet"
    copied = f"copy (select * from '{out}') to '{folder / 'copy.parquet'}' (format parquet)"
    took = {
        "scan": seconds(
            lambda: connection.execute(f"select {sums} from '{file}'").fetchall(), runs
        ),
        "counted": seconds(lambda: compute_files(reference, file, None, request), runs),
        "batch": seconds(lambda: compute_files(reference, file, out, request, force=True), runs),
    }
    took["peak"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
    took["copy"] = seconds(lambda: connection.execute(copied), runs)
    return took


def invent_aside(file: Path, given: argparse.Namespace) -> None:
    """Invent the catalog in a process of its own, so that its memory is not counted."""
    words = [sys.executable, __file__, "--invent", str(file), "--rows", str(given.rows)]
    words += ["--seed", str(given.seed), "--spellings", str(given.spellings)]
    words += [f"--{n}" for n in ("numbers", "ids") if getattr(given, n)]
    subprocess.run(words, check=True)


def names_of(ids: bool, spellings: int) -> tuple[str, ...]:
    """The names of woods in the catalog."""
    names = list(WOODS)
    if ids:
        reference = Reference(own=False)
        single = (n for n in WOODS if "group" not in n)
        return tuple(sorted({reference.wood(name).species_id for name in single}))
    for n in range(spellings - len(WOODS)):
        word = WOODS[n % len(WOODS)]
        cased = "".join(c.upper() if n >> k & 1 else c for k, c in enumerate(word))
        names.append(f"{' ' * (n % 3)}{cased}")
    return tuple(dict.fromkeys(names))


def main() -> None:
    """Invent a catalog, or measure one."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--rows", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--numbers", action="store_true", help="sizes as numbers")
    parser.add_argument("--ranges", action="store_true", help="ranges as columns")
    parser.add_argument("--ids", action="store_true", help="species_ids in place of names")
    parser.add_argument("--spellings", type=int, default=0, help="ways of writing the names")
    parser.add_argument("--want", default="weight,board_feet,movement")
    parser.add_argument("--memory", default="")
    parser.add_argument("--invent", type=Path, help="write the catalog there, and measure nothing")
    given = parser.parse_args()
    if given.invent:
        names = names_of(given.ids, given.spellings)
        invent(given.invent, given.rows, given.seed, given.numbers, names)
        return
    want: tuple[Want, ...] = parse_want(given.want)
    request = Request(want=want, to_moisture_pct=12.0, ranges=given.ranges, memory=given.memory)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "catalog.parquet"
        invent_aside(file, given)
        took = measure(file, Path(folder), request, given.runs)
    peak = took.pop("peak")
    for name, value in took.items():
        rate = given.rows / value / 1e6
        sys.stdout.write(f"{name:6s} {value:8.2f} s  {rate:7.2f} million rows/s\n")
    sys.stdout.write(f"counted / scan {took['counted'] / took['scan']:6.2f}\n")
    sys.stdout.write(f"batch / copy   {took['batch'] / took['copy']:6.2f}\n")
    sys.stdout.write(f"peak memory  {peak:6.2f} GB\n")


if __name__ == "__main__":
    main()
