"""Names in JSON are part of the interface: each is described in docs/json.md."""

import json
import re
from pathlib import Path

import pytest

DOCUMENT = Path(__file__).resolve().parents[2] / "docs" / "json.md"
BOARD = ["--length", "2.4m", "--width", "200mm", "--thickness", "27mm", "--quantity", "3"]
DEMO = Path(__file__).resolve().parents[2] / "datasets" / "demo"
YARD = DEMO / "yard-prices.csv"
SHELF = [DEMO / "shelf-parts.csv", "--board", "5/4 x 5in x 6ft cherry"]
END = ["--pith-distance", "3in", "--from", "12", "--to", "6"]
QUESTIONS = {
    "find": [["meranti"], ["asj"]],
    "show": [["sapele", "--sources"], ["hickory"]],
    "compare": [["cherry", "walnut", "hickory"]],
    "rank": [
        ["--for", "tabletop", "--prices", YARD, "--limit", "3"],
        ["--for", "shelf", "--place", "Duluth", "--limit", "2"],
    ],
    "substitute": [
        ["white oak", "--for", "tabletop", "--prices", YARD, "--limit", "3"],
        ["eastern white pine", "--for", "shelf", "--place", "Duluth", "--limit", "2"],
        [
            *("white oak", "--for", "tabletop", "--limit", "1"),
            *("--piece", DEMO / "sideboard.toml", "--part", "top"),
        ],
    ],
    "uses": [[], ["shelf"], ["--columns"]],
    "estimate": [
        [DEMO / f"{name}.toml"]
        for name in ("hall-bench", "wall-shelf", "sideboard", "trestle-table")
    ]
    + [[DEMO / "hall-bench.toml", "--explain"]],
    "movement": [
        ["cherry", "--width", "8in", "--from", "7", "--to", "9"],
        ["cherry", "--width", "8in", "--from", "7", "--place", "Duluth"],
    ],
    "stability": [["cherry"], ["cherry", "--place", "Duluth"]],
    "panel": [
        ["cherry", "--stave", "5in", "--from", "7", "--to", "9"],
        ["cherry", "--stave", "5in", "--thickness", "1in", "--from", "7", "--to", "9"],
        ["cherry", "--width", "20in", "--from", "7", "--place", "Duluth"],
    ],
    "section": [
        ["cherry", *END, "--width", "8in", "--thickness", "1in"],
        ["cherry", *END, "--width", "4in", "--thickness", "1in", "--boards", "3"],
        ["cherry", *END, "--diameter", "2in"],
        [*("cherry", "--diameter", "2in", "--pith-distance", "2in", "--place", "Duluth")],
    ],
    "fixing": [
        ["cherry", "--kind", "floating-panel", "--width", "14in", "--gap", "3/16in"],
        ["cherry", "--kind", "drawer-front", "--width", "6in", "--place", "Duluth"],
    ],
    "gluing": [["cherry", "--length", "4in"]],
    "place": [["Duluth"], ["Denver"], ["--at", "46.8,-92.1"]],
    "season": [["Duluth"], ["--winter", "66F,30%", "--summer", "76F,60%"]],
    "density": [["cherry"]],
    "weight": [["cherry", *BOARD]],
    "crate": [
        [*("--length", "1m", "--depth", "500mm", "--height", "600mm"), "--weight", "20kg"],
    ],
    "buy": [
        [*SHELF, "--yard-widths", "6in", "--yard-lengths", "8ft", "--seconds", "2"],
        [*SHELF, "--board", "4/4 x 6in x 8ft x 9 cherry", "--seconds", "1"],
    ],
    "tally": [["--board", "4/4 x 6 x 8ft ash"]],
    "emc": [["68F", "40%"], ["68F", "--for", "8"]],
    "moisture": [["--wet", "412g", "--dry", "371g"], ["--meter", "11", "--temperature", "45F"]],
    "acclimate": [
        ["hard maple", "--thickness", "8/4"],
        ["hard maple", "--thickness", "4/4", "--place", "Duluth", "--month", "May"],
    ],
    "lag": [
        ["cherry", "--thickness", "3/4in", "--finish", "shellac", "--width", "16in"],
        ["cherry", "--thickness", "20mm", "--place", "Duluth"],
    ],
    "finishes": [[]],
    "delivery": [
        ["cherry", "--thickness", "3/4in", "--built", "7", "--place", "Duluth"],
    ],
    "sources": [[], ["wood-handbook-2021"]],
}


def names_in(value):
    if isinstance(value, dict):
        yield from value
        for inner in value.values():
            yield from names_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from names_in(inner)


def described(command):
    """Names in the section of a command, and in the one of every command."""
    sections = re.split(r"^## ", DOCUMENT.read_text(encoding="utf-8"), flags=re.MULTILINE)
    chosen = [s for s in sections if s.startswith("Every") or command in s.partition("\n")[0]]
    return set(re.findall(r"`([a-z0-9_]+)`", " ".join(chosen)))


@pytest.mark.parametrize("command", QUESTIONS)
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_name_is_described(woodref, command, units):
    for question in QUESTIONS[command]:
        result = woodref(command, *question, "--units", units, "--format", "json")
        assert result.code == 0
        assert set(names_in(json.loads(result.out))) - described(command) == set()


@pytest.mark.parametrize("command", QUESTIONS)
def test_nothing_is_described_that_is_not_there(woodref, command):
    found = set()
    for question in QUESTIONS[command]:
        for units in ("us", "si"):
            out = woodref(command, *question, "--units", units, "--format", "json").out
            found |= set(names_in(json.loads(out)))
    section = next(
        s
        for s in re.split(r"^## ", DOCUMENT.read_text(encoding="utf-8"), flags=re.MULTILINE)
        if command in s.partition("\n")[0]
    )
    first_cells = [row.split("|")[1] for row in section.splitlines() if row.startswith("| `")]
    names = set(re.findall(r"`([a-z0-9_]+)`", " ".join(first_cells)))
    if command in ("density", "weight", "place", "season"):  # one section for two commands
        assert names >= found - described("Every")
    else:
        assert names - found == set()
