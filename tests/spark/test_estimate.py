"""A catalog on Spark is the catalog as DuckDB computes it."""

import importlib.util
import math
from pathlib import Path

import pandas
import pytest

import woodref
from woodref.errors import InputError

ROOT = Path(__file__).parents[2]
WANT = "weight,volume,board_feet,movement,shipping"
ROWS = 100_000


@pytest.fixture(scope="module")
def catalog(tmp_path_factory):
    spec = importlib.util.spec_from_file_location("catalog", ROOT / "benchmarks" / "catalog.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    folder = tmp_path_factory.mktemp("catalog")
    files = {}
    for numbers in (False, True):
        files[numbers] = folder / f"catalog{int(numbers)}.parquet"
        module.invent(files[numbers], ROWS, 5, numbers)
    return files


def near(a, b):
    if isinstance(a, float) and isinstance(b, float):
        return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12)
    return a == b


def by_part(rows):
    return {row["part"]: row for row in rows}


@pytest.mark.parametrize("numbers", [False, True])
def test_a_hundred_thousand_rows_are_those_of_duckdb(session, catalog, numbers):
    from woodref.spark import estimate

    asked = {"want": WANT, "units": "us", "to_moisture_pct": 12.0, "ranges": True}
    done = woodref.batch(catalog[numbers], **asked)
    told = estimate(session.read.parquet(str(catalog[numbers])), **asked)
    rows = [row.asDict() for row in told.collect()]
    assert len(rows) == ROWS
    known, rejected = by_part(done.answers.to_pylist()), done.rejects.to_pylist()
    good = [row for row in rows if row["rejected_reason"] is None]
    assert len(good) == len(known)
    for row in good:
        expected = known[row["part"]]
        assert {n for n in expected if not near(row[n], expected[n])} == set(), row["part"]
    parts = [f"P{r['row']:09d}" for r in rejected]
    bad = by_part(row for row in rows if row["rejected_reason"] is not None)
    assert sorted(bad) == sorted(parts)
    for part, reject in zip(parts, rejected, strict=True):
        row = bad[part]
        assert row["rejected_column"] == reject["column"]
        assert row["rejected_reason"] == reject["reason"]
        assert row["mass_lb"] is row["width_change_in"] is row["unanswered"] is None


HOSTILE = {
    "Species": ["cherry", "no such wood", "cherry", "cherry", None, "cherry", "cherry", "teak"],
    "L": ["19-1/2", "30", "abc", "48", "48", "-12.7 mm", "2'", "24"],
    "W": ["6", "6", "6", "0", "6", "6", "6", "5 1/4"],
    "T": ["3/4", "4/4", "3/4", "3/4", "3/4", "3/4", "5/4", "8/4"],
    "place": ["Boston", "Boston", "Boston", "Boston", "Boston", "Boston", "nowhere at all", ""],
    "moisture": ["8", "8", "8", "8", "8", "8", "8", "0.5"],
    "quantity": [1, 2, 3, 1, 1, 1, None, 7],
}


def test_bad_rows_say_the_same_on_both(session):
    from woodref.spark import estimate

    frame = pandas.DataFrame(HOSTILE)
    columns = {"wood": "Species", "length": "L", "width": "W", "thickness": "T"}
    asked = {"want": WANT, "columns": columns, "unit": "in", "place": "Duluth"}
    done = woodref.batch(frame, **asked)
    rows = estimate(session.createDataFrame(frame), **asked).collect()
    told = {
        (r["rejected_column"], r["rejected_value"], r["rejected_reason"])
        for r in rows
        if r["rejected_reason"]
    }
    assert told == {(r["column"], r["value"], r["reason"]) for r in done.rejects.to_pylist()}
    assert len(rows) == len(frame)


def test_costs_are_those_of_duckdb(session, tmp_path):
    from woodref.spark import estimate

    prices = tmp_path / "prices.csv"
    prices.write_text(
        "species,thickness,price,per,low,high\nblack cherry,4/4,6.8,board foot,6.2,7.5\n"
        "teak,any,9000,m3,,\n"
    )
    frame = pandas.DataFrame(
        {"wood": ["cherry", "teak", "cherry"], "length": [30.0, 40.0, 20.0]}
        | {"width": [5.0, 6.0, 4.0], "thickness": [0.75, 1.5, 3.9]}
    )
    asked = {"want": "cost", "unit": "in", "prices": prices, "ranges": True}
    known = woodref.batch(frame, **asked).answers.to_pylist()
    rows = estimate(session.createDataFrame(frame), **asked).collect()
    for name in ("rough_stock", "cost", "cost_low", "cost_high", "unanswered"):
        expected = sorted(str(r[name]) for r in known)
        assert sorted(str(r[name]) for r in rows) == expected


def test_a_frame_that_cannot_be_used_is_refused(session):
    from woodref.spark import estimate

    frame = session.sql("select 'cherry' as wood, date '2026-01-01' as length, 1 as width")
    with pytest.raises(InputError, match="column 'length' is DATE"):
        estimate(frame)
