"""What fell once: each input is refused in one line, or answered as it should be."""

import os
import subprocess
import sys
from pathlib import Path

import duckdb
import pytest
from fuzzing.case import Case
from fuzzing.faults import faults
from fuzzing.workspace import Workspace


@pytest.fixture(scope="module")
def workspace(tmp_path_factory):
    return Workspace(tmp_path_factory.mktemp("seeds") / "w")


LONG = "x" * 300
words = str.split
#: Words of a command line, and what the refusal says.
REFUSED = {
    "a name of bytes": (["show", "\udcff"], "bytes that are no UTF-8 text"),
    "an origin of bytes": (
        ["own", "add", "yard.csv", "--kind", "yard", "--origin", "a\udcff"],
        "bytes that are no UTF-8 text",
    ),
    "a file of bytes": (["estimate", "\udcff.toml"], "bytes that are no UTF-8 text"),
    "a place of spaces": (["place", "\x85"], "no place is called"),
    "a long name to save to": (
        ["density", "cherry", "--save", f"{LONG}.json"],
        "cannot be written: file name too long",
    ),
    "a long name to draw to": (
        ["season", "Duluth", "--plot", f"{LONG}.svg"],
        "cannot be written: file name too long",
    ),
    "a long name to read": (["estimate", f"{LONG}.toml"], "piece file: file name too long"),
    "a home of nobody": (["rank", "--for", "~nobody-here/x.toml"], "there is no such profile"),
    "a property of one letter": (
        ["compare", "cherry", "black walnut", "--property", "x"],
        "--property 'x' is no figure",
    ),
    "a width in parts": (
        ["movement", "cherry", "--width", "6in6in6in", "--from", "7", "--to", "9"],
        "'6in6in6in' is not a length",
    ),
    "a thickness of nothing": (
        words("deflection cherry --span 36in --width 10in --thickness 0.000001in --load books"),
        "finer than wood is measured",
    ),
    "a span to the moon": (
        words("deflection cherry --span 999999999ft --width 10in --thickness 1in --load books"),
        "longer than any piece",
    ),
    "too many staves of a panel": (
        words("fixing cherry --kind floating-panel --width 14in --staves 1000000000"),
        "glued from 1 to 100000 boards",
    ),
    "too many staves of a part": (
        ["gluing", "cherry", "--length", "4in", "--staves", "1000000000"],
        "glued from 1 to 100000 boards",
    ),
    "too many staves of a joint": (
        ["joint", "cherry", "--kind", "miter", "--width", "3in", "--staves", "1000000000"],
        "glued from 1 to 100000 boards",
    ),
    "too many boards of a delivery": (
        words("delivery cherry --thickness 1in --built 7 --place Duluth --boards 1000000000"),
        "glued from 1 to 100000 boards",
    ),
    "too many staves of a width": (
        words("panel cherry --width 900000mm --narrowest 1mm --widest 2mm --from 7 --to 9"),
        "glued from 1 to 100000 boards, not 450000",
    ),
    "a load of a mountain": (
        words("deflection cherry --span 36in --width 10in --thickness 1in --point 99999999999lb"),
        "more than any furniture bears",
    ),
    "too many boards of a section": (
        words(
            "section cherry --pith-distance 3in --from 12 --to 6 --width 8in --thickness 1in "
            "--boards 1000000000"
        ),
        "a panel has 1 to 50 boards",
    ),
    "a quantity behind zeros": (
        ["tally", "--board", "4/4 x 6 x 8ft x 000000001999999 ash"],
        "is not a whole number from 1 to 100000",
    ),
    "a quantity of zeros": (["tally", "--board", f"4/4 x 6 x 8ft x {'0' * 70} ash"], "quantity"),
}


def refused(workspace, case, said):
    outcome = workspace.ask(case)
    assert faults(case, outcome) == [], case.told()
    assert outcome.code in (1, 2)
    assert said in outcome.err


@pytest.mark.parametrize("name", REFUSED)
def test_words_are_refused_in_a_line(workspace, name):
    words, said = REFUSED[name]
    refused(workspace, Case("seed", words), said)


def test_a_condition_without_a_column_is_a_condition(workspace):
    case = Case("seed", ["rank", "--for", "shelf", "--where", "1 < 2", "--rows", "1"])
    outcome = workspace.ask(case)
    assert faults(case, outcome) == []
    assert outcome.code == 0


def test_a_quantity_with_zeros_before_it_is_that_quantity(workspace):
    out = workspace.ask(Case("seed", ["tally", "--board", "4/4 x 6 x 8ft x 007 ash"])).out
    assert "28.0 board feet in 7 boards" in out


def test_nothing_below_nothing_is_nothing(workspace):
    words = ["movement", "cherry", "--width", "8in", "--from", "-0.0", "--to", "-0.0"]
    assert "-0" not in workspace.ask(Case("seed", words)).out


