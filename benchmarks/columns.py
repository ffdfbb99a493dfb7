"""Weight, board feet and movement of ten million boards: one formula on four engines.

    python benchmarks/columns.py --rows 10000000 --runs 3

An invented table of boards whose sizes and moisture contents all differ, with the species_id of
each. Every engine reads the same Parquet file, joins the coefficients of the woods and sums three
answers. A bare scan sums every column of the file; SQL written by hand is what someone would
write who knows the formulas. The sums of all must agree.
"""

from __future__ import annotations

import argparse
import math
import platform
import statistics
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import Any

import duckdb
import numpy
import pandas
import polars
import pyarrow

import woodref
from woodref.formulas.density import mass_of
from woodref.formulas.folded import (
    SIZE_COEFFICIENTS,
    density_by_coefficients,
    share_by_coefficients,
)
from woodref.formulas.lumber import board_feet

WOODS = ("white oak", "black cherry", "sugar maple", "white ash", "black walnut", "red oak")
WOODS += ("yellow birch", "American beech", "eastern white pine", "teak", "sapele", "iroko")
TO_PCT = 12.0
INCH = 1 / 25.4
COLUMNS = ("length_mm", "width_mm", "thickness_mm", "moisture_pct")


def invent(file: Path, rows: int) -> None:
    """Write the invented boards."""
    coefficients = woodref.coefficients(WOODS)
    connection = duckdb.connect()
    connection.register("woods", coefficients)
    listed = ", ".join(f"'{i}'" for i in coefficients["species_id"].to_pylist())
    connection.execute(
        f"copy (select ([{listed}])[1 + (hash(i) % {len(WOODS)})::int] as species_id, "
        "300 + hash(i + 1) % 1000000007 / 7e5 as length_mm, "
        "40 + hash(i + 2) % 1000000007 / 5e6 as width_mm, "
        "12 + hash(i + 3) % 1000000007 / 2e7 as thickness_mm, "
        "6 + hash(i + 4) % 1000000007 / 1.7e8 as moisture_pct "
        f"from range({rows}) t(i)) to '{file}' (format parquet)"
    )


def answers(row: Callable[[str], Any]) -> dict[str, Any]:
    """Mass [kg], board feet and change of width [mm] by the formulas, on any engine."""
    length, width, thickness, moisture = (row(name) for name in COLUMNS)
    density = density_by_coefficients(
        moisture,
        row("middle_m3_per_kg"),
        row("m3_per_kg_per_pct"),
        row("fiber_saturation_pct"),
    )
    # Flat sawn: the change across the face is that along the rings.
    line = [row(f"tangential_{name}") for name in SIZE_COEFFICIENTS]
    before = share_by_coefficients(moisture, *line, row("moves_to_pct"))
    return {
        "mass": mass_of(length * width * thickness * 1e-9, density),
        "feet": board_feet(thickness * INCH, width * INCH, length * (INCH / 12)),
        "change": width * (row("share_after") / before - 1.0),
    }


#: The same by hand, of flat-sawn boards that lose or gain to 12 %.
BY_HAND = """
select sum(length_mm * width_mm * thickness_mm * 1e-9 * (1 + moisture_pct * 0.01)
        / (middle_m3_per_kg + m3_per_kg_per_pct
        * (moisture_pct - abs(moisture_pct - fiber_saturation_pct)))),
    sum(greatest(thickness_mm / 25.4, 1) * width_mm * length_mm * (1 / 25.4 / 304.8 / 12)),
    sum(width_mm * (share_after
        / (tangential_level + tangential_slope * moisture_pct
        + tangential_bend_at_6 * abs(moisture_pct - 6)
        + tangential_bend_at_14 * abs(moisture_pct - 14)
        + tangential_bend_at_saturation * abs(moisture_pct - moves_to_pct)) - 1))
from '{file}' join woods using (species_id)
"""


