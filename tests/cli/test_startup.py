"""What a look-up loads: one process answers all of them, the lightest first."""

import json
import os
import subprocess
import sys

import pytest

HEAVY = {
    *("pandas", "pandera", "numpy", "scipy", "matplotlib", "pyarrow", "pydantic"),
    *("rich", "pint", "polars", "rapidfuzz"),
}
#: These do without the tables.
OF_NO_TABLE = [
    ["emc", "68F", "40%"],
    ["tally", "--board", "4/4 x 6 x 8ft ash"],
    ["words", "MC"],
]
LOOK_UPS = [
    ["movement", "sugar maple", "--width", "38in", "--from", "7", "--to", "9"],
    ["stability", "sugar maple"],
    ["panel", "sugar maple", "--stave", "5in", "--from", "7", "--to", "9"],
    [
        *("section", "sugar maple", "--width", "8in", "--thickness", "1in"),
        *("--pith-distance", "3in", "--from", "12", "--to", "6"),
    ],
    ["fixing", "sugar maple", "--kind", "button", "--width", "30in"],
    ["fastener", "sugar maple", "--screw", "#8", "--into", "1in"],
    ["gluing", "sugar maple", "--length", "4in"],
    ["joint", "sugar maple", "--kind", "miter", "--width", "3in"],
    ["show", "white oak"],
    ["show", "white oak", "--sources"],
    ["find", "mahogany"],
    ["compare", "hickory", "hard maple"],
    ["density", "sugar maple"],
    ["rank", "--for", "tabletop", "--harder-than", "cherry"],
    ["substitute", "cherry", "--for", "tabletop"],
    ["uses", "shelf"],
    ["weight", "sugar maple", "--length", "8ft", "--width", "6in", "--thickness", "4/4"],
    ["crate", "--length", "4ft", "--depth", "2ft", "--height", "3ft", "--weight", "60lb"],
    ["finishes"],
    ["lag", "sugar maple", "--thickness", "3/4in", "--from", "6", "--to", "10"],
    ["acclimate", "sugar maple", "--thickness", "1in", "--from", "12", "--place", "Duluth"],
    [
        *("delivery", "sugar maple", "--thickness", "3/4in", "--width", "12in", "--built", "8"),
        *("--place", "Duluth", "--finish", "shellac"),
    ],
    ["place", "Duluth"],
    ["season", "Duluth"],
    ["sources"],
    ["sql", "select count(*) from species"],
]
#: Questions that need more of DuckDB than its engine.
OF_THE_PACKAGE = ("rank", "substitute", "sql")
#: Modules of woodref that the page of a wood does without: what other commands compute with.
NOT_FOR_A_PAGE = {
    *("woodref.files", "woodref.toml_reader", "woodref.rows", "woodref.joinery"),
    *("woodref.lumber", "woodref.drying", "woodref.shipping", "woodref.piece", "woodref.cutting"),
    *("woodref.charts", "woodref.report", "woodref.explain", "woodref.own", "woodref.api"),
    *("woodref.reference.fields", "woodref.reference.search", "woodref.reference.places"),
    *("woodref.climate.seasons", "woodref.choose.columns", "woodref.choose.candidates"),
}
PROBE = """
import json, sys
from woodref.cli.main import run
loaded = set()
for question in json.loads(sys.argv[1]):
    code = run(question)
    now = {name.partition(".")[0] for name in sys.modules}
    print("loaded:", code, *sorted(now - loaded))
    loaded = now
"""


@pytest.fixture(scope="module")
def loaded():
    """By question, how it ended and the packages loaded that were not there before."""
    questions = [*OF_NO_TABLE, *LOOK_UPS]
    process = subprocess.run(
        [sys.executable, "-c", PROBE, json.dumps(questions)],
        capture_output=True,
        text=True,
        check=True,
        env={k: v for k, v in os.environ.items() if not k.startswith("WOODREF")},
    )
    lines = [x.split()[1:] for x in process.stdout.splitlines() if x.startswith("loaded:")]
    return dict(zip(map(tuple, questions), lines, strict=True))


@pytest.mark.pinned
@pytest.mark.parametrize("question", [*OF_NO_TABLE, *LOOK_UPS], ids=" ".join)
def test_a_look_up_leaves_heavy_packages_alone(loaded, question):
    code, *packages = loaded[tuple(question)]
    assert code == "0"
    assert HEAVY.isdisjoint(packages)
    # The first that asks a table loads what reads it: the engine, and the package around it
    # where formulas are run on columns, or a user's own SQL.
    assert ("_duckdb" in packages) == (question is LOOK_UPS[0])
    assert "duckdb" not in packages or question[0] in OF_THE_PACKAGE


def test_the_page_of_a_wood_loads_no_other_room():
    probe = (
        "import sys; from woodref.cli.main import run; code = run(['show', 'white oak']); "
        "print('loaded:', code, *(m for m in sys.modules if m.startswith('woodref')))"
    )
    process = subprocess.run(
        [sys.executable, "-c", probe],
        capture_output=True,
        text=True,
        check=True,
        env={k: v for k, v in os.environ.items() if not k.startswith("WOODREF")},
    )
    code, *modules = process.stdout.splitlines()[-1].split()[1:]
    assert code == "0"
    assert "woodref.choose.overview" in modules
    assert NOT_FOR_A_PAGE.isdisjoint(modules)
