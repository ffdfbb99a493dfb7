"""What a look-up loads."""

import os
import subprocess
import sys

import pytest
from start_up import HEAVY, PROBE


@pytest.mark.parametrize(
    "arguments",
    [
        ["movement", "sugar maple", "--width", "38in", "--from", "7", "--to", "9"],
        ["stability", "sugar maple"],
        ["panel", "sugar maple", "--stave", "5in", "--from", "7", "--to", "9"],
        [
            *("section", "sugar maple", "--width", "8in", "--thickness", "1in"),
            *("--pith-distance", "3in", "--from", "12", "--to", "6"),
        ],
        ["fixing", "sugar maple", "--kind", "button", "--width", "30in"],
        ["gluing", "sugar maple", "--length", "4in"],
        ["show", "white oak"],
        ["show", "white oak", "--sources"],
        ["find", "mahogany"],
        ["compare", "hickory", "hard maple"],
        ["density", "sugar maple"],
        ["rank", "--for", "tabletop", "--harder-than", "cherry"],
        ["substitute", "cherry", "--for", "tabletop"],
        ["uses", "shelf"],
        ["weight", "sugar maple", "--length", "8ft", "--width", "6in", "--thickness", "4/4"],
        [
            *("crate", "--length", "4ft", "--depth", "2ft", "--height", "3ft"),
            *("--weight", "60lb"),
        ],
        ["emc", "68F", "40%"],
        ["sources"],
        ["sql", "select count(*) from species"],
        ["tally", "--board", "4/4 x 6 x 8ft ash"],
    ],
    ids=lambda a: " ".join(a[:3:2]),
)
def test_a_look_up_leaves_heavy_packages_alone(arguments):
    process = subprocess.run(
        [sys.executable, "-c", PROBE, *arguments],
        capture_output=True,
        text=True,
        check=True,
        env={k: v for k, v in os.environ.items() if not k.startswith("WOODREF")},
    )
    code, *modules = process.stdout.rpartition("loaded: ")[2].split()
    assert code == "0", process.stderr
    assert HEAVY.isdisjoint(modules)
    assert ("duckdb" in modules) == (arguments[0] not in ("emc", "tally"))