class Engines:
    """The same sums by every engine."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.connection = duckdb.connect()
        self.connection.register("given", woodref.coefficients(WOODS))
        # The size all boards come to hangs on the wood alone, and is no work of a row.
        line = [duckdb.ColumnExpression(f"tangential_{name}") for name in SIZE_COEFFICIENTS]
        after = share_by_coefficients(TO_PCT, *line, duckdb.ColumnExpression("moves_to_pct"))
        self.connection.execute(
            f"create table woods as select *, {after} as share_after from given"
        )
        self.coefficients: pyarrow.Table = self.connection.table("woods").to_arrow_table()

    def scan(self) -> tuple[float, ...]:
        """A bare scan."""
        sums = ", ".join(f"sum({name})" for name in COLUMNS)
        query = f"select sum(strlen(species_id)), {sums} from '{self.file}'"
        return tuple(self.connection.execute(query).fetchall()[0])

    def formulas(self) -> tuple[float, ...]:
        """The formulas of woodref as expressions of DuckDB."""
        told = answers(duckdb.ColumnExpression)
        sums = ", ".join(f"sum({value})" for value in told.values())
        query = f"select {sums} from '{self.file}' join woods using (species_id)"
        return tuple(self.connection.execute(query).fetchall()[0])

    def by_hand(self) -> tuple[float, ...]:
        """SQL written by hand."""
        return tuple(self.connection.execute(BY_HAND.format(file=self.file)).fetchall()[0])

    def polars(self) -> tuple[float, ...]:
        """The formulas on lazy columns of Polars."""
        woods = polars.from_arrow(self.coefficients).lazy()
        joined = polars.scan_parquet(self.file).join(woods, on="species_id")
        told = answers(polars.col)
        return joined.select(**{n: v.sum() for n, v in told.items()}).collect().row(0)

    def pandas(self) -> tuple[float, ...]:
        """The formulas on a frame of pandas."""
        frame = pandas.read_parquet(self.file).merge(self.coefficients.to_pandas(), on="species_id")
        return tuple(float(v.sum()) for v in answers(frame.__getitem__).values())

    def numpy(self) -> tuple[float, ...]:
        """The formulas on arrays of NumPy, one coefficient of each wood for each board."""
        import pyarrow.parquet

        table = pyarrow.parquet.read_table(self.file, read_dictionary=["species_id"])
        ids = table["species_id"].combine_chunks()
        if isinstance(ids, pyarrow.ChunkedArray):
            ids = ids.chunk(0)
        place = {i: n for n, i in enumerate(self.coefficients["species_id"].to_pylist())}
        order = numpy.array([place[i] for i in ids.dictionary.to_pylist()])
        which = order[ids.indices.to_numpy()]

        def row(name: str) -> Any:
            if name in COLUMNS:
                return table[name].to_numpy()
            return self.coefficients[name].to_numpy()[which]

        return tuple(float(v.sum()) for v in answers(row).values())


def main() -> None:
    """Measure every engine beside a bare scan of the same file."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--rows", type=int, default=1_000_000)
    parser.add_argument("--runs", type=int, default=3)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "boards.parquet"
        invent(file, given.rows)
        engines = Engines(file)
        works = ("scan", "formulas", "by_hand", "polars", "numpy", "pandas")
        took: dict[str, list[float]] = {name: [] for name in works}
        sums = {}
        for _ in range(given.runs):
            for name in works:
                begun = perf_counter()
                sums[name] = getattr(engines, name)()
                took[name].append(perf_counter() - begun)
    for name in works[2:]:
        pairs = zip(sums["formulas"], sums[name], strict=True)
        assert all(math.isclose(a, b, rel_tol=1e-9) for a, b in pairs), (name, sums)
    scan = statistics.median(took["scan"])
    sys.stdout.write(f"{given.rows:,} rows, Python {platform.python_version()}\n")
    for name, times in took.items():
        median = statistics.median(times)
        sys.stdout.write(f"{name:9} {median:7.3f} s  {median / scan:6.2f} times a scan\n")


if __name__ == "__main__":
    main()
