"""What fell once: each input is refused in one line, or answered as it should be."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from fuzzing.case import Case
from fuzzing.cases import OVERLAYS, overlay_file
from fuzzing.faults import faults
from fuzzing.questions import split
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


#: A column of own figures that was tampered with: its kind, what it holds, and a question.
DAMAGED = {
    "a value that is none": ("measurements", "value", "'nan'::double", "density cherry"),
    "a value of no wood": ("measurements", "value", "1e300", "density cherry"),
    "a condition of none": ("measurements", "condition", "'x'", "show cherry"),
    "an origin in a list": ("measurements", "origin", "[1]", "show cherry"),
    "a row of no line": ("prices", "line", "null::bigint", "rank --for shelf --rows 1"),
    "a month that is none": ("places", "month", "13", "season 'Quiet Valley'"),
    "air that is none": ("places", "temperature_c", "'nan'::double", "season 'Quiet Valley'"),
}


@pytest.mark.parametrize("name", DAMAGED)
def test_own_figures_that_were_tampered_with_are_refused(workspace, name):
    kind, column, value, question = DAMAGED[name]
    data = overlay_file({**OVERLAYS[kind], column: value})
    letter = {"places": "a"}.get(kind, kind[0])
    files = {f"given/{kind}-2.parquet/{letter}1.parquet": data}
    case = Case("overlay", split(question), files, {"WOODREF_DATA": "given"})
    outcome = workspace.ask(case)
    assert faults(case, outcome) == [], case.told()
    assert outcome.code == 1
    assert "your own figures" in outcome.err


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n" * 2_000, "no heading in its first 1,000,000 characters"),
        ("#\n" * 600_000, "no heading in its first 1,000,000 characters"),
        ("a" * 200_000, "a cell is longer than 131,072 characters"),
        (",".join(f"c{n}" for n in range(2_001)), "has 2,001 columns, more than 1,000"),
        ("a\nb\n", "has no column wood"),
    ],
)
def test_a_catalog_without_a_heading_is_refused_at_once(workspace, text, said):
    files = {"hostile.csv": text.encode()}
    refused(workspace, Case("seed", ["batch", "hostile.csv"], files, at_fault="hostile.csv"), said)


def test_a_place_of_many_words_is_looked_up_once(workspace):
    many = " ".join(f"w{n}" for n in range(2_000))
    refused(workspace, Case("seed", ["place", many]), "no place is called")


def test_a_part_that_cannot_be_cut_is_told_with_its_file(workspace):
    table = b"name,length,width,thickness,species\ntop,48,40,3/4,black cherry\n"
    asked = words("buy hostile.csv --yard-widths 6in --yard-lengths 8ft --effort quick")
    case = Case("seed", asked, {"hostile.csv": table}, at_fault="hostile.csv")
    refused(workspace, case, "hostile.csv: top: ")