#: Files that took the program down, or minutes, and what is said of them.
FILES = {
    "nested lists": (b"x = " + b"[" * 50_000, "nested too deep"),
    "many digits": (b"x = " + b"9" * 5_000, "a number of too many digits"),
    "a key of many names": (b"a." * 100_000 + b"a = 1", "a key of more than 16 names"),
    "a table of many names": (b"[" + b"a." * 100_000 + b"a]", "a key of more than 16 names"),
    "a quoted key of many names": (b'"a".' * 50_000 + b"a = 1", "a key of more than 16 names"),
    "a text without end": (b'"\\' * 200_000, "not valid TOML"),
    "a megabyte": (b"#" * 1_000_001, "longer than 1,000,000 characters"),
}


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("file", ["config.toml", "hostile.toml"])
def test_a_file_of_toml_is_refused_at_once(workspace, name, file):
    data, said = FILES[name]
    words = ["density", "cherry"] if file == "config.toml" else ["estimate", file]
    refused(workspace, Case("seed", words, {file: data}, at_fault=file), f"{file}: ")
    refused(workspace, Case("seed", words, {file: data}), said)


def test_points_in_a_text_or_a_remark_make_no_key(workspace):
    text = b'units = "si" # ' + b"a." * 40 + b'\n[maker]\nname = "' + b"a." * 40 + b'"\n'
    assert workspace.ask(Case("seed", ["density", "European oak"], {"config.toml": text})).code == 0


def test_a_byte_order_mark_is_no_part_of_a_configuration(workspace):
    text = b'\xef\xbb\xbfunits = "si"\n'
    assert "kg/m3" in workspace.ask(Case("seed", ["density", "teak"], {"config.toml": text})).out


HEADING = "part,wood,quantity,length,width,thickness\n"


def test_reasons_of_rejected_rows_are_told_whatever_stands_in_them(workspace):
    rows = "a,red oak,1,20,4,1\nb,no such wood,1,20,4,1\nc,red oak,1,1,20,4,1\nd,red oak,1,,4,1\n"
    files = {"parts.csv": (HEADING + rows).encode()}
    case = Case("seed", ["batch", "parts.csv", "--unit", "in"], files)
    outcome = workspace.ask(case)
    assert faults(case, outcome) == []
    assert "has 7 cells, the heading 6" in outcome.out


def test_what_does_not_print_is_said_with_a_space(workspace):
    name = "a\u202eb\x1b[31mc"
    words = ["season", "Duluth", "--setting", "heated-house", "--plot"]
    case = Case("seed", [*words, f"{name}.svg"])
    outcome = workspace.ask(case)
    assert faults(case, outcome) == []
    assert outcome.err == "woodref: drawn to a b [31mc.svg\n"


# What only a process of its own shows: streams that are full or closed.
FULL = Path("/dev/full")


def alone(words, redirected, environment=None):
    command = f'exec "{sys.executable}" -m woodref {words} {redirected}'
    return subprocess.run(
        ["sh", "-c", command],
        stderr=subprocess.PIPE,
        env={**os.environ, **(environment or {})},
        check=False,
    )


@pytest.mark.skipif(not FULL.exists(), reason="no such device here")
def test_a_full_output_is_told_in_a_line():
    done = alone("density cherry", "> /dev/full")
    assert done.returncode == 1
    assert done.stderr == b"woodref: the answer cannot be written: no space left on device\n"


@pytest.mark.skipif(not FULL.exists(), reason="no such device here")
def test_nothing_is_said_where_there_is_nowhere_to_say_it():
    assert alone("show nosuch", "2> /dev/full").returncode == 2


def test_a_file_that_may_not_grow_is_told_in_a_line(tmp_path):
    pytest.importorskip("resource", reason="a system without such limits")
    file = tmp_path / "prices.csv"
    command = f'ulimit -f 0; exec "{sys.executable}" -m woodref template prices -o "{file}"'
    done = subprocess.run(["sh", "-c", command], stderr=subprocess.PIPE, check=False)
    assert done.returncode == 1
    assert done.stderr.decode() == f"woodref: {file}: cannot be written: file too large\n"
    assert list(tmp_path.iterdir()) == []


def test_a_closed_output_is_told_in_a_line():
    done = alone("density cherry", ">&-")
    assert done.returncode == 1
    assert done.stderr == b"woodref: the answer cannot be written: the output is closed\n"


def test_figures_that_are_none_are_not_taken_from_an_overlay(workspace):
    file = workspace.folder.parent / "own.parquet"
    duckdb.sql(
        "select 'm1' as batch, 'x' as origin, '2026-01-01' as added, 'x.csv' as file, 2 as line, "
        "'prunus-serotina' as species_id, 'black cherry' as species, 'density_12pct' as "
        "property_id, '12pct' as condition, 12.0 as moisture_content_pct, 1 as sample_size, "
        "'nan'::double as value, '36' as printed_value, 'lb/ft3' as printed_unit, '2026-01-01' as "
        "measured, '' as note"
    ).write_parquet(str(file))
    files = {"given/measurements-2.parquet/m1.parquet": file.read_bytes()}
    case = Case("seed", ["density", "black cherry"], files, {"WOODREF_DATA": "given"})
    refused(workspace, case, "m1.parquet")
