"""Catalogs in files: order, counts, rejected rows, bad input, and runs that come to nothing."""

import importlib.util
import json
from dataclasses import replace
from pathlib import Path

import duckdb
import pytest

from woodref.board.weight import weight_of
from woodref.catalog import write as write_module
from woodref.catalog.request import Request, Want, parse_columns, parse_want
from woodref.catalog.run import compute_files
from woodref.catalog.watch import waited
from woodref.errors import InputError
from woodref.files_in_use import remembered
from woodref.units import LB_TO_KG

ROOT = Path(__file__).parents[2]
HEADING = "part,wood,length,width,thickness\n"
GOOD = "a,cherry,48,6,3/4\nb,sugar maple,24 1/2,4-1/4,4/4\n"
WANT = (Want.WEIGHT, Want.BOARD_FEET)


@pytest.fixture(scope="module")
def invented():
    spec = importlib.util.spec_from_file_location("catalog", ROOT / "benchmarks" / "catalog.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def rows_of(file):
    return duckdb.connect().execute(f"select * from '{file}'").fetchall()


def write(folder, text=HEADING + GOOD, name="parts.csv"):
    file = folder / name
    file.write_text(text)
    return file


def parquet(folder, query, name="parts.parquet"):
    file = folder / name
    duckdb.connect().execute(f"copy ({query}) to '{file}' (format parquet)")
    return file


def left_in(folder):
    return sorted(p.name for p in folder.iterdir())


def test_counts_add_up_and_rejects_say_why(reference, tmp_path):
    bad = "c,no such wood,48,6,3/4\nd,cherry,abc,6,3/4\ne,,48,6,3/4\nf,cherry,48,0,3/4\n"
    file = write(tmp_path, f"# invented\n{HEADING}{GOOD}{bad}")
    out = tmp_path / "out.csv"
    summary = compute_files(reference, file, out, Request(want=WANT))
    assert (summary.rows, summary.written, summary.rejected) == (6, 2, 4)
    assert sum(r.rows for r in summary.reasons) + summary.written == summary.rows
    rejects = rows_of(summary.rejects)
    assert [r[1:4] for r in rejects] == [
        (3, "wood", "no such wood"),
        (4, "length", "abc"),
        (5, "wood", None),
        (6, "width", "0"),
    ]
    assert all(r[4] for r in rejects)
    assert [r[0] for r in rows_of(out)] == ["a", "b"]


@pytest.mark.parametrize("want", [(), WANT, (*WANT, Want.MOVEMENT), (Want.SHIPPING,)])
def test_without_an_output_the_same_is_counted(reference, tmp_path, invented, want):
    file = tmp_path / "parts.parquet"
    invented.invent(file, 3000, 5)
    request = Request(want=want, to_moisture_pct=12.0)
    summary = compute_files(reference, file, tmp_path / "out.parquet", request)
    counted = compute_files(reference, file, None, request)
    assert summary.rejected > 0
    assert counted.totals == pytest.approx(summary.totals, rel=1e-12)
    same = replace(summary, output=None, rejects=None, totals=counted.totals)
    assert counted == same


def test_a_spreadsheet_computes_no_text_of_the_answers(reference, tmp_path):
    rows = """=1+1,cherry,48,6,3/4\n-B12,cherry,48,6,3/4\n-12,cherry,48,6,3/4\n"""
    file = write(tmp_path, f"{HEADING}{rows}x,@no such wood,48,6,3/4\n")
    out = tmp_path / "out.csv"
    summary = compute_files(reference, file, out, Request(want=WANT))
    lines = out.read_text(encoding="utf-8").splitlines()[1:]
    assert [line.partition(",")[0] for line in lines] == ["'=1+1", "'-B12", "-12"]
    assert ",wood,'@no such wood," in summary.rejects.read_text(encoding="utf-8")
    compute_files(reference, file, tmp_path / "out.parquet", Request(want=WANT))
    assert [r[0] for r in rows_of(tmp_path / "out.parquet")] == ["=1+1", "-B12", "-12"]


def test_rows_with_other_cells_than_the_heading_are_rejected(reference, tmp_path):
    bad = 'c,cherry,48,6\nd,cherry,48,6,3/4,more,and more\n"e\nlong",cherry,48,6,3/4\n'
    file = write(tmp_path, HEADING + "a,cherry,48,6,3/4\n" + bad + ",cherry,12,3,4/4\n")
    summary = compute_files(reference, file, tmp_path / "out.csv", Request(want=WANT))
    assert (summary.rows, summary.written) == (5, 3)
    assert [r[1:] for r in rows_of(summary.rejects)] == [
        (2, None, None, "has 4 cells, the heading 5"),
        (3, None, None, "has 7 cells, the heading 5"),
    ]
    assert [r[0] for r in rows_of(tmp_path / "out.csv")] == ["a", "e\nlong", None]


def test_large_catalogs_keep_their_order_and_repeat_their_bytes(reference, tmp_path, invented):
    file = tmp_path / "parts.parquet"
    invented.invent(file, 300_000, 3)
    request = Request(want=(*WANT, Want.MOVEMENT), to_moisture_pct=12.0, memory="600MB")
    outs = [tmp_path / f"out{n}.parquet" for n in (1, 2)]
    for out in outs:
        summary = compute_files(reference, file, out, request)
    assert summary.rejected == sum(1 for i in range(1, 300_001) if i % 997 in (11, 500))
    assert summary.written + summary.rejected == 300_000
    assert outs[0].read_bytes() == outs[1].read_bytes()
    parts = [r[0] for r in rows_of(f"{outs[0]}")]
    assert parts == sorted(parts)


@pytest.mark.parametrize("suffix", ["parquet", "csv", "jsonl"])
def test_every_form_gives_the_same_answers(reference, tmp_path, suffix):
    source = write(tmp_path)
    if suffix != "csv":
        form = "json" if suffix == "jsonl" else suffix
        query = f"copy (select * from read_csv('{source}', all_varchar = true))"
        source = tmp_path / f"parts.{suffix}"
        duckdb.connect().execute(f"{query} to '{source}' (format {form})")
    out = tmp_path / "out.csv"
    compute_files(reference, source, out, Request(want=WANT))
    told = [r[5] for r in rows_of(out)]
    boards = (("cherry", 48.0, 6.0, 0.75), ("sugar maple", 24.5, 4.25, 1.0))
    for mass_lb, (wood, *inches) in zip(told, boards, strict=True):
        known = weight_of(reference.wood(wood), *(x * 25.4 for x in inches), 8.0)
        assert mass_lb == pytest.approx(known.mass_kg.expected / LB_TO_KG)


def test_a_folder_counts_rows_file_by_file(reference, tmp_path):
    folder = tmp_path / "parts"
    folder.mkdir()
    write(folder, name="1.csv")
    write(folder, HEADING + "x,cherry,48,6,\n" + GOOD, name="2.csv")
    out = tmp_path / "out.parquet"
    summary = compute_files(reference, folder, out, Request(want=WANT))
    assert (summary.rows, summary.rejected) == (5, 1)
    assert rows_of(summary.rejects)[0][:3] == ("2.csv", 1, "thickness")


def wrong_type(folder):
    return parquet(
        folder, "select 'cherry' as wood, date '2025-01-01' as length, 1 as width, 1 as thickness"
    )


def truncated(folder):
    file = parquet(folder, "select 'cherry' as wood, 1 as length, 1 as width, 1 as thickness")
    file.write_bytes(file.read_bytes()[:-20])
    return file


def one_bad_of_two(folder):
    inside = folder / "parts"
    inside.mkdir()
    query = "select 'cherry' as wood, {} as length, 1 as width, 1 as thickness"
    parquet(inside, query.format("1.5::double"), "1.parquet")
    parquet(inside, query.format("'1-1/2'"), "2.parquet")
    return inside


def mixed(folder):
    return write(folder, f"{HEADING}a,cherry,48,6,3/4\nb,cherry,500 mm,4,4/4\n")


def two_units(folder):
    return write(folder, "wood,length (mm),width,thickness\ncherry,48,6,3/4\n")


def no_width(folder):
    return write(folder, "wood,length,thickness\ncherry,48,3/4\n")


def ragged(folder):
    return write(folder, f"{HEADING}a,cherry,48,6,3/4{',again' * 40}\n")


@pytest.mark.parametrize(
    ("make", "unit", "message"),
    [
        (wrong_type, "", "column 'length' is DATE"),
        (truncated, "", "cannot be read"),
        (one_bad_of_two, "", "2.parquet: column 'length' is VARCHAR"),
        (mixed, "", "column 'length' mixes bare numbers and sizes in metric"),
        (two_units, "in", "column 'length (mm)' is in mm, and --unit says in"),
        (no_width, "", "has no column width"),
        (ragged, "", "Expected Number of Columns"),
    ],
)
def test_bad_input_is_one_line_and_writes_nothing(reference, tmp_path, make, unit, message):
    source = make(tmp_path)
    before = left_in(tmp_path)
    with pytest.raises(InputError) as caught:
        compute_files(reference, source, tmp_path / "out.parquet", Request(want=WANT, unit=unit))
    assert message in str(caught.value)
    assert "\n" not in str(caught.value)
    assert caught.value.exit_code == 2
    assert left_in(tmp_path) == before


def test_an_input_is_never_written_over(reference, tmp_path):
    source = write(tmp_path)
    (tmp_path / "same.csv").hardlink_to(source)
    for out in (source, tmp_path / "same.csv"):
        with remembered(), pytest.raises(InputError, match="by this very command"):
            compute_files(reference, source, out, Request(want=WANT), force=True)
    folder = tmp_path / "parts"
    folder.mkdir()
    write(folder)
    with pytest.raises(InputError, match="lies in the folder of the parts"):
        compute_files(reference, folder, folder / "out.csv", Request(want=WANT))


def test_a_run_that_is_stopped_leaves_nothing(reference, tmp_path, monkeypatch):
    source = write(tmp_path)

    def stop(progress):
        assert progress.rows == 2
        raise KeyboardInterrupt

    monkeypatch.setattr(write_module, "LOOK_SECONDS", 0.0)
    with pytest.raises(KeyboardInterrupt):
        compute_files(reference, source, tmp_path / "out.parquet", Request(want=WANT), watch=stop)
    assert left_in(tmp_path) == ["parts.csv"]


def test_a_statement_is_stopped_before_an_interrupt_is_passed_on():
    connection = duckdb.connect()
    connection.execute("set enable_progress_bar = true")
    connection.execute("set enable_progress_bar_print = false")

    def stop(progress):
        assert progress.rows == 10
        raise KeyboardInterrupt

    slow = "select sum(sin(a.range) * cos(b.range)) from range(1000000) a, range(1000000) b"
    with pytest.raises(KeyboardInterrupt):
        waited(connection, slow, 10, stop)
    assert waited(connection, "select 1") == [(1,)]
    connection.close()


def test_an_older_output_stays_until_the_new_one_is_whole(reference, tmp_path):
    source, out = write(tmp_path), tmp_path / "out.csv"
    out.write_text("mine")
    with pytest.raises(InputError, match="--force"):
        compute_files(reference, source, out, Request(want=WANT))
    assert out.read_text() == "mine"
    compute_files(reference, source, out, Request(want=WANT), force=True)
    assert out.read_text().startswith("part,")


def test_what_is_asked_is_checked():
    assert parse_want("movement, weight") == (Want.WEIGHT, Want.MOVEMENT)
    with pytest.raises(InputError, match="did you mean 'weight'"):
        parse_want("wieght")
    with pytest.raises(InputError, match="names no column"):
        parse_columns("wood")
    with pytest.raises(InputError, match="not an amount of memory"):
        Request(memory="lots").check()
    with pytest.raises(InputError, match="not a unit"):
        Request(unit="furlong").check()


def test_movement_needs_to_know_where_the_wood_goes(reference, tmp_path):
    with pytest.raises(InputError, match="where the wood goes"):
        compute_files(
            reference, write(tmp_path), tmp_path / "o.csv", Request(want=(Want.MOVEMENT,))
        )


def test_the_demo_is_the_invented_catalog_of_its_seed(invented, tmp_path):
    demo = ROOT / "datasets" / "demo" / "invented-catalog.csv"
    again = tmp_path / "again.csv"
    invented.invent(again, 2000, 7)
    assert again.read_bytes() == demo.read_bytes()
    assert "nvented" in demo.read_text(encoding="utf-8").splitlines()[0]


def test_the_command_says_what_became_of_it(woodref_command, tmp_path):
    demo = ROOT / "datasets" / "demo" / "invented-catalog.csv"
    out = tmp_path / "out.parquet"
    result = woodref_command("batch", str(demo), "-o", str(out), "--to", "12")
    assert result.code == 0
    assert result.err == ""
    lines = result.out.splitlines()
    assert len(lines) <= 24
    assert lines[0] == "1,996 rows computed of 2,000, 4 rejected."
    told = json.loads(
        woodref_command(
            "batch", str(demo), "-o", str(out), "--to", "12", "--force", "--format", "json"
        ).out
    )
    assert told["rows_read"] == told["rows_written"] + told["rows_rejected"] == 2000
